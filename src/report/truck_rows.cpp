#include "truck_rows.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/week.hpp"
#include "parts.hpp"

namespace aftercut::report::sheets {
namespace {

/// How the words of a row are made.
struct Style {
  bool brief = false;
  std::string when(const When& w) const {
    if (!brief) return short_when(w, en);
    const std::string mark = w.to_the_day ? "" : "wk ", to = aftercut::day_words(w.to);
    if (w.from == w.to) return mark + to;
    const bool same_month = month_of(w.from) == month_of(w.to) && year_of(w.from) == year_of(w.to);
    return mark + (same_month ? fmt::format("{}", day_of_month(w.from)) : aftercut::day_words(w.from)) + "–" +
           to;
  }
  static std::string in_brief(std::string words) {
    for (const std::string& long_words : {std::string{"weeks of "}, std::string{"week of "}})
      if (const auto at = words.find(long_words); at != std::string::npos)
        words.replace(at, long_words.size(), "wk ");
    return words;
  }
};

/// Jobs of the field's own method that set boards or let water in or out.
void add_water_job(const Plan& plan, const Field& f, const char* kind, const char* words, Style style,
                   std::vector<std::string>& out) {
  for (const Job& j : f.jobs) {
    const auto op = plan.operations.find(j.operation);
    if (j.fell_back || op == plan.operations.end() || op->second.water != kind) continue;
    out.push_back(fmt::format("{} {}", words, style.when(when_of(j, plan.forecast_until))));
    return;
  }
}

std::string water_day(const Plan& plan, Date day, Style style) {
  const bool known = plan.forecast_until && day <= *plan.forecast_until;
  return known ? aftercut::day_words(day) : style.brief ? Style::in_brief(week_words(day)) : week_words(day);
}

std::vector<std::string> water_of(const Plan& plan, const Field& f, Style style) {
  std::vector<std::string> out;
  const Method* m = chosen_method(plan, f);
  if (m == nullptr || m->water == "none") return out;
  add_water_job(plan, f, "boards_in", style.brief ? "in" : "boards in:", style, out);
  std::vector<Date> days;
  for (const WaterDay& w : plan.water)
    if (w.field == f.id) days.push_back(w.day);
  if (!days.empty()) {
    const auto [first, last] = std::minmax_element(days.begin(), days.end());
    const std::string from = water_day(plan, *first, style), to = water_day(plan, *last, style);
    if (style.brief && !out.empty() && out.back() == "in " + from)
      out.back() = "in, water " + from;
    else
      out.push_back((style.brief ? "water " : "water on: ") + from);
    if (to != from && !style.brief) out.push_back("last water: " + to);
  } else if (m->water == "canal") {
    if (!style.brief) out.emplace_back("water on: none in the year shown");
  }
  add_water_job(plan, f, "boards_out", style.brief ? "out" : "boards out:", style, out);
  return out;
}

std::vector<std::string> keep_out_of(const Plan& plan, const Field& f) {
  std::vector<std::string> out;
  const Method* m = chosen_method(plan, f);
  if (m == nullptr) return out;
  if (m->water != "none") out.emplace_back("flooded ground, soaked levees");
  if (m->burns) out.push_back("smoke; ask " + plan.authority.value_or("the authority") + " first");
  if (m->bales) out.emplace_back("stacks: 10 m off, no fire");
  return out;
}

std::string amount_words(const Plan& plan, const Worth& w) {
  if (w.unit == "ha") return area_words(plan, w.more);
  if (w.unit == "m3/s") return fmt::format("{:.2f} m³/s", w.more);
  if (w.unit == "h") return with_thousands(w.more) + " h";
  return fmt::format("{} {}", with_thousands(w.more), w.unit == "day" ? "days" : w.unit);
}

std::string thing_name(const Plan& plan, const Worth& w) {
  if (w.kind == "burn_day_area") return "burn area of a day";
  if (w.kind == "burn_season_area") return "burn area of the season";
  if (w.kind == "canal_flow") return "canal flow";
  if (!w.id) return w.kind;
  if (w.kind == "operator") return operator_name(plan, *w.id);
  return machine_name(plan, *w.id) + (w.kind == "hired_days" ? ", days" : "");
}

std::string air_words(const Plan& plan) {
  double mean = 0.0, low = 0.0, high = 0.0;
  for (const Field& f : plan.fields)
    if (const Outcome* o = chosen_outcome(f)) {
      mean += o->co2e * f.area_ha;
      low += o->co2e_low * f.area_ha;
      high += o->co2e_high * f.area_ha;
    }
  return fmt::format(
      "Greenhouse gas of all fields with the next crop's methane: about {} t CO2e; by the sources it could "
      "be "
      "{} to {} t.",
      with_thousands(mean / 1000.0), with_thousands(low / 1000.0), with_thousands(high / 1000.0));
}

std::string gap_words(const Plan& plan) {
  if (!plan.bound || !plan.gap)
    return "No bound was worked out: how far from the cheapest this plan is is not known.";
  const std::string percent = plan.gap_percent ? fmt::format(" ({:.1f} %)", *plan.gap_percent) : "";
  return fmt::format(
      "No plan for this farm can cost less than {}. This one is {}{} above that; how much of it could be "
      "saved is not known.",
      money_words(plan, *plan.bound), money_words(plan, *plan.gap), percent);
}

}  // namespace

std::optional<Date> start_by_of(const FallBack& f) {
  if (f.start_by && f.method_start_by) return std::min(*f.start_by, *f.method_start_by);
  return f.start_by;
}

std::string fall_back_words(const Plan& plan, const FallBack& f) {
  const auto day = start_by_of(f);
  const std::string then = f.method ? method_name(plan, f.method, en) : f.instead;
  const std::string start = day ? "by the " + week_words(*day) : std::string{"at once"};
  return fmt::format("{}, if {}: {}", start, f.trigger, then);
}

namespace {

TruckRow row_for(const Plan& plan, const Field& f, Style style) {
  TruckRow r{.field = field_label(f),
             .area = area_words(plan, f.area_ha),
             .method = method_name(plan, f.method, en),
             .job = {},
             .when = {},
             .who = {},
             .instead = {},
             .water = water_of(plan, f, style),
             .keep_out = {}};
  if (const Job* j = next_job(f)) {
    r.job = operation_name(plan, j->operation, en);
    r.when = style.when(when_of(*j, plan.forecast_until));
    r.who = who_with(plan, row_of(plan, f, *j));
  }
  return r;
}

/// A letter for each thing that may not come, in the order in which they are met.
struct Letters {
  std::vector<std::string> triggers;

  std::string of(const std::string& trigger) {
    auto at = std::ranges::find(triggers, trigger);
    if (at == triggers.end()) at = triggers.insert(triggers.end(), trigger);
    return name(static_cast<std::size_t>(at - triggers.begin()));
  }
  static std::string name(std::size_t k) {
    return k < 26 ? std::string(1, static_cast<char>('a' + k)) : fmt::format("a{}", k - 25);
  }
};

}  // namespace

std::vector<TruckRow> truck_rows(const Plan& plan) {
  std::vector<TruckRow> rows;
  for (const Field& f : plan.fields) {
    TruckRow r = row_for(plan, f, {});
    r.keep_out = keep_out_of(plan, f);
    for (const FallBack& b : f.hangs_on) r.instead.push_back(fall_back_words(plan, b));
    rows.push_back(std::move(r));
  }
  return rows;
}

BriefRows brief_truck_rows(const Plan& plan) {
  BriefRows out;
  Letters letters;
  bool flooded = false, smoke = false, stacks = false;
  for (const Field& f : plan.fields) {
    TruckRow r = row_for(plan, f, {.brief = true});
    for (const FallBack& b : f.hangs_on) {
      const auto day = start_by_of(b);
      const std::string letter = letters.of(b.method ? b.trigger : b.trigger + " → " + b.instead);
      r.instead.push_back((day ? Style::in_brief(week_words(*day)) : "at once") + ", if " + letter +
                          (b.method ? ": " + method_name(plan, b.method, en) : ""));
    }
    if (const Method* m = chosen_method(plan, f)) {
      if (m->water != "none") r.keep_out.emplace_back("flooded"), flooded = true;
      if (m->burns) r.keep_out.emplace_back("smoke"), smoke = true;
      if (m->bales) r.keep_out.emplace_back("stacks"), stacks = true;
    }
    out.rows.push_back(std::move(r));
  }
  for (std::size_t k = 0; k < letters.triggers.size(); ++k)
    out.legend.push_back(Letters::name(k) + ": " + letters.triggers[k]);
  out.legend.emplace_back("wk: the week that begins on that Monday");
  if (flooded) out.legend.emplace_back("flooded: no lone work, no machine on soaked levees");
  if (smoke)
    out.legend.push_back("smoke: ask " + plan.authority.value_or("the authority") + " before each burn");
  if (stacks) out.legend.emplace_back("stacks: 10 m off, no fire");
  return out;
}

std::string plan_day_words(const Plan& plan) {
  const std::string head = "Plan of " + full_date(plan.as_of, en) + ". ";
  if (!plan.forecast_until || *plan.forecast_until < plan.as_of)
    return head + "No forecast: work has its order and weeks, no days.";
  return head + "Forecast until " + full_date(*plan.forecast_until, en) + "; later work has weeks, no days.";
}

std::vector<std::string> truck_back(const Plan& plan) {
  return {fmt::format(
              "Cost of the plan: {} out of pocket, mean of {} weather years; {} with own machines and own "
              "hours.",
              money_words(plan, plan.cost), plan.weather_years, money_words(plan, plan.full_cost)),
          gap_words(plan), air_words(plan)};
}

std::vector<std::vector<std::string>> worth_rows(const Plan& plan) {
  std::vector<const Worth*> told;
  if (plan.one_more)
    for (const Worth& w : *plan.one_more)
      if (w.told) told.push_back(&w);
  std::stable_sort(told.begin(), told.end(),
                   [](const auto* a, const auto* b) { return a->worth > b->worth; });
  std::vector<std::vector<std::string>> rows;
  for (const Worth* w : told)
    rows.push_back({thing_name(plan, *w), amount_words(plan, *w), money_words(plan, w->worth),
                    money_words(plan, w->error)});
  return rows;
}

std::string no_worth_words(const Plan& plan) {
  return plan.one_more ? "A tenth more of any machine, person or limit: nothing that can be told from chance."
                       : "What one more machine, person or limit would be worth was not worked out.";
}

}  // namespace aftercut::report::sheets
