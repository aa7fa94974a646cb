#include "aftercut/weather/generator.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/weather/csv.hpp"
#include "aftercut/weather/evapotranspiration.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::weather;
using test::Kind;

namespace {

const std::string kFolder = AFTERCUT_SOURCE_DIR "/weather/";

GeneratorParameters valley() {
  return read_generator_parameters(read_file(kFolder + "valley-parameters.json").value(),
                                   "valley-parameters.json")
      .value();
}

// No rain ever, temperatures and sun flat over the year: what is left is the residual process.
GeneratorParameters dry_and_flat() {
  GeneratorParameters p;
  for (MonthClimate& m : p.months) {
    m.tmax_c = 40.0;  // far above tmin so that the range is never held
    m.tmin_c = 0.0;
    m.tmax_sd_c = 2.0;
    m.tmin_sd_c = 2.0;
    m.solar_mj_m2 = 10.0;
    m.solar_sd_share = 0.05;
  }
  return p;
}

double sd_of(const std::vector<double>& v) {
  const double m = mean(v);
  double sum = 0.0;
  for (const double x : v) sum += (x - m) * (x - m);
  return std::sqrt(sum / static_cast<double>(v.size() - 1));
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
  const double ma = mean(a), mb = mean(b);
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - ma) * (b[i] - mb);
  return sum / static_cast<double>(a.size() - 1) / sd_of(a) / sd_of(b);
}

std::vector<double> column(const std::vector<Row>& rows, std::optional<double> Row::*value) {
  std::vector<double> v;
  for (const Row& row : rows) v.push_back((row.*value).value());
  return v;
}

// Rain of the whole October-to-September years, or of their November to March.
std::vector<double> winters(const std::vector<Row>& rows, bool november_to_march) {
  std::map<int, double> sums;
  for (const Row& row : rows) {
    const int m = month_of(row.date);
    const bool counts = !november_to_march || m >= 11 || m <= 3;
    sums[year_of(row.date) + (m >= 10 ? 1 : 0)] += counts ? *row.rain_mm : 0.0;
  }
  sums.erase(sums.begin());           // one September
  sums.erase(std::prev(sums.end()));  // lacks its September
  std::vector<double> v;
  for (const auto& [year, sum] : sums) v.push_back(sum);
  return v;
}

}  // namespace

TEST_CASE("The chain and the residual matrices of the parameters", "[derived]") {
  const GeneratorParameters p = valley();
  const Matrix3 m = residual_covariance();
  const char* chain = "RichardsonWright1984 chain theory";
  const char* listing = "Richardson1981 matrices A and B";
  test::check({
      {"January share of wet days", chain, Kind::derived, 0.395, wet_day_share(p.months[0]), 0.0005},
      {"January wet days", chain, Kind::derived, 12.25, 31 * wet_day_share(p.months[0]), 0.01},
      {"January rain [mm]", chain, Kind::derived, 97.6, mean_rain_mm(p.months[0], 31), 0.1},
      {"November rain [mm]", chain, Kind::derived, 55.6, mean_rain_mm(p.months[10], 30), 0.6},
      {"M0 tmax variance", listing, Kind::derived, 1.0, m[0][0], 0.002},
      {"M0 tmin variance", listing, Kind::derived, 1.001, m[1][1], 0.002},
      {"M0 solar variance", listing, Kind::derived, 1.0, m[2][2], 0.002},
      {"M0 tmax, tmin", listing, Kind::derived, 0.634, m[0][1], 0.002},
      {"M0 tmax, solar", listing, Kind::derived, 0.186, m[0][2], 0.002},
      {"M0 tmin, solar", listing, Kind::derived, -0.193, m[1][2], 0.002},
      {"M0 tmax, tmin, as its author gives it", listing, Kind::recalled, 0.633, m[0][1], 0.002},
      {"M0 tmax, solar, as its author gives it", listing, Kind::recalled, 0.186, m[0][2], 0.002},
      {"M0 tmin, solar, as its author gives it", listing, Kind::recalled, -0.193, m[1][2], 0.002},
      {"M0 is symmetric", listing, Kind::identity, m[0][1], m[1][0], 1e-12},
  });
}

TEST_CASE("Without the yearly factor the months have their own wet share and rain, within sampling error",
          "[derived]") {
  GeneratorParameters p = valley();
  p.yearly_log_sd = 0.0;
  constexpr int kYears = 300;
  std::array<double, 12> days{}, wet{}, rain{};
  for (const Row& row : generate(p, p.site, 1600, kYears, 5)) {
    const auto m = static_cast<std::size_t>(month_of(row.date) - 1);
    days[m] += 1.0;
    wet[m] += *row.rain_mm > 0.0 ? 1.0 : 0.0;
    rain[m] += *row.rain_mm;
  }
  for (std::size_t m = 0; m < 12; ++m) {
    const MonthClimate& month = p.months[m];
    const double pi = wet_day_share(month), r = month.p_wet_after_wet - month.p_wet_after_dry;
    const double wet_sd = std::sqrt(pi * (1.0 - pi) / days[m] * (1.0 + r) / (1.0 - r));
    const double length = days[m] / kYears, amount = month.gamma_shape * month.gamma_scale_mm;
    const double month_variance = length * pi * amount * month.gamma_scale_mm +
                                  length * amount * amount * pi * (1.0 - pi) * (1.0 + r) / (1.0 - r);
    CAPTURE(m + 1, pi, wet[m] / days[m], wet_sd);
    CHECK(std::abs(wet[m] / days[m] - pi) < 4.0 * wet_sd + 0.003);  // 0.003: memory of the month before
    CHECK(std::abs(rain[m] / kYears - length * pi * amount) < 4.0 * std::sqrt(month_variance / kYears) + 0.4);
  }
}

TEST_CASE("Three hundred invented years spread like the observed ones", "[derived]") {
  // Observed at Davis, 1971-2021: water year mean 470 mm, sd 193, lowest 163, highest 920 of 51 years (own
  // count, DavisFit). November to March, 1971-1995: mean 408, sd 186.
  const GeneratorParameters p = valley();
  const auto rows = generate(p, p.site, 1600, 301, 12);
  const auto whole = winters(rows, false), wet_season = winters(rows, true);
  REQUIRE(whole.size() == 300);
  const char* source = "DavisFit";
  test::check({
      {"mean water year [mm]", source, Kind::derived, 470, mean(whole), 40},
      {"sd of water years [mm]", source, Kind::derived, 193, sd_of(whole), 35},
      {"mean November to March [mm]", source, Kind::derived, 408, mean(wet_season), 35},
      {"sd of November to March [mm]", source, Kind::derived, 186, sd_of(wet_season), 45},
      {"1 in 51 driest water year [mm]", source, Kind::derived, 163, quantile(whole, 1.0 / 51.0), 50},
      {"1 in 51 wettest water year [mm]", source, Kind::derived, 920, quantile(whole, 50.0 / 51.0), 150},
  });
  CHECK(*std::min_element(whole.begin(), whole.end()) > 50.0);
  CHECK(*std::max_element(whole.begin(), whole.end()) < 1700.0);
}

TEST_CASE("The yearly factor widens the spread and keeps the mean", "[identity]") {
  GeneratorParameters p = valley();
  const auto wide = winters(generate(p, p.site, 1600, 200, 3), false);
  p.yearly_log_sd = 0.0;
  const auto narrow = winters(generate(p, p.site, 1600, 200, 3), false);
  CHECK(sd_of(narrow) < 130.0);
  CHECK(sd_of(wide) > 1.4 * sd_of(narrow));
  CHECK(mean(wide) == Approx(mean(narrow)).epsilon(0.08));
}

TEST_CASE("Residuals have the covariance and the memory of their matrices", "[derived]") {
  const auto rows = generate(dry_and_flat(), Site{0.0, -140.0, 0.0, -9.0, false}, 1700, 100, 8);
  const auto tmax = column(rows, &Row::tmax_c), tmin = column(rows, &Row::tmin_c),
             solar = column(rows, &Row::solar_mj_m2);
  const std::vector<double> today(tmax.begin() + 1, tmax.end()), yesterday(tmax.begin(), tmax.end() - 1);
  const char* source = "Richardson1981 matrices A and B";
  test::check({
      {"mean tmax", source, Kind::derived, 40.0, mean(tmax), 0.06},
      {"mean tmin", source, Kind::derived, 0.0, mean(tmin), 0.06},
      {"sd tmax", source, Kind::derived, 2.0, sd_of(tmax), 0.04},
      {"tmax with tmin", source, Kind::derived, 0.634, correlation(tmax, tmin), 0.02},
      {"tmax with solar", source, Kind::derived, 0.186, correlation(tmax, solar), 0.02},
      {"tmin with solar", source, Kind::derived, -0.193, correlation(tmin, solar), 0.02},
      // Lag 1: the first row of A times the first column of M0.
      {"tmax with tmax of the day before", source, Kind::derived, 0.567 + 0.086 * 0.634 - 0.002 * 0.186,
       correlation(today, yesterday), 0.02},
  });
  for (const Row& row : rows) CHECK(*row.rain_mm == 0.0);
}

TEST_CASE("Every invented day is a possible one and needs no filling", "[identity]") {
  const GeneratorParameters p = valley();
  const auto rows = generate(p, p.site, 1996, 30, p.seed);
  REQUIRE(rows.size() == 10957);
  CHECK(rows.front().date == make_date(1996, 9, 1));
  CHECK(rows.back().date == make_date(2026, 8, 31));
  const Series series = complete(rows, p.site, GapRules{}, "invented").value();
  CHECK(series.days.size() == rows.size());
  const Estimated& e = series.estimated;
  CHECK(e.temperature_days + e.rain_days + e.humidity_days + e.wind_days + e.radiation_days == 0);
  for (const Row& row : rows) {
    const auto ra = extraterrestrial_radiation(p.site.latitude_deg, day_of_year(row.date));
    const bool good = *row.tmin_c < *row.tmax_c && *row.rh_mean_percent >= 5.0 &&
                      *row.rh_mean_percent <= 100.0 &&
                      *row.solar_mj_m2 <= clear_sky_radiation(ra, Metre{p.site.elevation_m}).value() + 0.05 &&
                      (*row.rain_mm == 0.0 || *row.rain_mm >= 0.2);
    if (!good) FAIL("impossible day " << iso(row.date));
  }
  CHECK(lay_on_season(series, p.site, make_date(2026, 9, 1), 300, std::nullopt, std::nullopt).years.size() ==
        30);
}

TEST_CASE("A date has the same weather whatever stretch is asked for; another seed has another",
          "[identity]") {
  const GeneratorParameters p = valley();
  const std::string all = to_csv(generate(p, p.site, 1996, 12, 77));
  const std::string part = to_csv(generate(p, p.site, 2003, 2, 77));
  const std::string body = part.substr(part.find('\n') + 1);
  CHECK(all.find(body) != std::string::npos);
  CHECK(to_csv(generate(p, p.site, 2003, 2, 78)) != part);
  CHECK_THROWS_AS(generate(p, p.site, 2003, 0, 77), InternalError);
}

TEST_CASE("Wet days are cooler at noon, darker and damper", "[identity]") {
  const GeneratorParameters p = valley();
  std::array<std::array<double, 4>, 2> sums{};
  for (const Row& row : generate(p, p.site, 1600, 60, 4)) {
    if (month_of(row.date) != 3) continue;
    auto& s = sums[*row.rain_mm > 0.0 ? 1 : 0];
    s[0] += 1.0;
    s[1] += *row.tmax_c;
    s[2] += *row.solar_mj_m2;
    s[3] += *row.rh_mean_percent;
  }
  const auto average = [&](std::size_t wet, std::size_t k) { return sums[wet][k] / sums[wet][0]; };
  CHECK(average(1, 1) - average(0, 1) == Approx(p.months[2].wet_day_tmax_shift_c).margin(0.6));
  CHECK(average(1, 2) < 0.7 * average(0, 2));
  CHECK(average(1, 3) > average(0, 3) + 5.0);
}

TEST_CASE("CSV: header with units, one decimal, empty cells", "[identity]") {
  Row row;
  row.date = make_date(2026, 9, 1);
  row.tmin_c = -0.3;
  row.tmax_c = 31.25;
  row.rain_mm = 0.0;
  CHECK(to_csv({row}) ==
        "date,tmin_c,tmax_c,rain_mm,rh_mean_percent,wind_m_s,solar_mj_m2\n2026-09-01,-0.3,31.2,0.0,,,\n");
}

TEST_CASE("The valley series in weather/ comes out of its parameters, byte for byte", "[golden]") {
  const GeneratorParameters p = valley();
  const std::string committed = read_file(kFolder + "valley-30-years.csv").value();
  CHECK((to_csv(generate(p, p.site, 1996, 30, p.seed)) == committed));
}
