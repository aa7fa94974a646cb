#include "aftercut/server/scenario_files.hpp"

#include "aftercut/core/digest.hpp"
#include "aftercut/core/folder_lock.hpp"
#include "aftercut/core/left_behind.hpp"
#include "aftercut/core/save_file.hpp"

namespace aftercut::server {
namespace {

namespace fs = std::filesystem;

/// The mark of the file as it stands; empty: none.
std::string mark_of(const fs::path& file) {
  const auto text = read_file(file);
  return text.ok() ? sha256_hex(text.value()) : "";
}

Issues refused(const fs::path& file, const std::string& what) {
  return {Issue{file.string(), "whole file", what, "a place that can be written to",
                "change the folder's rights or free some space"}};
}

/// The folder of scenarios, there to stay and without what killed writers left in it. Under the lock.
Issues make_place(const fs::path& scenarios) {
  std::error_code error;
  const bool fresh = fs::create_directories(scenarios, error);
  if (error) return refused(scenarios, error.message());
  if (fresh && !sync_path(real_disk(), scenarios.parent_path(), Disk::Open::folder))
    return refused(scenarios, "a folder that could not be synced");
  remove_left_behind(scenarios);
  return {};
}

}  // namespace

Result<ScenarioOnFile> scenario_on_file(const fs::path& folder, const std::string& name) {
  const auto file = farm::scenario_file(folder, name);
  if (!file.ok()) return file.issues();
  const auto text = read_file(file.value());
  if (!text.ok()) return text.issues();
  auto scenario = farm::read_scenario(text.value(), "scenarios/" + name + ".json");
  ScenarioOnFile found{name, sha256_hex(text.value()), {}, scenario.issues()};
  if (scenario.ok()) found.scenario = std::move(scenario).value();
  return found;
}

std::vector<ScenarioOnFile> scenarios_on_file(const fs::path& folder) {
  std::vector<ScenarioOnFile> all;
  for (const std::string& name : farm::scenario_names(folder)) {
    auto found = scenario_on_file(folder, name);
    if (found.ok()) all.push_back(std::move(found).value());
  }
  return all;
}

Result<WriteOutcome> write_scenario(const fs::path& folder, const std::string& name,
                                    const farm::Scenario& scenario, const std::string& seen) {
  const auto file = farm::scenario_file(folder, name);
  if (!file.ok()) return file.issues();
  const auto lock = FolderLock::take(folder);
  if (!lock.ok()) return lock.issues();
  if (mark_of(file.value()) != seen) return WriteOutcome{true, mark_of(file.value())};
  const Issues no_place = make_place(file.value().parent_path());
  if (!no_place.empty()) return no_place;
  const std::string text = farm::scenario_text(scenario);
  const auto saved = save_file(file.value(), text);
  if (!saved.ok()) return saved.issues();
  return WriteOutcome{false, sha256_hex(text)};
}

Result<WriteOutcome> remove_scenario(const fs::path& folder, const std::string& name,
                                     const std::string& seen) {
  const auto file = farm::scenario_file(folder, name);
  if (!file.ok()) return file.issues();
  const auto lock = FolderLock::take(folder);
  if (!lock.ok()) return lock.issues();
  if (mark_of(file.value()) != seen || seen.empty()) return WriteOutcome{true, mark_of(file.value())};
  remove_left_behind(file.value().parent_path());
  std::error_code error;
  fs::remove(file.value(), error);
  if (error) return refused(file.value(), error.message());
  if (!sync_path(real_disk(), file.value().parent_path(), Disk::Open::folder))
    return refused(file.value(), "a folder that could not be synced");
  return WriteOutcome{};
}

}  // namespace aftercut::server
