#include "aftercut/server/work.hpp"

#include <nlohmann/json.hpp>

#include "aftercut/audit/audit.hpp"
#include "aftercut/core/date.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/scenario/replan.hpp"

namespace aftercut::server {
namespace {

using json = nlohmann::json;

/// Made by this version from these inputs, for this day, with this seed and these weather years.
bool made_from(const json& plan, const Setup& setup, const farm::Problem& problem) {
  json inputs = json::array(), years = json::array();
  for (const auto& i : problem.farm.inputs) inputs.push_back({{"path", i.path}, {"sha256", i.sha256}});
  for (const auto& y : problem.years.years) years.push_back(y.year);
  return plan.at("version") == setup.version && plan.at("seed") == setup.seed &&
         plan.at("inputs") == inputs && plan.at("farm").at("as_of") == iso(problem.as_of) &&
         plan.at("weather").at("years") == years;
}

}  // namespace

std::optional<Kept> plan_in_folder(const Setup& setup, const ReadFarm& farm) {
  const auto file = setup.out / "plan.json";
  const auto text = read_file(file);
  if (!text.ok()) return std::nullopt;
  const json plan = json::parse(text.value(), nullptr, false);
  try {
    if (!made_from(plan, setup, farm.problem)) return std::nullopt;
  } catch (const json::exception&) {
    return std::nullopt;
  }
  auto read = audit::read_plan(file, farm.problem);
  if (!read.ok()) return std::nullopt;
  return Kept{"base", "The plan as it stands", std::make_shared<const farm::Problem>(farm.problem),
              std::move(read).value().plan.decision, text.value()};
}

Result<Kept> whole_plan(const Setup& setup, const ReadFarm& farm, const ToPlan& how, const Tell& tell) {
  auto planned = scenario::make_plan(farm.problem, {.seed = setup.seed,
                                                    .threads = setup.threads,
                                                    .evaluations = setup.changes,
                                                    .bound_rounds = setup.bound_rounds,
                                                    .one_more_plans = setup.one_more_plans,
                                                    .progress = tell,
                                                    .start = how.start});
  planned.plan.version = setup.version;
  planned.plan.troubles.insert(planned.plan.troubles.begin(), farm.troubles.begin(), farm.troubles.end());
  const audit::Audit audit = audit::check(farm.problem, planned);
  Kept kept{"", "", std::make_shared<const farm::Problem>(farm.problem), planned.plan.decision,
            report::plan_json(farm.problem, planned, audit)};
  if (how.out.empty()) return kept;
  const auto written = report::write(farm.problem, planned, audit, how.out);
  if (!written.ok()) return written.issues();
  return kept;
}

plan::Replanned first_answer(const Setup& setup, const Kept& stands, const farm::Problem& changed,
                             const Tell& tell) {
  return scenario::replan({.before = stands.problem.get(),
                           .decision = &stands.decision,
                           .after = &changed,
                           .seed = setup.seed,
                           .threads = setup.threads,
                           .evaluations = setup.quick_changes,
                           .progress = tell});
}

}  // namespace aftercut::server
