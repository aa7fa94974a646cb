// plan-years.jsonl: the run of every weather year, one line each, in cents and minutes so that it can be
// checked to the last digit.

#include "aftercut/report/report.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

const char* status_words(plan::Status s) {
  switch (s) {
    case plan::Status::ready:
      return "ready";
    case plan::Status::late:
      return "late";
    case plan::Status::unplanted:
      return "unplanted";
    case plan::Status::nothing_due:
      return "nothing_due";
    case plan::Status::no_method:
      return "no_method";
  }
  fail("unknown status");
}

json date_or_null(const farm::Farm& farm, int day) {
  return day == plan::none ? json(nullptr) : json(iso(farm.season.date(day)));
}

json cents_json(const plan::CostParts& c) {
  json out = json::object();
  for (const plan::CostPart& part : plan::cost_parts) out[part.key] = c.*part.of;
  return out;
}

json next_crop_json(const plan::NextCrop& c) {
  return {{"burned_in_rows", c.burned_in_rows},
          {"burned_moisture_percent", rounded(c.burned_moisture_percent, 6)},
          {"applied_early_kg_per_ha", rounded(c.applied_early_kg_per_ha, 6)},
          {"applied_late_kg_per_ha", rounded(c.applied_late_kg_per_ha, 6)},
          {"n_taken_up_kg_per_ha", rounded(c.n_taken_up_kg_per_ha, 6)},
          {"n_given_back_kg_per_ha", rounded(c.n_given_back_kg_per_ha, 6)},
          {"n_held_kg_per_ha", rounded(c.n_held_kg_per_ha, 6)},
          {"spring_day", c.spring_day},
          {"spring_on_top_kg_per_ha", rounded(c.spring_on_top_kg_per_ha, 6)},
          {"spring_in_ground_kg_per_ha", rounded(c.spring_in_ground_kg_per_ha, 6)},
          {"flooded_days", c.flooded_days},
          {"bird_days", c.bird_days},
          {"long_flood_end_day", c.long_flood_end},
          {"waste_grain_kg_per_ha", rounded(c.waste_grain_kg_per_ha, 6)}};
}

json not_burned_json(const plan::DaysNotBurned& days) {
  json out = json::object();
  for (const plan::NotBurnedPart& part : plan::not_burned_parts) out[part.key] = days.*part.of;
  return out;
}

json field_run_json(const farm::Farm& farm, std::size_t f, const plan::FieldRun& r) {
  return {{"field", farm.fields.at(f).id.value},
          {"status", status_words(r.status)},
          {"ready", date_or_null(farm, r.ready_day)},
          {"fell_back", r.fell_back},
          {"steps_passed_over", r.steps_passed_over},
          {"finished_dry", r.finished_dry},
          {"not_burned_days", not_burned_json(r.not_burned)},
          {"machine_min", r.machine_min},
          {"labour_min", r.labour_min},
          {"fuel_l", rounded(r.fuel_l, 6)},
          {"water_m3", rounded(r.water_m3, 6)},
          {"straw_left_kg_per_ha", rounded(r.straw_left_kg_per_ha, 6)},
          {"baled_kg_per_ha", rounded(r.baled_kg_per_ha, 6)},
          {"burned_kg_per_ha", rounded(r.burned_kg_per_ha, 6)},
          {"decayed_kg_per_ha", rounded(r.decayed_kg_per_ha, 6)},
          {"straw_done", date_or_null(farm, r.straw_done_day)},
          {"straw_over", date_or_null(farm, r.straw_over_day)},
          {"next_crop", next_crop_json(r.next_crop)},
          {"cost", cents_json(r.cost)}};
}

json work_json(const farm::Farm& farm, const plan::Work& w) {
  json crew = json::array();
  for (const int o : w.crew) {
    if (o != plan::none) crew.push_back(id_or_null(farm.operators, o));
  }
  return {{"field", id_or_null(farm.fields, w.field)},
          {"fell_back", w.fell_back},
          {"step", w.step},
          {"pass", w.pass},
          {"operation", id_or_null(farm.book.operations, w.operation)},
          {"date", iso(farm.season.date(w.day))},
          {"start_min", w.start_min},
          {"end_min", w.end_min},
          {"tractor", id_or_null(farm.tractors, w.tractor)},
          {"implement", id_or_null(farm.implements, w.implement)},
          {"crew", crew},
          {"area_ha", rounded(w.area_ha, 6)},
          {"fuel_l", rounded(w.fuel_l, 6)},
          {"finishes", w.finishes},
          {"stands_by", w.stands_by}};
}

/// `test` of the plan's fall-backs; none: the plan itself.
std::string line_of(const farm::Farm& farm, const plan::YearRun& run, std::optional<std::size_t> test = {}) {
  json fields = json::array(), work = json::array(), water = json::array();
  for (std::size_t f = 0; f < run.fields.size(); ++f)
    fields.push_back(field_run_json(farm, f, run.fields[f]));
  for (const auto& w : run.work) work.push_back(work_json(farm, w));
  for (const auto& w : run.water) {
    water.push_back({{"field", id_or_null(farm.fields, w.field)},
                     {"date", iso(farm.season.date(w.day))},
                     {"m3", rounded(w.m3, 6)}});
  }
  json out{{"schema", "aftercut-plan-years-1"}, {"year", run.year}};
  if (test) out["fall_backs"] = *test;
  out["fields"] = fields;
  out["work"] = work;
  out["water"] = water;
  return out.dump() + "\n";
}

std::string lines_of(const farm::Farm& farm, const std::vector<plan::YearRun>& runs) {
  std::string out;
  for (const auto& run : runs) out += line_of(farm, run);
  return out;
}

}  // namespace

std::string years_jsonl(const farm::Problem& problem, const plan::PlannedYears& planned) {
  return lines_of(problem.farm, planned.runs);
}

std::string stood_years_jsonl(const farm::Problem& problem, const plan::PlannedYears& planned) {
  return lines_of(problem.farm, planned.stood_runs);
}

std::string fall_back_years_jsonl(const farm::Problem& problem, const plan::PlannedYears& planned) {
  std::string out;
  for (std::size_t t = 0; t < planned.fall_back_runs.size(); ++t)
    for (const auto& run : planned.fall_back_runs[t]) out += line_of(problem.farm, run, t);
  return out;
}

}  // namespace aftercut::report
