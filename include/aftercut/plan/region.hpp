#pragma once
// A planned region as values: many farms, each with its own plan and its share of what they use together.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/geo/shape.hpp"
#include "aftercut/plan/decision.hpp"

namespace aftercut::plan {

/// What farms of a region share, and the places of a share in `Shares`.
enum Shared : std::size_t { burn_day, burn_season, canal_flow, shared_kinds };
struct SharedWord {
  const char* key;
  const char* words;
  const char* unit;
};
inline constexpr std::array<SharedWord, shared_kinds> shared_words{
    {{"burn_day_ha", "burn area on one day", "ha"},
     {"burn_season_ha", "burn area in one season", "ha"},
     {"flow_m3_s", "canal flow", "m3/s"}}};
using Shares = std::array<double, shared_kinds>;

struct RegionField {
  std::string id, name;
  std::string method, method_name;  ///< of the recipe; empty: none
  geo::Path outline;                ///< of its largest part, with few corners
  double area_ha = 0.0;
  std::int64_t cost_cents = 0;  ///< a year's mean out of pocket
  bool wants_seedbed = true;
  double chance = 0.0;  ///< by its planting date, in the years that the search did not use
  std::optional<Date> ready_p50;
  double baled_t = 0.0, burned_t = 0.0, left_t = 0.0;  ///< oven-dry, a year's mean
};

struct RegionFarm {
  std::string folder, name;
  double area_ha = 0.0;
  Decision decision;
  Shares share{};                ///< its limit of each; infinite: none beside its own
  Shares used{};                 ///< the most that it uses in any weather year
  std::int64_t alone_cents = 0;  ///< a year's mean, if nobody else shared its burn area and water
  std::int64_t cost_cents = 0;   ///< a year's mean
  std::int64_t bound_cents = 0;  ///< that no plan of it can undercut, with all that its own rules give
  std::vector<RegionField> fields;
};

struct Region {
  std::string name, currency;
  std::uint64_t seed = 1;
  int years = 0;  ///< weather years of its farms; the fewest
  std::array<std::optional<double>, shared_kinds> limits;
  bool fits = true;  ///< false: locked methods ask for more than there is
  Shares worth{};    ///< money a year that one more unit of each would save, by the prices that shared it out
  std::vector<RegionFarm> farms;
};

std::int64_t cost_of(const Region& region);
std::int64_t bound_of(const Region& region);
/// Share of the area that wants a seedbed, by its chance.
double chance_of(const Region& region);

}  // namespace aftercut::plan
