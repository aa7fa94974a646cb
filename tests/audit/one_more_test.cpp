// What one more is worth, as a sound plan has it, and changed: the audit names the rule.

#include <algorithm>
#include <filesystem>

#include "aftercut/report/report.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "sound_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

const plan::PlannedYears& plan_with_worths() {
  static const plan::PlannedYears planned = [] {
    auto made = scenario::make_plan(
        locked_problem(), {.seed = 5, .threads = 1, .evaluations = 60, .one_more_plans = 3, .progress = {}});
    made.plan.version = "test";
    return made;
  }();
  return planned;
}

plan::MoreOf& thing(plan::PlannedYears& p, const std::string& kind) {
  return *std::ranges::find_if(p.plan.one_more->things, [&](const auto& of) { return of.kind == kind; });
}

void check_named(const char* rule, void (*change)(plan::PlannedYears&)) {
  plan::PlannedYears planned = plan_with_worths();
  change(planned);
  INFO(rule);
  CHECK(broken_rules(locked_problem(), planned).contains(rule));
}

}  // namespace

TEST_CASE("worths of one more as they are made hold, and are read back", "[cross]") {
  REQUIRE(plan_with_worths().plan.one_more);
  const auto a = audit::check(locked_problem(), plan_with_worths());
  INFO(listed(a));
  CHECK(a.ok());
  const auto out = std::filesystem::temp_directory_path() / "aftercut-one-more-test";
  REQUIRE(report::write(locked_problem(), plan_with_worths(), a, out).ok());
  const auto read = audit::read_plan(out / "plan.json", locked_problem());
  REQUIRE(read.ok());
  REQUIRE(read.value().plan.one_more);
  CHECK(read.value().plan.one_more->things.size() == plan_with_worths().plan.one_more->things.size());
  CHECK(audit::check(locked_problem(), read.value()).ok());
  std::filesystem::remove_all(out);
}

TEST_CASE("a changed worth of one more is named", "[cross]") {
  check_named("wrong amount of one more", [](auto& p) { thing(p, "operator").more += 1.0; });
  check_named("wrong amount of one more", [](auto& p) { thing(p, "implement").more *= 1.1; });
  check_named("wrong amount of one more", [](auto& p) { thing(p, "tractor").id = "no such"; });
  check_named("wrong amount of one more", [](auto& p) { thing(p, "burn_day_area").more += 0.1; });
  check_named("wrong week of one more", [](auto& p) {
    thing(p, "operator").worth = 0.0;
    thing(p, "operator").weeks = {{.first_day = 7, .more = 1.0, .worth = 1.0, .error = 0.1}};
  });
  check_named("wrong week of one more", [](auto& p) {
    thing(p, "operator").worth = 100.0;
    thing(p, "operator").error = 1.0;
    thing(p, "operator").weeks = {{.first_day = 8, .more = 1.0, .worth = 1.0, .error = 0.1}};
  });
  check_named("worth of what is not used", [](auto& p) {
    thing(p, "implement").id = "in the shed";
    thing(p, "implement").worth = 5.0;
  });
}
