#pragma once
// Scenarios kept in the farm folder: read with a mark of what they hold, written only over what the writer
// has seen.

#include <filesystem>
#include <string>
#include <vector>

#include "aftercut/farm/change.hpp"

namespace aftercut::server {

struct ScenarioOnFile {
  std::string name;  ///< of the file
  std::string mark;  ///< changes with every byte of it; empty: there is no file
  farm::Scenario scenario;
  Issues issues;  ///< of a file that cannot be read
};

/// Every scenario of the folder, in order of names.
std::vector<ScenarioOnFile> scenarios_on_file(const std::filesystem::path& folder);
/// Issues: no such scenario, or one that cannot be read.
Result<ScenarioOnFile> scenario_on_file(const std::filesystem::path& folder, const std::string& name);

/// What a write came to: `changed_meanwhile`: the file is not the one that `seen` marks, nothing was done.
struct WriteOutcome {
  bool changed_meanwhile = false;
  std::string mark;
};
/// `seen`: the mark that the writer read, empty for a new file. One writer at a time.
Result<WriteOutcome> write_scenario(const std::filesystem::path& folder, const std::string& name,
                                    const farm::Scenario& scenario, const std::string& seen);
Result<WriteOutcome> remove_scenario(const std::filesystem::path& folder, const std::string& name,
                                     const std::string& seen);

}  // namespace aftercut::server
