#pragma once
// Reads a farm folder: farm.json against its schema, the field layer, places, burn rules, own methods, the
// weather files.

#include <filesystem>
#include <optional>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/change.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/farm/setting.hpp"

namespace aftercut::farm {

struct ReadOptions {
  std::optional<int> years_from, years_to;  ///< limit the weather years
  std::optional<Date> as_of;                ///< days before it are history: no work is planned there
  bool fit_implements = true;               ///< false where nobody asks for hours: Farm::fits stays empty
  std::vector<Setting> set;                 ///< made in farm.json's value before it is checked
  std::optional<Scenario> scenario;         ///< its changes are made after them
  std::string scenario_file = "scenario";   ///< how issues call it
};

/// The folder's farm and weather, or every issue in it.
Result<Problem> read(const std::filesystem::path& folder, const ReadOptions& options);

}  // namespace aftercut::farm
