#pragma once
// A small sound farm as texts, to be changed by a test, written to a folder and read.

#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "aftercut/farm/read.hpp"

namespace aftercut::test {

using Json = nlohmann::json;

/// A farm folder before it is written.
struct FarmFiles {
  Json farm;            ///< farm.json
  Json fields;          ///< fields.geojson
  std::string weather;  ///< weather.csv
  std::map<std::string, std::string>
      others;  ///< name -> text; replaces the three above when it names one of them
};

/// Rectangles of a map drawn in letters: one letter a field, one character 0.003 x 0.003 degrees, upper left
/// corner at longitude -121.9, latitude 39.4. Letters must fill whole rectangles.
Json drawn_fields(const std::vector<std::string>& map);

/// Three fields, A cut and laid in windrows, B and C standing; two weather years (2020 and 2021 starts).
FarmFiles small_farm();

/// Days from `first`, plain mild weather with rain every fifth day.
std::string weather_csv(Date first, int days);

/// The properties of the feature with this id.
Json& field(FarmFiles& files, const std::string& id);

/// The folder has this text as the file.
void only(FarmFiles& files, const std::string& name, std::string text);

Result<farm::Problem> read_farm(const FarmFiles& files, const farm::ReadOptions& options = {});

/// The farm, or a failed test with the issues printed.
farm::Problem sound(const FarmFiles& files, const farm::ReadOptions& options = {});

/// The field with this id, or a failed test.
const farm::Field& field_of(const farm::Problem& problem, const std::string& id);

}  // namespace aftercut::test
