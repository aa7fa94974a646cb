#pragma once
// What a method leaves for the next crop, the air and the birds over all weather years, per hectare.

#include <array>
#include <optional>

#include "aftercut/burn/emissions.hpp"

namespace aftercut::plan {

/// Mean of the years, the range that the sources give around it, and the spread of the shown years.
struct Figure {
  double mean = 0.0, low = 0.0, high = 0.0;
  double p10 = 0.0, p90 = 0.0;
};

/// Mean and spread of the years alone.
struct YearFigure {
  double mean = 0.0, p10 = 0.0, p90 = 0.0;
};

struct Environment {
  std::array<Figure, burn::gases> burned{};  ///< by burn::Gas, kg/ha; the straw's own CO2 is the first
  int rice_years = 0;  ///< weather years in which rice follows: those behind methane and N2O
  Figure methane;      ///< of the next rice season, kg CH4/ha, as `winter_flood` has it
  Figure methane_dry_winter, methane_flooded_winter;      ///< both readings of a winter flood
  double straw_factor = 1.0;                              ///< SFo, mean
  double applied_early = 0.0, applied_late = 0.0;         ///< kg/ha
  Figure residue_n2o;                                     ///< kg N2O/ha
  Figure co2e_burn, co2e_methane, co2e_n2o, co2e_diesel;  ///< kg CO2e/ha
  Figure co2e;                                            ///< all four
  YearFigure n_taken_up, n_given_back, n_held;            ///< kg N/ha
  std::optional<Figure> replacement;  ///< money/ha to replace what left with bales and fire; none: no price
  std::optional<YearFigure> disease;  ///< index 0 to 1; none where no rice follows
  YearFigure waste_grain;             ///< kg/ha in late autumn
  YearFigure flooded_days, bird_days;
  double late_loss = 0.0;       ///< kg/ha of grain, by the farm's late curve
  double late_loss_high = 0.0;  ///< by the growers' rule of thumb where that is more
};

}  // namespace aftercut::plan
