// All outputs of a plan, or none of them.

#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "layers.hpp"
#include "out_folder.hpp"

namespace aftercut::report {
namespace {

namespace fs = std::filesystem;

Issues write_files(const farm::Problem& problem, const plan::PlannedYears& planned, const audit::Audit& audit,
                   const fs::path& folder) {
  const std::string plan = plan_json(problem, planned, audit);
  const geo::LayerToWrite layer = fields_layer(problem, planned);
  Issues issues;
  gather(issues, save_file(folder / "plan.json", plan));
  gather(issues, save_file(folder / "plan-years.jsonl", years_jsonl(problem, planned)));
  gather(issues, save_file(folder / "fall-back-years.jsonl", fall_back_years_jsonl(problem, planned)));
  if (planned.bound) gather(issues, save_file(folder / "bound.json", bound_json(problem, planned)));
  gather(issues, save_file(folder / "report.html", report_html(plan, problem.farm)));
  gather(issues, save_file(folder / "work.csv", work_csv(problem, planned)));
  gather(issues, geo::write_geojson(folder / "fields.geojson", layer));
  gather(issues, geo::write_geopackage(folder / "fields.gpkg", {layer}));
  return issues;
}

}  // namespace

Result<fs::path> write(const farm::Problem& problem, const plan::PlannedYears& planned,
                       const audit::Audit& audit, const fs::path& out) {
  const std::vector<std::string> names{
      "plan-years.jsonl", "fall-back-years.jsonl", "bound.json",  "report.html",
      "work.csv",         "fields.geojson",        "fields.gpkg", "plan.json"};
  return write_folder(out, names,
                      [&](const fs::path& folder) { return write_files(problem, planned, audit, folder); });
}

}  // namespace aftercut::report
