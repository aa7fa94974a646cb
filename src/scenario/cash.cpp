#include "aftercut/scenario/cash.hpp"

#include <algorithm>
#include <map>
#include <numeric>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/require.hpp"

namespace aftercut::scenario {
namespace {

/// Parts that leave the pocket or come into it.
constexpr std::size_t pocket_parts = 11;
static_assert(plan::cost_parts[pocket_parts].of == &plan::CostParts::ownership);

int month_index(Date d) { return 12 * year_of(d) + month_of(d) - 1; }

struct Month {
  plan::CostParts sum;                ///< over all years
  std::vector<std::int64_t> of_year;  ///< [run] out of pocket
};

std::map<int, Month> add_up(const farm::Farm& farm, const std::vector<plan::YearRun>& runs) {
  std::map<int, Month> months;
  for (std::size_t y = 0; y < runs.size(); ++y)
    for (const plan::Bill& b : runs[y].bills) {
      Month& m = months[month_index(farm.season.date(b.day))];
      m.of_year.resize(runs.size(), 0);
      m.sum = m.sum + b.parts;
      m.of_year[y] += b.parts.out_of_pocket();
    }
  if (!months.empty())
    for (int m = months.begin()->first; m < months.rbegin()->first; ++m)
      months[m].of_year.resize(runs.size(), 0);
  return months;
}

/// A cell's mean: rounded down, and what was cut off.
struct Cell {
  std::int64_t* cents = nullptr;
  std::int64_t cut = 0;
};

std::int64_t floor_of(std::int64_t sum, std::int64_t n) {
  return sum / n - (sum % n != 0 && (sum < 0) ? 1 : 0);
}

}  // namespace

std::vector<plan::MonthCash> cash_by_month(const farm::Farm& farm, const plan::PlannedYears& planned) {
  const auto years = static_cast<std::int64_t>(planned.runs.size());
  std::vector<plan::MonthCash> out;
  const auto months = add_up(farm, planned.runs);
  out.reserve(months.size());
  std::vector<Cell> cells;
  std::int64_t left = planned.plan.cost_cents;
  for (const auto& [index, month] : months) {
    plan::MonthCash& cash = out.emplace_back(plan::MonthCash{.year = index / 12, .month = index % 12 + 1});
    for (std::size_t k = 0; k < pocket_parts; ++k) {
      const auto of = plan::cost_parts[k].of;
      cash.mean.*of = floor_of(month.sum.*of, years);
      left -= cash.mean.*of;
      cells.push_back({&(cash.mean.*of), month.sum.*of - cash.mean.*of * years});
    }
    std::vector<double> shown;
    for (std::size_t y = 0; y < planned.runs.size(); ++y)
      if (std::ranges::count(planned.plan.shown_years, planned.runs[y].year) > 0)
        shown.push_back(static_cast<double>(month.of_year[y]) / 100.0);
    if (shown.empty()) continue;
    cash.p10 = to_cents(quantile(shown, 0.1));
    cash.p90 = to_cents(quantile(shown, 0.9));
  }
  std::stable_sort(cells.begin(), cells.end(), [](const Cell& a, const Cell& b) { return a.cut > b.cut; });
  require(left >= 0 && left <= static_cast<std::int64_t>(cells.size()), "the months add up to the plan");
  for (std::size_t k = 0; k < static_cast<std::size_t>(left); ++k) ++*cells[k].cents;
  return out;
}

}  // namespace aftercut::scenario
