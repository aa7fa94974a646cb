// The order in which names are shown.
#include "aftercut/core/ids.hpp"

#include <algorithm>
#include <vector>

#include "catch2/catch.hpp"

using aftercut::natural_less;

TEST_CASE("runs of digits compare as numbers, all else as bytes", "[identity]") {
  const std::vector<std::string> right{"",       "1",   "2",       "10",       "10a",
                                       "100",    "B2",  "B2a",     "B10",      "N 1",
                                       "N 01 b", "N 2", "field 9", "field 10", "field 10 north",
                                       "ñ"};
  std::vector<std::string> mixed = right;
  std::reverse(mixed.begin(), mixed.end());
  std::sort(mixed.begin(), mixed.end(), natural_less);
  CHECK(mixed == right);
}

TEST_CASE("long runs of digits do not overflow", "[regression]") {
  CHECK(natural_less("99999999999999999999998", "99999999999999999999999"));
  CHECK(natural_less("99999999999999999999999", "100000000000000000000000"));
}

TEST_CASE("a strict order: no name before itself, no pair both ways, transitive", "[identity]") {
  const std::vector<std::string> names{"",    "0",    "00",  "1",  "01",  "001", "a", "a0", "a1",    "a01",
                                       "a1b", "a01a", "a10", "1a", "01a", "1b",  "-", "9",  "A9z10", "A9z9"};
  for (const auto& a : names) {
    CHECK_FALSE(natural_less(a, a));
    for (const auto& b : names) {
      if (a != b) CHECK(natural_less(a, b) != natural_less(b, a));
      for (const auto& c : names)
        if (natural_less(a, b) && natural_less(b, c)) CHECK(natural_less(a, c));
    }
  }
}

TEST_CASE("ids of one kind compare", "[identity]") {
  CHECK(aftercut::FieldId{"A"} < aftercut::FieldId{"B"});
  CHECK(aftercut::FieldId{"A"} == aftercut::FieldId{"A"});
}
