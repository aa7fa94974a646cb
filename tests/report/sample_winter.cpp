// The invented farm's winters: straw that goes down, a seedbed that fills and drains, and the ready days of
// the sample years.

#include <algorithm>

#include "aftercut/farm/wishes.hpp"
#include "sample_farm.hpp"

namespace aftercut::test {
namespace {

std::vector<plan::WinterWeek> winter_of(const farm::Farm& farm, std::size_t f, double load) {
  const farm::Field& field = farm.fields[f];
  const int last = farm::seedbed_due(field) ? farm.season.day(field.next.planting) : farm.season.days - 1;
  std::vector<plan::WinterWeek> weeks;
  const int first = farm.season.day(field.harvest) + 1;
  for (int day = first; day <= last; day += plan::days_between_winter_mornings) {
    const double t = static_cast<double>(day - first) / static_cast<double>(last - first);
    const double left = load * (1.0 - 0.6 * t), wet = std::clamp(0.55 + 1.6 * t * (1.0 - t), 0.0, 0.97);
    weeks.push_back({.day = day,
                     .straw_kg_per_ha = {0.85 * left, left, std::min(1.1 * left, load)},
                     .pores_full = {0.9 * wet, wet, std::min(1.0, 1.08 * wet)},
                     .under_water = t > 0.3 && t < 0.7 ? 0.4 : 0.0});
  }
  return weeks;
}

}  // namespace

void add_winters(const farm::Farm& farm, plan::PlannedYears& planned) {
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    plan::FieldPlan& p = planned.plan.fields[f];
    if (f != 8) p.winter = winter_of(farm, f, p.load_kg_per_ha);
    for (const plan::YearRun& run : planned.runs) {
      const auto& shown = planned.plan.shown_years;
      if (!farm::seedbed_due(farm.fields[f]) ||
          std::find(shown.begin(), shown.end(), run.year) == shown.end())
        continue;
      const plan::FieldRun& r = run.fields[f];
      const bool came = r.status == plan::Status::ready || r.status == plan::Status::late;
      p.ready_days.push_back({run.year, came ? std::optional<int>{r.ready_day} : std::nullopt});
    }
  }
}

}  // namespace aftercut::test
