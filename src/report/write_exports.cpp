#include "aftercut/report/write_exports.hpp"

#include <algorithm>

#include "aftercut/core/save_file.hpp"
#include "exports_parts.hpp"
#include "out_folder.hpp"
#include "sheet_words.hpp"

namespace aftercut::report {
namespace {

std::vector<std::string> in_order(const std::vector<std::string>& asked) {
  if (asked.empty()) return export_names();
  std::vector<std::string> names;
  for (const std::string& name : export_names())
    if (std::ranges::count(asked, name) > 0) names.push_back(name);
  return names;
}

Issues unknown_names(const std::vector<std::string>& asked) {
  Issues issues;
  for (const std::string& name : asked)
    if (std::ranges::count(export_names(), name) == 0)
      issues.push_back({"command line", "--only", name, "one of " + sheets::list_of(export_names()),
                        "choose one of these"});
  return issues;
}

}  // namespace

Result<std::vector<std::string>> write_exports(const std::string& plan_json, const ExportsAsked& asked,
                                               const std::filesystem::path& out) {
  Issues issues = unknown_names(asked.names);
  const auto plan = sheets::read_plan_text(plan_json);
  gather(issues, plan);
  if (!plan.ok()) return issues;
  const ExportOptions options{asked.paper.value_or(plan.value().us ? Paper::letter : Paper::a4),
                              asked.language};
  const std::vector<std::string> names = in_order(asked.names);
  std::vector<Exported> files;
  for (const std::string& name : names) {
    auto file = name == "calendar.ics" && asked.older_calendar
                    ? sheets::calendar_in_place_of(plan.value(), *asked.older_calendar)
                    : sheets::exported(plan.value(), name, options);
    gather(issues, file);
    if (file.ok()) files.push_back(std::move(file).value());
  }
  if (!issues.empty()) return issues;
  const auto written = write_folder(out, names, [&](const std::filesystem::path& folder) {
    Issues refused;
    for (const Exported& file : files) gather(refused, save_file(folder / file.name, file.bytes));
    return refused;
  });
  if (!written.ok()) return written.issues();
  return names;
}

}  // namespace aftercut::report
