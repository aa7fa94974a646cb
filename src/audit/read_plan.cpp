#include <fmt/format.h>

#include <algorithm>

#include "aftercut/audit/audit.hpp"
#include "aftercut/core/mixed_files.hpp"
#include "aftercut/core/save_file.hpp"
#include "again.hpp"
#include "doubts.hpp"
#include "jobs.hpp"
#include "one_more.hpp"
#include "read_decision.hpp"
#include "read_environment.hpp"
#include "read_fall_backs.hpp"
#include "read_reasons.hpp"
#include "read_years.hpp"
#include "risk.hpp"
#include "winter.hpp"

namespace aftercut::audit {
namespace {

constexpr const char* years_file = "plan-years.jsonl";
constexpr const char* fall_back_file = "fall-back-years.jsonl";
constexpr const char* stood_file = "stood-years.jsonl";

std::vector<int> read_list(JsonIn& in, const Json& object, const char* key, const std::string& place) {
  std::vector<int> list;
  for (const Json& value : in.array(object, key, place)) {
    if (value.is_number_integer() && value.get<std::int64_t>() > 0 && value.get<std::int64_t>() < 10000) {
      list.push_back(value.get<int>());
    } else {
      in.issue(place + "." + key, value.dump(), "years", "write the plan again");
    }
  }
  return list;
}

plan::Spread read_spread(JsonIn& in, const Json& spread, const std::string& place) {
  return {in.number(spread, "p10", place), in.number(spread, "p50", place), in.number(spread, "p90", place)};
}

/// A date, or in words "not by ..."; null where nothing is due.
std::optional<int> read_ready(JsonIn& in, const Json& spread, const char* key, const std::string& place) {
  const Json& value = in.get(spread, key, place);
  const bool not_by = value.is_string() && value.get<std::string>().rfind("not by", 0) == 0;
  if (not_by || value.is_null()) return std::nullopt;
  const int day = in.day(spread, key, place, true);
  return day == plan::none ? std::nullopt : std::optional<int>{day};
}

plan::BaleCount read_bales(JsonIn& in, const Json& row, const std::string& place) {
  return {read_spread(in, row, place), in.number(row, "loads", place), in.number(row, "twine_m", place)};
}

plan::MethodOutcome read_method(JsonIn& in, const Json& row, const std::string& place) {
  plan::MethodOutcome m;
  m.method = in.index(in.get(row, "id", place), in.ids().recipes, "method", place + ".id", false);
  m.possible = in.truth(row, "possible", place);
  for (const Json& why : in.array(row, "why_not", place))
    if (why.is_string()) m.why_not.push_back(why.get<std::string>());
  if (!m.possible) return m;
  m.mean_cost = read_cost(in, in.get(row, "cost_parts", place), place + ".cost_parts", false);
  m.farm_cost = in.cents(row, "farm_cost", place);
  m.machine_h = in.number(row, "machine_h", place);
  m.labour_h = in.number(row, "labour_h", place);
  m.fuel_l = in.number(row, "fuel_l", place);
  m.water_m3 = in.number(row, "water_m3", place);
  m.straw_left_kg_per_ha =
      read_spread(in, in.get(row, "straw_left_kg_per_ha", place), place + ".straw_left_kg_per_ha");
  const Json& ready = in.get(row, "ready", place);
  const std::string where = place + ".ready";
  m.ready = {read_ready(in, ready, "p10", where), read_ready(in, ready, "p50", where),
             read_ready(in, ready, "p90", where)};
  m.chance_ready = in.number(row, "chance_ready", place);
  if (const int day = in.day(row, "last_safe_start", place, true); day != plan::none) m.last_safe_start = day;
  m.emissions = read_emissions(in, in.get(row, "emissions_kg", place), place + ".emissions_kg");
  if (row.contains("bales")) m.bales = read_bales(in, row["bales"], place + ".bales");
  m.environment = read_environment(in, in.get(row, "environment", place), place + ".environment");
  return m;
}

plan::FieldPlan read_field(JsonIn& in, const Json& row, const std::string& place, double area_ha) {
  plan::FieldPlan p;
  const Json& chosen = in.get(row, "chosen", place);
  p.chosen.method = read_chosen_method(in, chosen, place + ".chosen");
  p.chosen.locked = in.truth(chosen, "locked", place + ".chosen");
  read_reasons(in, chosen, place + ".chosen", area_ha, p.chosen);
  p.chosen.hangs_on = read_hangs_on(in, chosen, place + ".chosen");
  p.jobs = read_jobs(in, row, place);
  p.ready_days = read_ready_days(in, row, place);
  p.winter = read_winter(in, row, place);
  const Json& methods = in.array(row, "methods", place);
  const std::size_t wanted = in.farm().book.recipes.size();
  for (std::size_t k = 0; k < methods.size(); ++k) {
    const std::string where = fmt::format("{}.methods[{}]", place, k);
    p.methods.push_back(read_method(in, methods[k], where));
    if (p.methods.back().method != static_cast<int>(k))
      in.issue(where + ".id", "another method", "the methods of the book in their order",
               "write the plan again");
  }
  if (methods.size() != wanted)
    in.issue(place + ".methods", fmt::format("{} methods", methods.size()), fmt::format("{} methods", wanted),
             "write the plan again");
  return p;
}

void read_fields(JsonIn& in, const Json& root, plan::Plan& p) {
  p.fields.resize(in.farm().fields.size());
  each_field_once(in, in.array(root, "fields", "plan"), "id", "fields",
                  [&](const Json& row, std::size_t f, const std::string& place) {
                    p.fields[f] = read_field(in, row, place, in.farm().fields[f].area.value());
                  });
  for (const plan::FieldPlan& f : p.fields) p.decision.method.push_back(f.chosen.method);
}

/// Not looked for in the season: a forecast can be an old one.
std::optional<Date> read_forecast_until(JsonIn& in, const Json& farm) {
  const Json& value = in.get(farm, "forecast_until", "farm");
  const auto date = value.is_string() ? parse_iso_date(value.get<std::string>()) : std::nullopt;
  if (!date && !value.is_null())
    in.issue("farm.forecast_until", value.dump(), "a date, or null", "write the plan again");
  return date;
}

plan::Plan read_head(JsonIn& in, const Json& root) {
  plan::Plan p;
  check_schema(in, root);
  p.version = in.text(root, "version", "plan");
  const Json& seed = in.get(root, "seed", "plan");
  if (seed.is_number_unsigned() || (seed.is_number_integer() && seed.get<std::int64_t>() >= 0)) {
    p.seed = seed.get<std::uint64_t>();
  } else {
    in.issue("seed", seed.dump(), "a whole number of 0 or more", "write the plan again");
  }
  const Json& farm = in.get(root, "farm", "plan");
  p.as_of = in.farm().season.date(in.day(farm, "as_of", "farm", false));
  p.forecast_until = read_forecast_until(in, farm);
  const Json& weather = in.get(root, "weather", "plan");
  p.years = read_list(in, weather, "years", "weather");
  p.shown_years = read_list(in, weather, "shown_years", "weather");
  p.chances_in_sample = in.truth(weather, "chances_in_sample", "weather");
  const Json& policy = in.get(root, "policy", "plan");
  p.decision.autumn_order = read_field_list(in, policy, "autumn", "policy");
  p.decision.spring_order = read_field_list(in, policy, "spring", "policy");
  p.schedule_year = in.small(root, "schedule_year", "plan");
  const Json& objective = in.get(root, "objective", "plan");
  p.cost_cents = in.cents(objective, "plan", "objective");
  p.full_cost_cents = in.cents(objective, "full", "objective");
  if (objective.is_object() && objective.contains("bound") && !objective["bound"].is_null())
    p.bound_cents = in.cents(objective, "bound", "objective");
  p.wanted_chance = in.number(in.get(root, "target", "plan"), "wanted_chance", "target");
  p.fall_back_tests = read_fall_back_tests(in, root);
  p.cash = read_cash(in, root);
  p.troubles = read_troubles(in, root);
  p.one_more = read_one_more(in, root);
  p.risk = read_risk(in, root);
  p.again = read_again(in, root);
  p.doubts = read_doubts(in, root);
  return p;
}

/// "2026-10-03T07:00" of a minute of a season day; 1440 is the next day's 00:00.
std::string date_time(const farm::Farm& farm, int day, int minutes) {
  return fmt::format("{}T{:02d}:{:02d}", iso(farm.season.date(day + minutes / 1440)), minutes % 1440 / 60,
                     minutes % 60);
}

/// The row of the schedule that a stretch of the year's work should have, with the keys that both files
/// share.
Json schedule_row(const farm::Farm& farm, const plan::Work& w) {
  const auto id = [](const auto& all, int index) {
    return index == plan::none ? Json(nullptr) : Json(all[static_cast<std::size_t>(index)].id.value);
  };
  Json crew = Json::array();
  for (const int p : w.crew)
    if (p != plan::none) crew.push_back(id(farm.operators, p));
  return {{"field", id(farm.fields, w.field)},
          {"operation", id(farm.book.operations, w.operation)},
          {"fell_back", w.fell_back},
          {"step", w.step},
          {"pass", w.pass},
          {"machine", id(farm.implements, w.implement)},
          {"tractor", id(farm.tractors, w.tractor)},
          {"operators", crew},
          {"start", date_time(farm, w.day, w.start_min)},
          {"end", date_time(farm, w.day, w.end_min)},
          {"finishes", w.finishes},
          {"stands_by", w.stands_by}};
}

/// The years of the plan that stood, where there was one.
Issues read_stood_years(const std::filesystem::path& file, const farm::Problem& problem,
                        plan::PlannedYears& planned) {
  if (!planned.plan.again) return {};
  const auto text = read_file(file);
  if (!text.ok()) return text.issues();
  JsonIn in{stood_file, problem.farm};
  planned.stood_runs = read_years(in, text.value());
  return in.issues();
}

/// The schedule shown is the work of its year.
void check_schedule(JsonIn& in, const Json& root, const plan::PlannedYears& planned) {
  const Json& rows = in.array(root, "schedule", "plan");
  const auto run = std::find_if(planned.runs.begin(), planned.runs.end(),
                                [&](const plan::YearRun& r) { return r.year == planned.plan.schedule_year; });
  if (run == planned.runs.end() || !in.issues().empty())
    return;  // the audit names a schedule year that was not played
  if (rows.size() != run->work.size())
    in.issue("schedule", fmt::format("{} rows", rows.size()),
             fmt::format("the {} stretches of {} in {}", run->work.size(), run->year, years_file),
             "write the plan again");
  for (std::size_t k = 0; k < std::min(rows.size(), run->work.size()); ++k) {
    const Json wanted = schedule_row(in.farm(), run->work[k]);
    for (const auto& [key, value] : wanted.items()) {
      const Json& found = in.get(rows[k], key.c_str(), fmt::format("schedule[{}]", k));
      if (found != value)
        in.issue(fmt::format("schedule[{}].{}", k, key), found.dump(),
                 fmt::format("{} as in {}", value.dump(), years_file), "write the plan again");
    }
  }
}

}  // namespace

Result<plan::PlannedYears> read_plan(const std::filesystem::path& plan_json, const farm::Problem& problem) {
  const auto plan_text = read_file(plan_json);
  const auto years_text = read_file(plan_json.parent_path() / years_file);
  const auto fall_back_text = read_file(plan_json.parent_path() / fall_back_file);
  Issues missing = plan_text.issues();
  for (const Issue& i : years_text.issues()) missing.push_back(i);
  for (const Issue& i : fall_back_text.issues()) missing.push_back(i);
  for (const Issue& i : mixed_files(plan_json.parent_path())) missing.push_back(i);
  if (!missing.empty()) return missing;

  plan::PlannedYears planned;
  JsonIn in{plan_json.filename().string(), problem.farm};
  const Json root = in.parse(plan_text.value(), "plan");
  if (!in.issues().empty()) return in.issues();
  planned.plan = read_head(in, root);
  read_fields(in, root, planned.plan);
  JsonIn years{years_file, problem.farm};
  planned.runs = read_years(years, years_text.value());
  JsonIn fall_backs{fall_back_file, problem.farm};
  planned.fall_back_runs =
      read_fall_back_years(fall_backs, fall_back_text.value(), planned.plan.fall_back_tests.size());
  if (years.issues().empty()) check_schedule(in, root, planned);
  Issues all = in.issues();
  for (const Issue& i : read_stood_years(plan_json.parent_path() / stood_file, problem, planned))
    all.push_back(i);
  all.insert(all.end(), fall_backs.issues().begin(), fall_backs.issues().end());
  all.insert(all.end(), years.issues().begin(), years.issues().end());
  if (!all.empty()) return all;
  return planned;
}

}  // namespace aftercut::audit
