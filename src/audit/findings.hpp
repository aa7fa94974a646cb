#pragma once
// What the audit gathers while it looks: comparisons made and violations found, as a value that adds up.

#include <string>
#include <utility>

#include "aftercut/audit/audit.hpp"

namespace aftercut::audit {

inline constexpr std::size_t most_listed = 200;

/// Where something was looked at; negative numbers are left out of the text.
struct Place {
  const farm::Farm* farm = nullptr;
  int year = -1;
  int day = -1;  ///< season day
  int field = -1;
  std::string what;  ///< machine, person, item
};
std::string to_text(const Place& place);

using Texts = std::pair<std::string, std::string>;  ///< found, expected

struct Findings {
  Audit audit;

  /// One comparison. The texts are made only when it fails: `texts()` gives found and expected.
  template <class MakeTexts>
  void expect(bool holds, const char* rule, const Place& place, const MakeTexts& texts) {
    ++audit.checks;
    if (holds) return;
    Texts t = texts();
    add({rule, to_text(place), std::move(t.first), std::move(t.second)});
  }
  /// |found - expected| <= tolerance, as numbers.
  void expect_near(double found, double expected, double tolerance, const char* rule, const Place& place);
  void add(Violation violation);
  Findings& operator+=(Findings other);
};

}  // namespace aftercut::audit
