#include "aftercut/weather/row_checks.hpp"

#include <limits>

#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::weather;
using Catch::Matchers::Contains;

namespace {

const Site kNorth{39.2, -140.0, 20.0, -9.0, false};
const Date first_row_day = make_date(2021, 6, 1);

std::vector<Row> rows_of(int n) {
  std::vector<Row> rows;
  for (int d = 0; d < n; ++d) {
    Row row;
    row.date = first_row_day + d;
    row.line = d + 2;
    row.tmin_c = 12.0;
    row.tmax_c = 30.0;
    row.rain_mm = 0.0;
    rows.push_back(row);
  }
  return rows;
}

Issues faults(const std::vector<Row>& rows, const Site& site = kNorth, const GapRules& rules = {}) {
  return complete(rows, site, rules, "w.csv").issues();
}

// The only fault of the rows.
Issue only_fault(const std::vector<Row>& rows, const Site& site = kNorth) {
  const Issues issues = faults(rows, site);
  for (const Issue& issue : issues) UNSCOPED_INFO(to_text(issue));
  REQUIRE(issues.size() == 1);
  CHECK(issues[0].file == "w.csv");
  CHECK_FALSE(issues[0].expected.empty());
  CHECK_FALSE(issues[0].fix.empty());
  return issues[0];
}

}  // namespace

TEST_CASE("No rows at all", "[identity]") { CHECK(only_fault({}).place == "whole file"); }

TEST_CASE("Impossible values, each with its line", "[identity]") {
  const auto with = [](std::optional<double> Row::*column, double value) {
    auto rows = rows_of(3);
    rows[1].*column = value;
    return only_fault(rows);
  };
  CHECK_THAT(with(&Row::tmin_c, -80.0).found, Contains("tmin -80"));
  CHECK_THAT(with(&Row::tmax_c, 95.0).found, Contains("tmax 95"));
  CHECK_THAT(with(&Row::rain_mm, -1.0).found, Contains("rain -1"));
  CHECK_THAT(with(&Row::rain_mm, std::numeric_limits<double>::quiet_NaN()).found, Contains("rain nan"));
  CHECK_THAT(with(&Row::rain_mm, std::numeric_limits<double>::infinity()).found, Contains("rain inf"));
  CHECK_THAT(with(&Row::rh_mean_percent, 101.0).found, Contains("rh_mean 101"));
  CHECK_THAT(with(&Row::rh_mean_percent, 0.6).found, Contains("rh_mean 0.6"));
  CHECK_THAT(with(&Row::wind_m_s, -0.1).found, Contains("wind -0.1"));
  CHECK_THAT(with(&Row::solar_mj_m2, -1.0).found, Contains("solar -1"));
  CHECK_THAT(with(&Row::solar_mj_m2, 280.0).found, Contains("solar 280"));
  CHECK_THAT(with(&Row::dewpoint_c, 31.0).found, Contains("dewpoint 31 above tmax 30"));
  CHECK_THAT(with(&Row::tmin_c, 30.5).found, Contains("tmin 30.5 above tmax 30"));
  CHECK(with(&Row::tmin_c, 30.5).place == "line 3 (2021-06-02)");
}

TEST_CASE("Sunlight above what reaches the air, by hemisphere", "[identity]") {
  auto rows = rows_of(3);
  rows[1].solar_mj_m2 = 30.0;
  CHECK(faults(rows).empty());
  Site south = kNorth;
  south.latitude_deg = -39.2;
  CHECK_THAT(only_fault(rows, south).expected, Contains("at most 15.0"));
}

TEST_CASE("Order and repeated dates", "[identity]") {
  auto rows = rows_of(4);
  std::swap(rows[1], rows[2]);
  CHECK_THAT(only_fault(rows).found, Contains("2021-06-02 after 2021-06-03"));
  rows = rows_of(4);
  rows[2].date = rows[1].date;
  CHECK_THAT(only_fault(rows).found, Contains("2021-06-02 a second time"));
  rows[2].line = 0;
  CHECK(only_fault(rows).place == "2021-06-02");
}

TEST_CASE("Gaps: the longest that is filled, and one day more", "[identity]") {
  const auto without = [](int days, bool cells) {
    auto rows = rows_of(12);
    if (cells) {
      for (int d = 3; d < 3 + days; ++d) rows[static_cast<std::size_t>(d)].rain_mm.reset();
    } else {
      rows.erase(rows.begin() + 3, rows.begin() + 3 + days);
    }
    return rows;
  };
  CHECK(faults(without(5, true)).empty());
  CHECK(faults(without(5, false)).empty());
  CHECK_THAT(only_fault(without(6, true)).found, Contains("no rain on 6 days"));
  const Issue issue = only_fault(without(6, false));
  CHECK_THAT(issue.found, Contains("no tmin, tmax, rain on 6 days"));
  CHECK(issue.place == "2021-06-04 to 2021-06-09");
  GapRules strict;
  strict.longest_gap_days = 0;
  CHECK(faults(without(1, true), kNorth, strict).size() == 1);
}

TEST_CASE("No temperature on the first or the last day: no neighbour to lean on", "[identity]") {
  auto rows = rows_of(5);
  rows[0].tmin_c.reset();
  CHECK_THAT(only_fault(rows).found, Contains("no tmin on 1 days"));
  rows = rows_of(5);
  rows[4].tmax_c.reset();
  CHECK_THAT(only_fault(rows).found, Contains("no tmax on 1 days"));
  rows = rows_of(5);
  rows[0].rain_mm.reset();
  rows[4].rain_mm.reset();
  CHECK(faults(rows).empty());
  for (Row& row : rows) row.tmin_c.reset();
  CHECK_THAT(only_fault(rows).found, Contains("no tmin on 5 days"));
}

TEST_CASE("All faults at once", "[identity]") {
  auto rows = rows_of(30);
  rows[1].tmin_c = 40.0;
  rows[2].rain_mm = -3.0;
  rows[4].date = rows[3].date;
  rows[6].wind_m_s = 99.0;
  rows.erase(rows.begin() + 10, rows.begin() + 20);
  CHECK(faults(rows).size() == 5);
}

TEST_CASE("A long list is cut, and the rest counted", "[identity]") {
  auto rows = rows_of(45);
  for (std::size_t d = 0; d < 40; ++d) rows[d].rain_mm = -1.0;
  const Issues issues = faults(rows);
  REQUIRE(issues.size() == 31);
  CHECK(issues[29].place == "line 31 (2021-06-30)");
  CHECK(issues[30].found == "and 10 more");
  rows[0].rain_mm = 0.0;
  CHECK(faults(std::vector<Row>(rows.begin(), rows.begin() + 31)).size() == 30);
  CHECK(shortened({{"f", "a", "", "", ""}}, 1, "f").size() == 1);
}
