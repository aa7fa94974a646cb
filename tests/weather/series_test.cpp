#include "aftercut/weather/series.hpp"

#include "aftercut/weather/evapotranspiration.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::weather;

namespace {

const Site ocean_site{39.2, -140.0, 20.0, -9.0, false};
const Date first_day = make_date(2020, 10, 1);

Row full_row(int d) {
  Row row;
  row.date = first_day + d;
  row.line = d + 2;
  row.tmin_c = 8.0 + d;
  row.tmax_c = 20.0 + 2.0 * d;
  row.rain_mm = 1.0;
  row.rh_mean_percent = 60.0;
  row.wind_m_s = 3.0;
  row.solar_mj_m2 = 12.0;
  return row;
}

std::vector<Row> full_rows(int n) {
  std::vector<Row> rows;
  for (int d = 0; d < n; ++d) rows.push_back(full_row(d));
  return rows;
}

Series done(const std::vector<Row>& rows, const GapRules& rules = {}) {
  const auto result = complete(rows, ocean_site, rules, "w.csv");
  for (const Issue& issue : result.issues()) UNSCOPED_INFO(to_text(issue));
  REQUIRE(result.ok());
  return result.value();
}

}  // namespace

TEST_CASE("A whole record passes through, nothing counted", "[identity]") {
  const Series s = done(full_rows(4));
  CHECK(s.first == first_day);
  REQUIRE(s.days.size() == 4);
  CHECK(s.days[2].tmin_c == 10.0);
  CHECK(s.days[2].tmax_c == 24.0);
  CHECK(s.days[2].rain_mm == 1.0);
  CHECK(s.days[2].wind_2m_m_s == 3.0);
  CHECK(s.days[2].solar_mj_m2 == 12.0);
  CHECK(s.estimated.temperature_days == 0);
  CHECK(s.estimated.rain_days == 0);
  CHECK(s.estimated.humidity_days == 0);
  CHECK(s.estimated.wind_days == 0);
  CHECK(s.estimated.radiation_days == 0);
}

TEST_CASE("Short gaps: temperature on a straight line, rain as dry, each counted", "[identity]") {
  auto rows = full_rows(10);
  rows[3].tmin_c.reset();
  rows[4].tmin_c.reset();
  rows[4].tmax_c.reset();
  rows[6].rain_mm.reset();
  rows[7].rain_mm.reset();
  const Series s = done(rows);
  CHECK(s.days[3].tmin_c == Approx(11.0));
  CHECK(s.days[4].tmin_c == Approx(12.0));
  CHECK(s.days[4].tmax_c == Approx(28.0));
  CHECK(s.days[6].rain_mm == 0.0);
  CHECK(s.days[8].rain_mm == 1.0);
  CHECK(s.estimated.temperature_days == 2);
  CHECK(s.estimated.rain_days == 2);
}

TEST_CASE("Days without a row are filled like empty cells", "[identity]") {
  auto rows = full_rows(8);
  rows.erase(rows.begin() + 3, rows.begin() + 5);
  const Series s = done(rows);
  REQUIRE(s.days.size() == 8);
  CHECK(s.days[3].tmin_c == Approx(11.0));
  CHECK(s.days[4].tmax_c == Approx(28.0));
  CHECK(s.days[4].rain_mm == 0.0);
  CHECK(s.days[4].wind_2m_m_s == 2.0);
  CHECK(s.estimated.temperature_days == 2);
  CHECK(s.estimated.rain_days == 2);
  CHECK(s.estimated.humidity_days == 2);
  CHECK(s.estimated.wind_days == 2);
  CHECK(s.estimated.radiation_days == 2);
}

TEST_CASE("The leap day is a day like any other", "[identity]") {
  std::vector<Row> rows(2, full_row(0));
  rows[0].date = make_date(2024, 2, 28);
  rows[1].date = make_date(2024, 3, 1);
  rows[1].tmin_c = 10.0;
  CHECK(done(rows).days.size() == 3);
  CHECK(done(rows).days[1].tmin_c == Approx(9.0));
  rows[0].date = make_date(2023, 2, 28);
  rows[1].date = make_date(2023, 3, 1);
  CHECK(done(rows).days.size() == 2);
}

TEST_CASE("Humidity: dew point before mean humidity before the minimum temperature", "[identity]") {
  auto rows = full_rows(3);
  rows[0].dewpoint_c = 5.0;
  rows[2].rh_mean_percent.reset();
  GapRules rules;
  rules.dewpoint_below_tmin_c = 2.0;
  const Series s = done(rows, rules);
  CHECK(s.days[0].ea_kpa == Approx(saturation_vapour_pressure(Celsius{5.0}).value()));
  CHECK(s.days[1].ea_kpa ==
        Approx(vapour_pressure_from_mean_humidity(Celsius{9.0}, Celsius{22.0}, 60.0).value()));
  CHECK(s.days[2].ea_kpa == Approx(saturation_vapour_pressure(Celsius{8.0}).value()));
  CHECK(s.estimated.humidity_days == 1);
}

TEST_CASE("Wind: the setting where none is recorded, brought down to 2 m where it is", "[identity]") {
  auto rows = full_rows(2);
  rows[1].wind_m_s.reset();
  GapRules rules;
  rules.mean_wind_m_s = 1.4;
  rules.wind_height_m = 10.0;
  const Series s = done(rows, rules);
  CHECK(s.days[0].wind_2m_m_s == Approx(wind_at_2m(MetrePerSecond{3.0}, Metre{10.0}).value()));
  CHECK(s.days[0].wind_2m_m_s < 3.0);
  CHECK(s.days[1].wind_2m_m_s == 1.4);
}

TEST_CASE("Radiation from the temperature range at any length of gap", "[identity]") {
  auto rows = full_rows(9);
  for (Row& row : rows) row.solar_mj_m2.reset();
  const Series s = done(rows);
  CHECK(s.estimated.radiation_days == 9);
  const auto above = extraterrestrial_radiation(ocean_site.latitude_deg, day_of_year(first_day));
  CHECK(s.days[0].solar_mj_m2 ==
        Approx(solar_from_temperature_range(Celsius{8.0}, Celsius{20.0}, above, Metre{20.0}, false).value()));
  Site coast = ocean_site;
  coast.near_coast = true;
  CHECK(complete(rows, coast, {}, "w.csv").value().days[0].solar_mj_m2 > s.days[0].solar_mj_m2);
}

TEST_CASE("A filled minimum gives way to a recorded maximum, and the other way round", "[identity]") {
  auto rows = full_rows(3);
  rows[1].tmin_c.reset();
  rows[1].tmax_c = 7.0;  // colder than the line between 8 and 10
  Series s = done(rows);
  CHECK(s.days[1].tmin_c == 7.0);
  CHECK(s.days[1].tmax_c == 7.0);
  rows = full_rows(3);
  rows[1].tmax_c.reset();
  rows[1].tmin_c = 30.0;
  s = done(rows);
  CHECK(s.days[1].tmin_c == 30.0);
  CHECK(s.days[1].tmax_c == 30.0);
}
