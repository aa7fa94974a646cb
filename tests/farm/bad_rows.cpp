#include "bad_rows.hpp"

#include <algorithm>

#include "catch2/catch.hpp"
#include "scratch.hpp"

namespace aftercut::test {
namespace {

bool has(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }

bool matches(const Issue& i, const BadRow& r) {
  return i.file == r.file && has(i.place, r.place) && has(i.found, r.found) && has(i.expected, r.expected) &&
         has(i.fix, r.fix);
}

}  // namespace

void check_bad(const std::vector<BadRow>& rows) {
  for (const BadRow& row : rows) {
    FarmFiles files = small_farm();
    row.spoil(files);
    const Result<farm::Problem> read = read_farm(files);
    INFO(row.name);
    CHECK_FALSE(read.ok());
    const Issues issues = read.issues();
    INFO(all_text(issues));
    CHECK(issues.size() == 1);
    CHECK(std::any_of(issues.begin(), issues.end(), [&](const Issue& i) { return matches(i, row); }));
    for (const Issue& i : issues) {
      CHECK_FALSE(i.found.empty());
      CHECK_FALSE(i.expected.empty());
      CHECK_FALSE(i.fix.empty());
    }
  }
}

void replace_in(std::string& text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
}

}  // namespace aftercut::test
