#include "aftercut/review/watch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "aftercut/farm/wishes.hpp"
#include "aftercut/journal/state.hpp"

namespace aftercut::review {
namespace {

using json = nlohmann::ordered_json;

double kept(double chance) { return std::round(chance * 1e4) / 1e4; }

json date_json(const std::optional<Date>& day) { return day ? json(iso(*day)) : json(nullptr); }

std::optional<Date> date_in(const json& at, const char* key) {
  if (at.at(key).is_null()) return std::nullopt;
  const auto day = parse_iso_date(at.at(key).get<std::string>());
  if (!day) throw json::other_error::create(501, "no day", nullptr);
  return day;
}

plan::FieldLook field_in(const json& at) {
  return {.field = at.at("field").get<std::string>(),
          .method = at.at("method").get<std::string>(),
          .chance = at.at("chance").get<double>(),
          .wanted = at.at("wanted").get<double>(),
          .last_safe_start = date_in(at, "last_safe_start"),
          .begun = at.at("begun").get<bool>(),
          .ready = date_in(at, "ready")};
}

plan::Look look_in(const std::string& line) {
  const json at = json::parse(line);
  plan::Look look;
  look.day = date_in(at, "day").value();
  for (const json& field : at.at("fields")) look.fields.push_back(field_in(field));
  return look;
}

json field_json(const plan::FieldLook& f) {
  return {{"field", f.field},
          {"method", f.method},
          {"chance", f.chance},
          {"wanted", f.wanted},
          {"last_safe_start", date_json(f.last_safe_start)},
          {"begun", f.begun},
          {"ready", date_json(f.ready)}};
}

/// Some of the method's own work is done or under way.
bool has_begun(const farm::Farm& farm, const journal::State& state, std::size_t f, int method) {
  const journal::FieldState& s = state.fields[f];
  const auto& steps = farm.book.recipes[static_cast<std::size_t>(method)].steps;
  const auto known = [&](int operation) {
    return (s.running && s.running->operation == operation) ||
           std::ranges::count(s.done, operation, &journal::Stage::operation) > 0;
  };
  return std::ranges::any_of(steps, [&](const method::Step& step) { return known(step.operation); });
}

/// Ready before the plan begins, in every year alike.
std::optional<Date> ready_since(const farm::Problem& problem, const plan::FieldPlan& p) {
  if (p.ready_days.empty()) return std::nullopt;
  const auto first = p.ready_days.front().day;
  const bool alike =
      std::ranges::all_of(p.ready_days, [&](const plan::ReadyIn& r) { return r.day == first; });
  if (!first || !alike || problem.farm.season.date(*first) >= problem.as_of) return std::nullopt;
  return problem.farm.season.date(*first);
}

}  // namespace

plan::Look look_at(const farm::Problem& problem, const plan::Plan& plan) {
  const farm::Farm& farm = problem.farm;
  const auto state = journal::state_of(problem);
  plan::Look look{problem.as_of, {}};
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    if (!farm::seedbed_due(farm.fields[f])) continue;
    plan::FieldLook l{.field = farm.fields[f].id.value, .wanted = farm::wanted_chance(farm, farm.fields[f])};
    const int method = plan.decision.method[f];
    if (method != plan::none) {
      const plan::MethodOutcome& o = plan.fields[f].methods[static_cast<std::size_t>(method)];
      l.method = farm.book.recipes[static_cast<std::size_t>(method)].id.value;
      l.chance = kept(o.chance_ready);
      if (o.last_safe_start) l.last_safe_start = farm.season.date(*o.last_safe_start);
      l.begun = state && has_begun(farm, *state, f, method);
      l.ready = ready_since(problem, plan.fields[f]);
    }
    look.fields.push_back(std::move(l));
  }
  return look;
}

std::vector<plan::Look> with(std::vector<plan::Look> looks, plan::Look look) {
  const auto at = std::ranges::lower_bound(looks, look.day, {}, &plan::Look::day);
  if (at != looks.end() && at->day == look.day)
    *at = std::move(look);
  else
    looks.insert(at, std::move(look));
  return looks;
}

const plan::Look* before(const std::vector<plan::Look>& looks, Date day) {
  const auto at = std::ranges::lower_bound(looks, day, {}, &plan::Look::day);
  return at == looks.begin() ? nullptr : &*std::prev(at);
}

Result<std::vector<plan::Look>> read_looks(const std::string& text, const std::string& file) {
  std::vector<plan::Look> looks;
  Issues issues;
  std::istringstream lines{text};
  std::string line;
  for (int n = 1; std::getline(lines, line); ++n) {
    try {
      looks.push_back(look_in(line));
    } catch (const std::exception&) {
      issues.push_back({file, fmt::format("line {}", n), line.substr(0, 60),
                        "one look at the fields, as watch writes it",
                        "delete the line; the looks of its day are lost, nothing else"});
    }
  }
  if (!issues.empty()) return issues;
  return looks;
}

std::string looks_text(const std::vector<plan::Look>& looks) {
  std::string out;
  for (const plan::Look& look : looks) {
    json fields = json::array();
    for (const plan::FieldLook& f : look.fields) fields.push_back(field_json(f));
    out += json{{"day", iso(look.day)}, {"fields", fields}}.dump() + "\n";
  }
  return out;
}

std::vector<plan::Call> calls_of(const plan::Look& look) {
  std::vector<plan::Call> calls;
  for (const plan::FieldLook& f : look.fields) {
    if (f.ready) continue;
    if (f.method.empty()) {
      calls.push_back({plan::Calls::no_method, f});
      continue;
    }
    if (f.chance < f.wanted - 1e-9) calls.push_back({plan::Calls::below_wanted, f});
    if (f.begun || !f.last_safe_start) continue;
    const int left = *f.last_safe_start - look.day;
    if (left < 0)
      calls.push_back({plan::Calls::start_passed, f});
    else if (left <= start_warning_days)
      calls.push_back({plan::Calls::start_soon, f});
  }
  return calls;
}

std::vector<plan::LookChange> changes_between(const plan::Look& before, const plan::Look& now) {
  std::vector<plan::LookChange> changes;
  for (const plan::FieldLook& f : now.fields) {
    const auto was = std::ranges::find(before.fields, f.field, &plan::FieldLook::field);
    if (was != before.fields.end() && !(*was == f)) changes.push_back({*was, f});
  }
  return changes;
}

}  // namespace aftercut::review
