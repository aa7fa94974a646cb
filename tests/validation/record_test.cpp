// The open weather files themselves: yearly reference evapotranspiration of the hourly typical year, and what
// the daily record holds.

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

#include "aftercut/weather/evapotranspiration.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"
#include "winters.hpp"

using namespace aftercut;
using namespace aftercut::validation;
using aftercut::test::Kind;

namespace {

/// Penman-Monteith of a year of hours: 24 rows a day, vapour pressure as the mean over the hours' dew points,
/// wind at 10 m.
double year_et0_mm(const geo::Table& hours, const weather::Site& site) {
  const auto column = [&](const char* name) { return column_of(hours, name); };
  const std::size_t air = column("t_c"), dew = column("td_c"), sun = column("ghi_wh_m2"),
                    wind = column("wspd_m_s");
  double sum = 0.0;
  for (std::size_t d = 0; 24 * (d + 1) <= hours.rows.size(); ++d) {
    weather::Day day{.tmin_c = 99.0,
                     .tmax_c = -99.0,
                     .rain_mm = 0.0,
                     .ea_kpa = 0.0,
                     .wind_2m_m_s = 0.0,
                     .solar_mj_m2 = 0.0};
    for (std::size_t h = 0; h < 24; ++h) {
      const auto& row = hours.rows[24 * d + h];
      const double t = std::stod(row[air]);
      day.tmin_c = std::min(day.tmin_c, t);
      day.tmax_c = std::max(day.tmax_c, t);
      day.ea_kpa += weather::saturation_vapour_pressure(Celsius{std::stod(row[dew])}).value() / 24.0;
      day.solar_mj_m2 += 0.0036 * std::stod(row[sun]);
      day.wind_2m_m_s +=
          weather::wind_at_2m(MetrePerSecond{std::stod(row[wind])}, Metre{10.0}).value() / 24.0;
    }
    sum += weather::penman_monteith(day, site, static_cast<int>(d) + 1).value();
  }
  return sum;
}

}  // namespace

TEST_CASE("reference evapotranspiration of a typical year of hours", "[cross]") {
  const std::filesystem::path file = std::filesystem::path{AFTERCUT_SOURCE_DIR} /
                                     "../shared/data/weather-open/sacramento_exec_tmy3_hourly.csv";
  if (!std::filesystem::exists(file)) {
    WARN("skipped: ../shared with the typical year is not there");
    return;
  }
  const auto hours = geo::read_table(file);
  REQUIRE(hours.ok());
  const double et0 = year_et0_mm(hours.value(), {38.50, -121.50, 5.0, -8.0, false});
  // Another program of the same equations gave 1421. Pan evaporation in the valley: 1626 mm (DWR1975, read),
  // 0.87 of it.
  test::check({{"Sacramento Executive, year [mm]", "Allen1998 on TMY3, another program", Kind::cross, 1421.0,
                et0, 2.0}});
}

TEST_CASE("the daily record is whole", "[identity]") {
  if (no_record()) return;
  CHECK(davis()->winters.years.size() == 24);
  CHECK(davis()->soil.size() + 10 > 9223);
  std::map<int, double> winter_rain;
  for (const auto& year : davis()->winters.years)
    for (const auto& day : year.days) winter_rain[year.year] += day.rain_mm;
  CHECK(winter_rain.at(1976) < 200.0);  // the drought of 1976 and 1977
  CHECK(winter_rain.at(1982) > 600.0);  // the wet winter of 1982 and 1983
}
