#include "standing_for_all.hpp"

#include <algorithm>

#include "aftercut/dispatch/conditions.hpp"

namespace aftercut::planner {

bool day_tells(const StepAsked& a) {
  const method::Step* next = a.step + 1;
  return next != a.recipe->steps.data() + a.recipe->steps.size() &&
         dispatch::operation_of(*a.table, *a.step).effect.lay_after &&
         dispatch::operation_of(*a.table, *next).when.most_straw_moisture_percent;
}

std::vector<std::size_t> standing_for_all(const StepAsked& asked, const std::vector<int>& days) {
  const std::size_t n = days.size();
  std::vector<std::size_t> picks{0, n / 2, n - 1};
  if (day_tells(asked)) {
    const method::Step& next = asked.step[1];
    const int until =
        next.give_up ? dispatch::day_of(*asked.table, *next.give_up) : asked.table->problem->farm.season.days;
    picks = {0};
    for (std::size_t k = 1; k < n; ++k)
      if (k + 1 == n || (days[k] != days[k - 1] && days[k] < until)) picks.push_back(k);
  }
  picks.erase(std::unique(picks.begin(), picks.end()), picks.end());
  return picks;
}

}  // namespace aftercut::planner
