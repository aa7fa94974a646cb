// Fields and their methods as JSON.

#include <algorithm>

#include "aftercut/core/require.hpp"
#include "aftercut/machinery/capacity.hpp"
#include "parts.hpp"
#include "reasons.hpp"
#include "variation.hpp"

namespace aftercut::report {
namespace {

json cost_parts_json(const plan::CostParts& c) {
  json out = json::object();
  for (const plan::CostPart& part : plan::cost_parts) out[part.key] = money(c.*part.of);
  return out;
}

json emissions_json(const burn::Emissions& e) {
  return {{"ch4", rounded(e.ch4_kg, 3)},   {"n2o", rounded(e.n2o_kg, 3)},
          {"pm25", rounded(e.pm25_kg, 3)}, {"co", rounded(e.co_kg, 3)},
          {"nox", rounded(e.nox_kg, 3)},   {"co2_diesel", rounded(e.co2_diesel_kg, 1)},
          {"co2e", rounded(e.co2e_kg, 1)}};
}

json machine_hours_json(const plan::MethodOutcome& m) {
  json hours = json::object();
  for (const auto& [id, h] : m.machine_hours) hours[id] = rounded(h, 2);
  return hours;
}

void add_money(json& out, const plan::MethodOutcome& m, const farm::Field& field) {
  const double area = field.area.value();
  require(area > 0.0, "a field has an area");
  out["cost_per_ha"] = rounded(static_cast<double>(m.mean_cost.out_of_pocket()) / 100.0 / area, 2);
  out["cost"] = money(m.mean_cost.out_of_pocket());
  out["full_cost"] = money(m.mean_cost.full());
  out["farm_cost"] = money(m.farm_cost);
  out["cost_parts"] = cost_parts_json(m.mean_cost);
}

void add_figures(json& out, const plan::MethodOutcome& m, const farm::Farm& farm, const farm::Field& field) {
  out["machine_h"] = rounded(m.machine_h, 2);
  out["machine_h_typical"] = rounded(m.machine_h_typical, 2);
  out["machine_hours"] = machine_hours_json(m);
  out["labour_h"] = rounded(m.labour_h, 2);
  out["fuel_l"] = rounded(m.fuel_l, 2);
  out["fuel_band_l"] = {{"low", rounded((1.0 - machinery::fuel_band) * m.fuel_l, 2)},
                        {"high", rounded((1.0 + machinery::fuel_band) * m.fuel_l, 2)}};
  out["water_m3"] = rounded(m.water_m3, 2);
  const plan::Spread& left = m.straw_left_kg_per_ha;
  out["straw_left_kg_per_ha"] = {
      {"p10", rounded(left.p10, 1)}, {"p50", rounded(left.p50, 1)}, {"p90", rounded(left.p90, 1)}};
  out["ready"] = {{"p10", ready_json(farm, field, m.ready.p10)},
                  {"p50", ready_json(farm, field, m.ready.p50)},
                  {"p90", ready_json(farm, field, m.ready.p90)}};
  out["chance_ready"] = rounded(m.chance_ready, 4);
  out["last_safe_start"] =
      m.last_safe_start ? json(iso(farm.season.date(*m.last_safe_start))) : json(nullptr);
  out["removed_kg_per_ha"] = {
      {"n", rounded(m.removed_n, 1)}, {"p", rounded(m.removed_p, 1)}, {"k", rounded(m.removed_k, 1)}};
  out["emissions_kg"] = emissions_json(m.emissions);
  if (m.bales)
    out["bales"] = {{"p10", rounded(m.bales->bales.p10, 1)},
                    {"p50", rounded(m.bales->bales.p50, 1)},
                    {"p90", rounded(m.bales->bales.p90, 1)},
                    {"loads", rounded(m.bales->loads, 0)},
                    {"twine_m", rounded(m.bales->twine_m, 0)}};
  out["environment"] = environment_json(m.environment, field.area.value());
}

json method_json(const plan::MethodOutcome& m, const farm::Farm& farm, const farm::Field& field) {
  json out{{"id", farm.book.recipes.at(static_cast<std::size_t>(m.method)).id.value},
           {"possible", m.possible},
           {"why_not", m.why_not}};
  if (m.possible) {
    add_money(out, m, field);
    add_figures(out, m, farm, field);
  }
  out["notes"] = m.notes;
  return out;
}

json chosen_json(const plan::Plan& plan, std::size_t f, const farm::Farm& farm) {
  const plan::Chosen& c = plan.fields.at(f).chosen;
  const bool some = c.method != plan::none;
  json out{{"method",
            some ? json(farm.book.recipes.at(static_cast<std::size_t>(c.method)).id.value) : json(nullptr)},
           {"lay", words(c.lay)},
           {"chopper", c.chopper},
           {"cut_height_cm", rounded(c.cut_height_cm, 1)},
           {"fixed", c.lay_fixed},
           {"because", c.because},
           {"locked", c.locked},
           {"fallback", chosen_fall_back_json(farm, plan, f)},
           {"more_fallbacks", more_fall_backs_json(farm, plan, f)}};
  add_reasons(out, c, farm, farm.fields.at(f));
  return out;
}

json marks_json(const farm::Calendar& season, const plan::DayMarks& d) {
  return {
      {"p10", iso(season.date(d.p10))}, {"p50", iso(season.date(d.p50))}, {"p90", iso(season.date(d.p90))}};
}

json jobs_json(const std::vector<plan::Job>& jobs, const farm::Farm& farm, std::size_t years) {
  json out = json::array();
  for (const plan::Job& j : jobs)
    out.push_back({{"operation", farm.book.operations.at(static_cast<std::size_t>(j.operation)).id.value},
                   {"step", j.step},
                   {"pass", j.pass},
                   {"fell_back", j.fell_back},
                   {"years_done", j.years_done},
                   {"years", years},
                   {"first", marks_json(farm.season, j.first)},
                   {"last", marks_json(farm.season, j.last)}});
  return out;
}

json straw_json(const plan::FieldPlan& p, const farm::Farm& farm, std::size_t f) {
  return {{"load_kg_per_ha", rounded(p.load_kg_per_ha, 1)},
          {"standing_kg_per_ha", rounded(p.standing_kg_per_ha, 1)},
          {"loose_kg_per_ha", rounded(p.loose_kg_per_ha, 1)},
          {"laid", words(p.chosen.lay)},
          {"cut_height_cm", rounded(p.chosen.cut_height_cm, 1)},
          {"load_given", farm.fields.at(f).load_given},
          {"variation", variation_json(farm, f)}};
}

// Share of the shown years in which a seedbed was due and did not come by the cut-off; null where none is
// due.
json unplanted_chance(const farm::Field& field, std::size_t f, const plan::PlannedYears& planned) {
  if (!farm::seedbed_due(field) || planned.plan.shown_years.empty()) return nullptr;
  std::size_t missed = 0;
  for (const int year : planned.plan.shown_years) {
    const plan::Status s = run_of(planned, year).fields.at(f).status;
    if (s == plan::Status::unplanted || s == plan::Status::no_method) ++missed;
  }
  return rounded(static_cast<double>(missed) / static_cast<double>(planned.plan.shown_years.size()), 4);
}

const char* next_use(farm::NextUseKind kind) {
  switch (kind) {
    case farm::NextUseKind::rice:
      return "rice";
    case farm::NextUseKind::fallow:
      return "fallow";
    case farm::NextUseKind::other:
      return "other";
  }
  fail("unknown next use");
}

/// "2026: bale; burned; 9,280 kg/ha; ready 14 Apr"
std::string past_words(const farm::Farm& farm, const farm::PastSeason& past) {
  const auto& recipes = farm.book.recipes;
  const auto known = std::ranges::find(recipes, past.method, [](const auto& r) { return r.id.value; });
  std::string out = fmt::format("{}: {}", past.year,
                                known != recipes.end() ? known->name
                                : past.method.empty()  ? "method not known"
                                                       : past.method);
  if (past.burned) out += "; burned";
  if (past.grain) {
    const Units& u = units_of(farm);
    out += fmt::format("; {} {}", with_thousands(past.grain->value() * u.mass_per_kg_ha), u.mass_per_area);
  }
  if (past.ready) out += "; ready " + short_date(*past.ready);
  return out;
}

json history_json(const farm::Farm& farm, const farm::Field& field) {
  json out = json::array();
  for (const farm::PastSeason& past : field.history)
    out.push_back({{"season", past.year},
                   {"method", past.method.empty() ? json(nullptr) : json(past.method)},
                   {"burned", past.burned},
                   {"yield_kg_per_ha", past.grain ? json(rounded(past.grain->value(), 1)) : json(nullptr)},
                   {"ready", past.ready ? json(iso(*past.ready)) : json(nullptr)},
                   {"words", past_words(farm, past)}});
  return out;
}

json field_json(const farm::Problem& problem, std::size_t f, const plan::PlannedYears& planned) {
  const farm::Farm& farm = problem.farm;
  const farm::Field& field = farm.fields.at(f);
  const plan::FieldPlan& p = planned.plan.fields.at(f);
  const bool due = farm::seedbed_due(field);
  json methods = json::array();
  for (const auto& m : p.methods) methods.push_back(method_json(m, farm, field));
  json out{
      {"id", field.id.value},
      {"name", field.name},
      {"area_ha", rounded(field.area.value(), 4)},
      {"invented_shape", field.invented_shape},
      {"soil", farm.soils.at(field.soil).input.name},
      {"next_use", next_use(field.next.kind)},
      {"cut", field.cut},
      {"harvest", iso(field.harvest)},
      {"planting_date", due ? json(iso(field.next.planting)) : json(nullptr)},
      {"cut_off", due ? json(iso(field.next.cut_off)) : json(nullptr)},
      {"straw", straw_json(p, farm, f)},
      {"methods", methods},
      {"chosen", chosen_json(planned.plan, f, farm)},
      {"jobs", jobs_json(p.jobs, farm, planned.plan.years.size())},
      {"rut_chance", field.cut ? json(nullptr) : json(rounded(p.rut_chance, 4))},
      {"hours_over_typical", rounded(farm::hours_over_typical(farm, f), 4)},
      {"disease_history", field.disease.entered ? json(rounded(field.disease.weight, 3)) : json(nullptr)},
      {"unplanted_chance", unplanted_chance(field, f, planned)},
      {"ready_days", ready_days_json(farm, field, p)},
      {"winter", winter_json(farm, field, p)}};
  if (!field.history.empty()) out["history"] = history_json(farm, field);
  return out;
}

}  // namespace

json fall_back_json(const farm::Farm& farm, int method) {
  const auto& recipe = farm.book.recipes.at(static_cast<std::size_t>(method));
  if (!recipe.fall_back) return nullptr;
  const int day = farm.season.day(recipe.fall_back->start_by);
  return {{"trigger", recipe.fall_back->trigger},
          {"method", recipe.fall_back->method.value},
          {"start_by", iso(farm.season.date(day))}};
}

json fields_json(const farm::Problem& problem, const plan::PlannedYears& planned) {
  require(planned.plan.fields.size() == problem.farm.fields.size(), "the plan has an entry for each field");
  json out = json::array();
  for (std::size_t f = 0; f < problem.farm.fields.size(); ++f) out.push_back(field_json(problem, f, planned));
  return out;
}

}  // namespace aftercut::report
