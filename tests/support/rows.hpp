#pragma once
// One shared checker for rows of check values: prints every input, expected, found and difference, and keeps
// a record.

#include <string>
#include <vector>

namespace aftercut::test {

/// Where the expected number comes from.
enum class Kind {
  published,  ///< read in a source
  derived,    ///< our arithmetic on a published equation
  recalled,   ///< from memory
  identity,   ///< a law: mass, water, hours, money balance
  cross       ///< another program or a brute-force method
};

struct Row {
  const char* name;    ///< what is checked, with its inputs
  const char* source;  ///< key of docs/sources.md and place, e.g. "Allen1998 Example 18 p72"
  Kind kind;
  double expected;
  double found;
  double tolerance;  ///< absolute; half the last printed digit unless argued beside the row
};

/// One Catch2 CHECK a row. With AFTERCUT_ROWS set to a file name, a line
/// "kind<TAB>source<TAB>name<TAB>expected<TAB>found<TAB>tolerance" is added to that file.
void check(const std::vector<Row>& rows);

}  // namespace aftercut::test
