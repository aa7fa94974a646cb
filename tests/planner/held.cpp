#include "held.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

#include "aftercut/planner/search.hpp"

namespace aftercut::test {
namespace {

constexpr double solver_slack = 1e-6;  // of a sum, in the programme's own arithmetic
constexpr double slack_cents =
    2.0;  // the bound is rounded down to a cent, the cutoff lies one above the plan
constexpr double least_share = 0.97;  // of the optimum, that prices are expected to prove

}  // namespace

TinyCase tiny_case(farm::Problem problem, int evaluations) {
  TinyCase c;
  c.problem = std::make_unique<farm::Problem>(std::move(problem));
  c.table = std::make_unique<dispatch::Table>(dispatch::make_table(*c.problem, 1));
  std::vector<std::size_t> years(c.table->drivers.size());
  std::iota(years.begin(), years.end(), std::size_t{0});
  c.model = planner::make_bound_model(*c.table, years, 1);
  const planner::Found found = planner::search({.table = c.table.get(),
                                                .years = years,
                                                .seed = 1,
                                                .threads = 1,
                                                .evaluations = evaluations,
                                                .progress = {}});
  c.decision = found.decision;
  c.plan_cents = static_cast<double>(found.cost);
  return c;
}

std::vector<std::string> faults_of(const Held& h) {
  std::vector<std::string> faults;
  const double slack = slack_cents + solver_slack * std::abs(h.plan);
  if (h.bound > h.optimum + slack) faults.push_back("the bound is above the optimum");
  if (h.bound > h.plan) faults.push_back("the bound is above the plan");
  if (h.proven > h.plan + slack) faults.push_back("the optimum is above the plan");
  if (h.closed && h.bound < h.optimum - (1.0 - least_share) * std::abs(h.optimum))
    faults.push_back("the bound is far below the optimum");
  return faults;
}

Spread spread_of(std::vector<double> values) {
  if (values.empty()) return {};
  std::sort(values.begin(), values.end());
  return {values.front(),
          std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size()),
          values[values.size() / 2], values.back(), values.size()};
}

std::string words_of(const std::string& what, const Spread& s) {
  char line[160];
  std::snprintf(line, sizeof line, "%s: least %.4f, mean %.4f, middle %.4f, most %.4f (%zu)\n", what.c_str(),
                s.least, s.mean, s.middle, s.most, s.count);
  return line;
}

}  // namespace aftercut::test
