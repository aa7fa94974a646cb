#include <algorithm>
#include <cmath>

#include "aftercut/journal/doubts.hpp"
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

json running_json(const farm::Farm& farm, const std::optional<journal::Running>& r) {
  if (!r) return nullptr;
  return {{"operation", id_or_null(farm.book.operations, r->operation)},
          {"area_ha", rounded(r->area_ha, 3)},
          {"since", day_json(farm, r->first_day)}};
}

json field_json(const farm::Problem& problem, const journal::State& state, std::size_t f) {
  const farm::Farm& farm = problem.farm;
  const journal::FieldState& s = state.fields[f];
  const season::Life& life = s.now.life;
  const bool cut = farm.season.day(farm.fields[f].harvest) < state.day;
  json out{{"field", farm.fields[f].id.value},
           {"cut", cut},
           {"done", done_json(farm, s)},
           {"running", running_json(farm, s.running)},
           {"baling_waits", running_json(farm, s.baling_waits)},
           {"behind_baler", running_json(farm, s.behind_baler)},
           {"bales_lie_share", rounded(journal::bales_lying(farm, s, farm.fields[f].area.value()), 4)},
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

const char* word_of(farm::Doubt::What what) {
  switch (what) {
    case farm::Doubt::What::area_beyond:
      return "area_beyond";
    case farm::Doubt::What::ruled_out:
      return "ruled_out";
    case farm::Doubt::What::bales_beyond:
      return "bales_beyond";
    case farm::Doubt::What::not_baled:
      return "not_baled";
  }
  fail("unknown doubt");
}

json doubts_json(const farm::Farm& farm, const std::vector<farm::Doubt>& doubts) {
  json out = json::array();
  for (const farm::Doubt& d : doubts)
    out.push_back({{"field", farm.fields[d.field].id.value},
                   {"what", word_of(d.what)},
                   {"operation", id_or_null(farm.book.operations, d.operation)},
                   {"entries", d.entries},
                   {"written_ha", rounded(d.written_ha, 3)},
                   {"methods", d.methods},
                   {"words", journal::doubt_words(farm, d)}});
  return out;
}

}  // namespace

json so_far_json(const farm::Problem& problem, const journal::State& state,
                 const std::vector<farm::Doubt>& doubts) {
  json fields = json::array();
  for (std::size_t f = 0; f < state.fields.size(); ++f) fields.push_back(field_json(problem, state, f));
  return {{"entries", problem.so_far.entries},
          {"fields", fields},
          {"differences", differences_json(problem.farm, state)},
          {"too_wet", too_wet_json(problem)},
          {"doubts", doubts_json(problem.farm, doubts)}};
}

}  // namespace aftercut::report
