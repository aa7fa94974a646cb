#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstdio>
#include <thread>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/audit.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/weather/short_record.hpp"

namespace aftercut::app {
namespace {

std::optional<int> whole_number(std::string_view text) {
  int n = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return n;
}

Result<farm::ReadOptions> read_options(const Options& o) {
  farm::ReadOptions r;
  Issues issues;
  if (!o.years.empty()) {
    const auto dots = o.years.find("..");
    const std::string_view text{o.years};
    r.years_from = whole_number(text.substr(0, dots));
    r.years_to = dots == std::string::npos ? r.years_from : whole_number(text.substr(dots + 2));
    if (!r.years_from || !r.years_to || *r.years_from > *r.years_to)
      issues.push_back({"command line", "--years", o.years,
                        "two years, the first not after the last, like 1998..2020", "mend the option"});
  }
  if (!o.as_of.empty()) {
    r.as_of = parse_iso_date(o.as_of);
    if (!r.as_of)
      issues.push_back({"command line", "--as-of", o.as_of, "a day like 2026-10-12", "write year-month-day"});
  }
  if (!issues.empty()) return issues;
  return r;
}

int threads_of(const Options& o) {
  return o.threads > 0 ? o.threads : std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

/// The farm and its weather; a record shorter than a season is stretched, and `stretched` says so.
struct Input {
  farm::Problem problem;
  bool stretched = false;
};

Result<Input> read_input(const Options& o) {
  const auto options = read_options(o);
  if (!options.ok()) return options.issues();
  auto read = farm::read(o.farm, options.value());
  if (!read.ok()) return read.issues();
  Input in{.problem = std::move(read).value(), .stretched = false};
  if (in.problem.years.years.empty()) {
    const auto& season = in.problem.farm.season;
    in.problem.years =
        weather::stretched_over_season(in.problem.record, in.problem.farm.site, season.first, season.days);
    in.stretched = true;
  }
  return in;
}

plan::PlannedYears plan_for(const Input& in, const Options& o) {
  auto planned = scenario::make_plan(in.problem, {.seed = o.seed,
                                                  .threads = threads_of(o),
                                                  .evaluations = o.evaluations,
                                                  .progress = progress_line("Planning")});
  planned.plan.version = AFTERCUT_VERSION;
  if (in.stretched)
    planned.plan.troubles.insert(planned.plan.troubles.begin(),
                                 {"weather record shorter than a season",
                                  "no whole season lies in the record (or in the years asked for): each day "
                                  "took the recorded day nearest in the "
                                  "calendar, so the chances say nothing",
                                  {}});
  return planned;
}

}  // namespace

int make_plan(const Options& o) {
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  const Input& in = input.value();
  const auto start = std::chrono::steady_clock::now();
  const plan::PlannedYears planned = plan_for(in, o);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  const audit::Audit audit = audit::check(in.problem, planned);
  const auto written = report::write(in.problem, planned, audit, o.out);
  if (!written.ok()) return report_issues(written.issues(), o.json);
  if (o.json) {
    fmt::print("{}\n", report::plan_json(in.problem, planned, audit));
  } else {
    fmt::print("{}", report::summary_text(in.problem, planned, audit));
    fmt::print("Planned in {:.1f} s. Report: {}/report.html\n", took.count(), o.out);
  }
  return audit.ok() && planned.plan.troubles.empty() ? done : not_reached;
}

int compare_methods(const Options& o) {
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  const auto& fields = input.value().problem.farm.fields;
  int chosen = plan::none;
  if (!o.field.empty()) {
    const auto found =
        std::find_if(fields.begin(), fields.end(), [&](const auto& f) { return f.id.value == o.field; });
    if (found == fields.end()) {
      std::string ids;
      for (const auto& f : fields) ids += (ids.empty() ? "" : ", ") + f.id.value;
      return report_issues(
          {{"command line", "--field", o.field, "one of " + ids, "name a field of the farm"}}, o.json);
    }
    chosen = static_cast<int>(found - fields.begin());
  }
  const plan::PlannedYears planned = plan_for(input.value(), o);
  if (o.json) {
    fmt::print("{}\n", fields_json(report::plan_json(input.value().problem, planned, {}), o.field));
    return done;
  }
  for (int f = 0; f < static_cast<int>(fields.size()); ++f)
    if (chosen == plan::none || chosen == f)
      fmt::print("{}\n", report::compare_text(input.value().problem, planned, f));
  return done;
}

}  // namespace aftercut::app
