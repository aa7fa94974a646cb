#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "totals.hpp"

namespace aftercut::audit {
namespace {

std::string count_text(std::size_t n) { return fmt::format("{}", n); }

Findings check_order(const farm::Farm& farm, const std::vector<int>& order, const char* name) {
  Findings f;
  std::vector<int> times(farm.fields.size(), 0);
  for (const int field : order) {
    const bool known = field >= 0 && field < static_cast<int>(times.size());
    f.expect(known, "unknown field", Place{&farm, -1, -1, field, name}, [] {
      return Texts{"in the order", "a field of the farm"};
    });
    if (known) ++times[static_cast<std::size_t>(field)];
  }
  for (std::size_t k = 0; k < times.size(); ++k)
    f.expect(times[k] == 1, "field left out", Place{&farm, -1, -1, static_cast<int>(k), name}, [&] {
      return Texts{fmt::format("{} times in the order", times[k]), "once"};
    });
  return f;
}

Findings check_years(const farm::Problem& problem, const plan::PlannedYears& planned) {
  Findings f;
  const plan::Plan& p = planned.plan;
  std::set<int> known, played;
  for (const auto& y : problem.years.years) known.insert(y.year);
  for (const auto& run : planned.runs) {
    const bool fresh = played.insert(run.year).second;
    f.expect(known.contains(run.year) && fresh, "unknown year", Place{nullptr, run.year, -1, -1, ""}, [&] {
      return Texts{fresh ? "a run of it" : "a second run of it", "a year of the weather record, once"};
    });
    f.expect(
        run.fields.size() == problem.farm.fields.size(), "field left out",
        Place{nullptr, run.year, -1, -1, ""}, [&] {
          return Texts{count_text(run.fields.size()) + " fields", count_text(problem.farm.fields.size())};
        });
  }
  for (const int y : known)
    f.expect(played.contains(y), "missing year", Place{nullptr, y, -1, -1, ""}, [] {
      return Texts{"no run", "a run of every weather year"};
    });
  std::vector<int> order;
  for (const auto& run : planned.runs) order.push_back(run.year);
  f.expect(order == p.years, "list of years", Place{nullptr, -1, -1, -1, "years"}, [&] {
    return Texts{count_text(p.years.size()) + " years", "the years of the runs, in their order"};
  });
  f.expect(played.contains(p.schedule_year), "unknown year",
           Place{nullptr, p.schedule_year, -1, -1, "schedule"}, [] {
             return Texts{"the schedule's year", "a year that was played"};
           });
  return f;
}

/// Chances come from the years at odd places of the record, which the search did not use; one year alone
/// serves both.
Findings check_shown(const farm::Problem& problem, const plan::Plan& p) {
  Findings f;
  std::vector<int> expected;
  const auto& years = problem.years.years;
  for (std::size_t k = 0; k < years.size(); ++k)
    if (k % 2 == 1 || years.size() == 1) expected.push_back(years[k].year);
  f.expect(p.shown_years == expected && p.chances_in_sample == (years.size() == 1),
           "years behind the chances", Place{nullptr, -1, -1, -1, "shown years"}, [&] {
             return Texts{count_text(p.shown_years.size()) + " years",
                          count_text(expected.size()) + " years kept from the search"};
           });
  return f;
}

}  // namespace

Findings check_shape(const farm::Problem& problem, const plan::PlannedYears& planned) {
  Findings f;
  const farm::Farm& farm = problem.farm;
  const plan::Plan& p = planned.plan;
  const std::size_t n = farm.fields.size();
  f.expect(p.decision.method.size() == n && p.fields.size() == n, "field left out",
           Place{nullptr, -1, -1, -1, "plan"}, [&] {
             return Texts{fmt::format("{} methods, {} fields", p.decision.method.size(), p.fields.size()),
                          count_text(n)};
           });
  for (std::size_t k = 0; k < p.decision.method.size(); ++k)
    f.expect(p.decision.method[k] >= plan::none &&
                 p.decision.method[k] < static_cast<int>(farm.book.recipes.size()),
             "unknown method", Place{&farm, -1, -1, static_cast<int>(k), ""}, [] {
               return Texts{"an index of nothing", "a method of the book"};
             });
  f += check_order(farm, p.decision.autumn_order, "autumn order");
  f += check_order(farm, p.decision.spring_order, "spring order");
  f += check_years(problem, planned);
  f += check_shown(problem, p);
  f.expect(p.as_of == problem.as_of, "as-of date", Place{nullptr, -1, -1, -1, "plan"}, [&] {
    return Texts{iso(p.as_of), iso(problem.as_of)};
  });
  return f;
}

Findings check_choices(const Facts& facts, const plan::Plan& p) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  const int recipes = static_cast<int>(farm.book.recipes.size());
  for (int k = 0; k < static_cast<int>(farm.fields.size()); ++k) {
    const auto i = static_cast<std::size_t>(k);
    const Place place{&farm, -1, -1, k, ""};
    const auto name = [&](int m) {
      return m == plan::none ? "none" : farm.book.recipes[static_cast<std::size_t>(m)].id.value;
    };
    const int chosen = p.decision.method[i];
    f.expect(p.fields[i].chosen.method == chosen, "chosen method", place, [&] {
      return Texts{name(p.fields[i].chosen.method), name(chosen)};
    });
    if (farm.fields[i].locked && chosen != plan::none) {
      f.expect(farm.fields[i].locked->value == name(chosen), "lock broken", place, [&] {
        return Texts{name(chosen), farm.fields[i].locked->value};
      });
    }
    const bool told = static_cast<int>(p.fields[i].methods.size()) == recipes;
    f.expect(told, "method left out", place, [&] {
      return Texts{count_text(p.fields[i].methods.size()), fmt::format("{}", recipes)};
    });
    bool any = false;
    for (int r = 0; r < recipes; ++r) {
      const auto why = barred(facts, k, r);
      any = any || why.empty();
      const std::string reason = why.empty() ? "possible" : "barred: " + why.front();
      if (r == chosen)
        f.expect(why.empty(), "barred method chosen", place, [&] { return Texts{name(r), reason}; });
      if (told && p.fields[i].methods[static_cast<std::size_t>(r)].possible != why.empty())
        f.add({"wrong possibility", to_text(place), name(r), reason});
    }
    f.expect(chosen != plan::none || !any, "no method though one is possible", place, [] {
      return Texts{"none", "a method"};
    });
  }
  return f;
}

}  // namespace aftercut::audit
