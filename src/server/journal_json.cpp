#include "journal_json.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "aftercut/journal/doubts.hpp"
#include "aftercut/journal/form.hpp"

namespace aftercut::server {
namespace {

using json = nlohmann::ordered_json;

constexpr int this_week = 7;  // days from today on, in which planned work counts as near

/// Of each field: operations that the plan that stands has within the week, then those that it has later.
struct Likely {
  std::vector<std::string> near, later;
};
std::map<std::string, Likely> likely_work(const Kept* stands, Date today) {
  std::map<std::string, Likely> all;
  const json plan = stands == nullptr ? json{} : json::parse(stands->plan_json, nullptr, false);
  if (!plan.is_object() || !plan.contains("schedule")) return all;
  std::vector<std::pair<std::string, const json*>> rows;
  for (const json& row : plan["schedule"]) rows.emplace_back(row.value("start", ""), &row);
  std::ranges::stable_sort(rows, {}, [](const auto& row) { return row.first; });
  const std::string from = iso(today), to = iso(today + this_week);
  const auto once = [](std::vector<std::string>& list, const std::string& what) {
    if (std::ranges::find(list, what) == list.end()) list.push_back(what);
  };
  for (const auto& [start, row] : rows) {
    const std::string end = row->value("end", "");
    if (end.substr(0, from.size()) < from) continue;
    Likely& of = all[row->value("field", "")];
    once(start < to ? of.near : of.later, row->value("operation", ""));
  }
  return all;
}

/// Work that the entries say was done on a field, by operation, in the order of its first day.
json done_on(const std::vector<journal::Entry>& standing, const FieldId& field) {
  struct Done {
    double area_ha = 0.0;
    int finished = 0;
    Date last;
  };
  std::map<std::string, Done> sums;
  std::vector<std::string> order;
  for (const journal::Entry& e : standing) {
    const auto* w = std::get_if<journal::Worked>(&e.what);
    if (w == nullptr || e.field != field) continue;
    if (!sums.contains(w->operation)) order.push_back(w->operation);
    Done& d = sums[w->operation];
    d.area_ha += w->area_ha.value_or(0.0);
    d.finished += w->finished ? 1 : 0;
    d.last = std::max(d.last, e.done_on);
  }
  json out = json::array();
  for (const std::string& id : order)
    out.push_back({{"operation", id},
                   {"area_ha", sums[id].area_ha},
                   {"finished", sums[id].finished},
                   {"last", iso(sums[id].last)}});
  return out;
}

template <class List>
json named(const List& list) {
  json out = json::array();
  for (const auto& one : list) out.push_back({{"id", one.id.value}, {"name", one.name}});
  return out;
}

json fields_json(const JournalShown& s, const std::vector<journal::Entry>& standing) {
  auto likely = likely_work(s.stands, s.today);
  json out = json::array();
  for (const farm::Field& f : s.problem->farm.fields) {
    Likely& of = likely[f.id.value];
    std::vector<std::string> order = of.near;
    order.insert(order.end(), of.later.begin(), of.later.end());
    for (const auto& o : s.problem->farm.book.operations) order.push_back(o.id.value);
    std::set<std::string> had;
    std::erase_if(order, [&](const std::string& id) { return !had.insert(id).second; });
    out.push_back({{"id", f.id.value},
                   {"name", f.name},
                   {"area_ha", f.area.value()},
                   {"cut", f.cut || std::ranges::any_of(standing,
                                                        [&](const journal::Entry& e) {
                                                          return e.field == f.id &&
                                                                 std::holds_alternative<journal::Harvested>(
                                                                     e.what);
                                                        })},
                   {"near", of.near},
                   {"planned", of.near.size() + of.later.size()},
                   {"operations", order},
                   {"done", done_on(standing, f.id)}});
  }
  return out;
}

json operations_json(const farm::Farm& farm) {
  json out = json::array();
  for (const auto& o : farm.book.operations)
    out.push_back({{"id", o.id.value}, {"name", o.name}, {"implement", o.implement}});
  return out;
}

json machines_json(const farm::Farm& farm) {
  json out = json::array();
  for (const auto& t : farm.tractors)
    out.push_back({{"id", t.id.value}, {"name", t.name}, {"kind", "tractor"}});
  for (const auto& i : farm.implements)
    out.push_back({{"id", i.id.value}, {"name", i.name}, {"kind", i.kind}});
  return out;
}

/// Entries that the plan that stands did not know.
json since_plan(const JournalShown& s) {
  if (s.stands == nullptr) return nullptr;
  const auto& inputs = s.stands->problem->farm.inputs;
  const auto at = std::ranges::find(inputs, journal::file_name, &farm::Farm::Input::path);
  const auto known =
      journal::known_to_plan(s.log->entries, s.stands->problem->as_of, at == inputs.end() ? "" : at->sha256);
  return known ? json(s.log->entries.size() - *known) : json(nullptr);
}

/// Files of the season that are others than those that the plan that stands was made from.
json changed_since_plan(const JournalShown& s) {
  json changed = json::array();
  if (s.stands == nullptr) return changed;
  for (const std::string& path : audit::changed_since(s.stands->made, s.problem->farm)) {
    const auto now = std::ranges::find(s.problem->farm.inputs, path, &farm::Farm::Input::path);
    if (now != s.problem->farm.inputs.end() && now->in_season) changed.push_back(path);
  }
  return changed;
}

/// What looks odd, today's work counted.
json doubts_json(const JournalShown& s, const std::vector<journal::Entry>& standing) {
  farm::Problem problem = *s.problem;
  problem.as_of = s.today + 1;
  json out = json::array();
  for (const farm::Doubt& d : journal::doubts_in(problem, standing))
    out.push_back({{"words", journal::doubt_words(problem.farm, d)}, {"entries", d.entries}});
  return out;
}

}  // namespace

json entry_said(const journal::Entry& e, farm::UnitSystem units) {
  return {{"seq", e.seq},
          {"done_on", iso(e.done_on)},
          {"words", journal::said_of(e, units)},
          {"field", e.field ? json(e.field->value) : json(nullptr)},
          {"by", e.by},
          {"correction", e.corrects.has_value()}};
}

std::string journal_json(const JournalShown& s) {
  const farm::Farm& farm = s.problem->farm;
  auto standing = journal::standing_on(s.log->entries, s.today + 1);
  json entries = json::array();
  for (auto e = standing.rbegin(); e != standing.rend(); ++e) entries.push_back(entry_said(*e, farm.units));
  const journal::Names names = journal::names_of(farm);
  return json{{"today", iso(s.today)},
              {"season", {iso(farm.season.first), iso(farm.season.date(farm.season.days - 1))}},
              {"units", farm.units == farm::UnitSystem::us ? "us" : "si"},
              {"next", s.log->entries.size() + 1},
              {"torn", !s.log->torn.empty()},
              {"since_plan", since_plan(s)},
              {"changed_since_plan", changed_since_plan(s)},
              {"entries", entries},
              {"doubts", doubts_json(s, standing)},
              {"fields", fields_json(s, standing)},
              {"operations", operations_json(farm)},
              {"burning", names.burning},
              {"boards", {names.boards_in, names.boards_out}},
              {"methods", named(farm.book.recipes)},
              {"machines", machines_json(farm)},
              {"people", named(farm.operators)}}
      .dump(-1, ' ', false, json::error_handler_t::replace);
}

}  // namespace aftercut::server
