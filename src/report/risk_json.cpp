#include <algorithm>

#include "risk.hpp"

namespace aftercut::report {
namespace {

constexpr std::size_t fields_in_terminal = 6;

bool met(double chance, int ready, int years) {
  return ready >= farm::years_wanted(chance, static_cast<std::size_t>(years));
}

const char* risk_word(farm::Risk risk) {
  return risk == farm::Risk::price ? "price" : risk == farm::Risk::chance ? "chance" : "both";
}

json wish_json(const farm::Farm& farm, const plan::RiskTold& risk, const plan::Wish& w) {
  return {{"field", id_or_null(farm.fields, w.field)},
          {"wanted_chance", rounded(w.chance, 4)},
          {"ready_searched", w.searched},
          {"ready_shown", w.shown},
          {"met_searched", met(w.chance, w.searched, risk.search_years)},
          {"met_shown", met(w.chance, w.shown, risk.shown_years)}};
}

json method_id(const farm::Farm& farm, int method) { return id_or_null(farm.book.recipes, method); }

json alone_json(const farm::Farm& farm, const plan::InTheWay& way) {
  json waits = json::array();
  for (const plan::StepWaited& s : way.alone.waits) {
    json days = json::object();
    for (std::size_t k = 0; k < s.days.size(); ++k)
      if (s.days[k] > 0) days[plan::wait_words[k].key] = s.days[k];
    waits.push_back({{"operation", id_or_null(farm.book.operations, s.operation)}, {"days", days}});
  }
  return {{"method", method_id(farm, way.alone.method)},
          {"ready", way.alone.ready},
          {"own_method_ready", way.own_method_alone},
          {"failed", way.alone.failed},
          {"days_looked_at", way.alone.days_looked_at},
          {"days_standing", way.alone.days_standing},
          {"waits", waits}};
}

json other_json(const farm::Farm& farm, const std::optional<plan::OtherWay>& o) {
  if (!o) return nullptr;
  return {{"method", method_id(farm, o->method)},
          {"ready", o->ready},
          {"falls_below", ids_of(farm, o->falls_below)}};
}

json more_json(const std::optional<plan::MoreThing>& t) {
  if (!t) return nullptr;
  return {{"kind", t->kind},
          {"id", t->id.empty() ? json(nullptr) : json(t->id)},
          {"twice", t->twice},
          {"ready", t->ready},
          {"brings", t->brings}};
}

json way_json(const farm::Farm& farm, const plan::InTheWay& way) {
  return {{"field", id_or_null(farm.fields, way.field)},
          {"wanted", way.wanted},
          {"ready", way.ready},
          {"words", way.words},
          {"alone", alone_json(farm, way)},
          {"other_method", other_json(farm, way.other_method)},
          {"more", more_json(way.more)},
          {"most", more_json(way.most)},
          {"all_twice", way.all_twice ? json(*way.all_twice) : json(nullptr)},
          {"first", other_json(farm, way.first)}};
}

}  // namespace

json target_json(const farm::Farm& farm, const plan::Plan& p) {
  json fields = json::array(), ways = json::array();
  for (const plan::Wish& w : p.risk.wishes) fields.push_back(wish_json(farm, p.risk, w));
  for (const plan::InTheWay& w : p.risk.in_the_way) ways.push_back(way_json(farm, w));
  return {{"wanted_chance", rounded(p.wanted_chance, 4)},
          {"risk", risk_word(farm.target.risk)},
          {"late_price", p.risk.late_per_ha_day ? json(rounded(*p.risk.late_per_ha_day, 2)) : json(nullptr)},
          {"search_years", p.risk.search_years},
          {"shown_years", p.risk.shown_years},
          {"fields", fields},
          {"in_the_way", ways}};
}

std::string risk_text(const farm::Farm& farm, const plan::Plan& p) {
  if (!farm::chance_binds(farm.target) || p.risk.wishes.empty()) return "";
  const auto count = [&](auto ready, int years) {
    return std::ranges::count_if(p.risk.wishes,
                                 [&](const plan::Wish& w) { return met(w.chance, ready(w), years); });
  };
  const auto searched = count([](const plan::Wish& w) { return w.searched; }, p.risk.search_years);
  const auto shown = count([](const plan::Wish& w) { return w.shown; }, p.risk.shown_years);
  std::string out = wrapped(
      p.chances_in_sample
          ? fmt::format("Wanted chance: {} of {} fields have it.", shown, p.risk.wishes.size())
          : fmt::format(
                "Wanted chance: {0} of {2} fields have it in the {3} years searched, {1} of {2} in the "
                "{4} others.",
                searched, shown, p.risk.wishes.size(), p.risk.search_years, p.risk.shown_years),
      terminal_width, 2);
  out += "\n";
  if (!p.risk.in_the_way.empty()) out += "What stands in the way\n";
  for (std::size_t k = 0; k < std::min(fields_in_terminal, p.risk.in_the_way.size()); ++k) {
    const plan::InTheWay& way = p.risk.in_the_way[k];
    std::string text = "  " + farm.fields[static_cast<std::size_t>(way.field)].id.value + ":";
    for (const std::string& words : way.words) text += " " + words + ".";
    out += wrapped(text, terminal_width, 4) + "\n";
  }
  if (p.risk.in_the_way.size() > fields_in_terminal)
    out += fmt::format("  and {} more fields in the report\n", p.risk.in_the_way.size() - fields_in_terminal);
  return out;
}

}  // namespace aftercut::report
