#pragma once
// A field lived through one winter by a fixed script: work on dates whatever the ground says, water held
// between two dates.

#include <optional>
#include <string>
#include <vector>

#include "winters.hpp"

namespace aftercut::validation {

struct ScriptedWork {
  MonthDay on;
  const char* operation = "";
};

struct Hold {
  MonthDay from, until;     ///< boards in on the first, out on the second
  double depth_mm = 100.0;  ///< kept up from the canal; 0: rain only
  double board_mm = 150.0;
};

struct Case {
  std::string name;
  double load_kg_per_ha = 7000.0;
  double cut_height_cm = 30.0;
  straw::Lay lay = straw::Lay::spread;  ///< as the combine leaves it
  std::vector<ScriptedWork> work;
  std::optional<Hold> hold;
};

struct WinterRun {
  season::FieldYear end;                ///< as it stands on the last morning
  double canal_mm = 0.0;                ///< let in over the hold
  double start_mm = 0.0, end_mm = 0.0;  ///< water in the ground and on it when the hold starts and ends
  soil::WaterFluxes over_hold;
  int days_with_50_mm = 0;  ///< of the hold
};

/// Lives the winter up to the morning of `until`.
WinterRun live(const farm::Farm& farm, const season::YearDrivers& drivers, const Case& c, MonthDay until);

/// The cases of straw left by spring. 15 October work, water 1 November to 1 March.
std::vector<Case> straw_cases();

}  // namespace aftercut::validation
