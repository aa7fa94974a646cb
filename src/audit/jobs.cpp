#include "jobs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace aftercut::audit {
namespace {

plan::DayMarks read_marks(JsonIn& in, const Json& job, const char* key, const std::string& place) {
  const Json& marks = in.get(job, key, place);
  const std::string where = place + "." + key;
  return {in.day(marks, "p10", where, false), in.day(marks, "p50", where, false),
          in.day(marks, "p90", where, false)};
}

bool is_work_of(const plan::Work& w, int field, const plan::Job& job) {
  return !w.stands_by && w.field == field && w.fell_back == job.fell_back && w.step == job.step &&
         w.pass == job.pass && w.operation == job.operation;
}

/// The pass with its days put anew, year after year.
plan::Job worked_out(const plan::PlannedYears& planned, int field, plan::Job job) {
  std::multiset<int> firsts, lasts;
  for (const plan::YearRun& run : planned.runs) {
    std::set<int> days;
    for (const plan::Work& w : run.work)
      if (is_work_of(w, field, job)) days.insert(w.day);
    if (days.empty()) continue;
    firsts.insert(*days.begin());
    lasts.insert(*days.rbegin());
  }
  // The first day by which at least `tenths` tenths of the years had come so far.
  const auto by = [](const std::multiset<int>& days, std::size_t tenths) {
    std::size_t seen = 0;
    for (const int day : days)
      if (10 * ++seen >= tenths * days.size()) return day;
    return 0;
  };
  job.years_done = static_cast<int>(firsts.size());
  job.first = {by(firsts, 1), by(firsts, 5), by(firsts, 9)};
  job.last = {by(lasts, 1), by(lasts, 5), by(lasts, 9)};
  return job;
}

bool same_pass(const plan::Job& a, const plan::Job& b) {
  return a.operation == b.operation && a.step == b.step && a.pass == b.pass && a.fell_back == b.fell_back;
}

std::string to_text(const farm::Farm& farm, const plan::Job& j) {
  const auto days = [&](const plan::DayMarks& m) {
    return fmt::format("{} {} {}", iso(farm.season.date(m.p10)), iso(farm.season.date(m.p50)),
                       iso(farm.season.date(m.p90)));
  };
  return fmt::format("{} years, first {}, last {}", j.years_done, days(j.first), days(j.last));
}

std::string pass_name(const farm::Farm& farm, const plan::Job& j) {
  const bool known = j.operation >= 0 && j.operation < static_cast<int>(farm.book.operations.size());
  return fmt::format("{}{} step {} pass {}", j.fell_back ? "fall-back, " : "",
                     known ? farm.book.operations[static_cast<std::size_t>(j.operation)].id.value : "unknown",
                     j.step, j.pass);
}

Findings check_field_jobs(const farm::Farm& farm, const plan::PlannedYears& planned, int field) {
  Findings f;
  const std::vector<plan::Job>& told = planned.plan.fields[static_cast<std::size_t>(field)].jobs;
  for (std::size_t k = 0; k < told.size(); ++k) {
    const plan::Job truth = worked_out(planned, field, told[k]);
    const Place place{&farm, -1, -1, field, pass_name(farm, told[k])};
    f.expect(truth.years_done > 0 && told[k] == truth, "wrong days of a job", place, [&] {
      return Texts{to_text(farm, told[k]),
                   truth.years_done > 0 ? to_text(farm, truth) : "no such work in any year"};
    });
    f.expect(k == 0 || told[k - 1].first.p50 <= told[k].first.p50, "jobs out of order", place, [] {
      return Texts{"an earlier middle first day than the job before", "jobs by their middle first day"};
    });
  }
  return f;
}

/// Work that no job tells of, and a pass told twice.
Findings check_jobs_left_out(const farm::Farm& farm, const plan::PlannedYears& planned) {
  Findings f;
  const auto times_told = [&](const plan::Work& w) {
    const plan::Job wanted{w.operation, w.step, w.pass, w.fell_back, 0, {}, {}};
    const auto& jobs = planned.plan.fields[static_cast<std::size_t>(w.field)].jobs;
    return std::count_if(jobs.begin(), jobs.end(), [&](const auto& j) { return same_pass(j, wanted); });
  };
  for (const plan::YearRun& run : planned.runs)
    for (const plan::Work& w : run.work) {
      if (w.stands_by || w.field < 0 || w.field >= static_cast<int>(planned.plan.fields.size())) continue;
      const auto times = times_told(w);
      f.expect(times == 1, "job left out", Place{&farm, run.year, w.day, w.field, ""}, [&] {
        return Texts{fmt::format("told {} times", times), "every pass told once"};
      });
    }
  return f;
}

}  // namespace

std::vector<plan::Job> read_jobs(JsonIn& in, const Json& field, const std::string& place) {
  std::vector<plan::Job> jobs;
  const Json& rows = in.array(field, "jobs", place);
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::string where = fmt::format("{}.jobs[{}]", place, k);
    plan::Job j;
    j.operation = in.index(in.get(rows[k], "operation", where), in.ids().operations, "operation",
                           where + ".operation", false);
    j.step = in.small(rows[k], "step", where);
    j.pass = in.small(rows[k], "pass", where);
    j.fell_back = in.truth(rows[k], "fell_back", where);
    j.years_done = in.small(rows[k], "years_done", where);
    j.first = read_marks(in, rows[k], "first", where);
    j.last = read_marks(in, rows[k], "last", where);
    jobs.push_back(j);
  }
  return jobs;
}

Findings check_jobs(const farm::Problem& problem, const plan::PlannedYears& planned) {
  Findings f;
  std::optional<Date> until;
  if (problem.forecast && !problem.forecast->days.empty())
    until = problem.forecast->first + (static_cast<int>(problem.forecast->days.size()) - 1);
  f.expect(planned.plan.forecast_until == until, "wrong end of the forecast",
           Place{nullptr, -1, -1, -1, "forecast"}, [&] {
             const auto text = [](const std::optional<Date>& d) { return d ? iso(*d) : "no forecast"; };
             return Texts{text(planned.plan.forecast_until), text(until)};
           });
  for (std::size_t k = 0; k < planned.plan.fields.size(); ++k)
    f += check_field_jobs(problem.farm, planned, static_cast<int>(k));
  f += check_jobs_left_out(problem.farm, planned);
  return f;
}

}  // namespace aftercut::audit
