#pragma once
// What the commands plan or audit: a farm folder and its weather years, as asked for on the command line.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/app/commands.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/plan/plan.hpp"
#include "aftercut/weather/generator.hpp"

namespace aftercut::app {

/// The farm and its weather; a record shorter than a season is stretched over one, and `stretched` says so.
struct Input {
  farm::Problem problem;
  bool stretched = false;
};

/// `changes`: a scenario to be read with instead of --scenario, under the name `changes_file` in issues.
/// Issues: those of the folder; options that make no sense; years asked for that the record does not hold.
/// `fit_implements`: as for farm::ReadOptions.
Result<Input> read_input(const Options& options, bool fit_implements = true,
                         const std::optional<farm::Scenario>& changes = std::nullopt,
                         const std::string& changes_file = "");

/// What a plan of a stretched record has to say of it; none of another.
std::vector<plan::Trouble> troubles_of(const Input& input);

/// The same, with the weather years narrowed to the span of a plan's years.
farm::Problem with_years_of(farm::Problem problem, const std::vector<int>& years);

/// The plan.json asked for: the file itself, or the one in the folder.
std::filesystem::path plan_file(const Options& options);
std::filesystem::path plan_file_in(const std::filesystem::path& file_or_folder);

/// The generator parameters of the file asked for.
Result<weather::GeneratorParameters> read_parameters(const Options& options);

/// The threads asked for; where none are, as many as the machine has.
int threads_of(const Options& options);

}  // namespace aftercut::app
