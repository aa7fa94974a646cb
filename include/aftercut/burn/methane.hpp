#pragma once
// Methane of the rice season that follows, and nitrous oxide from the straw's nitrogen, by the first tier of
// the IPCC guidelines. It covers the days of cultivation only: what the fallow gives off is left out, and
// that can be more (314 kg CH4/ha a year, some 70 % of it in the fallow, in one delta. Source:
// MartinezEixarch2018 (read)).

#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/quantity.hpp"
#include "aftercut/core/uncertain.hpp"

namespace aftercut::burn {

/// 2019 Refinement (factors read second-hand) or 2006 Guidelines (recalled).
enum class MethaneSet { ipcc2019, ipcc2006 };
const std::vector<std::string>& methane_set_keys();

enum class Region {
  world,
  europe,
  north_america,
  south_america,
  east_asia,
  southeast_asia,
  south_asia,
  africa
};
const std::vector<std::string>& region_keys();

/// Water of the rice season.
enum class SeasonWater { continuous, single_drainage, multiple_drainage };
const std::vector<std::string>& season_water_keys();

/// Water before the rice season: dry for less or more than 180 days, for more than a year, or flooded for
/// more than 30 days.
enum class Preseason { dry_under_180, dry_over_180, dry_over_365, flooded };

struct MethaneSettings {
  MethaneSet set = MethaneSet::ipcc2019;
  Region region = Region::world;
  SeasonWater water = SeasonWater::continuous;
  std::optional<int> cultivation_days;  ///< none: the region's default
};

/// Straw worked into the ground, oven-dry [kg/ha]: more than 30 days before cultivation, and later. Straw
/// that lies on top, is burned or taken off does not count as applied.
struct StrawApplied {
  double early_kg_per_ha = 0.0, late_kg_per_ha = 0.0;
};

/// A flood of so many days or fewer before cultivation does not count; nor does straw worked in more than so
/// many days before it count as fresh.
inline constexpr int preseason_days = 30;

/// EFc, kg CH4/ha a day, of a field flooded all season with no straw applied.
Uncertain base_emission(const MethaneSettings& settings);
int cultivation_days(const MethaneSettings& settings);
Uncertain water_factor(const MethaneSettings& settings);                           ///< SFw
Uncertain preseason_factor(Preseason preseason, const MethaneSettings& settings);  ///< SFp
/// SFo = (1 + sum ROA CFOA)^0.59, ROA in t/ha; its range from those of both CFOA and of the exponent, 0.54 to
/// 0.64, one after the other, combined as independent factors. Source: IPCC2019 Eq 5.3 (read second-hand)
Uncertain straw_factor(const StrawApplied& applied, const MethaneSettings& settings);

/// Eq 5.2: EF = EFc SFw SFp SFo, kg CH4/ha a day. The ranges combine as those of independent factors.
Uncertain daily_methane(const StrawApplied& applied, Preseason preseason, const MethaneSettings& settings);
/// Eq 5.1 for one hectare, kg CH4/ha.
Uncertain season_methane(const StrawApplied& applied, Preseason preseason, const MethaneSettings& settings);

/// How the weeks before cultivation count, from days: `dry_days` since the field was last flooded for more
/// than 30 days, or since its summer water went off.
Preseason dry_preseason(int dry_days);

/// Kg N2O/ha from nitrogen of straw worked into flooded rice. Source: IPCC2019 Table 11.1 (read second-hand)
Uncertain residue_n2o(KgPerHa nitrogen, SeasonWater water);

}  // namespace aftercut::burn
