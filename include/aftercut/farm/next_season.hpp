#pragma once
// The farm folder of the season to come, made of this season's: dates a year on, what holds for one season
// left out, each field's history carried (docs/next-season.md).

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/farm.hpp"

namespace aftercut::farm {

/// What this season adds to a field.
struct FieldGone {
  FieldId field;
  PastSeason season;
};

struct NextSeasonInput {
  std::filesystem::path from;     ///< a farm folder that reads without issues
  std::filesystem::path to;       ///< made; one with a farm.json is an issue, nothing is overwritten
  std::vector<FieldGone> fields;  ///< those not named get no line of history
};

struct NextSeason {
  std::filesystem::path folder;
  std::vector<std::filesystem::path> files;  ///< written
  std::vector<std::string> notes;            ///< to be looked at before the folder is planned
};

/// Writes farm.json and copies of the files that it names. Files outside the folder stay where they are and
/// are named from there. Weather so far becomes part of the record where both are tables of the same columns
/// and no day is missing between them. Issues: farm.json cannot be read; a farm in `to`; a disk that refuses.
Result<NextSeason> next_season(const NextSeasonInput& input);

}  // namespace aftercut::farm
