#pragma once
// Fields as a plan lists them: all of them once, or some in an order. Internal to the room.

#include <fmt/format.h>

#include <string>
#include <vector>

#include "aftercut/plan/decision.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

std::vector<int> read_field_list(JsonIn& in, const Json& object, const char* key, const std::string& place);

/// Calls act(row, field, place of the row) for each row that names a field of the farm by `key`; an issue for
/// each field that is not there once.
void each_field_once(JsonIn& in, const Json& rows, const char* key, const std::string& place,
                     const auto& act) {
  std::vector<int> times(in.farm().fields.size(), 0);
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::string here = fmt::format("{}[{}]", place, k);
    const int field = in.index(in.get(rows[k], key, here), in.ids().fields, "field", here + "." + key, false);
    if (field == plan::none) continue;
    act(rows[k], static_cast<std::size_t>(field), here);
    ++times[static_cast<std::size_t>(field)];
  }
  for (std::size_t f = 0; f < times.size(); ++f)
    if (times[f] != 1)
      in.issue(place, "field " + in.farm().fields[f].id.value + " " + std::to_string(times[f]) + " times",
               "each field of the farm once", "write the plan again");
}

/// Of the plan as this version writes it.
void check_schema(JsonIn& in, const Json& root);
int read_chosen_method(JsonIn& in, const Json& chosen, const std::string& place);

}  // namespace aftercut::audit
