#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "risk.hpp"

namespace aftercut::audit {
namespace {

constexpr const char* write_again = "write the plan again";

std::optional<plan::OtherWay> read_other(JsonIn& in, const Json& value, const std::string& place) {
  if (!value.is_object()) return std::nullopt;
  plan::OtherWay o;
  o.method = in.index(in.get(value, "method", place), in.ids().recipes, "method", place, true);
  o.ready = in.small(value, "ready", place);
  for (const Json& field : in.array(value, "falls_below", place))
    o.falls_below.push_back(in.index(field, in.ids().fields, "field", place + ".falls_below", false));
  return o;
}

std::optional<plan::MoreThing> read_thing(JsonIn& in, const Json& value, const std::string& place) {
  if (!value.is_object()) return std::nullopt;
  plan::MoreThing t;
  t.kind = in.text(value, "kind", place);
  if (in.get(value, "id", place).is_string()) t.id = in.text(value, "id", place);
  t.twice = in.truth(value, "twice", place);
  t.ready = in.small(value, "ready", place);
  t.brings = in.small(value, "brings", place);
  return t;
}

plan::StepWaited read_waits(JsonIn& in, const Json& row, const std::string& place) {
  plan::StepWaited s;
  s.operation = in.index(in.get(row, "operation", place), in.ids().operations, "operation",
                         place + ".operation", false);
  for (const auto& item : in.get(row, "days", place).items()) {
    const auto word =
        std::ranges::find_if(plan::wait_words, [&](const plan::WaitWord& w) { return item.key() == w.key; });
    if (word == plan::wait_words.end())
      in.issue(place + ".days", item.key(), "what a step can wait for", write_again);
    else
      s.days[static_cast<std::size_t>(word - plan::wait_words.begin())] =
          in.small(in.get(row, "days", place), word->key, place + ".days");
  }
  return s;
}

plan::InTheWay read_way(JsonIn& in, const Json& row, const std::string& place) {
  plan::InTheWay w;
  w.field = in.index(in.get(row, "field", place), in.ids().fields, "field", place + ".field", false);
  w.wanted = in.small(row, "wanted", place);
  w.ready = in.small(row, "ready", place);
  const Json& alone = in.get(row, "alone", place);
  const std::string there = place + ".alone";
  w.alone.method = in.index(in.get(alone, "method", there), in.ids().recipes, "method", there, true);
  w.alone.ready = in.small(alone, "ready", there);
  w.own_method_alone = in.small(alone, "own_method_ready", there);
  w.alone.failed = in.small(alone, "failed", there);
  w.alone.days_looked_at = in.small(alone, "days_looked_at", there);
  w.alone.days_standing = in.small(alone, "days_standing", there);
  for (const Json& waits : in.array(alone, "waits", there))
    w.alone.waits.push_back(read_waits(in, waits, there));
  w.other_method = read_other(in, in.get(row, "other_method", place), place + ".other_method");
  w.more = read_thing(in, in.get(row, "more", place), place + ".more");
  w.most = read_thing(in, in.get(row, "most", place), place + ".most");
  if (!in.get(row, "all_twice", place).is_null()) w.all_twice = in.small(row, "all_twice", place);
  w.first = read_other(in, in.get(row, "first", place), place + ".first");
  for (const Json& words : in.array(row, "words", place))
    if (words.is_string()) w.words.push_back(words.get<std::string>());
  return w;
}

void check_met(JsonIn& in, const Json& row, const char* key, bool met, const std::string& place) {
  if (in.truth(row, key, place) != met)
    in.issue(place + "." + key, met ? "false" : "true", fmt::format("{}, by the years ready", met),
             write_again);
}

}  // namespace

plan::RiskTold read_risk(JsonIn& in, const Json& root) {
  const Json& target = in.get(root, "target", "plan");
  plan::RiskTold r;
  const std::string risk = in.text(target, "risk", "target");
  constexpr std::array<const char*, 3> words{"price", "chance", "both"};
  const char* own = words[static_cast<std::size_t>(in.farm().target.risk)];
  if (risk != own) in.issue("target.risk", risk, own, write_again);
  if (!in.get(target, "late_price", "target").is_null())
    r.late_per_ha_day = in.number(target, "late_price", "target");
  r.search_years = in.small(target, "search_years", "target");
  r.shown_years = in.small(target, "shown_years", "target");
  const Json& fields = in.array(target, "fields", "target");
  for (std::size_t k = 0; k < fields.size(); ++k) {
    const std::string place = fmt::format("target.fields[{}]", k);
    plan::Wish w;
    w.field = in.index(in.get(fields[k], "field", place), in.ids().fields, "field", place, false);
    w.chance = in.number(fields[k], "wanted_chance", place);
    w.searched = in.small(fields[k], "ready_searched", place);
    w.shown = in.small(fields[k], "ready_shown", place);
    if (w.field >= 0) {
      const farm::Field& f = in.farm().fields[static_cast<std::size_t>(w.field)];
      const double wish = wish_of(in.farm(), f);
      check_met(in, fields[k], "met_searched", is_met(wish, w.searched, r.search_years), place);
      check_met(in, fields[k], "met_shown", is_met(wish, w.shown, r.shown_years), place);
    }
    r.wishes.push_back(w);
  }
  const Json& ways = in.array(target, "in_the_way", "target");
  for (std::size_t k = 0; k < ways.size(); ++k)
    r.in_the_way.push_back(read_way(in, ways[k], fmt::format("target.in_the_way[{}]", k)));
  return r;
}

}  // namespace aftercut::audit
