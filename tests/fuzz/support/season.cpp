#include "season.hpp"

#include <cpl_string.h>
#include <fmt/format.h>

#include <algorithm>

#include "aftercut/journal/follow.hpp"
#include "aftercut/journal/form.hpp"
#include "aftercut/journal/log.hpp"
#include "aftercut/journal/settle.hpp"

namespace aftercut::fuzz {
namespace {

using journal::Entry;

constexpr const char* machines = R"("implements": [
 {"id": "R1", "kind": "rake", "width": "24 ft", "speed": "6 mph", "price": "32000 USD"},
 {"id": "B1", "kind": "baler", "width": "24 ft", "speed": "5 mph", "throughput": "22 t/h",
  "hire": {"windows": [{"from": "2026-09-08", "to": "2026-09-20"}], "per_mass": "27 USD/t", "call_out": "650 USD", "brings_tractor": true, "brings_operator": true}},
 {"id": "W1", "kind": "bale_wagon", "width": "24 ft", "speed": "5 mph", "throughput": "20 t/h", "price": "85000 USD"},
 {"id": "C1", "kind": "chopper", "width": "20 ft", "speed": "5 mph", "price": "52000 USD"},
 {"id": "F1", "kind": "torch", "width": "40 ft", "speed": "3 mph", "price": "900 USD"},)";

constexpr const char* water_and_weather =
    R"("water": {"most_flow": "0.6 m3/s", "on": "09-01", "off": "02-15", "price": "0.012 USD/m3", "charge": "22 USD/ha"},
 "weather_so_far": {"file": "so-far.csv"}, "weather":)";

std::string weather_so_far() {
  std::string text = "date,tmin_c,tmax_c,rain_mm\n";
  for (int day = 1; day <= 28; ++day)
    text += fmt::format("2026-09-{:02},{}.0,{}.0,{}\n", day, 9 + day % 6, 22 + day % 9,
                        day % 7 == 0 ? "6.5" : "0.0");
  return text;
}

farm::Problem read_season(const FarmFolder& folder) {
  folder.put_farm(R"("as_of": "2026-09-05")", R"("as_of": "2026-09-27")");
  folder.put_farm(R"("implements": [)", machines);
  folder.put_farm(R"("weather":)", water_and_weather);
  folder.put("so-far.csv", weather_so_far());
  auto read = farm::read(folder.path(), {.fit_implements = false});
  must(read.ok(), read.ok() ? "" : "the fixed farm is sound: " + checked(read.issues()));
  return std::move(read).value();
}

void check_number(const std::optional<double>& number) {
  constexpr double most = 1.0e7;  // m3 on a meter are the largest
  if (number) must(std::isfinite(*number) && *number >= 0.0 && *number <= most, "a number is in range");
}

/// Every number of an entry.
struct Numbers {
  void operator()(const journal::Harvested& h) const { all({h.yield_kg_per_ha, h.cut_height_cm}); }
  void operator()(const journal::Worked& w) const { all({w.area_ha, w.hours, w.fuel_l, w.board_cm}); }
  void operator()(const journal::Rain& r) const { all({r.mm}); }
  void operator()(const journal::Looked& l) const {
    all({l.standing_cm, l.cover_percent, l.straw_kg_per_ha});
  }
  void operator()(const journal::Water& w) const { all({w.depth_cm, w.m3}); }
  void operator()(const journal::Bales& b) const { all({b.counted, b.hauled}); }
  void operator()(const auto&) const {}
  static void all(const std::vector<std::optional<double>>& numbers) {
    for (const auto& n : numbers) check_number(n);
  }
};

void check_said(const Entry& e) {
  for (const farm::UnitSystem units : {farm::UnitSystem::si, farm::UnitSystem::us}) {
    const std::string said = journal::said_of(e, units);
    must(!said.empty() && CPLIsUTF8(said.c_str(), static_cast<int>(said.size())) != 0, "said as UTF-8 text");
    must(said.find('\n') == std::string::npos, "said in one line");
  }
}

std::vector<Entry> checked_standing(const std::vector<Entry>& entries, Date day) {
  const std::vector<Entry> standing = journal::standing_on(entries, day);
  std::vector<int> seqs;
  for (std::size_t k = 0; k < standing.size(); ++k) {
    const Entry& e = standing[k];
    must(!std::holds_alternative<journal::TakenBack>(e.what), "what stands was not taken back");
    must(k == 0 || std::pair{standing[k - 1].done_on, standing[k - 1].seq} < std::pair{e.done_on, e.seq},
         "what stands is in order");
    seqs.push_back(e.seq);
  }
  std::ranges::sort(seqs);
  must(std::ranges::adjacent_find(seqs) == seqs.end(), "each number stands once");
  return standing;
}

std::string finite(const std::string& text) {
  must(text.find("nan") == std::string::npos && text.find("inf") == std::string::npos,
       "a state is finite: " + text);
  return text;
}

void check_state(const farm::Problem& problem) {
  const auto state = journal::state_of(problem);
  must(state.has_value() == !problem.so_far.empty(), "a state where something has happened");
  if (!state) return;
  const std::string whole = finite(journal::text_of(*state));
  const int day = problem.farm.season.day(problem.as_of);
  std::vector<farm::Happened> events = problem.so_far.events;
  std::ranges::stable_sort(events, {}, &farm::Happened::seq);  // as they were recorded
  journal::Follow follow{problem};
  for (std::size_t k = 0; k < events.size(); ++k) {
    follow.add(events[k]);
    if (k % 4 == 0) finite(journal::text_of(follow.on(day)));
  }
  must(journal::text_of(follow.on(day)) == whole, "entry by entry gives the state of the whole journal");
  if (events.empty()) return;
  follow.take_back(events.front().seq);
  finite(journal::text_of(follow.on(day)));
  follow.add(events.front());
  must(journal::text_of(follow.on(day)) == whole, "taken back and told again it is the same state");
}

}  // namespace

SeasonFolder::SeasonFolder(const std::string& target) : folder_{target}, problem_{read_season(folder_)} {}

void check_entries(const std::vector<Entry>& entries) {
  for (const Entry& e : entries) {
    std::visit(Numbers{}, e.what);
    check_said(e);
  }
  const auto again = journal::read_log_text(journal::log_text(entries));
  must(again.ok(), again.ok() ? "" : "a journal that was read can be written: " + checked(again.issues()));
  must(again.value().entries == entries && again.value().torn.empty(),
       "written and read again it is the same");
}

void check_season(const farm::Problem& problem, const std::vector<Entry>& entries) {
  const std::vector<Entry> standing = checked_standing(entries, problem.as_of);
  const auto put = journal::put_in(problem, standing, "journal.jsonl");
  if (!put.ok()) {
    checked(put.issues());
    return;
  }
  for (const farm::Field& f : put.value().farm.fields)
    must(std::isfinite(f.straw_load.value()) && f.straw_load.value() >= 0.0, "a straw load is a number");
  check_state(put.value());
}

}  // namespace aftercut::fuzz
