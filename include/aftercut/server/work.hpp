#pragma once
// What the server works out for its page: the plan that stands, a first answer to changes, a whole plan made
// again. Functions of their input; nothing is kept here.

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/audit/made.hpp"
#include "aftercut/farm/change.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/journal/write_down.hpp"
#include "aftercut/plan/plan.hpp"
#include "aftercut/plan/replanned.hpp"

namespace aftercut::server {

struct ReadFarm {
  farm::Problem problem;
  std::vector<plan::Trouble> troubles;  ///< of reading, to stand in the plan
};

/// What of the farm is to be read.
struct ToRead {
  std::optional<farm::Scenario> scenario = {};
  std::string file = {};               ///< how issues call the scenario
  bool fit_implements = true;          ///< false: Problem::farm.fits is left empty
  std::optional<Date> stands_on = {};  ///< the plan that stands is of this day; none: there is none yet
};

struct Setup {
  std::filesystem::path folder;  ///< the farm's
  std::filesystem::path out;     ///< of the plan that stands; those of scenarios in `scenarios/NAME` there
  /// The farm as the plan that stands knew it, as it is or with a scenario's changes.
  std::function<Result<ReadFarm>(const ToRead&)> read;
  /// The farm on a morning, with all that its journal then tells.
  std::function<Result<ReadFarm>(Date)> read_on;
  /// The farm without its journal, to hold new entries against.
  std::function<Result<farm::Problem>()> read_bare;
  std::function<journal::Now()> now;  ///< the clock
  std::string version;
  std::uint64_t seed = 1;
  int threads = 1;
  int quick_changes = 600;  ///< judged for a first answer
  int changes = 6000;       ///< judged for a whole plan
  int bound_rounds = 4;
  int one_more_plans = 5;
  std::size_t plans_kept = 6;  ///< the one that stands among them
};

/// A whole plan that the page can show.
struct Kept {
  std::string id, title;
  std::shared_ptr<const farm::Problem> problem;
  plan::Decision decision;
  std::string plan_json;
  std::string page = {};                     ///< as it is served; empty: not made yet
  std::map<std::string, std::string> files;  ///< those that plan.json alone does not make: name to bytes
  audit::PlanMade made = {};                 ///< what it says of its making, from ready_to_show()
};

using Tell = std::function<void(double share)>;  ///< may throw GivenUp

/// In the out folder: plans made again for a morning, one folder a day.
inline constexpr const char* again_folder = "again";
/// In the out folder: plans that stood before, one folder each.
inline constexpr const char* stood_folder = "stood";

/// Takes away what a server that was killed left in the folders that this one writes in.
void clear_left_behind(const Setup& setup);

/// The plan in a folder, if it is sound and made from these very inputs, this day and seed by this version.
std::optional<Kept> plan_in(const Setup& setup, const ReadFarm& farm, const std::filesystem::path& folder);
/// The same of the out folder's, where the journal, the weather so far and the forecast may have grown since.
std::optional<Kept> plan_that_stands(const Setup& setup, const ReadFarm& farm);
struct ToPlan {
  std::optional<plan::Decision> start;        ///< the search goes on from it
  std::filesystem::path out;                  ///< where the plan is written
  std::optional<plan::Decision> stands = {};  ///< only changes that gain enough against it are made
  bool stays = true;                          ///< false: the folder is gone again at the end
};
Result<Kept> whole_plan(const Setup& setup, const ReadFarm& farm, const ToPlan& how, const Tell& tell);

/// The farm under changes. How implements fit the fields is taken over from `stands` where the changes leave
/// it as it is: working it out is most of the reading.
Result<ReadFarm> changed_farm(const Setup& setup, const Kept& stands, const farm::Scenario& scenario,
                              const std::string& file);

/// The plan that stands beside a quick one made again.
plan::Replanned first_answer(const Setup& setup, const Kept& stands, const farm::Problem& changed,
                             const Tell& tell);
/// The same of the whole plan that was then made.
plan::Replanned last_answer(const Setup& setup, const Kept& stands, const Kept& made);

/// With its page and what it says of its making, once its id stands.
Kept ready_to_show(Kept plan);

/// One implement's passes on every field, as GeoJSON lines.
Result<std::string> passes_of(const Setup& setup, const farm::Farm& farm, std::size_t implement);

/// Plans with other weights, into OUT/trade-offs (docs/trade-offs.md).
Issues weigh(const Setup& setup, const farm::Problem& problem, const Tell& tell);
/// trade-offs.json of that folder, if its plans were made from these very inputs. None: weigh first.
std::optional<std::string> trade_offs_in_folder(const Setup& setup, const farm::Problem& problem);
/// One of its plans, by its folder's name.
std::optional<Kept> weighed_plan(const Setup& setup, const std::shared_ptr<const farm::Problem>& problem,
                                 const std::string& name);

}  // namespace aftercut::server
