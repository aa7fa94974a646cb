#include <fmt/format.h>

#include <algorithm>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/farm/wishes.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/report/hindcast.hpp"
#include "aftercut/review/hindcast.hpp"

namespace aftercut::app {
namespace {

/// The season days of the dates asked for, rising, each once.
Result<std::vector<int>> days_asked(const Options& o, const farm::Calendar& season) {
  std::vector<int> days;
  Issues issues;
  for (const std::string& text : o.dates) {
    const auto date = parse_month_day(text);
    const int day = date ? season.day(*date) : season.days;
    if (day < season.days)
      days.push_back(day);
    else
      issues.push_back({"command line", "--dates", text,
                        fmt::format("a month and day of the season, {} to {}, like 11-01",
                                    iso(season.first).substr(5), iso(season.date(season.days - 1)).substr(5)),
                        "mend the option"});
  }
  if (!issues.empty()) return issues;
  std::ranges::sort(days);
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

Result<farm::Problem> past_of(const Input& input) {
  if (std::ranges::none_of(input.problem.farm.fields, farm::seedbed_due))
    return Issues{{"farm.json", "next_use", "no field with a planting date", "a seedbed that is due",
                   "there is no readiness to look back on"}};
  farm::Problem past = review::past_winters(input.problem);
  const std::size_t winters = input.stretched ? 0 : past.years.years.size();
  if (winters >= review::least_winters) return past;
  return Issues{{"command line", "weather years", std::to_string(winters),
                 fmt::format("{} whole seasons or more in the weather record", review::least_winters),
                 "give a longer record, or ask for more of it by --years"}};
}

plan::Hindcast look_back(const farm::Problem& past, const std::vector<int>& days, const Options& o) {
  const int threads = threads_of(o);
  return review::hindcast(
      {.problem = &past,
       .days = days,
       .seed = o.seed,
       .threads = threads,
       .choose =
           [&o, threads](const dispatch::Table& table, const std::vector<std::size_t>& others) {
             return planner::search({.table = &table,
                                     .years = others,
                                     .seed = o.seed,
                                     .threads = threads,
                                     .evaluations = o.hindcast_evaluations})
                 .decision;
           },
       .progress = progress_line("Looking back")});
}

}  // namespace

int hindcast(const Options& asked) {
  Options o = asked;
  o.journal = false;  // past winters know nothing of this one
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  const auto days = days_asked(o, input.value().problem.farm.season);
  const auto past = past_of(input.value());
  Issues issues = days.issues();
  for (const Issue& i : past.issues()) issues.push_back(i);
  if (!issues.empty()) return report_issues(issues, o.json);
  const plan::Hindcast found = look_back(past.value(), days.value(), o);
  const report::HindcastShown shown{.problem = &past.value(),
                                    .hindcast = &found,
                                    .version = AFTERCUT_VERSION,
                                    .seed = o.seed,
                                    .evaluations = o.hindcast_evaluations};
  if (!o.out.empty()) {
    const auto written = report::write_hindcast(shown, o.out);
    if (!written.ok()) return report_issues(written.issues(), o.json);
  }
  fmt::print("{}", o.json ? report::hindcast_json(shown) : report::hindcast_text(shown));
  if (!o.out.empty() && !o.json) fmt::print("Written: {0}/hindcast.csv, {0}/hindcast.svg\n", o.out);
  return done;
}

}  // namespace aftercut::app
