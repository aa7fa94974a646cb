#pragma once
// Reads a farm folder: farm.json against its schema, the field layer, places, burn rules, own methods, the
// weather files.

#include <filesystem>
#include <optional>

#include "aftercut/farm/farm.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::farm {

struct ReadOptions {
  std::optional<int> years_from, years_to;  ///< limit the weather years
  std::optional<Date> as_of;                ///< days before it are history: no work is planned there
  bool fit_implements = true;               ///< false where nobody asks for hours: Farm::fits stays empty
};

struct Problem {
  Farm farm;
  weather::Years years;
  weather::Estimated estimated;
  weather::Series record;  ///< the whole record that the years were cut from
  std::optional<weather::Series> forecast;
  Date as_of;  ///< the first day on which work may be planned
};

/// The folder's farm and weather, or every issue in it.
Result<Problem> read(const std::filesystem::path& folder, const ReadOptions& options);

}  // namespace aftercut::farm
