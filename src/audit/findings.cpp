#include "findings.hpp"

#include <fmt/format.h>

#include <cmath>

namespace aftercut::audit {

std::string to_text(const Place& p) {
  std::string text;
  const auto add = [&text](const std::string& part) {
    if (!text.empty()) text += ", ";
    text += part;
  };
  if (p.year >= 0) add(fmt::format("year {}", p.year));
  if (p.farm != nullptr && p.day >= 0) add(iso(p.farm->season.date(p.day)));
  if (p.farm != nullptr && p.field >= 0) {
    const auto f = static_cast<std::size_t>(p.field);
    add(f < p.farm->fields.size() ? "field " + p.farm->fields[f].id.value : fmt::format("field index {}", f));
  }
  if (!p.what.empty()) add(p.what);
  return text;
}

void Findings::expect_near(double found, double expected, double tolerance, const char* rule,
                           const Place& place) {
  expect(std::abs(found - expected) <= tolerance, rule, place, [&] {
    return Texts{fmt::format("{:.6f}", found), fmt::format("{:.6f} within {:g}", expected, tolerance)};
  });
}

void Findings::add(Violation violation) {
  ++audit.count;
  if (audit.violations.size() < most_listed) audit.violations.push_back(std::move(violation));
}

Findings& Findings::operator+=(Findings other) {
  audit.count += other.audit.count;
  audit.checks += other.audit.checks;
  for (Violation& v : other.audit.violations) {
    if (audit.violations.size() >= most_listed) break;
    audit.violations.push_back(std::move(v));
  }
  return *this;
}

}  // namespace aftercut::audit
