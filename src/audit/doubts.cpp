#include "doubts.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

namespace aftercut::audit {
namespace {

using farm::Doubt;

constexpr double more_than_field = 1.05;  // of its area, written down for one pass
constexpr double printed_ha = 0.00051;

struct Line {
  int entry = 0;
  const farm::WorkDone* work = nullptr;
};

/// A field's work, by day and entry.
std::vector<Line> lines_of(const Facts& facts, std::size_t field) {
  std::vector<std::pair<Date, Line>> found;
  for (const farm::Happened& h : facts.problem->so_far.events)
    if (const auto* w = std::get_if<farm::WorkDone>(&h.what); w != nullptr && w->field == field)
      found.push_back({h.day, {h.seq, w}});
  std::ranges::stable_sort(found, {}, [](const auto& x) { return std::pair{x.first, x.second.entry}; });
  std::vector<Line> lines;
  for (const auto& [day, line] : found) lines.push_back(line);
  return lines;
}

bool is_haul(const farm::Farm& farm, int operation) {
  return farm.book.operations.at(static_cast<std::size_t>(operation)).implement == "bale_wagon";
}

/// Each pass's lines: it goes on while the same operation is written down and none of them ends it. Hauls are
/// passes of their own beside the rest.
std::vector<std::vector<Line>> passes_of(const farm::Farm& farm, const std::vector<Line>& lines) {
  std::vector<std::vector<Line>> passes;
  for (const bool hauls : {false, true}) {
    bool open = false;
    for (const Line& line : lines) {
      if (is_haul(farm, line.work->operation) != hauls) continue;
      if (!open || passes.back().back().work->operation != line.work->operation) passes.emplace_back();
      passes.back().push_back(line);
      open = !line.work->finishes && !line.work->no_more;
    }
  }
  return passes;
}

std::vector<std::string> only_in_ruled_out(const farm::Farm& farm, std::size_t field, int operation) {
  std::vector<std::string> with, barred;
  for (const method::Recipe& r : farm.book.recipes) {
    const bool has =
        std::ranges::any_of(r.steps, [&](const method::Step& s) { return s.operation == operation; });
    if (has) with.push_back(r.id.value);
    for (const farm::NotAllowed& n : farm.fields[field].not_allowed)
      if (has && n.method == r.id && n.why.rfind("your word", 0) == 0) {
        barred.push_back(r.id.value);
        break;
      }
  }
  return with.size() == barred.size() ? with : std::vector<std::string>{};
}

/// Bales that were counted or hauled on a field without any baling.
std::optional<Doubt> bales_from_nowhere(const Facts& facts, std::size_t field) {
  const farm::Farm& farm = facts.farm();
  const auto bales = [&](std::size_t operation) {
    return farm.book.operations[operation].effect.bale_share > 0.0;
  };
  std::size_t baling = 0;
  while (baling < farm.book.operations.size() && !bales(baling)) ++baling;
  if (baling == farm.book.operations.size()) return std::nullopt;
  std::vector<std::pair<Date, int>> entries;
  for (const farm::Happened& h : facts.problem->so_far.events) {
    if (const auto* counted = std::get_if<farm::BalesCounted>(&h.what); counted && counted->field == field)
      entries.emplace_back(h.day, h.seq);
    const auto* w = std::get_if<farm::WorkDone>(&h.what);
    if (w == nullptr || w->field != field || !(w->finishes || w->area_ha > 0.0)) continue;
    if (bales(static_cast<std::size_t>(w->operation))) return std::nullopt;
    if (is_haul(farm, w->operation)) entries.emplace_back(h.day, h.seq);
  }
  if (entries.empty()) return std::nullopt;
  std::ranges::sort(entries);
  Doubt d{Doubt::What::not_baled, field, static_cast<int>(baling), {}};
  for (const auto& [day, entry] : entries) d.entries.push_back(entry);
  return d;
}

std::vector<Doubt> doubts_of_field(const Facts& facts, std::size_t field) {
  const farm::Farm& farm = facts.farm();
  const double area = farm.fields[field].area.value();
  const std::vector<Line> lines = lines_of(facts, field);
  std::vector<Doubt> out;
  for (const auto& pass : passes_of(farm, lines)) {
    Doubt d{Doubt::What::area_beyond, field, pass.front().work->operation, {}};
    for (const Line& line : pass) {
      d.written_ha += line.work->area_ha;
      if (line.work->area_ha > 0.0) d.entries.push_back(line.entry);
    }
    if (d.written_ha > more_than_field * area) out.push_back(d);
  }
  std::map<int, std::vector<int>> by_operation;
  bool cleared = false;  // every bale has been hauled, none baled since
  for (const Line& line : lines) {
    const int operation = line.work->operation;
    if (line.work->finishes || line.work->area_ha > 0.0) by_operation[operation].push_back(line.entry);
    const bool haul = is_haul(farm, operation);
    if (line.work->bales_beyond || (haul && cleared && line.work->area_ha > 0.0))
      out.push_back({Doubt::What::bales_beyond, field, operation, {line.entry}});
    if (haul && line.work->finishes) cleared = true;
    if (farm.book.operations.at(static_cast<std::size_t>(operation)).effect.bale_share > 0.0) cleared = false;
  }
  if (auto d = bales_from_nowhere(facts, field)) out.push_back(std::move(*d));
  for (const auto& [operation, entries] : by_operation) {
    auto methods = only_in_ruled_out(farm, field, operation);
    if (!methods.empty())
      out.push_back({Doubt::What::ruled_out, field, operation, entries, 0.0, std::move(methods)});
  }
  return out;
}

bool same(const Doubt& a, const Doubt& b) {
  return a.what == b.what && a.field == b.field && a.operation == b.operation && a.entries == b.entries &&
         a.methods == b.methods && std::abs(a.written_ha - b.written_ha) < printed_ha;
}

std::string to_text(const Doubt& d) {
  return fmt::format("entries {}, {:.3f} ha", fmt::join(d.entries, ", "), d.written_ha);
}

}  // namespace

std::vector<farm::Doubt> read_doubts(JsonIn& in, const Json& root) {
  std::vector<Doubt> all;
  if (!root.is_object() || !root.contains("so_far")) return all;
  const Json& rows = in.array(root["so_far"], "doubts", "so_far");
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::string place = fmt::format("so_far.doubts[{}]", k);
    const int field = in.index(in.get(rows[k], "field", place), in.ids().fields, "field", place, false);
    const int operation =
        in.index(in.get(rows[k], "operation", place), in.ids().operations, "operation", place, false);
    const std::string what = in.text(rows[k], "what", place);
    Doubt d;
    if (what == "ruled_out") d.what = Doubt::What::ruled_out;
    if (what == "bales_beyond") d.what = Doubt::What::bales_beyond;
    if (what == "not_baled") d.what = Doubt::What::not_baled;
    if (what != "area_beyond" && d.what == Doubt::What::area_beyond)
      in.issue(place + ".what", what, "area_beyond, ruled_out, bales_beyond or not_baled",
               "write the plan again");
    if (field == plan::none || operation == plan::none) continue;
    d.field = static_cast<std::size_t>(field);
    d.operation = operation;
    for (const Json& entry : in.array(rows[k], "entries", place))
      d.entries.push_back(entry.is_number_integer() ? entry.get<int>() : 0);
    d.written_ha = in.number(rows[k], "written_ha", place);
    for (const Json& method : in.array(rows[k], "methods", place))
      d.methods.push_back(method.is_string() ? method.get<std::string>() : "");
    all.push_back(std::move(d));
  }
  return all;
}

Findings check_doubts(const Facts& facts, const plan::Plan& p) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  std::vector<Doubt> wanted;
  for (std::size_t k = 0; k < farm.fields.size(); ++k)
    for (Doubt& d : doubts_of_field(facts, k)) wanted.push_back(std::move(d));
  const auto at = [&](const Doubt& d) {
    return Place{&farm, -1, -1, static_cast<int>(d.field), "season so far"};
  };
  for (const Doubt& d : wanted)
    f.expect(std::ranges::count_if(p.doubts, [&](const Doubt& said) { return same(said, d); }) == 1,
             "odd entry not told", at(d), [&] {
               return Texts{"not told, or otherwise", to_text(d)};
             });
  for (const Doubt& said : p.doubts)
    f.expect(std::ranges::any_of(wanted, [&](const Doubt& d) { return same(said, d); }), "odd entry made up",
             at(said), [&] {
               return Texts{to_text(said), "what the entries say"};
             });
  return f;
}

}  // namespace aftercut::audit
