// The jobs of the invented farm's plan, from its drawn years; and names that no program likes.
#include "aftercut/report/report.hpp"
#include "aftercut/scenario/jobs.hpp"
#include "sample_farm.hpp"

namespace aftercut::test {

void add_jobs(plan::PlannedYears& planned) {
  auto jobs = scenario::jobs_of(planned.runs, planned.plan.fields.size());
  for (std::size_t f = 0; f < jobs.size(); ++f) planned.plan.fields[f].jobs = std::move(jobs[f]);
}

std::string plan_text(const Sample& s) { return report::plan_json(s.problem, s.planned, s.audit); }

std::string hostile_name() {
  return "=1+1, \"Müller's\" <img src=x onerror=alert(1)> & co;\nsecond line " + std::string(400, 'W') +
         " end";
}

Sample hostile_sample(farm::UnitSystem units) {
  Sample s = sample(units);
  s.problem.farm.name = hostile_name();
  s.problem.farm.fields[0].name = hostile_name();
  s.problem.farm.fields[1].name = "=HYPERLINK(\"http://x\")";
  s.problem.farm.operators[0].name = hostile_name();
  s.problem.farm.implements[0].name = hostile_name();
  for (plan::Caution& c : s.planned.plan.cautions) c.text = hostile_name();
  s.planned.plan.dates[0].what = hostile_name();
  s.planned.plan.fields[1].chosen.hangs_on[0].words = hostile_name();
  return s;
}

}  // namespace aftercut::test
