#include "aftercut/scenario/winter.hpp"

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/farm/wishes.hpp"

namespace aftercut::scenario {
namespace {

plan::Spread spread_over_years(const std::vector<double>& values) {
  return {quantile(values, 0.1), quantile(values, 0.5), quantile(values, 0.9)};
}

std::vector<plan::WinterWeek> winter_of(const plan::PlannedYears& planned,
                                        const std::vector<std::size_t>& shown, std::size_t field) {
  std::vector<plan::WinterWeek> weeks;
  for (std::size_t k = 0; k < planned.runs[shown.front()].winter[field].size(); ++k) {
    std::vector<double> straw, pores;
    plan::WinterWeek week{.day = planned.runs[shown.front()].winter[field][k].day};
    for (const std::size_t y : shown) {
      const plan::WinterMorning& m = planned.runs[y].winter[field].at(k);
      require(m.day == week.day, "the winters of a field have the same mornings in every year");
      straw.push_back(m.straw_kg_per_ha);
      pores.push_back(m.pores_full);
      week.under_water += (m.under_water ? 1.0 : 0.0) / static_cast<double>(shown.size());
    }
    week.straw_kg_per_ha = spread_over_years(straw);
    week.pores_full = spread_over_years(pores);
    weeks.push_back(week);
  }
  return weeks;
}

std::vector<plan::ReadyIn> ready_days_of(const plan::PlannedYears& planned,
                                         const std::vector<std::size_t>& shown, std::size_t field) {
  std::vector<plan::ReadyIn> days;
  for (const std::size_t y : shown) {
    const plan::FieldRun& run = planned.runs[y].fields[field];
    const bool came = run.status == plan::Status::ready || run.status == plan::Status::late;
    days.push_back({planned.runs[y].year, came ? std::optional<int>{run.ready_day} : std::nullopt});
  }
  return days;
}

}  // namespace

plan::PlannedYears with_winter(plan::PlannedYears planned, const farm::Farm& farm,
                               const std::vector<std::size_t>& shown) {
  for (std::size_t f = 0; f < planned.plan.fields.size() && !shown.empty(); ++f) {
    plan::FieldPlan& p = planned.plan.fields[f];
    p.winter = winter_of(planned, shown, f);
    if (farm::seedbed_due(farm.fields[f])) p.ready_days = ready_days_of(planned, shown, f);
  }
  for (plan::YearRun& run : planned.runs) run.winter.clear();
  return planned;
}

}  // namespace aftercut::scenario
