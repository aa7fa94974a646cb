#include <algorithm>
#include <cmath>

#include "so_far.hpp"

namespace aftercut::report {
namespace {

json day_json(const farm::Farm& farm, int day) { return iso(farm.season.date(day)); }

json done_json(const farm::Farm& farm, const journal::FieldState& s) {
  json out = json::array();
  for (const journal::Stage& stage : s.done)
    out.push_back({{"operation", id_or_null(farm.book.operations, stage.operation)},
                   {"passes", stage.passes},
                   {"no_more", stage.no_more},
                   {"first", day_json(farm, stage.first_day)},
                   {"last", day_json(farm, stage.last_day)}});
  return out;
}

json running_json(const farm::Farm& farm, const journal::FieldState& s) {
  if (!s.running) return nullptr;
  return {{"operation", id_or_null(farm.book.operations, s.running->operation)},
          {"area_ha", rounded(s.running->area_ha, 3)},
          {"since", day_json(farm, s.running->first_day)}};
}

json field_json(const farm::Problem& problem, const journal::State& state, std::size_t f) {
  const farm::Farm& farm = problem.farm;
  const journal::FieldState& s = state.fields[f];
  const season::Life& life = s.now.life;
  const bool cut = farm.season.day(farm.fields[f].harvest) < state.day;
  json out{{"field", farm.fields[f].id.value},
           {"cut", cut},
           {"done", done_json(farm, s)},
           {"running", running_json(farm, s)},
           {"bales_lie_share", rounded(s.bales_lie, 4)},
           {"boards_in", life.board_mm > 0.0},
           {"canal_m3", rounded(s.water_m3, 1)},
           {"standing_mm", rounded(life.water.ponded_mm, 1)},
           {"seedbed_water_mm", rounded(life.water.seedbed_mm, 1)},
           {"seedbed_spread_mm", rounded(s.seedbed_spread_mm, 1)}};
  out["straw_on_top_kg_per_ha"] = rounded(cut ? life.pools.on_top() : 0.0, 1);
  out["straw_in_ground_kg_per_ha"] = rounded(life.pools.at(straw::Place::mixed), 1);
  out["straw_spread"] = rounded(s.straw_spread, 4);
  return out;
}

const char* word_of(journal::Seen what) {
  switch (what) {
    case journal::Seen::cover:
      return "cover_share";
    case journal::Seen::straw_on_top:
      return "straw_on_top_kg_per_ha";
    case journal::Seen::workable:
      return "workable";
    case journal::Seen::standing_water:
      return "standing_mm";
    case journal::Seen::rain:
      return "rain_mm";
  }
  fail("unknown sight");
}

json differences_json(const farm::Farm& farm, const journal::State& state) {
  json out = json::array();
  for (const journal::Difference& d : state.differences)
    out.push_back({{"field", d.field ? json(farm.fields[*d.field].id.value) : json(nullptr)},
                   {"date", day_json(farm, d.day)},
                   {"what", word_of(d.what)},
                   {"model", rounded(d.model, 4)},
                   {"seen", rounded(d.seen, 4)},
                   {"used", rounded(d.used, 4)}});
  return out;
}

json too_wet_json(const farm::Problem& problem) {
  json out = json::array();
  for (const farm::Happened& h : problem.so_far.events)
    if (const auto* wet = std::get_if<farm::TooWet>(&h.what); wet && wet->until >= problem.as_of)
      out.push_back({{"field", problem.farm.fields[wet->field].id.value}, {"until", iso(wet->until)}});
  return out;
}

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

}  // namespace

json so_far_json(const farm::Problem& problem, const journal::State& state) {
  json fields = json::array();
  for (std::size_t f = 0; f < state.fields.size(); ++f) fields.push_back(field_json(problem, state, f));
  return {{"entries", problem.so_far.entries},
          {"fields", fields},
          {"differences", differences_json(problem.farm, state)},
          {"too_wet", too_wet_json(problem)}};
}

json again_json(const farm::Farm& farm, const plan::Again& again) {
  json barred = json::array(), moves = json::array(), chances = json::array();
  for (const plan::Move& m : again.barred) barred.push_back(move_json(farm, m));
  for (const plan::Move& m : again.moves) moves.push_back(move_json(farm, m));
  for (std::size_t f = 0; f < again.stood_chance.size(); ++f)
    if (farm::seedbed_due(farm.fields[f]))
      chances.push_back({{"field", farm.fields[f].id.value}, {"stood", rounded(again.stood_chance[f], 4)}});
  const auto order = [](const plan::Move& m) {
    return json{{"gain", money(m.gain_cents)}, {"needed", m.needed}, {"made", m.made}};
  };
  return {{"stood", money(again.stood_cents)},
          {"asked_per_ha", again.asked_per_ha},
          {"barred", barred},
          {"moves", moves},
          {"autumn_order", order(again.autumn_order)},
          {"spring_order", order(again.spring_order)},
          {"stood_chances", chances}};
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
    line("nothing moves");
  return out;
}

}  // namespace aftercut::report
