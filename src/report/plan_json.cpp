// plan.json: the whole plan in one text.

#include <cmath>

#include "aftercut/report/report.hpp"
#include "one_more.hpp"
#include "parts.hpp"
#include "risk.hpp"
#include "so_far.hpp"

namespace aftercut::report {
namespace {

json first_planting(const farm::Farm& farm) {
  std::optional<Date> first;
  for (const auto& f : farm.fields) {
    if (farm::seedbed_due(f) && (!first || f.next.planting < *first)) first = f.next.planting;
  }
  return first ? json(iso(*first)) : json(nullptr);
}

json inputs_json(const farm::Farm& farm) {
  json out = json::array();
  for (const auto& i : farm.inputs) out.push_back({{"path", i.path}, {"sha256", i.sha256}});
  return out;
}

json farm_json(const farm::Problem& problem, const plan::Plan& p) {
  const farm::Farm& f = problem.farm;
  json out = farm_head_json(problem);
  out["forecast_until"] = p.forecast_until ? json(iso(*p.forecast_until)) : json(nullptr);
  out["planting_date"] = first_planting(f);
  out["season_first"] = iso(f.season.first);
  out["season_days"] = f.season.days;
  out["area_ha"] = rounded(total_area_ha(f), 4);
  out["latitude_deg"] = rounded(f.site.latitude_deg, 4);
  out["longitude_deg"] = rounded(f.site.longitude_deg, 4);
  out["price_year"] = f.prices.price_year;
  out["notes"] = f.notes;
  return out;
}

json weather_json(const plan::Plan& p) {
  return {{"years", p.years},
          {"shown_years", p.shown_years},
          {"chances_in_sample", p.chances_in_sample},
          {"estimated",
           {{"temperature_days", p.estimated.temperature_days},
            {"rain_days", p.estimated.rain_days},
            {"humidity_days", p.estimated.humidity_days},
            {"wind_days", p.estimated.wind_days},
            {"radiation_days", p.estimated.radiation_days}}}};
}

json methods_json(const method::Book& book) {
  json out = json::array();
  for (const auto& r : book.recipes) {
    const char* water = !r.water ? "none" : r.water->from_canal ? "canal" : "rain";
    out.push_back({{"id", r.id.value},
                   {"name", r.name},
                   {"summary", r.summary},
                   {"bales", r.bales},
                   {"burns", r.burns},
                   {"water", water}});
  }
  return out;
}

const char* water_words(method::Water w) {
  switch (w) {
    case method::Water::none:
      return "none";
    case method::Water::boards_in:
      return "boards_in";
    case method::Water::fill:
      return "fill";
    case method::Water::boards_out:
      return "boards_out";
  }
  fail("unknown water step");
}

json operations_json(const method::Book& book) {
  json out = json::array();
  for (const auto& o : book.operations) {
    out.push_back({{"id", o.id.value},
                   {"name", o.name},
                   {"implement", o.implement},
                   {"water", water_words(o.water)},
                   {"tillage", o.tillage},
                   {"burning", o.burning}});
  }
  return out;
}

json machines_json(const farm::Farm& farm) {
  json out = json::array();
  for (const auto& t : farm.tractors) {
    out.push_back({{"id", t.id.value}, {"name", t.name}, {"kind", "tractor"}, {"hired", false}});
  }
  for (const auto& i : farm.implements) {
    out.push_back({{"id", i.id.value}, {"name", i.name}, {"kind", i.kind}, {"hired", i.hire.has_value()}});
  }
  return out;
}

json operators_json(const farm::Farm& farm) {
  json out = json::array();
  for (const auto& o : farm.operators) out.push_back({{"id", o.id.value}, {"name", o.name}});
  return out;
}

json burning_json(const farm::Farm& farm) {
  if (!farm.burning) return nullptr;
  json rules = json::array();
  for (const auto& r : farm.burning->rules) {
    rules.push_back({{"name", r.name},
                     {"of", r.of},
                     {"value", r.value},
                     {"unit", r.unit},
                     {"comparison", r.comparison},
                     {"weight", r.weight},
                     {"source", r.source},
                     {"as_of", r.as_of ? json(iso(*r.as_of)) : json(nullptr)},
                     {"checked", r.checked}});
  }
  return {{"jurisdiction", farm.burning->name},
          {"authority", farm.burning->authority},
          {"burn_day_chance", rounded(farm.burning->burn_day_chance, 4)},
          {"rules", rules}};
}

json water_json(const farm::Farm& farm, const plan::YearRun& run) {
  json out = json::array();
  for (const auto& w : run.water) {
    out.push_back({{"field", farm.fields.at(static_cast<std::size_t>(w.field)).id.value},
                   {"date", iso(farm.season.date(w.day))},
                   {"m3", rounded(w.m3, 2)}});
  }
  return out;
}

json resources_json(const farm::Farm& farm, const plan::Plan& p) {
  json out = json::array();
  for (const auto& r : p.resources) {
    json weeks = json::array();
    for (const auto& w : r.weeks) {
      weeks.push_back({{"start", iso(farm.season.date(w.first_day))},
                       {"used_h", rounded(w.used_h, 2)},
                       {"available_h", rounded(w.available_h, 2)}});
    }
    out.push_back(
        {{"id", r.id}, {"kind", r.kind}, {"weeks", weeks}, {"one_more_worth", hour_worth_json(p, r)}});
  }
  return out;
}

json objective_json(const farm::Farm& farm, const plan::Plan& p) {
  json bound = nullptr, gap = nullptr, percent = nullptr;
  if (p.bound_cents) {
    const std::int64_t between = p.cost_cents - *p.bound_cents;
    bound = money(*p.bound_cents);
    gap = money(between);
    if (p.cost_cents != 0)
      percent =
          rounded(100.0 * static_cast<double>(between) / std::abs(static_cast<double>(p.cost_cents)), 2);
  }
  const double per_ha = static_cast<double>(p.cost_cents) / 100.0 / total_area_ha(farm);
  return {{"currency", farm.currency},
          {"plan", money(p.cost_cents)},
          {"full", money(p.full_cost_cents)},
          {"plan_per_ha", rounded(per_ha, 2)},
          {"bound", bound},
          {"gap", gap},
          {"gap_percent", percent}};
}

json cautions_json(const farm::Farm& farm, const plan::Plan& p) {
  json out = json::array();
  for (const auto& c : p.cautions) {
    out.push_back(
        {{"about", c.about}, {"text", c.text}, {"source", c.source}, {"fields", ids_of(farm, c.fields)}});
  }
  return out;
}

json troubles_json(const farm::Farm& farm, const plan::Plan& p) {
  json out = json::array();
  for (const auto& t : p.troubles) {
    out.push_back({{"name", t.name}, {"text", t.text}, {"fields", ids_of(farm, t.fields)}});
  }
  return out;
}

json audit_json(const audit::Audit& audit) {
  json listed = json::array();
  for (const auto& v : audit.violations) {
    listed.push_back({{"rule", v.rule}, {"where", v.where}, {"found", v.found}, {"expected", v.expected}});
  }
  return {{"ok", audit.ok()}, {"count", audit.count}, {"checks", audit.checks}, {"violations", listed}};
}

json policy_json(const farm::Farm& farm, const plan::Plan& p) {
  json triggers = json::array();
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const int m = p.decision.method.at(f);
    if (m == plan::none) continue;
    const json fall_back = fall_back_json(farm, m);
    if (fall_back.is_null()) continue;
    json entry{{"field", farm.fields[f].id.value}};
    entry.update(fall_back);
    triggers.push_back(entry);
  }
  return {{"autumn", ids_of(farm, p.decision.autumn_order)},
          {"spring", ids_of(farm, p.decision.spring_order)},
          {"triggers", triggers}};
}

json workable_json(const farm::Farm& farm, const plan::Plan& p) {
  json out = json::array();
  for (std::size_t f = 0; f < p.workable_chance.size(); ++f) {
    json chance = json::array();
    for (const double c : p.workable_chance[f]) chance.push_back(rounded(c, 4));
    out.push_back({{"field", farm.fields.at(f).id.value}, {"chance", chance}});
  }
  return out;
}

void add_names(json& out, const farm::Problem& problem, const plan::Plan& p) {
  out["schema"] = "aftercut-plan-1";
  out["version"] = p.version;
  out["seed"] = p.seed;
  out["inputs"] = inputs_json(problem.farm);
  out["farm"] = farm_json(problem, p);
  out["weather"] = weather_json(p);
  out["methods"] = methods_json(problem.farm.book);
  out["operations"] = operations_json(problem.farm.book);
  out["machines"] = machines_json(problem.farm);
  out["operators"] = operators_json(problem.farm);
  out["burning"] = burning_json(problem.farm);
  out["environment"] = environment_settings_json(problem.farm);
}

void add_rest(json& out, const farm::Farm& farm, const plan::Plan& p, const audit::Audit& audit) {
  out["fall_backs"] = fall_back_tests_json(farm, p);
  out["dates_to_keep"] = dates_to_keep_json(farm, p);
  out["cash"] = cash_json(p);
  out["resources"] = resources_json(farm, p);
  out["one_more_worth"] = one_more_json(farm, p);
  out["objective"] = objective_json(farm, p);
  out["cautions"] = cautions_json(farm, p);
  out["troubles"] = troubles_json(farm, p);
  out["audit"] = audit_json(audit);
  out["target"] = target_json(farm, p);
  out["policy"] = policy_json(farm, p);
  out["workable"] = workable_json(farm, p);
  out["evaluations"] = p.evaluations;
  out["layers"] = {"fields.geojson", "fields.gpkg"};
}

}  // namespace

std::string plan_json(const farm::Problem& problem, const plan::PlannedYears& planned,
                      const audit::Audit& audit) {
  const plan::YearRun& shown = run_of(planned, planned.plan.schedule_year);
  json out;
  add_names(out, problem, planned.plan);
  out["fields"] = fields_json(problem, planned);
  out["schedule_year"] = planned.plan.schedule_year;
  out["schedule"] = schedule_json(problem.farm, shown);
  out["water"] = water_json(problem.farm, shown);
  add_rest(out, problem.farm, planned.plan, audit);
  if (const auto state = journal::state_of(problem))
    out["so_far"] = so_far_json(problem, *state, planned.plan.doubts);
  if (planned.plan.again) out["again"] = again_json(problem.farm, *planned.plan.again);
  return out.dump(1) + "\n";
}

}  // namespace aftercut::report
