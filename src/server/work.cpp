#include "aftercut/server/work.hpp"

#include <algorithm>

#include "aftercut/audit/audit.hpp"
#include "aftercut/audit/made.hpp"
#include "aftercut/core/date.hpp"
#include "aftercut/core/left_behind.hpp"
#include "aftercut/core/mixed_files.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/farm/field_fit.hpp"
#include "aftercut/report/page.hpp"
#include "aftercut/report/passes.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/report/trade_offs.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/scenario/replan.hpp"
#include "aftercut/scenario/trade_offs.hpp"
#include "aftercut/server/guard.hpp"

namespace aftercut::server {
namespace {

constexpr const char* weighed_folder = "trade-offs";

/// With `grown`, files that grow with the season may be others by now.
bool same_inputs(const audit::PlanMade& made, const farm::Farm& farm, bool grown) {
  return std::ranges::all_of(audit::changed_since(made, farm), [&](const std::string& path) {
    const auto now = std::ranges::find(farm.inputs, path, &farm::Farm::Input::path);
    return grown && (path == journal::file_name || (now != farm.inputs.end() && now->in_season));
  });
}

/// Made by this version from these inputs, for this day, with this seed and these weather years.
bool made_from(const audit::PlanMade& made, const Setup& setup, const farm::Problem& problem, bool grown) {
  return made.version == setup.version && made.seed == setup.seed && same_inputs(made, problem.farm, grown) &&
         made.as_of == problem.as_of &&
         std::ranges::equal(made.years, problem.years.years, {}, {}, &weather::Year::year);
}

constexpr double planning_share = 0.9;  // of the time; the rest is the audit's and the files'

Tell part_of(const Tell& tell, double from, double share) {
  return [tell, from, share](double x) { tell(from + share * x); };
}

/// What plan.json alone does not make, as the folder holds it.
std::map<std::string, std::string> files_in(const std::filesystem::path& folder) {
  std::map<std::string, std::string> files;
  for (const char* name : {"work.csv", "fields.geojson", "fields.gpkg"})
    if (auto bytes = read_file(folder / name); bytes.ok()) files[name] = std::move(bytes).value();
  return files;
}

/// The text of the folder's plan.json, if it is a plan of this farm.
std::optional<std::string> plan_text_in(const std::filesystem::path& folder, const Setup& setup,
                                        const farm::Problem& problem, bool grown = false) {
  auto text = read_file(folder / "plan.json");
  if (!text.ok()) return std::nullopt;
  if (!made_from(audit::plan_made(text.value()), setup, problem, grown)) return std::nullopt;
  return std::move(text).value();
}

/// The folder's plan, if it is sound and of this farm.
std::optional<Kept> kept_in(const Setup& setup, const std::shared_ptr<const farm::Problem>& problem,
                            const std::filesystem::path& folder, bool grown = false) {
  auto text = plan_text_in(folder, setup, *problem, grown);
  if (!text) return std::nullopt;
  auto read = audit::read_plan(folder / "plan.json", *problem);
  if (!read.ok()) return std::nullopt;
  return Kept{"", "", problem, std::move(read).value().plan.decision, std::move(*text), "", files_in(folder)};
}

/// Removed with everything in it at the end, where it does not stay.
class OutFolder {
 public:
  explicit OutFolder(const ToPlan& how) : path_{how.out}, stays_{how.stays} {}
  OutFolder(const OutFolder&) = delete;
  OutFolder& operator=(const OutFolder&) = delete;
  ~OutFolder() {
    std::error_code ignored;
    if (!stays_) std::filesystem::remove_all(path_, ignored);
  }

 private:
  std::filesystem::path path_;
  bool stays_;
};

}  // namespace

void clear_left_behind(const Setup& setup) {
  for (const char* folder : {"", "scenarios", again_folder, stood_folder, weighed_folder})
    remove_left_behind(setup.out / folder);
}

std::optional<Kept> plan_in(const Setup& setup, const ReadFarm& farm, const std::filesystem::path& folder) {
  return kept_in(setup, std::make_shared<const farm::Problem>(farm.problem), folder);
}

std::optional<Kept> plan_that_stands(const Setup& setup, const ReadFarm& farm) {
  return kept_in(setup, std::make_shared<const farm::Problem>(farm.problem), setup.out, true);
}

Result<Kept> whole_plan(const Setup& setup, const ReadFarm& farm, const ToPlan& how, const Tell& tell) {
  auto planned = scenario::make_plan(farm.problem, {.seed = setup.seed,
                                                    .threads = setup.threads,
                                                    .evaluations = setup.changes,
                                                    .bound_rounds = setup.bound_rounds,
                                                    .one_more_plans = setup.one_more_plans,
                                                    .progress = part_of(tell, 0.0, planning_share),
                                                    .start = how.start,
                                                    .stands = how.stands});
  planned.plan.version = setup.version;
  planned.plan.troubles.insert(planned.plan.troubles.begin(), farm.troubles.begin(), farm.troubles.end());
  const audit::Audit audit = audit::check(farm.problem, planned);
  const OutFolder folder{how};
  const auto written = report::write(farm.problem, planned, audit, how.out);
  if (!written.ok()) return written.issues();
  auto text = read_file(how.out / "plan.json");
  if (!text.ok()) return text.issues();
  return Kept{"",
              "",
              std::make_shared<const farm::Problem>(farm.problem),
              planned.plan.decision,
              std::move(text).value(),
              "",
              files_in(how.out)};
}

Result<ReadFarm> changed_farm(const Setup& setup, const Kept& stands, const farm::Scenario& scenario,
                              const std::string& file) {
  const bool may_change_fits = std::ranges::any_of(
      scenario.changes, [](const farm::Change& c) { return std::holds_alternative<farm::Setting>(c); });
  auto read = setup.read({scenario, file, may_change_fits, stands.problem->as_of});
  if (!read.ok() || may_change_fits) return read;
  ReadFarm farm = std::move(read).value();
  farm.problem.farm.fits = stands.problem->farm.fits;
  return farm;
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

plan::Replanned last_answer(const Setup& setup, const Kept& stands, const Kept& made) {
  return scenario::replan_with({.before = stands.problem.get(),
                                .decision = &stands.decision,
                                .after = made.problem.get(),
                                .seed = setup.seed,
                                .threads = setup.threads},
                               made.decision);
}

Result<std::string> passes_of(const Setup& setup, const farm::Farm& farm, std::size_t implement) {
  const auto laid =
      report::lay_passes(farm, implement, farm::swath_machine(farm.implements.at(implement)), setup.threads);
  // One file a request: the writer of layers writes files only.
  const std::filesystem::path file =
      std::filesystem::temp_directory_path() / ("aftercut-passes-" + random_key() + ".geojson");
  const auto written = report::write_passes(farm, laid, file);
  auto text = written.ok() ? read_file(file) : Result<std::string>{written.issues()};
  std::error_code ignored;
  std::filesystem::remove(file, ignored);
  return text;
}

Kept ready_to_show(Kept plan) {
  plan.page = report::served_page_html({plan.id, &plan.plan_json, &plan.problem->farm});
  plan.made = audit::plan_made(plan.plan_json);
  return plan;
}

Issues weigh(const Setup& setup, const farm::Problem& problem, const Tell& tell) {
  plan::TradeOffs all = scenario::trade_offs(
      problem,
      {.seed = setup.seed, .threads = setup.threads, .evaluations = setup.changes, .progress = tell});
  report::TradeOffsShown shown{&problem, &all, {}};
  for (plan::WeighedPlan& p : all.plans) {
    p.planned.plan.version = setup.version;
    shown.audits.push_back(audit::check(problem, p.planned));
  }
  return report::write_trade_offs(shown, setup.out / weighed_folder).issues();
}

std::optional<std::string> trade_offs_in_folder(const Setup& setup, const farm::Problem& problem) {
  const auto folder = setup.out / weighed_folder;
  const auto text = read_file(folder / "trade-offs.json");
  if (!text.ok() || !mixed_files(folder).empty() || !plan_text_in(folder / "base", setup, problem))
    return std::nullopt;
  return text.value();
}

std::optional<Kept> weighed_plan(const Setup& setup, const std::shared_ptr<const farm::Problem>& problem,
                                 const std::string& name) {
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
  };
  if (!std::ranges::all_of(name, plain) || name.find("..") != std::string::npos) return std::nullopt;
  return kept_in(setup, problem, setup.out / weighed_folder / name);
}

}  // namespace aftercut::server
