// What a user could take instead, on the same farms, in the same time: the cheapest method of each field by
// itself with lists by date, and a general solver on the daily programme of the bound's own model, whose
// methods are then dispatched with those lists. Prints one row for each farm.
//
//   bench_rival [changes judged by the search] [rounds of the bound] [times the time for the solver] [fields
//   years]

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <numeric>
#include <string>

#include "aftercut/planner/search.hpp"
#include "bench_farms.hpp"
#include "oracle.hpp"
#include "tiny_farms.hpp"

using namespace aftercut;

namespace {

struct Effort {
  int evaluations = 20000, rounds = 60;
  double times = 1.0;
};

struct Rivals {
  std::string name;
  farm::Problem problem;
  bool to_solver = true;
};

double seconds_of(const std::function<void()>& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// Of the demo's fields and machines, everybody paid, three winters spread over the record.
farm::Problem whole_seasons(std::size_t fields) {
  farm::Problem p = bench::farm_of(fields);
  const auto all = p.years.years;
  p.years.years = {all[all.size() / 6], all[all.size() / 2], all[5 * all.size() / 6]};
  return p;
}

farm::Problem spring_weeks(std::size_t fields, std::size_t years) {
  return test::tiny_problem(
      4,
      {.least_fields = fields, .most_fields = fields, .least_methods = 5, .most_methods = 5, .years = years});
}

struct Rival {
  std::size_t columns = 0, whole_columns = 0;
  bool given = false, found = false;
  double plan_cents = 0.0, bound_cents = 0.0, seconds = 0.0;
};

/// The solver on the whole programme; it is told no plan.
Rival ask_solver(const planner::BoundModel& m, const plan::Decision& lists, double seconds) {
  Rival r;
  r.seconds = seconds_of([&] {
    const test::Relaxed relaxed = test::relaxed_model(m, test::every_method(m));
    r.columns = relaxed.mip.columns();
    r.whole_columns = relaxed.mip.whole_columns();
    r.given = true;
    const test::MipEnd end = relaxed.mip.solve({.seconds = seconds, .relative_gap = 1e-4});
    r.found = end.found;
    r.bound_cents = 100.0 * end.proven;
    if (!end.found) return;
    plan::Decision d = lists;
    d.method = test::methods_of(relaxed, end);
    r.plan_cents = static_cast<double>(planner::costs_of(*m.table, {d}, m.years, 1).front());
  });
  return r;
}

std::string money(double cents, std::size_t years) {
  char text[32];
  std::snprintf(text, sizeof text, "%.0f", cents / 100.0 / static_cast<double>(years));
  return text;
}

void compare(const Rivals& farm, const Effort& effort) {
  const dispatch::Table t = dispatch::make_table(farm.problem, 1);
  std::vector<std::size_t> years(t.drivers.size());
  std::iota(years.begin(), years.end(), std::size_t{0});
  const auto searched = [&](int evaluations) {
    return planner::search(
        {.table = &t, .years = years, .seed = 1, .threads = 1, .evaluations = evaluations, .progress = {}});
  };
  planner::Found greedy, ours;
  const double greedy_s = seconds_of([&] { greedy = searched(0); });
  const double search_s = seconds_of([&] { ours = searched(effort.evaluations); });
  planner::BoundModel m;
  planner::Bound bound;
  const double model_s = seconds_of([&] { m = planner::make_bound_model(t, years, 1); });
  const double bound_s = seconds_of([&] {
    bound = planner::lower_bound({&m, static_cast<double>(ours.cost), effort.rounds, 1, {}});
  });
  const Rival r =
      farm.to_solver ? ask_solver(m, greedy.decision, effort.times * (search_s + bound_s)) : Rival{};
  const std::size_t n = years.size();
  const std::string solver_plan = r.found ? money(r.plan_cents, n) : "none";
  const std::string solver_bound = r.given && r.bound_cents > -1e30 ? money(r.bound_cents, n)
                                   : r.given                        ? "none"
                                                                    : "not given";
  std::printf("| %s | %zu | %zu | %s (%.1f s) | %s (%.1f s) | %s (%.1f s) | %s | %s (%.0f s) | %zu (%zu) |\n",
              farm.name.c_str(), farm.problem.farm.fields.size(), n,
              money(static_cast<double>(greedy.cost), n).c_str(), greedy_s,
              money(static_cast<double>(ours.cost), n).c_str(), search_s, money(bound.cents, n).c_str(),
              model_s + bound_s, solver_plan.c_str(), solver_bound.c_str(), r.seconds, r.columns,
              r.whole_columns);
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  Effort effort;
  if (argc > 1) effort.evaluations = std::atoi(argv[1]);
  if (argc > 2) effort.rounds = std::atoi(argv[2]);
  if (argc > 3) effort.times = std::atof(argv[3]);
  std::printf("USD a year; one thread each\n");
  std::printf(
      "| farm | fields | years | cheapest alone | plan | bound | solver: plan | its bound | columns |\n");
  std::printf("|---|---|---|---|---|---|---|---|---|\n");
  for (const auto& [fields, years] : {std::pair<std::size_t, std::size_t>{4, 1}, {8, 1}, {8, 3}})
    compare({"weeks of spring", spring_weeks(fields, years), true}, effort);
  compare({"whole season", whole_seasons(20), false}, effort);
  return 0;
}
