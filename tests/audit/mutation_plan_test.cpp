// One figure, year, field or choice of a sound plan is changed, and the audit names the rule that it breaks.

#include "catch2/catch.hpp"
#include "changes.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

std::size_t not_shown(const plan::PlannedYears& p) {
  return p.runs.front().year == p.plan.schedule_year ? 1 : 0;
}

plan::FieldRun& field_run(plan::PlannedYears& p, std::size_t field) {
  return p.runs[not_shown(p)].fields[field];
}

}  // namespace

TEST_CASE("a changed outcome of one year is named", "[cross]") {
  check_changes(
      {{"wrong cost", [](auto& p) { field_run(p, 0).cost.fuel += 2; }},
       {"wrong cost", [](auto& p) { field_run(p, 3).cost.lease_income -= 100; }},
       {"wrong cost", [](auto& p) { field_run(p, 2).cost.own_labour -= 2; }},
       {"wrong ready day", [](auto& p) { field_run(p, 1).ready_day -= 1; }},
       {"wrong straw-done day", [](auto& p) { field_run(p, 2).straw_done_day += 1; }},
       {"wrong status", [](auto& p) { field_run(p, 1).status = plan::Status::no_method; }},
       {"wrong fall-back", [](auto& p) { field_run(p, 0).fell_back = !field_run(p, 0).fell_back; }},
       {"wrong steps passed over", [](auto& p) { field_run(p, 2).steps_passed_over += 1; }},
       {"wrong count of passes on too dry ground", [](auto& p) { field_run(p, 2).finished_dry += 1; }},
       {"wrong count of days not burned", [](auto& p) { field_run(p, 4).not_burned.not_called += 1; }},
       {"wrong count of days not burned", [](auto& p) { field_run(p, 4).not_burned.too_wet += 1; }},
       {"wrong count of days not burned", [](auto& p) { field_run(p, 4).not_burned.out_of_limits += 1; }},
       {"wrong count of days not burned", [](auto& p) { field_run(p, 1).not_burned.no_room += 1; }},
       {"hours balance", [](auto& p) { field_run(p, 1).machine_min += 1; }},
       {"hours balance", [](auto& p) { field_run(p, 1).labour_min -= 1; }},
       {"fuel balance", [](auto& p) { field_run(p, 1).fuel_l += 0.1; }},
       {"water balance", [](auto& p) { field_run(p, 3).water_m3 += 1.0; }},
       {"straw balance", [](auto& p) { field_run(p, 0).decayed_kg_per_ha += 1.0; }},
       {"straw balance", [](auto& p) { field_run(p, 0).baled_kg_per_ha -= 1.0; }},
       {"field left out", [](auto& p) { p.runs[not_shown(p)].fields.pop_back(); }}},
      locked_problem());
}

TEST_CASE("a changed figure over the years is named", "[cross]") {
  check_changes(
      {{"wrong chance",
        [](auto& p) { chosen(p, 0).chance_ready += chosen(p, 0).chance_ready > 0.5 ? -0.5 : 0.5; }},
       {"wrong chance", [](auto& p) { chosen(p, 4).chance_ready += 0.001; }},
       {"wrong quantile", [](auto& p) { chosen(p, 1).ready.p50 = chosen(p, 1).ready.p50.value_or(200) - 1; }},
       {"wrong quantile", [](auto& p) { chosen(p, 3).ready.p10 = 200; }},
       {"wrong quantile", [](auto& p) { chosen(p, 2).straw_left_kg_per_ha.p90 += 0.2; }},
       {"wrong cost", [](auto& p) { chosen(p, 2).mean_cost.wages += 2; }},
       {"hours balance", [](auto& p) { chosen(p, 2).labour_h += 0.02; }},
       {"wrong objective", [](auto& p) { p.plan.cost_cents -= 100; }},
       {"wrong objective", [](auto& p) { p.plan.full_cost_cents += 100; }},
       {"bound above the plan", [](auto& p) { p.plan.bound_cents = p.plan.cost_cents + 1; }},
       {"wrong possibility",
        [](auto& p) { p.plan.fields[0].methods[0].possible = !p.plan.fields[0].methods[0].possible; }},
       {"method left out", [](auto& p) { p.plan.fields[0].methods.pop_back(); }}},
      locked_problem());
}

TEST_CASE("a changed ready day or winter week is named", "[cross]") {
  const auto field = [](auto& p, std::size_t f) -> plan::FieldPlan& { return p.plan.fields[f]; };
  check_changes({{"wrong ready days", [&](auto& p) { field(p, 1).ready_days[0].day = 200; }},
                 {"wrong ready days", [&](auto& p) { field(p, 2).ready_days[0].year += 1; }},
                 {"wrong ready days", [&](auto& p) { field(p, 0).ready_days.pop_back(); }},
                 {"wrong winter", [&](auto& p) { field(p, 0).winter[0].straw_kg_per_ha.p50 += 2.0; }},
                 {"wrong winter", [&](auto& p) { field(p, 3).winter.back().straw_kg_per_ha.p90 += 2.0; }},
                 {"wrong winter", [&](auto& p) { field(p, 3).winter[9].pores_full.p10 -= 0.01; }},
                 {"wrong winter", [&](auto& p) { field(p, 3).winter[9].under_water += 0.5; }},
                 {"wrong winter", [&](auto& p) { field(p, 2).winter[4].day += 1; }},
                 {"wrong winter", [&](auto& p) { field(p, 4).winter.pop_back(); }}},
                locked_problem());
}

TEST_CASE("a changed figure of the next crop is named", "[cross]") {
  const char* rule = "wrong figure of the next crop";
  const auto crop = [](auto& p, std::size_t field) -> plan::NextCrop& {
    return field_run(p, field).next_crop;
  };
  const auto said = [](auto& p, std::size_t field) -> plan::Environment& {
    return chosen(p, field).environment;
  };
  check_changes({{rule, [&](auto& p) { crop(p, 0).applied_early_kg_per_ha += 1.0; }},
                 {rule, [&](auto& p) { crop(p, 1).applied_late_kg_per_ha += 1.0; }},
                 {rule, [&](auto& p) { crop(p, 2).n_taken_up_kg_per_ha -= 0.1; }},
                 {rule, [&](auto& p) { crop(p, 2).n_given_back_kg_per_ha += 0.1; }},
                 {rule, [&](auto& p) { crop(p, 1).n_held_kg_per_ha += 0.1; }},
                 {rule, [&](auto& p) { crop(p, 0).spring_day += 1; }},
                 {rule, [&](auto& p) { crop(p, 0).spring_on_top_kg_per_ha += 1.0; }},
                 {rule, [&](auto& p) { crop(p, 2).spring_in_ground_kg_per_ha -= 1.0; }},
                 {rule, [&](auto& p) { crop(p, 3).flooded_days += 1; }},
                 {rule, [&](auto& p) { crop(p, 3).bird_days -= 1; }},
                 {rule, [&](auto& p) { crop(p, 3).long_flood_end += 1; }},
                 {rule, [&](auto& p) { crop(p, 1).waste_grain_kg_per_ha += 1.0; }},
                 {rule, [&](auto& p) { crop(p, 4).burned_in_rows = !crop(p, 4).burned_in_rows; }},
                 {rule, [&](auto& p) { crop(p, 4).burned_moisture_percent += 1.0; }},
                 {rule, [&](auto& p) { said(p, 0).methane.mean += 0.01; }},
                 {rule, [&](auto& p) { said(p, 2).methane.high -= 0.01; }},
                 {rule, [&](auto& p) { said(p, 1).methane_dry_winter.mean += 0.01; }},
                 {rule, [&](auto& p) { said(p, 0).methane_flooded_winter.low -= 0.01; }},
                 {rule, [&](auto& p) { said(p, 2).residue_n2o.high += 0.01; }},
                 {rule, [&](auto& p) { said(p, 2).straw_factor += 0.001; }},
                 {rule, [&](auto& p) { said(p, 2).n_taken_up.mean += 0.01; }},
                 {rule, [&](auto& p) { said(p, 2).applied_early += 0.01; }},
                 {rule, [&](auto& p) { said(p, 0).disease->mean += 0.01; }},
                 {rule, [&](auto& p) { said(p, 3).disease = plan::YearFigure{}; }},
                 {rule, [&](auto& p) { said(p, 3).bird_days.p10 += 1.0; }},
                 {rule, [&](auto& p) { said(p, 1).waste_grain.mean -= 0.01; }},
                 {rule, [&](auto& p) { said(p, 0).late_loss_high += 0.01; }},
                 {rule, [&](auto& p) { said(p, 0).rice_years -= 1; }}},
                locked_problem());
}

TEST_CASE("a changed job is named", "[cross]") {
  const auto job = [](auto& p) -> plan::Job& { return p.plan.fields[2].jobs.front(); };
  const char* days = "wrong days of a job";
  check_changes(
      {{days, [&](auto& p) { job(p).first.p10 -= 1; }},
       {days, [&](auto& p) { job(p).first.p50 += 1; }},
       {days, [&](auto& p) { job(p).first.p90 += 1; }},
       {days, [&](auto& p) { job(p).last.p10 -= 1; }},
       {days, [&](auto& p) { job(p).last.p50 += 1; }},
       {days, [&](auto& p) { job(p).last.p90 += 1; }},
       {days, [&](auto& p) { job(p).years_done -= 1; }},
       {days, [&](auto& p) { job(p).fell_back = !job(p).fell_back; }},
       {days, [&](auto& p) { p.plan.fields[0].jobs.push_back(p.plan.fields[2].jobs.front()); }},
       {"job left out", [&](auto& p) { p.plan.fields[2].jobs.erase(p.plan.fields[2].jobs.begin()); }},
       {"job left out", [&](auto& p) { p.plan.fields[2].jobs.push_back(p.plan.fields[2].jobs.back()); }},
       {"job left out", [&](auto& p) { job(p).pass += 1; }},
       {"jobs out of order",
        [&](auto& p) { std::swap(p.plan.fields[2].jobs.front(), p.plan.fields[2].jobs.back()); }},
       {"wrong end of the forecast", [&](auto& p) { p.plan.forecast_until = p.plan.as_of + 3; }}},
      locked_problem());
}

TEST_CASE("changed years and orders are named", "[cross]") {
  check_changes(
      {{"missing year", [](auto& p) { p.runs.pop_back(); }},
       {"unknown year", [](auto& p) { p.runs.back().year = 1950; }},
       {"unknown year", [](auto& p) { p.runs.push_back(p.runs.front()); }},
       {"unknown year", [](auto& p) { p.plan.schedule_year = 1950; }},
       {"list of years", [](auto& p) { p.plan.years.pop_back(); }},
       {"years behind the chances", [](auto& p) { p.plan.shown_years = p.plan.years; }},
       {"field left out", [](auto& p) { p.plan.decision.autumn_order.pop_back(); }},
       {"field left out", [](auto& p) { p.plan.decision.spring_order[0] = p.plan.decision.spring_order[1]; }},
       {"field left out", [](auto& p) { p.plan.fields.pop_back(); }},
       {"unknown field", [](auto& p) { p.plan.decision.spring_order.push_back(17); }},
       {"unknown method", [](auto& p) { p.plan.decision.method[0] = 1000; }},
       {"as-of date", [](auto& p) { p.plan.as_of = p.plan.as_of + 1; }}},
      locked_problem());
}

TEST_CASE("a barred method, a broken lock and a method withheld are named", "[cross]") {
  check_changes(
      {{"barred method chosen",
        [](auto& p) { p.plan.decision.method[2] = p.plan.fields[2].chosen.method = recipe_named("burn"); }},
       {"lock broken",
        [](auto& p) { p.plan.decision.method[2] = p.plan.fields[2].chosen.method = recipe_named("leave"); }},
       {"chosen method", [](auto& p) { p.plan.fields[1].chosen.method = recipe_named("leave"); }},
       {"no method though one is possible",
        [](auto& p) { p.plan.decision.method[1] = p.plan.fields[1].chosen.method = plan::none; }}},
      locked_problem());
}

TEST_CASE("each reason to bar a method is seen when the farm changes under a plan", "[cross]") {
  struct Farm {
    const char* why;
    std::function<void(farm::Farm&)> change;
  };
  const std::vector<Farm> farms{
      {"not allowed",
       [](auto& f) {
         f.fields[0].not_allowed = {{MethodId{"bale"}, "landlord"}};
       }},
      {"no straw to bale", [](auto& f) { f.fields[0].straw_load = KgPerHa{0.0}; }},
      {"straw laid otherwise", [](auto& f) { f.fields[1].lay = straw::Lay::chopped; }},
      {"no supply", [](auto& f) { f.supply.reset(); }},
      {"the canal does not reach it", [](auto& f) { f.fields[3].can_flood = false; }},
      {"holds no water", [](auto& f) { f.fields[3].holds_water = false; }},
      {"no rules for burning", [](auto& f) { f.burning.reset(); }},
      {"no disease finding", [](auto& f) { f.fields[4].disease_finding.reset(); }},
      {"setback",
       [](auto& f) {
         f.places.push_back(
             {"home", farm::PlaceKind::home, {{}, {}, {f.fields[4].shape.polygons[0].outer[0]}}});
         for (auto& rule : f.burning->rules)
           if (rule.name == "setback_home") rule.value = "50";
       }},
      {"over the daily area", [](auto& f) { f.fields[4].area = Hectare{11.0}; }},
      {"no chopper", [](auto& f) { f.implements[4].kind = "rake"; }},
      {"no tractor strong enough",
       [](auto& f) { f.tractors[0].pto_power = f.tractors[1].pto_power = KiloWatt{15.0}; }},
      {"nobody with the skill", [](auto& f) { f.operators[0].skills.clear(); }},
      {"a lease without canal water",
       [](auto& f) {
         f.fields[0].lease = farm::WaterLease{make_date(2026, 12, 1), make_date(2027, 1, 20), Money{5.0}};
       }},
  };
  for (const Farm& f : farms) {
    farm::Problem problem = locked_problem();
    f.change(problem.farm);
    INFO(f.why);
    CHECK(broken_rules(problem, sound_plan()).contains("barred method chosen"));
  }
}

TEST_CASE("at most 200 violations are listed and all are counted", "[identity]") {
  plan::PlannedYears planned = sound_plan();
  for (auto& run : planned.runs)
    for (auto& w : run.work) w.fuel_l += 5.0, w.area_ha += 1.0, w.end_min += 700;
  const audit::Audit a = audit::check(locked_problem(), planned);
  CHECK(a.violations.size() == 200);
  CHECK(a.count > 200);
  CHECK_FALSE(a.ok());
}
