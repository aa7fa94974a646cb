// What moved against the plan that stood: in plan.json and on the terminal.

#include <algorithm>
#include <cmath>

#include "so_far.hpp"

namespace aftercut::report {
namespace {

json move_json(const farm::Farm& farm, const plan::Move& m) {
  return {{"field", id_or_null(farm.fields, m.field)},
          {"from", id_or_null(farm.book.recipes, m.from)},
          {"to", id_or_null(farm.book.recipes, m.to)},
          {"gain", money(m.gain_cents)},
          {"needed", m.needed},
          {"made", m.made}};
}

std::string field_and_methods(const farm::Farm& farm, const plan::Move& m) {
  const auto name = [&](int recipe) {
    return recipe == plan::none ? std::string{"no method"}
                                : farm.book.recipes[static_cast<std::size_t>(recipe)].name;
  };
  return fmt::format("{}: {} -> {}", farm.fields[static_cast<std::size_t>(m.field)].id.value, name(m.from),
                     name(m.to));
}

std::string gain_words(const farm::Farm& farm, const plan::Move& m) {
  const std::string amount = with_thousands(std::abs(money(m.gain_cents))) + " " + farm.currency;
  if (!m.needed) return fmt::format("saves {} in the mean year", amount);
  return fmt::format("a field's wanted chance needs it; it {} {} in the mean year",
                     m.gain_cents < 0 ? "costs" : "saves", amount);
}

json day_or_null(const farm::Farm& farm, const std::optional<int>& day) {
  return day ? json(iso(farm.season.date(*day))) : json(nullptr);
}

json day_move_json(const farm::Farm& farm, const plan::DayMove& m) {
  const auto pair = [&](const plan::StoodAndNow& days) {
    return json{{"stood", day_or_null(farm, days.stood)}, {"now", day_or_null(farm, days.now)}};
  };
  json before = json::array();
  for (const int g : m.before) before.push_back(id_or_null(farm.fields, g));
  const char* order = m.order == plan::OrderMoved::autumn ? "autumn" : "spring";
  return {{"field", id_or_null(farm.fields, m.field)},
          {"first", pair(m.first)},
          {"ready", pair(m.ready)},
          {"order", m.order == plan::OrderMoved::neither ? json(nullptr) : json(order)},
          {"before", before}};
}

json stood_plan_json(const farm::Farm& farm, const plan::Decision& stood) {
  json methods = json::array(), autumn = json::array(), spring = json::array();
  for (std::size_t f = 0; f < stood.method.size(); ++f)
    methods.push_back(
        {{"field", farm.fields[f].id.value}, {"method", id_or_null(farm.book.recipes, stood.method[f])}});
  for (const int f : stood.autumn_order) autumn.push_back(id_or_null(farm.fields, f));
  for (const int f : stood.spring_order) spring.push_back(id_or_null(farm.fields, f));
  return {{"methods", methods}, {"autumn", autumn}, {"spring", spring}};
}

/// Empty where the day comes under neither plan.
std::string day_words(const farm::Farm& farm, const char* name, const plan::StoodAndNow& days) {
  const auto day = [&](const std::optional<int>& d) {
    return d ? short_date(farm.season.date(*d)) : std::string{"not in most years"};
  };
  if (!days.stood && !days.now) return "";
  if (days.stood == days.now) return fmt::format(", {} {} as before", name, day(days.now));
  return fmt::format(", {} {} instead of {}", name, day(days.now), day(days.stood));
}

std::string why_moved(const farm::Farm& farm, const plan::DayMove& m) {
  const bool later = (plan::way_of(m.first) != 0 ? plan::way_of(m.first) : plan::way_of(m.ready)) > 0;
  std::string out, names;
  if (m.order != plan::OrderMoved::neither)
    out = fmt::format("it comes {} in the order of {}", later ? "later" : "earlier",
                      m.order == plan::OrderMoved::autumn ? "autumn" : "spring");
  for (const int g : m.before)
    names += (names.empty() ? "" : ", ") + farm.fields[static_cast<std::size_t>(g)].id.value;
  const bool one = m.before.size() == 1;
  if (!names.empty())
    out += fmt::format("{}{} {} before it", out.empty() ? "" : "; ", names,
                       later ? (one ? "now goes" : "now go") : (one ? "no longer goes" : "no longer go"));
  return out.empty() ? "" : ": " + out;
}

std::string day_moves_text(const farm::Farm& farm, const std::vector<plan::DayMove>& days) {
  if (days.empty()) return "";
  std::string out = wrapped(fmt::format("  Same method, other days (by {} or more; the typical year):",
                                        plan::day_move_told),
                            terminal_width, 4) +
                    "\n";
  for (const plan::DayMove& m : days) {
    const std::string said = day_words(farm, "next work", m.first) + day_words(farm, "ready", m.ready);
    out += wrapped(fmt::format("    {}: {}{}", farm.fields[static_cast<std::size_t>(m.field)].id.value,
                               said.substr(2), why_moved(farm, m)),
                   terminal_width, 4) +
           "\n";
  }
  return out;
}

}  // namespace

json again_json(const farm::Farm& farm, const plan::Again& again) {
  json barred = json::array(), moves = json::array(), chances = json::array();
  for (const plan::Move& m : again.barred) barred.push_back(move_json(farm, m));
  for (const plan::Move& m : again.moves) moves.push_back(move_json(farm, m));
  for (std::size_t f = 0; f < again.stood_chance.size(); ++f)
    if (farm::seedbed_due(farm.fields[f]))
      chances.push_back({{"field", farm.fields[f].id.value}, {"stood", rounded(again.stood_chance[f], 4)}});
  json days = json::array();
  for (const plan::DayMove& m : again.days) days.push_back(day_move_json(farm, m));
  const auto order = [](const plan::Move& m) {
    return json{{"gain", money(m.gain_cents)}, {"needed", m.needed}, {"made", m.made}};
  };
  return {{"stood", money(again.stood_cents)},
          {"asked_per_ha", again.asked_per_ha},
          {"barred", barred},
          {"moves", moves},
          {"autumn_order", order(again.autumn_order)},
          {"spring_order", order(again.spring_order)},
          {"stood_chances", chances},
          {"stood_plan", stood_plan_json(farm, again.stood)},
          {"days", days}};
}

std::string again_text(const farm::Farm& farm, const plan::Plan& plan) {
  if (!plan.again) return "";
  const plan::Again& a = *plan.again;
  std::string out = wrapped(fmt::format("Against the plan that stood: {} {} to come instead of {}.",
                                        with_thousands(money(plan.cost_cents)), farm.currency,
                                        with_thousands(money(a.stood_cents))),
                            terminal_width, 2) +
                    "\n";
  const auto line = [&](const std::string& text) { out += wrapped("  " + text, terminal_width, 4) + "\n"; };
  for (const plan::Move& m : a.barred)
    line(field_and_methods(farm, m) + ": the season so far leaves no other way");
  std::string kept;
  for (const plan::Move& m : a.moves) {
    if (m.made)
      line(field_and_methods(farm, m) + ": " + gain_words(farm, m));
    else if (m.gain_cents >= 50)  // else both methods are the same from here on
      kept += (kept.empty() ? "" : ", ") + farm.fields[static_cast<std::size_t>(m.field)].id.value;
  }
  for (const auto& [order, name] :
       {std::pair{&a.autumn_order, "autumn"}, std::pair{&a.spring_order, "spring"}})
    if (order->made) line(fmt::format("the order of fields in {}: {}", name, gain_words(farm, *order)));
  if (!kept.empty())
    line(fmt::format("left as they were, a change would gain less than {:g} {} a hectare: {}", a.asked_per_ha,
                     farm.currency, kept));
  const bool moved = std::ranges::any_of(a.moves, [](const plan::Move& m) { return m.made; });
  if (a.barred.empty() && !moved && kept.empty() && !a.autumn_order.made && !a.spring_order.made)
    line(a.days.empty() ? "nothing moves" : "no method and no order of fields moves");
  return out + day_moves_text(farm, a.days);
}

}  // namespace aftercut::report
