#include <algorithm>

#include "again.hpp"
#include "bound_proof.hpp"
#include "cash.hpp"
#include "doubts.hpp"
#include "fall_backs.hpp"
#include "jobs.hpp"
#include "one_more.hpp"
#include "reasons.hpp"
#include "replay.hpp"
#include "risk.hpp"
#include "totals.hpp"
#include "winter.hpp"

namespace aftercut::audit {
namespace {

/// The year's place in the problem's record; nothing when it is not there.
std::optional<std::size_t> place_of_year(const farm::Problem& problem, int year) {
  for (std::size_t k = 0; k < problem.years.years.size(); ++k)
    if (problem.years.years[k].year == year) return k;
  return std::nullopt;
}

bool decision_readable(const farm::Farm& farm, const plan::Plan& p) {
  return p.decision.method.size() == farm.fields.size() && p.fields.size() == farm.fields.size() &&
         std::all_of(p.decision.method.begin(), p.decision.method.end(), [&](int m) {
           return m >= plan::none && m < static_cast<int>(farm.book.recipes.size());
         });
}

}  // namespace

Audit check(const farm::Problem& problem, const plan::PlannedYears& planned) {
  Findings all = check_shape(problem, planned);
  if (!decision_readable(problem.farm, planned.plan)) return all.audit;
  const Facts facts = facts_of(problem, planned.plan.seed);
  all += check_choices(facts, planned.plan);
  Replays replays;
  for (const plan::YearRun& run : planned.runs) {
    const auto year = place_of_year(problem, run.year);
    if (!year) continue;
    Replayed lived = lived_again(facts, planned.plan.decision, run, *year, "");
    all += std::move(lived.findings);
    replays.years.push_back(run.year);
    replays.stated.emplace_back();
    for (const plan::FieldRun& field : run.fields) replays.stated.back().push_back(field.cost);
    replays.stated.back().resize(lived.fields.size());
    replays.untouched_on_top.push_back(std::move(lived.untouched_on_top));
    replays.fields.push_back(std::move(lived.fields));
    replays.winter.push_back(std::move(lived.winter));
    replays.money.push_back(std::move(lived.money));
  }
  if (replays.years.empty()) return all.audit;
  all += check_totals(facts, planned.plan, replays);
  all += check_winter(facts, planned.plan, replays.years, replays.fields, replays.winter);
  all += check_cash(problem.farm, planned.plan, replays);
  all += check_fall_backs(facts, planned, replays);
  all += check_reasons(facts, planned, replays);
  all += check_one_more(facts, planned);
  all += check_bound(facts, planned, replays);
  all += check_jobs(problem, planned);
  all += check_risk(facts, planned.plan, replays);
  all += check_again(facts, planned);
  all += check_doubts(facts, planned.plan);
  return all.audit;
}

}  // namespace aftercut::audit
