#include "aftercut/scenario/what_if.hpp"

#include <algorithm>

#include "aftercut/core/require.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/scenario/whole_farm.hpp"

namespace aftercut::scenario {
namespace {

int recipe_by_id(const method::Book& book, const MethodId& id) {
  for (std::size_t r = 0; r < book.recipes.size(); ++r)
    if (book.recipes[r].id == id) return static_cast<int>(r);
  return plan::none;
}

bool open(const dispatch::Table& t, std::size_t field, int method) {
  return method != plan::none && t.why_not[field][static_cast<std::size_t>(method)].empty();
}

/// Along the fall-backs to a method that is open; none when they end.
int open_fall_back(const dispatch::Table& t, std::size_t field, int method) {
  const method::Book& book = t.problem->farm.book;
  for (std::size_t k = 0; k < book.recipes.size() && method != plan::none; ++k) {
    if (open(t, field, method)) return method;
    const auto& back = book.recipes[static_cast<std::size_t>(method)].fall_back;
    method = back ? recipe_by_id(book, back->method) : plan::none;
  }
  return plan::none;
}

/// The open method of the field that costs the whole farm least over the search years.
int cheapest_open(const dispatch::Table& t, const plan::Decision& d, std::size_t field,
                  const SearchOptions& options) {
  std::vector<plan::Decision> tried;
  for (std::size_t r = 0; r < t.why_not[field].size(); ++r) {
    if (!open(t, field, static_cast<int>(r))) continue;
    tried.push_back(d);
    tried.back().method[field] = static_cast<int>(r);
  }
  if (tried.empty()) return plan::none;
  const auto costs = planner::costs_of(t, tried, planner::fold(t.drivers.size()).search, options.threads);
  const auto best = std::min_element(costs.begin(), costs.end()) - costs.begin();
  return tried[static_cast<std::size_t>(best)].method[field];
}

}  // namespace

std::vector<plan::MethodChange> changes_of(const farm::Farm& from, const plan::Decision& base,
                                           const farm::Farm& to, const plan::Decision& now) {
  std::vector<plan::MethodChange> changes;
  const auto in_base = [&](int m) {
    return m == plan::none ? plan::none
                           : recipe_by_id(from.book, to.book.recipes[static_cast<std::size_t>(m)].id);
  };
  for (std::size_t f = 0; f < base.method.size(); ++f)
    if (const int m = in_base(now.method[f]); m != base.method[f])
      changes.push_back({static_cast<int>(f), base.method[f], m});
  return changes;
}

Carried carried_over(const farm::Problem& from, const plan::Decision& decision, const farm::Problem& to,
                     const SearchOptions& options) {
  const dispatch::Table table = dispatch::make_table(to, options.seed);
  Carried out{decision, {}};
  std::vector<std::size_t> left_open;
  for (std::size_t f = 0; f < decision.method.size(); ++f) {
    const int was = decision.method[f];
    const int here =
        was == plan::none
            ? plan::none
            : recipe_by_id(to.farm.book, from.farm.book.recipes[static_cast<std::size_t>(was)].id);
    out.decision.method[f] = open_fall_back(table, f, here);
    if (out.decision.method[f] == plan::none) left_open.push_back(f);
  }
  for (const std::size_t f : left_open)
    out.decision.method[f] = cheapest_open(table, out.decision, f, options);
  out.replaced = changes_of(from.farm, decision, to.farm, out.decision);
  return out;
}

plan::WhatIf what_if(const farm::Problem& problem, const std::vector<ChangedFarm>& cases,
                     const SearchOptions& options) {
  const double parts = 1.0 + 2.0 * static_cast<double>(cases.size());
  double done = 0.0;
  const auto planned = [&](const farm::Problem& p, std::optional<plan::Decision> decision) {
    SearchOptions o = options;
    o.decision = std::move(decision);
    o.progress = [&](double x) {
      if (options.progress) options.progress((done + x) / parts);
    };
    auto made = make_plan(p, o);
    done += 1.0;
    return made;
  };
  plan::WhatIf all;
  all.base = planned(problem, std::nullopt);
  all.base_figures = whole_farm(problem.farm, all.base);
  for (const ChangedFarm& c : cases) {
    require(c.problem.farm.fields.size() == problem.farm.fields.size(), "a case has the farm's fields");
    plan::CaseResult r{.name = c.name, .title = c.title, .note = c.note, .set = c.set};
    r.planned = planned(c.problem, std::nullopt);
    const Carried carried = carried_over(problem, all.base.plan.decision, c.kept, options);
    r.kept = planned(c.kept, carried.decision);
    r.planned_figures = whole_farm(c.problem.farm, r.planned);
    r.kept_figures = whole_farm(c.kept.farm, r.kept);
    r.replaced = carried.replaced;
    r.changes = changes_of(problem.farm, all.base.plan.decision, c.problem.farm, r.planned.plan.decision);
    all.cases.push_back(std::move(r));
  }
  return all;
}

}  // namespace aftercut::scenario
