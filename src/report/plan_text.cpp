#include "plan_text.hpp"

#include <nlohmann/json.hpp>
#include <set>

#include "aftercut/plan/decision.hpp"
#include "plan_schema.hpp"

namespace aftercut::report::sheets {
namespace {

using Json = nlohmann::json;

/// Reads what the schema has vouched for; gathers days that do not exist.
struct PlanReader {
  Issues issues;

  Date date(const Json& value, const std::string& place) {
    const auto found = parse_iso_date(value.get_ref<const std::string&>().substr(0, 10));
    if (!found)
      issues.push_back(
          {"plan.json", place, value.get<std::string>(), "a day of the calendar", "write the plan again"});
    return found.value_or(Date{});
  }
  std::optional<Date> maybe_date(const Json& value, const std::string& place) {
    return value.is_null() ? std::nullopt : std::optional<Date>{date(value, place)};
  }
  Days days(const Json& j, const std::string& place) {
    return {date(j.at("p10"), place), date(j.at("p50"), place), date(j.at("p90"), place)};
  }
  Job job(const Json& j, const std::string& place) {
    return {.operation = j.at("operation"),
            .step = j.at("step"),
            .pass = j.at("pass"),
            .fell_back = j.at("fell_back"),
            .years_done = j.at("years_done"),
            .years = j.at("years"),
            .first = days(j.at("first"), place + ".first"),
            .last = days(j.at("last"), place + ".last")};
  }
};

template <class T>
std::optional<T> maybe(const Json& value) {
  return value.is_null() ? std::nullopt : std::optional<T>{value.get<T>()};
}

FallBack read_fall_back(PlanReader& r, const Json& j, const std::string& place) {
  return {.kind = j.at("kind"),
          .trigger = j.at("trigger"),
          .instead = j.at("instead"),
          .method = maybe<std::string>(j.at("method")),
          .start_by = r.maybe_date(j.at("start_by"), place + ".start_by"),
          .method_start_by = r.maybe_date(j.at("method_start_by"), place + ".method_start_by"),
          .chance_taken = j.at("chance_taken")};
}

double number_or_0(const Json& j, const char* key) { return j.contains(key) ? j.at(key).get<double>() : 0.0; }

Outcome read_outcome(PlanReader& r, const Json& j, const std::string& place) {
  Outcome o{.id = j.at("id"),
            .possible = j.at("possible"),
            .why_not = j.at("why_not"),
            .ready = {},
            .last_start = {}};
  if (!o.possible) return o;
  o.cost = number_or_0(j, "cost");
  o.cost_per_ha = number_or_0(j, "cost_per_ha");
  o.labour_h = number_or_0(j, "labour_h");
  o.fuel_l = number_or_0(j, "fuel_l");
  o.water_m3 = number_or_0(j, "water_m3");
  o.chance_ready = number_or_0(j, "chance_ready");
  if (j.contains("straw_left_kg_per_ha")) o.straw_left = j["straw_left_kg_per_ha"].at("p50");
  if (j.contains("ready")) o.ready = maybe<std::string>(j["ready"].at("p50"));
  if (j.contains("last_safe_start"))
    o.last_start = r.maybe_date(j["last_safe_start"], place + ".last_safe_start");
  if (j.contains("environment")) {
    const Json& air = j["environment"].at("co2e_kg_per_ha").at("all");
    o.co2e = air.at("mean"), o.co2e_low = air.at("low"), o.co2e_high = air.at("high");
  }
  return o;
}

void read_chosen(PlanReader& r, const Json& c, const std::string& place, Field& f) {
  f.method = maybe<std::string>(c.at("method"));
  f.lay = c.at("lay");
  f.chopper = c.at("chopper");
  f.cut_height_cm = c.at("cut_height_cm");
  f.because = c.at("because").get<std::vector<std::string>>();
  f.locked = c.at("locked");
  f.toss_up = !c.at("toss_up_with").is_null();
  if (const Json& first = c.at("fallback"); !first.is_null())
    f.hangs_on.push_back(read_fall_back(r, first, place + ".fallback"));
  for (const Json& more : c.at("more_fallbacks"))
    f.hangs_on.push_back(read_fall_back(r, more, place + ".more_fallbacks"));
  if (const Json& next = c.at("next_best"); !next.is_null()) {
    f.next_best = next.at("method").get<std::string>();
    f.next_best_saves_per_ha = next.at("saves_per_ha");
    for (const Json& d : next.at("decides")) f.decides.push_back(d.at("text"));
  }
}

Field read_field(PlanReader& r, const Json& j, const std::string& place) {
  const Json& straw = j.at("straw");
  Field f{.id = j.at("id"),
          .name = j.at("name"),
          .soil = j.at("soil"),
          .next_use = j.at("next_use"),
          .lay = {},
          .area_ha = j.at("area_ha"),
          .load = straw.at("load_kg_per_ha"),
          .standing = straw.at("standing_kg_per_ha"),
          .loose = straw.at("loose_kg_per_ha"),
          .cut = j.at("cut"),
          .harvest = r.date(j.at("harvest"), place + ".harvest"),
          .planting = r.maybe_date(j.at("planting_date"), place + ".planting_date"),
          .cut_off = r.maybe_date(j.at("cut_off"), place + ".cut_off"),
          .method = {},
          .next_best = {},
          .because = {},
          .decides = {},
          .history = {},
          .hangs_on = {},
          .jobs = {},
          .methods = {},
          .rut_chance = maybe<double>(j.at("rut_chance")),
          .unplanted_chance = maybe<double>(j.at("unplanted_chance"))};
  read_chosen(r, j.at("chosen"), place + ".chosen", f);
  if (j.contains("history"))
    for (const Json& past : j.at("history")) f.history.push_back(past.at("words"));
  for (const Json& job : j.at("jobs")) f.jobs.push_back(r.job(job, place + ".jobs"));
  for (const Json& m : j.at("methods")) f.methods.push_back(read_outcome(r, m, place + ".methods"));
  return f;
}

Row read_row(PlanReader& r, const Json& j) {
  return {.field = j.at("field"),
          .operation = j.at("operation"),
          .fell_back = j.at("fell_back"),
          .stands_by = j.at("stands_by"),
          .step = j.at("step"),
          .pass = j.at("pass"),
          .machine = maybe<std::string>(j.at("machine")),
          .tractor = maybe<std::string>(j.at("tractor")),
          .operators = j.at("operators").get<std::vector<std::string>>(),
          .day = r.date(j.at("start"), "schedule"),
          .start = j.at("start").get<std::string>().substr(11),
          .end = j.at("end").get<std::string>().substr(11),
          .area_ha = j.at("area_ha")};
}

void read_names(const Json& root, Plan& p) {
  for (const Json& m : root.at("methods"))
    p.methods[m.at("id")] = {m.at("name"), m.at("summary"), m.at("water"), m.at("bales"), m.at("burns")};
  for (const Json& o : root.at("operations"))
    p.operations[o.at("id")] = {o.at("name"), o.at("implement"), o.at("water"), o.at("tillage"),
                                o.at("burning")};
  for (const Json& m : root.at("machines")) p.machines[m.at("id")] = m.at("name");
  for (const Json& o : root.at("operators")) {
    p.operators[o.at("id")] = o.at("name");
    p.operator_ids.push_back(o.at("id"));
  }
  if (const Json& b = root.at("burning"); !b.is_null()) p.authority = b.at("authority").get<std::string>();
}

void read_dates_and_money(PlanReader& r, const Json& root, Plan& p) {
  for (const Json& d : root.at("dates_to_keep"))
    p.dates.push_back({r.date(d.at("by"), "dates_to_keep"), d.at("what"), d.at("why"),
                       maybe<std::string>(d.at("source")), d.at("fields"), d.at("worked_out")});
  for (const plan::CostPart& part : plan::cost_parts)
    if (part.of != &plan::CostParts::ownership && part.of != &plan::CostParts::own_labour)
      p.cash_parts.emplace_back(part.key);
  for (const Json& c : root.at("cash")) {
    Month month{
        .month = c.at("month"), .parts = {}, .sum = c.at("sum"), .p10 = c.at("p10"), .p90 = c.at("p90")};
    for (const std::string& part : p.cash_parts) month.parts.push_back(c.at("parts").at(part));
    p.cash.push_back(std::move(month));
  }
  const Json& o = root.at("objective");
  p.cost = o.at("plan"), p.full_cost = o.at("full");
  p.bound = maybe<double>(o.at("bound")), p.gap = maybe<double>(o.at("gap"));
  p.gap_percent = maybe<double>(o.at("gap_percent"));
  if (root.at("one_more_worth").is_null()) return;
  p.one_more.emplace();
  for (const Json& t : root.at("one_more_worth").at("things"))
    p.one_more->push_back({t.at("kind"), t.at("unit"), maybe<std::string>(t.at("id")), t.at("more"),
                           t.at("worth"), t.at("standard_error"), t.at("told")});
}

Plan read_all(PlanReader& r, const Json& root) {
  Plan p;
  const Json& farm = root.at("farm");
  p.farm = farm.at("name"), p.currency = farm.at("currency"), p.us = farm.at("units") == "us";
  p.as_of = r.date(farm.at("as_of"), "farm.as_of");
  p.forecast_until = r.maybe_date(farm.at("forecast_until"), "farm.forecast_until");
  p.weather_years = static_cast<int>(root.at("weather").at("years").size());
  p.schedule_year = root.at("schedule_year");
  read_names(root, p);
  std::set<std::string> seen;
  for (std::size_t k = 0; k < root.at("fields").size(); ++k) {
    const std::string place = "fields[" + std::to_string(k) + "]";
    p.fields.push_back(read_field(r, root["fields"][k], place));
    if (!seen.insert(p.fields.back().id).second)
      r.issues.push_back({"plan.json", place + ".id", p.fields.back().id + " a second time",
                          "each field once", "write the plan again"});
  }
  for (const Json& j : root.at("schedule")) p.schedule.push_back(read_row(r, j));
  for (const Json& w : root.at("water"))
    p.water.push_back({w.at("field"), r.date(w.at("date"), "water"), w.at("m3")});
  read_dates_and_money(r, root, p);
  for (const Json& c : root.at("cautions"))
    p.cautions.push_back({c.at("about"), c.at("text"), c.at("source"), c.at("fields")});
  p.audit_ok = root.at("audit").at("ok");
  return p;
}

}  // namespace

Result<Plan> read_plan_text(const std::string& plan_json) {
  Json root;
  try {
    root = Json::parse(plan_json);
  } catch (const Json::parse_error& e) {
    return Issues{{"plan.json", "whole file", e.what(), "a JSON text", "write the plan again"}};
  }
  const Issues departures = departures_of(root);
  if (!departures.empty()) return departures;
  PlanReader reader;
  Plan plan = read_all(reader, root);
  if (!reader.issues.empty()) return reader.issues;
  return plan;
}

}  // namespace aftercut::report::sheets
