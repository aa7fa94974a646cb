#pragma once
// Room report, lead header. Purpose: to show. Takes a problem's farm, a planned set of years and its audit;
// gives plan.json, plan-years.jsonl, fall-back-years.jsonl, stood-years.jsonl, bound.json, report.html,
// work.csv, fields.gpkg, fields.geojson and a short table for the terminal; from plan.json's text alone the
// exports (exports.hpp). Decides nothing.

#include <filesystem>
#include <string>

#include "aftercut/audit/audit.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/plan.hpp"
#include "aftercut/report/page.hpp"

namespace aftercut::report {

/// plan.json as text (docs/schema/plan.schema.json). Same values, same bytes.
std::string plan_json(const farm::Problem& problem, const plan::PlannedYears& planned,
                      const audit::Audit& audit);
/// One line of JSON a year.
std::string years_jsonl(const farm::Problem& problem, const plan::PlannedYears& planned);
/// The same for the years behind the plan's start-by days (plan.json, fall_backs).
std::string fall_back_years_jsonl(const farm::Problem& problem, const plan::PlannedYears& planned);
/// The same of the plan that stood (plan.json, again); empty where none did.
std::string stood_years_jsonl(const farm::Problem& problem, const plan::PlannedYears& planned);
/// The multipliers of the lower bound (docs/schema/bound.schema.json). The plan has a bound.
std::string bound_json(const farm::Problem& problem, const plan::PlannedYears& planned);
/// Work of the schedule year, one row a stretch.
std::string work_csv(const farm::Problem& problem, const plan::PlannedYears& planned);
/// A table that fits 100 columns: field, area, straw, method, ready, chance, cost.
std::string summary_text(const farm::Problem& problem, const plan::PlannedYears& planned,
                         const audit::Audit& audit);
/// Every method of one field (or of all), for the terminal.
/// One field's methods as plain lines, for a message: no columns.
std::string compare_message(const farm::Problem& problem, const plan::PlannedYears& planned,
                            std::size_t field);
std::string compare_text(const farm::Problem& problem, const plan::PlannedYears& planned, int field);

/// Writes everything into `out`; all or, on an issue, none of it is moved into place. A plan without a bound
/// has no bound.json, and one that stood there is taken away.
Result<std::filesystem::path> write(const farm::Problem& problem, const plan::PlannedYears& planned,
                                    const audit::Audit& audit, const std::filesystem::path& out);
/// The files that write() makes, from one plan's folder into another, as write() would put them there.
Result<std::filesystem::path> copy_plan(const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace aftercut::report
