#include "json_text.hpp"

#include <algorithm>

#include "aftercut/core/ids.hpp"
#include "aftercut/core/json_text.hpp"

namespace aftercut::farm {
namespace {

std::string name_in(const Json& o) {
  for (const char* key : {"id", "name"})
    if (o.is_object() && o.contains(key) && o[key].is_string()) return o[key].get<std::string>();
  return "";
}

Json sorted_lists(Json value) {
  for (Json& child : value)
    if (child.is_structured()) child = sorted_lists(std::move(child));
  const bool named = value.is_array() && std::all_of(value.begin(), value.end(),
                                                     [](const Json& v) { return !name_in(v).empty(); });
  if (named)
    std::stable_sort(value.begin(), value.end(), [](const Json& a, const Json& b) {
      const std::string x = name_in(a), y = name_in(b);
      return x != y ? natural_less(x, y) : a.dump() < b.dump();
    });
  return value;
}

}  // namespace

Result<Json> parse_json(const std::string& text, const std::string& file) {
  if (Issues faults = json_text_faults(text, file); !faults.empty()) return faults;
  return Json::parse(text);
}

std::string canonical(const Json& value) {
  return value.is_structured() ? sorted_lists(value).dump() : value.dump();
}

}  // namespace aftercut::farm
