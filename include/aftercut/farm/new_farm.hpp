#pragma once
// A farm folder to start from, made of a table of fields. What the table does not say is guessed; the guesses
// that matter most are given back with the place to change them. The folder can be planned as soon as it has
// weather.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/result.hpp"
#include "aftercut/farm/farm.hpp"

namespace aftercut::farm {

struct NewFarmInput {
  std::filesystem::path folder;                     ///< made if it is not there
  std::filesystem::path table;                      ///< columns: docs/new-farm.md
  std::optional<std::filesystem::path> boundaries;  ///< any vector file, joined to the table by name
  std::optional<std::filesystem::path> weather;     ///< copied into the folder
  UnitSystem units = UnitSystem::si;  ///< of what is written and shown; the table has its own in its header
  std::optional<Date> as_of;          ///< fields harvested by then are cut; none: all are
};

struct Guess {
  std::string what;    ///< e.g. "Harvest index 0.53 for every field."
  std::string change;  ///< where to put the true value
};

struct NewFarm {
  std::filesystem::path folder;
  std::vector<std::filesystem::path> files;  ///< written
  std::vector<Guess> guesses;                ///< at most eight, those that matter most first
  std::vector<std::string> notes;  ///< areas that differ from the boundaries', boundaries without a row
};

/// Writes farm.json, the field layer (fields.geojson with boundaries, else fields.csv: the reader draws
/// rectangles and says so) and, where given, weather.csv. Never overwrites a file. Issues: those of the
/// table, of the boundaries, of the disk; a row without a boundary or with two; harvest days too far apart
/// for one season; a file that is there already.
Result<NewFarm> new_farm(const NewFarmInput& input);

}  // namespace aftercut::farm
