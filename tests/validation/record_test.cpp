// The open weather files themselves: yearly reference evapotranspiration of the hourly typical year, and what
// the daily record holds.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <numeric>

#include "aftercut/weather/evapotranspiration.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"
#include "tables.hpp"
#include "winters.hpp"

using namespace aftercut;
using namespace aftercut::validation;
using aftercut::test::Kind;
using Catch::Detail::Approx;

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

namespace {

/// Rain of each year that `year_of` puts a day into; days that it leaves out (0) do not count.
template <class YearOf>
std::vector<double> sums(YearOf year_of) {
  std::map<int, double> by_year;
  for (const RainDay& day : davis()->rain)
    if (const int year = year_of(day.date); year != 0) by_year[year] += day.rain_mm;
  std::vector<double> all;
  for (const auto& [year, mm] : by_year) all.push_back(mm);
  return all;
}

int water_year_of(Date d) {
  const int year = year_of(d) + (month_of(d) >= 10 ? 1 : 0);
  return year <= 1995 ? year : 0;  // the next one is not whole
}

std::string whole(double mm) { return fmt::format("{:.0f}", mm); }

/// Days between the first and the last that have no rain entered.
int days_missing() {
  const auto& rain = davis()->rain;
  return (rain.back().date - rain.front().date) + 1 - static_cast<int>(rain.size());
}

}  // namespace

TEST_CASE("rain of the record beside what was worked out for the longer one", "[derived]") {
  if (no_record()) return;
  const auto years = sums(water_year_of);
  REQUIRE(years.size() == 25);
  const auto months = [](int first, int last) {
    return sums([=](Date d) { return month_of(d) >= first && month_of(d) <= last ? year_of(d) : 0; });
  };
  const double mean = std::accumulate(years.begin(), years.end(), 0.0) / static_cast<double>(years.size());
  double squares = 0.0;
  for (const double mm : years) squares += (mm - mean) * (mm - mean);
  const double sd = std::sqrt(squares / static_cast<double>(years.size() - 1));
  CHECK(mean == Approx(470.0).epsilon(0.10));
  CHECK(sd == Approx(193.0).epsilon(0.20));
  CHECK(page_holds(
      {"record",
       {"rain [mm]", "1971 to 1995, here", "1971 to 2021, worked out elsewhere from the same station"},
       {{"water year (from October), mean", whole(mean), "470"},
        {"standard deviation", whole(sd), "193"},
        {"least", whole(*std::min_element(years.begin(), years.end())), "163 (2020)"},
        {"most", whole(*std::max_element(years.begin(), years.end())), "920 (2017)"},
        {"November, p10 / p50 / p90", three(months(11, 11)), "5 / 42 / 129"},
        {"March and April, p10 / p50 / p90", three(months(3, 4)), "27 / 88 / 172"},
        {"days, gaps", fmt::format("{}, {}", davis()->rain.size(), days_missing()), "18702, 0"}}}));
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
