#include "standing_for_all.hpp"

#include <algorithm>

#include "aftercut/dispatch/conditions.hpp"

namespace aftercut::planner {
namespace {

constexpr int straw_forgets_days = 14;  // after so many days it no longer tells on which of them it was raked

}  // namespace

bool day_tells(const StepAsked& a) {
  const method::Step* next = a.step + 1;
  return next != a.recipe->steps.data() + a.recipe->steps.size() &&
         dispatch::operation_of(*a.table, *a.step).effect.lay_after &&
         dispatch::operation_of(*a.table, *next).when.most_straw_moisture_percent;
}

std::vector<Standing> standing_for_all(const StepAsked& a, const std::vector<History>& histories) {
  const std::size_t n = histories.size();
  std::vector<Standing> picks{{0, {}}};
  for (std::size_t k = 1; k < n; ++k) {
    if (k == n / 2 || k == n - 1)
      picks.push_back({k, {}});
    else if (day_tells(a) && histories[k].sim.day() != histories[k - 1].sim.day())
      picks.push_back({k, straw_forgets_days});
  }
  return picks;
}

}  // namespace aftercut::planner
