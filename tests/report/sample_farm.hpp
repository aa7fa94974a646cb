#pragma once
// An invented farm with an invented plan, for the tests of what is written. Every figure is drawn, none means
// anything.

#include "aftercut/audit/audit.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::test {

struct Sample {
  farm::Problem problem;
  plan::PlannedYears planned;
  audit::Audit audit;
};

/// One year with these methods [field].
plan::YearRun sample_year(const farm::Farm& farm, const std::vector<int>& methods, int year);

/// The plan with reasons for its fields: a saving, a toss-up and a next best that would be cheaper, in turn.
plan::Plan with_sample_reasons(plan::Plan plan, const farm::Farm& farm);
/// What the fields hang on, a test of them, dates to keep and money by month.
void add_others(const farm::Farm& farm, plan::PlannedYears& planned);
/// Ready days of the shown years, and straw and seedbed through the winter.
void add_winters(const farm::Farm& farm, plan::PlannedYears& planned);

/// Every pass of the plan's runs with its days.
void add_jobs(plan::PlannedYears& planned);
/// plan.json of the sample.
std::string plan_text(const Sample& sample);
/// A comma, quotes, a new line, "=1+1", an umlaut, a tag, and far too long.
std::string hostile_name();

/// Nine fields: a fallow one, one with every method barred, one without a shape, one burned with a fall-back,
/// names with quotes, "<" and commas.
//
//   1 | 2 | 3
//   --+---+--
//   4 | 5 | 6
//   --+---+--
//   7 | 10 | (11 has no shape)
Sample sample(farm::UnitSystem units = farm::UnitSystem::us);
/// The same with a hostile name for farm, fields, a person, a machine and in the plan's texts.
Sample hostile_sample(farm::UnitSystem units = farm::UnitSystem::us);

}  // namespace aftercut::test
