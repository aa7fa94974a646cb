// All outputs of a plan, or none of them.

#include <array>

#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "exports_parts.hpp"
#include "layers.hpp"
#include "out_folder.hpp"

namespace aftercut::report {
namespace {

namespace fs = std::filesystem;
constexpr std::array<const char*, 4> beside{"calendar.ics", "work.xlsx", "truck-sheet.html",
                                            "truck-sheet.txt"};

/// The exports that stand beside every plan; made from its text, as `aftercut export` would.
Issues write_beside(const std::string& plan_text, farm::UnitSystem units, const fs::path& folder) {
  const auto plan = sheets::read_plan_text(plan_text);
  require(plan.ok(), "a plan that was written can be read");
  const ExportOptions options{units == farm::UnitSystem::us ? Paper::letter : Paper::a4};
  Issues issues;
  for (const char* name : beside) {
    const auto file = sheets::exported(plan.value(), name, options);
    gather(issues, file);
    if (file.ok()) gather(issues, save_file(folder / name, file.value().bytes));
  }
  return issues;
}

Issues write_files(const farm::Problem& problem, const plan::PlannedYears& planned, const audit::Audit& audit,
                   const fs::path& folder) {
  const std::string plan = plan_json(problem, planned, audit);
  const geo::LayerToWrite layer = fields_layer(problem, planned);
  Issues issues;
  gather(issues, save_file(folder / "plan.json", plan));
  gather(issues, save_file(folder / "plan-years.jsonl", years_jsonl(problem, planned)));
  gather(issues, save_file(folder / "fall-back-years.jsonl", fall_back_years_jsonl(problem, planned)));
  if (planned.plan.again)
    gather(issues, save_file(folder / "stood-years.jsonl", stood_years_jsonl(problem, planned)));
  if (planned.bound) gather(issues, save_file(folder / "bound.json", bound_json(problem, planned)));
  gather(issues, save_file(folder / "report.html", report_html(plan, problem.farm)));
  gather(issues, save_file(folder / "work.csv", work_csv(problem, planned)));
  for (Issue& issue : write_beside(plan, problem.farm.units, folder)) issues.push_back(std::move(issue));
  gather(issues, geo::write_geojson(folder / "fields.geojson", layer));
  gather(issues, geo::write_geopackage(folder / "fields.gpkg", {layer}));
  return issues;
}

/// plan.json last: where it stands, the others do.
std::vector<std::string> plan_files() {
  std::vector<std::string> names{beside.begin(), beside.end()};
  for (const char* name : {"plan-years.jsonl", "fall-back-years.jsonl", "stood-years.jsonl", "bound.json",
                           "report.html", "work.csv", "fields.geojson", "fields.gpkg", "plan.json"})
    names.emplace_back(name);
  return names;
}

}  // namespace

Result<fs::path> write(const farm::Problem& problem, const plan::PlannedYears& planned,
                       const audit::Audit& audit, const fs::path& out) {
  return write_folder(out, plan_files(),
                      [&](const fs::path& folder) { return write_files(problem, planned, audit, folder); });
}

Result<fs::path> copy_plan(const fs::path& from, const fs::path& to) {
  return write_folder(to, plan_files(), [&](const fs::path& folder) {
    Issues issues;
    for (const std::string& name : plan_files()) {
      if (!fs::exists(from / name)) continue;
      const auto bytes = read_file(from / name);
      gather(issues, bytes);
      if (bytes.ok()) gather(issues, save_file(folder / name, bytes.value()));
    }
    return issues;
  });
}

}  // namespace aftercut::report
