#include <fmt/format.h>

#include <algorithm>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/core/mixed_files.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/report/write_exports.hpp"

namespace aftercut::app {

int export_plan(const Options& o) {
  const auto plan = read_file(plan_file(o));
  const auto older = o.replaces.empty() ? Result<std::string>{std::string{}} : read_file(o.replaces);
  Issues missing = plan.issues();
  for (const Issue& i : older.issues()) missing.push_back(i);
  for (const Issue& i : mixed_files(plan_file(o).parent_path())) missing.push_back(i);
  if (!missing.empty()) return report_issues(missing, o.json);
  report::ExportsAsked asked{
      .names = o.only,
      .paper = {},
      .language = o.language == "es" ? report::Language::spanish : report::Language::english,
      .older_calendar = {}};
  if (!o.paper.empty()) asked.paper = o.paper == "letter" ? report::Paper::letter : report::Paper::a4;
  if (!o.replaces.empty()) asked.older_calendar = older.value();
  const auto written = report::write_exports(plan.value(), asked, o.out);
  if (!written.ok()) return report_issues(written.issues(), o.json);
  for (const std::string& name : written.value()) fmt::print("{}/{}\n", o.out, name);
  return done;
}

}  // namespace aftercut::app
