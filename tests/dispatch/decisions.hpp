#pragma once
// Decisions for the small farm of the tests.

#include <numeric>
#include <stdexcept>

#include "aftercut/dispatch/dispatch.hpp"
#include "small_farm.hpp"

namespace aftercut::test {

inline int recipe_named(const farm::Farm& farm, const std::string& id) {
  for (std::size_t r = 0; r < farm.book.recipes.size(); ++r)
    if (farm.book.recipes[r].id.value == id) return static_cast<int>(r);
  throw std::runtime_error("no recipe " + id);
}

/// One method for each field, both lists in the fields' order.
inline plan::Decision decide(const farm::Farm& farm, const std::vector<std::string>& methods) {
  plan::Decision d;
  for (const auto& m : methods) d.method.push_back(recipe_named(farm, m));
  d.autumn_order.resize(methods.size());
  std::iota(d.autumn_order.begin(), d.autumn_order.end(), 0);
  d.spring_order = d.autumn_order;
  return d;
}

inline const std::vector<std::string> mixed_methods{"roll_flood", "bale_disk", "chop_disk", "leave", "burn"};

/// The row `name` of the burn rules gets this value.
inline void put(burn::Jurisdiction& j, const std::string& name, const char* value, const char* unit) {
  for (burn::Rule& rule : j.rules) {
    if (rule.name != name) continue;
    rule.value = value;
    rule.unit = unit;
  }
}

}  // namespace aftercut::test
