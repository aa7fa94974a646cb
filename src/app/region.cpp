#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/region.hpp"
#include "aftercut/report/region.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/scenario/region.hpp"

namespace aftercut::app {
namespace {

namespace fs = std::filesystem;

Options options_of_farm(Options o, const std::string& folder) {
  o.farm = (fs::path{o.farm} / folder).string();
  return o;
}

Result<farm::Problem> read_farm(const Options& o, const std::string& folder, const scenario::Fits* fits) {
  auto input = read_input(options_of_farm(o, folder), fits == nullptr);
  if (!input.ok()) return input.issues();
  farm::Problem problem = std::move(input).value().problem;
  if (fits != nullptr) problem.farm.fits = *fits;
  return problem;
}

Issues unknown_wholes(const Options& o, const farm::RegionFolder& region) {
  Issues issues;
  for (const std::string& name : o.wholes)
    if (std::ranges::find(region.farms, name) == region.farms.end())
      issues.push_back({"command line", "--whole", name, "a farm of the region, like " + region.farms.front(),
                        "name a farm's folder as region.json has it"});
  return issues;
}

report::RegionMoment moment_of(const scenario::RegionStep& s, double seconds) {
  return {.seconds = seconds,
          .looked_at = s.looked_at,
          .planned = s.planned,
          .farms = s.farms,
          .cost = s.cents / 100.0,
          .planned_cost = s.planned_cents / 100.0,
          .bound = s.bound_cents / 100.0};
}

/// One farm's whole plan within its share, audited, in a folder of its own.
Result<audit::Audit> write_whole(const Options& o, const plan::RegionFarm& farm) {
  auto read = read_farm(o, farm.folder, nullptr);
  if (!read.ok()) return read.issues();
  const farm::Problem problem = scenario::with_shares(std::move(read).value(), farm.share);
  auto planned = scenario::make_plan(problem, {.seed = o.seed,
                                               .threads = threads_of(o),
                                               .evaluations = 0,
                                               .bound_rounds = o.bound_rounds,
                                               .progress = progress_line("Writing " + farm.name),
                                               .decision = farm.decision});
  planned.plan.version = AFTERCUT_VERSION;
  const audit::Audit audit = audit::check(problem, planned);
  const auto written = report::write(problem, planned, audit, fs::path{o.out} / farm.folder);
  if (!written.ok()) return written.issues();
  return audit;
}

int write_wholes(const Options& o, const plan::Region& region) {
  int code = done;
  for (const std::string& folder : o.wholes) {
    const auto farm = std::ranges::find(region.farms, folder, &plan::RegionFarm::folder);
    const auto audit = write_whole(o, *farm);
    if (!audit.ok()) return report_issues(audit.issues(), o.json);
    if (!audit.value().ok()) code = not_reached;
    if (!o.json)
      fmt::print("{}: {} checks, {} violations. Report: {}/{}/report.html\n", folder, audit.value().checks,
                 audit.value().count, o.out, folder);
  }
  return code;
}

}  // namespace

int plan_region(const Options& o) {
  const auto folder = farm::read_region(o.farm);
  if (!folder.ok()) return report_issues(folder.issues(), o.json);
  const farm::RegionFolder& in = folder.value();
  if (const Issues issues = unknown_wholes(o, in); !issues.empty()) return report_issues(issues, o.json);
  const auto start = std::chrono::steady_clock::now();
  const auto seconds = [&] {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  };
  const auto progress = progress_line("Planning " + in.name);
  report::RegionShown shown;
  const auto region = scenario::plan_region(
      {.folder = &in,
       .read = [&](std::size_t f, const scenario::Fits* fits) { return read_farm(o, in.farms[f], fits); },
       .seed = o.seed,
       .threads = threads_of(o),
       .look_changes = o.look_evaluations,
       .plan_changes = o.farm_evaluations,
       .bound_rounds = o.bound_rounds,
       .step =
           [&](const scenario::RegionStep& s) {
             shown.moments.push_back(moment_of(s, seconds()));
             const auto n = static_cast<double>(s.farms);
             if (progress)
               progress((0.25 * static_cast<double>(s.looked_at) + 0.75 * static_cast<double>(s.planned)) /
                        n);
           }});
  if (!region.ok()) return report_issues(region.issues(), o.json);
  shown.region = &region.value();
  shown.version = AFTERCUT_VERSION;
  shown.audit = audit::check_region(region.value());
  const auto written = report::write_region(shown, o.out);
  if (!written.ok()) return report_issues(written.issues(), o.json);
  fmt::print("{}", o.json ? report::region_json(shown) : report::region_text(shown));
  if (!o.json) fmt::print("Planned in {:.1f} s. Page: {}/region.html\n", seconds(), o.out);
  const int wholes = write_wholes(o, region.value());
  if (wholes == bad_input) return wholes;
  return shown.audit.ok() && region.value().fits && wholes == done ? done : not_reached;
}

}  // namespace aftercut::app
