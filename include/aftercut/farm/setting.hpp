#pragma once
// One value of farm.json put otherwise before the file is read: a what-if without an edited file.

#include <string>
#include <vector>

#include "aftercut/core/result.hpp"

namespace aftercut::farm {

/// `path`: keys joined by points, entries of lists by their id, name or place from 0
/// ("implements.baler.hire"), or a JSON pointer ("/prices/straw"). `value`: JSON, or any other text as it
/// stands; null takes the key out.
struct Setting {
  std::string path, value;
  friend bool operator==(const Setting&, const Setting&) = default;
};

/// "prices.straw=40 USD/t; prices.diesel=1.20 USD/L" as settings; an issue of the command line where it is
/// none.
Result<std::vector<Setting>> read_settings(const std::string& text);

}  // namespace aftercut::farm
