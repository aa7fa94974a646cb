// One figure of the reasons of a sound plan is changed, and the audit names the rule that it breaks.

#include <algorithm>
#include <stdexcept>

#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "sound_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// Nothing locked, so that every field but the third has a next best.
const farm::Problem& open_problem() {
  static const farm::Problem problem = small_problem(6);
  return problem;
}

const plan::PlannedYears& open_plan() {
  static const plan::PlannedYears planned =
      scenario::make_plan(open_problem(), {.seed = 5, .threads = 1, .evaluations = 400, .progress = {}});
  return planned;
}

plan::Chosen& chosen_on(plan::PlannedYears& p, std::size_t f) { return p.plan.fields[f].chosen; }

plan::BreakEven& price_on(plan::PlannedYears& p, bool within_reach) {
  for (auto& field : p.plan.fields) {
    if (!field.chosen.next_best) continue;
    for (auto& b : field.chosen.next_best->break_even)
      if (b.even.has_value() == within_reach) return b;
  }
  throw std::runtime_error("no such break-even price");
}

struct ReasonChange {
  const char* rule;
  void (*make)(plan::PlannedYears&);
};

void check_named(const std::vector<ReasonChange>& changes) {
  for (const ReasonChange& change : changes) {
    plan::PlannedYears planned = open_plan();
    change.make(planned);
    INFO(change.rule << " at " << &change - changes.data());
    CHECK(broken_rules(open_problem(), planned).contains(change.rule));
  }
}

}  // namespace

TEST_CASE("the reasons of a plan as it is made hold", "[identity]") {
  const auto a = audit::check(open_problem(), open_plan());
  INFO(listed(a));
  CHECK(a.ok());
}

TEST_CASE("a changed next best or saving is named", "[cross]") {
  check_named(
      {{"wrong next best", [](auto& p) { chosen_on(p, 0).next_best.reset(); }},
       {"wrong next best", [](auto& p) { chosen_on(p, 0).next_best->method = chosen_on(p, 0).method; }},
       {"wrong next best",
        [](auto& p) {
          auto& methods = p.plan.fields[0].methods;
          const auto dearest =
              std::max_element(methods.begin(), methods.end(), [](const auto& a, const auto& b) {
                return (a.possible ? a.farm_cost : -1'000'000'000) <
                       (b.possible ? b.farm_cost : -1'000'000'000);
              });
          chosen_on(p, 0).next_best->method = dearest->method;
        }},
       {"wrong saving", [](auto& p) { chosen_on(p, 0).next_best->saves += 2; }},
       {"wrong saving", [](auto& p) { chosen_on(p, 0).next_best->saves_by_year[1] += 600; }},
       {"wrong saving", [](auto& p) { chosen_on(p, 0).next_best->saves_by_year.pop_back(); }},
       {"wrong saving", [](auto& p) { chosen_on(p, 0).next_best->parts.hire += 100; }},
       {"wrong saving", [](auto& p) { chosen_on(p, 0).next_best->on_other_fields -= 100; }},
       {"wrong saving",
        [](auto& p) {
          auto& c = chosen_on(p, 0);
          p.plan.fields[0].methods[static_cast<std::size_t>(c.next_best->method)].farm_cost -= 2;
        }},
       {"wrong earlier harvest", [](auto& p) { chosen_on(p, 1).next_best->saves_cut_earlier = 100; }}});
}

TEST_CASE("a changed break-even price is named", "[cross]") {
  const char* rule = "wrong break-even price";
  check_named({{rule, [](auto& p) { *price_on(p, true).even += 0.01; }},
               {rule, [](auto& p) { price_on(p, true).even.reset(); }},
               {rule, [](auto& p) { price_on(p, false).even = price_on(p, false).now; }},
               {rule, [](auto& p) { price_on(p, true).now += 0.001; }},
               {rule, [](auto& p) { price_on(p, true).chosen_amount += 1.0; }},
               {rule, [](auto& p) { price_on(p, true).next_amount *= 1.5; }},
               {rule, [](auto& p) { chosen_on(p, 0).next_best->break_even.clear(); }}});
}

TEST_CASE("a changed toss-up, waiting cost or last safe start is named", "[cross]") {
  check_named(
      {{"wrong toss-up", [](auto& p) { chosen_on(p, 0).toss_up.margin = !chosen_on(p, 0).toss_up.margin; }},
       {"wrong toss-up", [](auto& p) { chosen_on(p, 0).toss_up.years = !chosen_on(p, 0).toss_up.years; }},
       {"wrong toss-up",
        [](auto& p) { chosen_on(p, 1).toss_up.straw_price = !chosen_on(p, 1).toss_up.straw_price; }},
       {"wrong toss-up",
        [](auto& p) { chosen_on(p, 1).toss_up.diesel_price = !chosen_on(p, 1).toss_up.diesel_price; }},
       {"wrong toss-up", [](auto& p) { chosen_on(p, 0).next_best->spread *= 2.0; }},
       {"wrong waiting cost", [](auto& p) { chosen_on(p, 0).wait_a_week.reset(); }},
       {"wrong waiting cost", [](auto& p) { chosen_on(p, 3).wait_a_week = 500; }},  // fallow, left standing
       {"wrong last safe start",
        [](auto& p) { p.plan.fields[0].methods[0].last_safe_start = open_problem().farm.season.days; }},
       {"wrong last safe start", [](auto& p) {
          auto& m = p.plan.fields[1].methods[static_cast<std::size_t>(chosen_on(p, 1).method)];
          m.last_safe_start = 0;
        }}});
}
