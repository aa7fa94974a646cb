#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/report/burn.hpp"

namespace aftercut::app {
namespace {

Result<Date> day_asked(const Options& o, const farm::Problem& problem) {
  if (o.day.empty()) return problem.as_of;
  const auto day = parse_iso_date(o.day);
  const farm::Calendar& season = problem.farm.season;
  const std::string expected =
      "a day of the season, " + iso(season.first) + " to " + iso(season.date(season.days - 1));
  if (day && *day >= season.first && *day <= season.date(season.days - 1)) return *day;
  return Issues{{"command line", "--day", o.day, expected, "give another day"}};
}

Result<std::vector<std::size_t>> fields_asked(const Options& o, const farm::Farm& farm) {
  std::vector<std::size_t> fields;
  for (std::size_t f = 0; f < farm.fields.size(); ++f)
    if (o.field.empty() || farm.fields[f].id.value == o.field) fields.push_back(f);
  if (fields.empty())
    return Issues{{"command line", "--field", o.field, "the id of a field of the farm", "correct the id"}};
  return fields;
}

/// burn.json and one sheet a field; issues of the first file that could not be written.
Issues write_sheets(const std::filesystem::path& out, const farm::Farm& farm,
                    const std::vector<season::BurnStanding>& standings) {
  std::error_code failed;
  std::filesystem::create_directories(out, failed);
  const auto json = save_file(out / "burn.json", report::burn_json(farm, standings));
  if (!json) return json.issues();
  for (const season::BurnStanding& s : standings) {
    const auto sheet =
        save_file(out / report::burn_sheet_name(farm.fields[s.field].id), report::burn_sheet_html(farm, s));
    if (!sheet) return sheet.issues();
  }
  return {};
}

}  // namespace

int show_burning(const Options& o) {
  const auto read = farm::read(o.farm, {.fit_implements = false});
  if (!read) return report_issues(read.issues(), o.json);
  const farm::Problem& problem = read.value();
  const auto day = day_asked(o, problem);
  const auto fields = fields_asked(o, problem.farm);
  Issues issues = day.issues();
  for (const Issue& i : fields.issues()) issues.push_back(i);
  if (!issues.empty()) return report_issues(issues, o.json);
  std::vector<season::BurnStanding> standings;
  for (const std::size_t f : fields.value())
    standings.push_back(season::burn_standing(problem, f, day.value()));
  fmt::print(
      "{}", o.json ? report::burn_json(problem.farm, standings) : report::burn_text(problem.farm, standings));
  if (o.out.empty()) return done;
  const Issues faults = write_sheets(o.out, problem.farm, standings);
  if (!faults.empty()) return report_issues(faults, o.json);
  if (!o.json) fmt::print("\nSheets: {}\n", (std::filesystem::path{o.out} / "burn-*.html").string());
  return done;
}

}  // namespace aftercut::app
