#include "rows.hpp"

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iomanip>

#include "catch2/catch.hpp"

namespace aftercut::test {
namespace {

const char* name_of(Kind kind) {
  switch (kind) {
    case Kind::published:
      return "published";
    case Kind::derived:
      return "derived";
    case Kind::recalled:
      return "recalled";
    case Kind::identity:
      return "identity";
    case Kind::cross:
      return "cross";
  }
  return "?";
}

void record(const Row& row) {
  const char* file = std::getenv("AFTERCUT_ROWS");
  if (file == nullptr) return;
  std::ofstream out{file, std::ios::app};
  out << std::setprecision(9) << name_of(row.kind) << '\t' << row.source << '\t' << row.name << '\t'
      << row.expected << '\t' << row.found << '\t' << row.tolerance << '\n';
}

}  // namespace

void check(const std::vector<Row>& rows) {
  REQUIRE(!rows.empty());
  for (const Row& row : rows) {
    CAPTURE(row.name, row.source, name_of(row.kind), row.expected, row.found, row.found - row.expected,
            row.tolerance);
    CHECK(std::abs(row.found - row.expected) <= row.tolerance);
    record(row);
  }
}

}  // namespace aftercut::test
