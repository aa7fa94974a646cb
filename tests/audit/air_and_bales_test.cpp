// A changed count of bales, a changed gas and a changed end of a range: the audit names the rule that each
// breaks.

#include "catch2/catch.hpp"
#include "changes.hpp"

#include <stdexcept>

#include "aftercut/scenario/base_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

plan::MethodOutcome sound(std::size_t field) {
  plan::PlannedYears copy = sound_plan();
  return chosen(copy, field);
}

/// Bales told of some method that its field was not given.
plan::BaleCount& not_chosen(plan::PlannedYears& p) {
  for (std::size_t f = 0; f < p.plan.fields.size(); ++f)
    for (plan::MethodOutcome& m : p.plan.fields[f].methods)
      if (m.method != p.plan.decision.method[f] && m.bales) return *m.bales;
  throw std::runtime_error("every method that bales is chosen");
}

}  // namespace

TEST_CASE("a changed count of bales, loads or twine is named", "[cross]") {
  const char* rule = "wrong bale count";
  const auto said = [](auto& p, std::size_t field) -> plan::BaleCount& { return *chosen(p, field).bales; };
  REQUIRE(sound(0).bales->bales.p50 > 10.0);
  check_changes({{rule, [&](auto& p) { said(p, 0).bales.p10 += 1.0; }},
                 {rule, [&](auto& p) { said(p, 0).bales.p50 -= 1.0; }},
                 {rule, [&](auto& p) { said(p, 1).bales.p90 += 0.5; }},
                 {rule, [&](auto& p) { said(p, 1).loads += 1.0; }},
                 {rule, [&](auto& p) { said(p, 0).twine_m += 10.0; }},
                 {rule, [&](auto& p) { chosen(p, 0).bales.reset(); }},
                 {rule, [&](auto& p) { chosen(p, 2).bales = plan::BaleCount{}; }}},
                locked_problem());
}

TEST_CASE("loads and twine are looked at where the method is not chosen too", "[cross]") {
  const farm::Problem problem = small_problem(3);
  const plan::PlannedYears sound =
      scenario::make_plan(problem, {.seed = 1, .threads = 1, .evaluations = 10, .progress = {}});
  REQUIRE(audit::check(problem, sound).ok());
  plan::PlannedYears loads = sound, twine = sound;
  not_chosen(loads).loads += 1.0;
  CHECK(broken_rules(problem, loads) == std::set<std::string>{"wrong bale count"});
  not_chosen(twine).twine_m -= 10.0;
  CHECK(broken_rules(problem, twine) == std::set<std::string>{"wrong bale count"});
}

TEST_CASE("counts of bales hang on the farm's bale", "[cross]") {
  farm::Problem other = locked_problem();
  other.farm.bales.mass = Kilogram{other.farm.bales.mass.value() * 0.5};
  CHECK(broken_rules(other, sound_plan()).contains("wrong bale count"));
  other = locked_problem();
  other.farm.bales.per_load = 1;
  CHECK(broken_rules(other, sound_plan()).contains("wrong bale count"));
}

TEST_CASE("a changed gas of burning or its range is named", "[cross]") {
  const char* rule = "wrong emissions";
  const auto burned = [](auto& p, burn::Gas gas) -> plan::Figure& {
    return chosen(p, 4).environment.burned[static_cast<std::size_t>(gas)];
  };
  const plan::Figure co = sound(4).environment.burned[static_cast<std::size_t>(burn::Gas::co)];
  REQUIRE(co.low < co.mean);
  REQUIRE(co.mean < co.high);
  check_changes({{rule, [&](auto& p) { burned(p, burn::Gas::co).low -= 0.01; }},
                 {rule, [&](auto& p) { burned(p, burn::Gas::pm25).high += 0.01; }},
                 {rule, [&](auto& p) { burned(p, burn::Gas::nox).mean += 0.01; }},
                 {rule, [&](auto& p) { burned(p, burn::Gas::pm).p90 += 0.01; }},
                 {rule, [&](auto& p) { burned(p, burn::Gas::co2).p10 -= 0.01; }},
                 {rule, [](auto& p) { chosen(p, 0).environment.burned[1].mean = 1.0; }},
                 {rule, [](auto& p) { chosen(p, 4).emissions.ch4_kg += 0.01; }},
                 {rule, [](auto& p) { chosen(p, 4).emissions.pm25_kg -= 0.01; }},
                 {rule, [](auto& p) { chosen(p, 1).emissions.co2_diesel_kg += 1.0; }},
                 {rule, [](auto& p) { chosen(p, 1).emissions.co2e_kg -= 1.0; }}},
                locked_problem());
}

TEST_CASE("changed CO2 equivalents or their range are named", "[cross]") {
  const char* rule = "wrong CO2e";
  const auto said = [](auto& p, std::size_t field) -> plan::Environment& {
    return chosen(p, field).environment;
  };
  const plan::Figure all = sound(1).environment.co2e;
  REQUIRE(all.low < all.mean);
  REQUIRE(all.mean < all.high);
  check_changes({{rule, [&](auto& p) { said(p, 1).co2e.mean += 1.0; }},
                 {rule, [&](auto& p) { said(p, 1).co2e.p90 += 1.0; }},
                 {rule, [&](auto& p) { said(p, 0).co2e.low += 0.01; }},
                 {rule, [&](auto& p) { said(p, 2).co2e.high -= 0.01; }},
                 {rule, [&](auto& p) { said(p, 3).co2e.low -= 0.01; }},  // no rice follows: diesel alone
                 {rule, [&](auto& p) { said(p, 4).co2e_burn.high += 0.01; }},
                 {rule, [&](auto& p) { said(p, 2).co2e_methane.low -= 0.01; }},
                 {rule, [&](auto& p) { said(p, 1).co2e_n2o.high += 0.01; }},
                 {rule, [&](auto& p) { said(p, 3).co2e_diesel.mean += 0.01; }}},
                locked_problem());
}
