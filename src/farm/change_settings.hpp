#pragma once
// Changes of a scenario put into farm.json's value. Internal to the room.

#include <map>
#include <set>
#include <string>

#include "aftercut/farm/change.hpp"
#include "json_text.hpp"

namespace aftercut::farm {

/// What changes can name on a farm.
struct Named {
  std::set<std::string> fields, methods;
  std::map<std::string, Date> planting;  ///< of fields that have a planting date of their own
};

/// The document with every change made, in their order. Issues, under `file`: names that the farm does not
/// have, settings that lead nowhere.
Result<Json> with_changes_made(Json document, const Scenario& scenario, const Named& named,
                               const std::string& file);

}  // namespace aftercut::farm
