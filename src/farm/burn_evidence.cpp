#include "aftercut/farm/burn_evidence.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/weather/sun.hpp"

namespace aftercut::farm {
namespace {

/// Metres to the nearest place of a kind; infinity where there is none.
double to_nearest(const Farm& farm, const Field& field, std::size_t kind) {
  double least = std::numeric_limits<double>::infinity();
  for (const Place& p : farm.places)
    if (static_cast<std::size_t>(p.kind) == kind)
      least = std::min(least, geo::distance(field.shape, p.shape).value());
  return least;
}

}  // namespace

burn::Facts burn_evidence(const Farm& farm, const Field& field, Date day) {
  double farm_ha = 0.0;
  for (const Field& f : farm.fields) farm_ha += f.area.value();
  const weather::SunTimes sun = weather::sun_times(farm.site, day);
  burn::Facts f;
  f.day = day;
  f.area = field.area;
  f.season_burned_ha = field.area.value();
  f.season_burned_share = field.area.value() / farm_ha;
  f.disease_finding = field.disease_finding;
  f.samples = field.burn.samples;
  f.clean_years = field.burn.clean_years;
  const std::array<std::optional<double>*, burn::setback_kinds.size()> distances{
      &f.to_home_m,  &f.to_school_m, &f.to_road_m, &f.to_power_line_m,
      &f.to_canal_m, &f.to_trees_m,  &f.to_other_m};
  for (std::size_t k = 0; k < distances.size(); ++k) *distances[k] = to_nearest(farm, field, k);
  f.answer = field.burn_answer;
  f.leave = field.burn.leave;
  f.sunrise_hour = sun.sunrise_min / 60.0;
  f.sunset_hour = sun.sunset_min / 60.0;
  f.zone = field.burn.zone;
  f.harvest = field.harvest;
  f.people = field.burn.people;
  f.water_l = field.burn.water_l;
  f.firebreak_m = field.burn.firebreak_m;
  f.ignition = field.burn.ignition;
  return f;
}

}  // namespace aftercut::farm
