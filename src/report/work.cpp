// Stretches of work: as JSON rows of the plan and as a table for the shed.

#include "aftercut/report/report.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

json crew_json(const farm::Farm& farm, const plan::Work& w) {
  json ids = json::array();
  for (const int o : w.crew) {
    if (o != plan::none) ids.push_back(farm.operators.at(static_cast<std::size_t>(o)).id.value);
  }
  return ids;
}

json row_json(const farm::Farm& farm, const plan::Work& w) {
  const Date day = farm.season.date(w.day);
  const json crew = crew_json(farm, w);
  return {{"field", farm.fields.at(static_cast<std::size_t>(w.field)).id.value},
          {"operation", farm.book.operations.at(static_cast<std::size_t>(w.operation)).id.value},
          {"fell_back", w.fell_back},
          {"step", w.step},
          {"pass", w.pass},
          {"machine", id_or_null(farm.implements, w.implement)},
          {"tractor", id_or_null(farm.tractors, w.tractor)},
          {"operator", crew.empty() ? json(nullptr) : crew[0]},
          {"operators", crew},
          {"start", date_time(day, w.start_min)},
          {"end", date_time(day, w.end_min)},
          {"hours", rounded((w.end_min - w.start_min) / 60.0, 2)},
          {"area_ha", rounded(w.area_ha, 4)},
          {"fuel_l", rounded(w.fuel_l, 2)},
          {"finishes", w.finishes},
          {"stands_by", w.stands_by}};
}

template <class T>
std::string name_of(const std::vector<T>& all, int index) {
  if (index == plan::none) return "";
  const T& x = all.at(static_cast<std::size_t>(index));
  return x.name.empty() ? x.id.value : x.name;
}

std::string crew_names(const farm::Farm& farm, const plan::Work& w) {
  std::string out;
  for (const int o : w.crew) {
    if (o != plan::none) out += fmt::format("{}{}", out.empty() ? "" : " + ", name_of(farm.operators, o));
  }
  return out;
}

std::string csv_row(const farm::Farm& farm, const plan::Work& w, const Units& u) {
  const Date day = farm.season.date(w.day);
  return fmt::format("{},{},{},{},{},{},{},{},{},{:.2f},{:.2f},{:.1f}\n", iso(day),
                     csv_cell(farm.fields.at(static_cast<std::size_t>(w.field)).id.value),
                     csv_cell(name_of(farm.fields, w.field)),
                     csv_cell((w.stands_by ? "stand by: " : "") + name_of(farm.book.operations, w.operation)),
                     csv_cell(name_of(farm.implements, w.implement)),
                     csv_cell(name_of(farm.tractors, w.tractor)), csv_cell(crew_names(farm, w)),
                     date_time(day, w.start_min).substr(11), date_time(day, w.end_min).substr(11),
                     (w.end_min - w.start_min) / 60.0, w.area_ha * u.area_per_ha, w.fuel_l * u.fuel_per_l);
}

}  // namespace

json schedule_json(const farm::Farm& farm, const plan::YearRun& run) {
  json out = json::array();
  for (const auto& w : run.work) out.push_back(row_json(farm, w));
  return out;
}

std::string work_csv(const farm::Problem& problem, const plan::PlannedYears& planned) {
  const Units& u = units_of(problem.farm);
  std::string out = fmt::format(
      "date,field,field_name,operation,machine,tractor,operator,start,end,hours,area_{},fuel_{}\n", u.area,
      u.fuel == std::string{"L"} ? "l" : u.fuel);
  for (const auto& w : run_of(planned, planned.plan.schedule_year).work) out += csv_row(problem.farm, w, u);
  return out;
}

}  // namespace aftercut::report
