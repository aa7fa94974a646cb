#include "read_years.hpp"

#include <algorithm>
#include <array>
#include <sstream>

#include "read_environment.hpp"

namespace aftercut::audit {
namespace {

constexpr const char* years_schema = "aftercut-plan-years-1";

plan::Status status_from(JsonIn& in, const std::string& word, const std::string& place) {
  using S = plan::Status;
  static const std::map<std::string, S> words{{"ready", S::ready},
                                              {"late", S::late},
                                              {"unplanted", S::unplanted},
                                              {"nothing_due", S::nothing_due},
                                              {"no_method", S::no_method}};
  const auto known = words.find(word);
  if (known != words.end()) return known->second;
  in.issue(place + ".status", word, "ready, late, unplanted, nothing_due or no_method",
           "write the plan again");
  return S::unplanted;
}

plan::FieldRun read_field_run(JsonIn& in, const Json& row, const std::string& place) {
  plan::FieldRun r;
  r.status = status_from(in, in.text(row, "status", place), place);
  r.ready_day = in.day(row, "ready", place, true);
  r.fell_back = in.truth(row, "fell_back", place);
  r.steps_passed_over = in.small(row, "steps_passed_over", place);
  r.finished_dry = in.small(row, "finished_dry", place);
  const Json& not_burned = in.get(row, "not_burned_days", place);
  for (const plan::NotBurnedPart& part : plan::not_burned_parts)
    r.not_burned.*part.of = in.small(not_burned, part.key, place + ".not_burned_days");
  r.machine_min = in.whole(row, "machine_min", place);
  r.labour_min = in.whole(row, "labour_min", place);
  r.fuel_l = in.number(row, "fuel_l", place);
  r.water_m3 = in.number(row, "water_m3", place);
  r.straw_left_kg_per_ha = in.number(row, "straw_left_kg_per_ha", place);
  r.baled_kg_per_ha = in.number(row, "baled_kg_per_ha", place);
  r.burned_kg_per_ha = in.number(row, "burned_kg_per_ha", place);
  r.decayed_kg_per_ha = in.number(row, "decayed_kg_per_ha", place);
  r.straw_done_day = in.day(row, "straw_done", place, true);
  r.straw_over_day = in.day(row, "straw_over", place, true);
  r.next_crop = read_next_crop(in, in.get(row, "next_crop", place), place + ".next_crop");
  r.cost = read_cost(in, in.get(row, "cost", place), place + ".cost", true);
  return r;
}

std::vector<plan::FieldRun> read_fields(JsonIn& in, const Json& line, const std::string& place) {
  const auto& fields = in.farm().fields;
  std::vector<plan::FieldRun> runs(fields.size());
  std::vector<int> times(fields.size(), 0);
  const Json& rows = in.array(line, "fields", place);
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::string where = place + ".fields[" + std::to_string(k) + "]";
    const int field =
        in.index(in.get(rows[k], "field", where), in.ids().fields, "field", where + ".field", false);
    if (field == plan::none) continue;
    runs[static_cast<std::size_t>(field)] = read_field_run(in, rows[k], where);
    ++times[static_cast<std::size_t>(field)];
  }
  for (std::size_t f = 0; f < fields.size(); ++f)
    if (times[f] != 1)
      in.issue(place + ".fields", "field " + fields[f].id.value + " " + std::to_string(times[f]) + " times",
               "each field of the farm once", "write the plan again");
  return runs;
}

std::array<int, 4> read_crew(JsonIn& in, const Json& row, const std::string& place) {
  std::array<int, 4> crew{plan::none, plan::none, plan::none, plan::none};
  const Json& people = in.array(row, "crew", place);
  if (people.size() > crew.size())
    in.issue(place + ".crew", std::to_string(people.size()) + " people", "at most 4", "write the plan again");
  for (std::size_t k = 0; k < std::min(people.size(), crew.size()); ++k)
    crew[k] = in.index(people[k], in.ids().operators, "person", place + ".crew", false);
  return crew;
}

plan::Work read_work(JsonIn& in, const Json& row, const std::string& place) {
  plan::Work w;
  w.field = in.index(in.get(row, "field", place), in.ids().fields, "field", place + ".field", false);
  w.fell_back = in.truth(row, "fell_back", place);
  w.step = in.small(row, "step", place);
  w.pass = in.small(row, "pass", place);
  w.operation = in.index(in.get(row, "operation", place), in.ids().operations, "operation",
                         place + ".operation", false);
  w.day = in.day(row, "date", place, false);
  w.start_min = in.small(row, "start_min", place);
  w.end_min = in.small(row, "end_min", place);
  w.tractor = in.index(in.get(row, "tractor", place), in.ids().tractors, "tractor", place + ".tractor", true);
  w.implement =
      in.index(in.get(row, "implement", place), in.ids().implements, "implement", place + ".implement", true);
  w.crew = read_crew(in, row, place);
  w.area_ha = in.number(row, "area_ha", place);
  w.fuel_l = in.number(row, "fuel_l", place);
  w.finishes = in.truth(row, "finishes", place);
  w.stands_by = in.truth(row, "stands_by", place);
  return w;
}

struct Line {
  plan::YearRun run;
  int test = plan::none;  ///< place among the plan's fall-backs; none: a year of the plan itself
};

Line read_line(JsonIn& in, const std::string& text, const std::string& place) {
  Line out;
  plan::YearRun& run = out.run;
  const std::size_t before = in.issues().size();
  const Json line = in.parse(text, place);
  if (in.issues().size() > before) return out;
  if (line.is_object() && line.contains("fall_backs")) out.test = in.small(line, "fall_backs", place);
  const std::string schema = in.text(line, "schema", place);
  if (schema != years_schema)
    in.issue(place + ".schema", schema, years_schema, "write the plan again with this version");
  run.year = in.small(line, "year", place);
  run.fields = read_fields(in, line, place);
  const Json& work = in.array(line, "work", place);
  for (std::size_t k = 0; k < work.size(); ++k)
    run.work.push_back(read_work(in, work[k], place + ".work[" + std::to_string(k) + "]"));
  const Json& water = in.array(line, "water", place);
  for (std::size_t k = 0; k < water.size(); ++k) {
    const std::string where = place + ".water[" + std::to_string(k) + "]";
    run.water.push_back(
        {in.index(in.get(water[k], "field", where), in.ids().fields, "field", where + ".field", false),
         in.day(water[k], "date", where, false), in.number(water[k], "m3", where)});
  }
  return out;
}

}  // namespace

plan::CostParts read_cost(JsonIn& in, const Json& parts, const std::string& place, bool in_cents) {
  plan::CostParts c;
  for (const plan::CostPart& part : plan::cost_parts)
    c.*part.of = in_cents ? in.whole(parts, part.key, place) : in.cents(parts, part.key, place);
  return c;
}

std::vector<plan::YearRun> read_years(JsonIn& in, const std::string& text) {
  std::vector<plan::YearRun> runs;
  std::istringstream lines{text};
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number)
    if (!line.empty()) runs.push_back(read_line(in, line, "line " + std::to_string(number)).run);
  if (runs.empty()) in.issue("file", "no lines", "one line for each weather year", "write the plan again");
  return runs;
}

std::vector<std::vector<plan::YearRun>> read_fall_back_years(JsonIn& in, const std::string& text,
                                                             std::size_t tests) {
  std::vector<std::vector<plan::YearRun>> runs(tests);
  std::istringstream lines{text};
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    if (line.empty()) continue;
    const std::string place = "line " + std::to_string(number);
    Line read = read_line(in, line, place);
    if (read.test >= 0 && read.test < static_cast<int>(tests))
      runs[static_cast<std::size_t>(read.test)].push_back(std::move(read.run));
    else
      in.issue(place + ".fall_backs", std::to_string(read.test), "a place among the plan's fall_backs",
               "write the plan again");
  }
  return runs;
}

}  // namespace aftercut::audit
