#include "aftercut/report/watch.hpp"

#include <algorithm>

#include "parts.hpp"
#include "so_far.hpp"

namespace aftercut::report {
namespace {

std::string label_of(const farm::Farm& farm, const std::string& id) {
  for (const farm::Field& f : farm.fields)
    if (f.id.value == id && f.name != id) return fmt::format("{} ({})", id, f.name);
  return id;
}

std::string call_words(const farm::Farm& farm, const plan::Call& c) {
  const std::string field = label_of(farm, c.look.field);
  switch (c.what) {
    case plan::Calls::below_wanted:
      return fmt::format("{}: ready by planting in {}, and {} is wanted", field, chance_words(c.look.chance),
                         chance_words(c.look.wanted));
    case plan::Calls::start_soon:
      return fmt::format("{}: begin {} by {}, the last day that keeps the chance that is wanted", field,
                         method_name(farm, c.look.method), short_date(*c.look.last_safe_start));
    case plan::Calls::start_passed:
      return fmt::format("{}: the last safe day to begin {} was {}", field, method_name(farm, c.look.method),
                         short_date(*c.look.last_safe_start));
    case plan::Calls::no_method:
      return fmt::format("{}: no method is left that can be done", field);
  }
  fail("unknown call");
}

std::string change_words(const farm::Farm& farm, const plan::LookChange& c) {
  std::string out = label_of(farm, c.now.field) + ":";
  if (c.before.method != c.now.method)
    out += fmt::format(" {} instead of {};", method_name(farm, c.now.method),
                       method_name(farm, c.before.method));
  if (c.now.ready && !c.before.ready) out += fmt::format(" ready since {};", short_date(*c.now.ready));
  if (chance_words(c.before.chance) != chance_words(c.now.chance))
    out += fmt::format(" ready by planting in {}, was {};", chance_words(c.now.chance),
                       chance_words(c.before.chance));
  if (c.now.begun && !c.before.begun) out += " work has begun;";
  if (out.back() == ':') return "";
  out.pop_back();
  return out;
}

std::string storm_text(const farm::Farm& farm, const plan::StormList& s) {
  const auto ids = [&](const std::vector<int>& fields) {
    std::string out;
    for (const int f : fields)
      out += (out.empty() ? "" : ", ") + farm.fields[static_cast<std::size_t>(f)].id.value;
    return out;
  };
  const bool us = farm.units == farm::UnitSystem::us;
  std::string out = fmt::format("A storm is forecast: {:.{}f} {} from {} to {}\n",
                                us ? s.storm.rain_mm / 25.4 : s.storm.rain_mm, us ? 1 : 0, us ? "in" : "mm",
                                short_date(farm.season.date(s.storm.first_day)),
                                short_date(farm.season.date(s.storm.last_day)));
  const auto line = [&](const std::string& text) { out += wrapped("  " + text, terminal_width, 4) + "\n"; };
  for (const plan::Rush& r : s.rush)
    line(fmt::format("{}: {} before it, about {:.1f} h, saves {} {} an hour",
                     farm.fields[static_cast<std::size_t>(r.field)].id.value,
                     farm.book.operations[static_cast<std::size_t>(r.operation)].name, r.hours,
                     with_thousands(r.cents_per_hour() / 100.0), farm.currency));
  if (s.rush.empty()) line("no field gains by being rushed");
  if (!s.boards.empty()) line("open the boards, the next work wants dry ground: " + ids(s.boards));
  if (!s.bales.empty()) line("bales off: " + ids(s.bales));
  if (!s.soft_ways.empty()) line("wagons to a hard road, the way out will be soft: " + ids(s.soft_ways));
  line("lightning, wind and soft banks: nobody hurries on a levee or under a line");
  return out;
}

json look_json(const plan::FieldLook& f) {
  return {{"field", f.field},
          {"method", f.method},
          {"chance", f.chance},
          {"wanted", f.wanted},
          {"last_safe_start", f.last_safe_start ? json(iso(*f.last_safe_start)) : json(nullptr)},
          {"begun", f.begun},
          {"ready", f.ready ? json(iso(*f.ready)) : json(nullptr)}};
}

const char* call_word(plan::Calls what) {
  switch (what) {
    case plan::Calls::below_wanted:
      return "below_wanted";
    case plan::Calls::start_soon:
      return "start_soon";
    case plan::Calls::start_passed:
      return "start_passed";
    case plan::Calls::no_method:
      return "no_method";
  }
  fail("unknown call");
}

json storm_json(const farm::Farm& farm, const plan::StormList& s) {
  json rush = json::array();
  for (const plan::Rush& r : s.rush)
    rush.push_back({{"field", id_or_null(farm.fields, r.field)},
                    {"operation", id_or_null(farm.book.operations, r.operation)},
                    {"hours", rounded(r.hours, 2)},
                    {"avoided", money(r.avoided_cents)},
                    {"avoided_per_hour", rounded(r.cents_per_hour() / 100.0, 2)}});
  return {{"first", iso(farm.season.date(s.storm.first_day))},
          {"last", iso(farm.season.date(s.storm.last_day))},
          {"rain_mm", rounded(s.storm.rain_mm, 1)},
          {"rush", rush},
          {"boards", ids_of(farm, s.boards)},
          {"bales", ids_of(farm, s.bales)},
          {"soft_ways", ids_of(farm, s.soft_ways)}};
}

}  // namespace

std::string watch_text(const farm::Problem& problem, const plan::Ahead& shown) {
  const farm::Farm& farm = problem.farm;
  std::string out = fmt::format("{}: the fields on {}\n", farm.name, iso(shown.look.day));
  const auto line = [&](const std::string& text) { out += wrapped("  " + text, terminal_width, 4) + "\n"; };
  if (!shown.calls.empty()) out += "Needs a decision\n";
  for (const plan::Call& c : shown.calls) line(call_words(farm, c));
  if (shown.before) {
    std::string changed;
    for (const plan::LookChange& c : shown.changes)
      if (const std::string words = change_words(farm, c); !words.empty())
        changed += wrapped("  " + words, terminal_width, 4) + "\n";
    out += changed.empty() ? fmt::format("Nothing has changed since {}\n", iso(shown.before->day))
                           : fmt::format("Changed since {}\n{}", iso(shown.before->day), changed);
  }
  if (shown.storm) out += storm_text(farm, *shown.storm);
  out += so_far_text(problem);
  if (shown.calls.empty()) out += "Nothing needs a decision today.\n";
  return out;
}

std::string watch_json(const farm::Problem& problem, const plan::Ahead& shown) {
  json calls = json::array(), changes = json::array(), fields = json::array();
  for (const plan::Call& c : shown.calls)
    calls.push_back({{"what", call_word(c.what)}, {"field", c.look.field}});
  for (const plan::LookChange& c : shown.changes)
    changes.push_back({{"before", look_json(c.before)}, {"now", look_json(c.now)}});
  for (const plan::FieldLook& f : shown.look.fields) fields.push_back(look_json(f));
  const json out{{"day", iso(shown.look.day)},
                 {"calls", calls},
                 {"changes", changes},
                 {"storm", shown.storm ? storm_json(problem.farm, *shown.storm) : json(nullptr)},
                 {"fields", fields}};
  return out.dump(1) + "\n";
}

}  // namespace aftercut::report
