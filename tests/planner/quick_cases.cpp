#include "quick_cases.hpp"

#include <array>

#include "tiny_farms.hpp"

namespace aftercut::test {
namespace {

constexpr std::array<std::uint64_t, 12> places{1, 5, 11, 13, 14, 17, 20, 21, 23, 25, 29, 35};
constexpr int evaluations = 8000, rounds = 150;
constexpr MipLimits limits{.seconds = 20.0, .relative_gap = 0.0005};

Solved solved(std::uint64_t k) {
  Solved s{k, tiny_case(tiny_problem(k), evaluations), {}, {}};
  s.bound = planner::lower_bound({&s.tiny.model, s.tiny.plan_cents, rounds, 1, {}});
  const RelaxedOptimum o =
      relaxed_optimum(s.tiny.model, every_method(s.tiny.model), s.tiny.plan_cents, limits);
  s.held = {s.bound.cents, s.bound.without_prices, o.cents, o.proven_cents, s.tiny.plan_cents, o.closed};
  return s;
}

}  // namespace

const std::vector<Solved>& quick_cases() {
  static const std::vector<Solved> all = [] {
    std::vector<Solved> cases;
    for (const std::uint64_t k : places) cases.push_back(solved(k));
    return cases;
  }();
  return all;
}

}  // namespace aftercut::test
