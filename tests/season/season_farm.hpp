#pragma once
// The small farm that the tests of the day loop share.

#include <stdexcept>
#include <string>

#include "small_farm.hpp"

namespace aftercut::test {

/// Six weather years.
inline const farm::Problem& season_farm() {
  static const farm::Problem p = small_problem(6);
  return p;
}

inline const method::Operation& operation(const std::string& id) {
  for (const auto& op : season_farm().farm.book.operations)
    if (op.id.value == id) return op;
  throw std::runtime_error("no operation " + id);
}

}  // namespace aftercut::test
