#pragma once
// Reads members of a JSON value and gathers an issue for each that is missing, of the wrong kind or unknown.
// Internal to the room.

#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "aftercut/farm/farm.hpp"

namespace aftercut::audit {

using Json = nlohmann::json;
using Names = std::map<std::string, int>;  ///< id -> index

/// The ids of a farm.
struct Ids {
  Names fields, recipes, operations, tractors, implements, operators;
};
Ids ids_of(const farm::Farm& farm);

class JsonIn {
 public:
  JsonIn(std::string file, const farm::Farm& farm);

  /// The text as JSON; an issue at `place` when it is broken.
  Json parse(const std::string& text, const std::string& place);
  /// The member, or null and an issue.
  const Json& get(const Json& object, const char* key, const std::string& place);
  double number(const Json& object, const char* key, const std::string& place);
  std::int64_t whole(const Json& object, const char* key, const std::string& place);
  int small(const Json& object, const char* key, const std::string& place);  ///< whole, inside int
  std::int64_t cents(const Json& object, const char* key,
                     const std::string& place);  ///< money with 2 decimals
  bool truth(const Json& object, const char* key, const std::string& place);
  std::string text(const Json& object, const char* key, const std::string& place);
  const Json& array(const Json& object, const char* key,
                    const std::string& place);  ///< empty array and an issue when not
  /// Season day of an ISO date; `none` for null when `may_be_null`.
  int day(const Json& object, const char* key, const std::string& place, bool may_be_null);
  /// Index of an id; `none` for null when `may_be_null`.
  int index(const Json& value, const Names& names, const char* kind, const std::string& place,
            bool may_be_null);

  void issue(std::string place, std::string found, std::string expected, std::string fix);
  [[nodiscard]] const Issues& issues() const { return issues_; }
  [[nodiscard]] const farm::Farm& farm() const { return *farm_; }
  [[nodiscard]] const Ids& ids() const { return ids_; }

 private:
  std::string file_;
  const farm::Farm* farm_;
  Ids ids_;
  Issues issues_;
};

}  // namespace aftercut::audit
