// Wishes and what stands in their way, as a plan has them, and changed: the audit names the rule.

#include <algorithm>
#include <filesystem>

#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "sound_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// One person with short days and high wishes: some fields stay below.
const farm::Problem& hurried() {
  static const farm::Problem problem = [] {
    farm::Problem p = small_problem();
    p.farm.target.wanted_chance = 0.9;
    p.farm.target.risk = farm::Risk::both;
    p.farm.operators.resize(1);
    p.farm.operators[0].skills.push_back("burning");
    p.farm.operators[0].hours_per_day = Hours{4.0};
    p.farm.fields[2].next.wanted_chance = 0.4;
    for (farm::Field& f : p.farm.fields)
      if (f.next.kind != farm::NextUseKind::fallow) f.next.planting = make_date(2027, 4, 14);
    return p;
  }();
  return problem;
}

const plan::PlannedYears& hurried_plan() {
  static const plan::PlannedYears planned = [] {
    auto made = scenario::make_plan(hurried(), {.seed = 5, .threads = 1, .evaluations = 200, .progress = {}});
    made.plan.version = "test";
    return made;
  }();
  return planned;
}

std::filesystem::path risk_folder() { return std::filesystem::temp_directory_path() / "aftercut-risk-test"; }

void check_risk_named(const char* rule, void (*change)(plan::PlannedYears&)) {
  plan::PlannedYears planned = hurried_plan();
  change(planned);
  INFO(rule);
  CHECK(broken_rules(hurried(), planned).contains(rule));
}

plan::InTheWay& first_way(plan::PlannedYears& p) { return p.plan.risk.in_the_way.front(); }

}  // namespace

TEST_CASE("wishes and what stands in the way hold as they are made, and are read back", "[cross]") {
  const auto& planned = hurried_plan();
  REQUIRE_FALSE(planned.plan.risk.in_the_way.empty());
  const auto a = audit::check(hurried(), planned);
  INFO(listed(a));
  CHECK(a.ok());
  REQUIRE(report::write(hurried(), planned, a, risk_folder()).ok());
  const auto read = audit::read_plan(risk_folder() / "plan.json", hurried());
  for (const auto& issue : read.issues()) UNSCOPED_INFO(to_text(issue));
  REQUIRE(read.ok());
  const auto again = audit::check(hurried(), read.value());
  INFO(listed(again));
  CHECK(again.ok());
  const auto& said = read.value().plan.risk;
  REQUIRE(said.in_the_way.size() == planned.plan.risk.in_the_way.size());
  CHECK(said.in_the_way.front().words == planned.plan.risk.in_the_way.front().words);
  CHECK(said.in_the_way.front().alone.waits.size() ==
        planned.plan.risk.in_the_way.front().alone.waits.size());
  std::filesystem::remove_all(risk_folder());
}

TEST_CASE("a changed wish, count of years or trouble is named", "[cross]") {
  check_risk_named("wrong wish", [](auto& p) { p.plan.wanted_chance = 0.8; });
  check_risk_named("wrong wish", [](auto& p) { p.plan.risk.wishes.front().chance = 0.5; });
  check_risk_named("wrong years ready", [](auto& p) { p.plan.risk.wishes.front().searched += 1; });
  check_risk_named("wrong years ready", [](auto& p) { p.plan.risk.wishes.back().shown -= 1; });
  check_risk_named("wrong count of years", [](auto& p) { p.plan.risk.search_years += 1; });
  check_risk_named("wrong count of years", [](auto& p) { p.plan.risk.shown_years -= 1; });
  check_risk_named("wish left out", [](auto& p) { p.plan.risk.wishes.pop_back(); });
  check_risk_named("wrong price of a late day", [](auto& p) {
    p.plan.risk.late_per_ha_day = p.plan.risk.late_per_ha_day.value_or(0.0) + 0.1;
  });
  check_risk_named("wrong fields below their wish", [](auto& p) {
    std::erase_if(p.plan.troubles, [](const auto& t) { return t.name == "wanted chance not reached"; });
  });
  check_risk_named("wrong fields below their wish", [](auto& p) {
    for (auto& t : p.plan.troubles)
      if (t.name == "wanted chance not reached") t.fields.pop_back();
  });
}

TEST_CASE("a word on what stands in the way that cannot be is named", "[cross]") {
  const char* rule = "wrong word on what stands in the way";
  check_risk_named(rule, [](auto& p) { p.plan.risk.in_the_way.pop_back(); });
  check_risk_named(rule, [](auto& p) { first_way(p).own_method_alone = first_way(p).alone.ready + 1; });
  check_risk_named(rule, [](auto& p) { first_way(p).alone.failed += 1; });
  check_risk_named(rule, [](auto& p) {
    first_way(p).more = plan::MoreThing{"operator", "X", true, first_way(p).wanted - 1, 1};
  });
  check_risk_named(rule, [](auto& p) { first_way(p).most = plan::MoreThing{"operator", "X", true, 99, 0}; });
  check_risk_named(rule, [](auto& p) { first_way(p).first = plan::OtherWay{0, 1, {first_way(p).field}}; });
  check_risk_named("wrong years ready", [](auto& p) { first_way(p).ready += 1; });
  check_risk_named("wrong years ready", [](auto& p) { first_way(p).wanted -= 1; });
  check_risk_named("wrong days of waiting", [](auto& p) { first_way(p).alone.days_looked_at += 1; });
  check_risk_named("wrong days of waiting",
                   [](auto& p) { first_way(p).alone.waits.push_back({.operation = 0, .days = {9999}}); });
}

TEST_CASE("a wish told as met that is not is an issue of the file", "[cross]") {
  REQUIRE(report::write(hurried(), hurried_plan(), {}, risk_folder()).ok());
  std::string text = read_file(risk_folder() / "plan.json").value();
  const auto at = text.find("\"met_shown\": false");
  REQUIRE(at != std::string::npos);
  REQUIRE(save_file(risk_folder() / "plan.json", text.replace(at, 18, "\"met_shown\": true")).ok());
  const auto read = audit::read_plan(risk_folder() / "plan.json", hurried());
  REQUIRE_FALSE(read.ok());
  CHECK(read.issues().front().place.find("met_shown") != std::string::npos);
  std::filesystem::remove_all(risk_folder());
}
