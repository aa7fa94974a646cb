// Parameters fitted to a record: those that made an invented record come back, within what its length tells.

#include "aftercut/weather/fit_generator.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::weather;

namespace {

const GeneratorParameters& valley_parameters() {
  static const GeneratorParameters p = [] {
    const std::string file = AFTERCUT_SOURCE_DIR "/weather/valley-parameters.json";
    return read_generator_parameters(read_file(file).value(), file).value();
  }();
  return p;
}

Series record_of(const GeneratorParameters& p, int years, std::uint64_t seed) {
  return complete(generate(p, p.site, 1901, years, seed), p.site, {}, "invented").value();
}

double season_rain(const Years& years) {
  double sum = 0.0;
  for (const Year& y : years.years)
    for (const Day& d : y.days) sum += d.rain_mm;
  return sum / static_cast<double>(years.years.size());
}

}  // namespace

TEST_CASE("a long invented record gives back the parameters that made it", "[cross]") {
  const GeneratorParameters& made = valley_parameters();
  const auto fitted = fit_generator(record_of(made, 200, 3), made.site);
  REQUIRE(fitted);
  for (std::size_t m = 0; m < 12; ++m) {
    INFO("month " << m + 1);
    const MonthClimate &a = made.months[m], &b = fitted->months[m];
    // Months are smoothed into each other by the generator, so their means come back a little flatter.
    CHECK(b.tmax_c == Approx(a.tmax_c).margin(1.0));
    CHECK(b.tmin_c == Approx(a.tmin_c).margin(1.0));
    CHECK(b.solar_mj_m2 == Approx(a.solar_mj_m2).epsilon(0.08));
    CHECK(b.wind_m_s == Approx(a.wind_m_s).epsilon(0.05));
    CHECK(b.tmax_sd_c == Approx(a.tmax_sd_c).epsilon(0.15));
    CHECK(wet_day_share(b) == Approx(wet_day_share(a)).margin(0.03));
    if (wet_day_share(a) < 0.1) continue;  // few wet days tell little of their amounts
    CHECK(b.gamma_shape * b.gamma_scale_mm == Approx(a.gamma_shape * a.gamma_scale_mm).epsilon(0.15));
    CHECK(b.wet_day_tmax_shift_c == Approx(a.wet_day_tmax_shift_c).margin(0.6));
    CHECK(b.dewpoint_below_tmin_c == Approx(a.dewpoint_below_tmin_c).margin(0.6));
  }
  CHECK(fitted->yearly_log_sd == Approx(made.yearly_log_sd).margin(0.08));
}

TEST_CASE("a record without spread between its years gets no yearly factor", "[identity]") {
  GeneratorParameters flat = valley_parameters();
  flat.yearly_log_sd = 0.0;
  const auto fitted = fit_generator(record_of(flat, 100, 5), flat.site);
  REQUIRE(fitted);
  CHECK(fitted->yearly_log_sd < 0.15);
}

TEST_CASE("a short record is not fitted", "[identity]") {
  CHECK_FALSE(
      fit_generator(record_of(valley_parameters(), least_fit_years - 1, 1), valley_parameters().site));
  CHECK(fit_generator(record_of(valley_parameters(), least_fit_years + 1, 1), valley_parameters().site));
}

TEST_CASE("invented years lie on the season, as many as asked for, beyond any record", "[identity]") {
  const Date first = make_date(2026, 8, 15);
  const GeneratorParameters& p = valley_parameters();
  const Years years = invented_years(p, p.site, first, 320, 40, 7);
  REQUIRE(years.years.size() == 40);
  CHECK(years.years.front().year == 2101);
  CHECK(years.years.back().year == 2140);
  for (const Year& y : years.years) CHECK(y.days.size() == 320);
  const Years more = invented_years(p, p.site, first, 320, 60, 7);
  for (std::size_t k = 0; k < 40; ++k) CHECK(more.years[k].et0_mm == years.years[k].et0_mm);
  CHECK(invented_years(p, p.site, first, 320, 40, 8).years[0].et0_mm != years.years[0].et0_mm);
  CHECK(season_rain(more) == Approx(470.0).epsilon(0.2));
}
