#pragma once
// Rows of faulty input and the one issue that each must give.

#include <functional>
#include <string>
#include <vector>

#include "small_farm.hpp"

namespace aftercut::test {

/// Parts of the texts beside what is spoilt in a sound farm.
struct BadRow {
  const char* name;
  std::function<void(FarmFiles&)> spoil;
  const char* file;
  const char* place;
  const char* found;
  const char* expected;
  const char* fix;
};

/// Each row gives its issue and no other; no text of it is empty.
void check_bad(const std::vector<BadRow>& rows);

/// Replaces the first `from`; it must be there.
void replace_in(std::string& text, const std::string& from, const std::string& to);

}  // namespace aftercut::test
