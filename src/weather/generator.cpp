#include "aftercut/weather/generator.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "aftercut/core/random.hpp"
#include "aftercut/weather/evapotranspiration.hpp"

namespace aftercut::weather {
namespace {

using Vector3 = std::array<double, 3>;

// Residuals of tmax, tmin, solar. Source: Richardson1981 (read, in a printed Fortran listing).
constexpr Matrix3 kA{{{.567, .086, -.002}, {.253, .504, -.050}, {-.006, -.039, .244}}};
constexpr Matrix3 kB{{{.781, 0.0, 0.0}, {.328, .637, 0.0}, {.238, -.341, .873}}};

constexpr double kWetDayMm =
    0.2;  // least rain of a wet day, the threshold of the fit. Source: DavisFit (fitted)
constexpr double kWetnessOnOccurrence =
    0.5;  // power of the yearly factor on wet days; the rest on amounts. Source: WetnessFactor (assumed)
constexpr double kMostWetAfterDry = 0.95;  // Source: WetnessFactor (assumed)
constexpr double kLeastRange = 0.5;        // C between tmin and tmax. Source: WeatherBounds (assumed)
constexpr double kLeastSolarShare = 0.05;  // of Ra, under the darkest cloud. Source: WeatherBounds (assumed)
constexpr double kLeastHumidity = 5.0;     // percent. Source: WeatherBounds (assumed)
constexpr int kRunInDays = 365;

Matrix3 times(const Matrix3& a, const Matrix3& b, bool b_transposed) {
  Matrix3 c{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      for (std::size_t k = 0; k < 3; ++k) c[i][j] += a[i][k] * (b_transposed ? b[j][k] : b[k][j]);
    }
  }
  return c;
}

double dot(const Vector3& a, const Vector3& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

// What goes from one day to the next.
struct Memory {
  bool wet = false;
  Vector3 residual{};
};

struct Means {
  double tmax_c = 0.0, tmin_c = 0.0, solar_mj_m2 = 0.0;
};

// One day's draws, each from its own stream.
Draws draws_of(std::uint64_t seed, const char* stream, Date date) {
  return {seed, stream_of(stream), static_cast<std::uint64_t>(date.days())};
}

const MonthClimate& month_at(const GeneratorParameters& p, int month) {
  return p.months[static_cast<std::size_t>((month + 11) % 12)];
}

double days_in_month(Date date) {
  const int year = year_of(date), month = month_of(date);
  return month == 12 ? 31.0 : make_date(year, month + 1, 1) - make_date(year, month, 1);
}

// Month means on straight lines from mid-month to mid-month.
Means means_at(const GeneratorParameters& p, Date date) {
  const double place = (day_of_month(date) - 0.5) / days_in_month(date) - 0.5;  // -0.5 to 0.5 about mid-month
  const MonthClimate& here = month_at(p, month_of(date));
  const MonthClimate& there = month_at(p, month_of(date) + (place < 0.0 ? -1 : 1));
  const double w = std::abs(place);
  const auto mix = [&](double MonthClimate::*m) { return (1.0 - w) * here.*m + w * there.*m; };
  return {mix(&MonthClimate::tmax_c), mix(&MonthClimate::tmin_c), mix(&MonthClimate::solar_mj_m2)};
}

// Lognormal with mean 1, one for each October to September.
double wetness_of(const GeneratorParameters& p, std::uint64_t seed, Date date) {
  if (p.yearly_log_sd <= 0.0) return 1.0;
  const int water_year = year_of(date) + (month_of(date) >= 10 ? 1 : 0);
  const double z =
      Draws{seed, stream_of("weather yearly wetness"), static_cast<std::uint64_t>(water_year)}.normal();
  return std::exp(p.yearly_log_sd * z - 0.5 * p.yearly_log_sd * p.yearly_log_sd);
}

bool is_wet(const MonthClimate& month, double wetness, bool wet_yesterday, Draws draws) {
  const double after_dry =
      std::min(kMostWetAfterDry, month.p_wet_after_dry * std::pow(wetness, kWetnessOnOccurrence));
  return draws.uniform() < (wet_yesterday ? month.p_wet_after_wet : after_dry);
}

double rain_of(const MonthClimate& month, double wetness, Draws draws) {
  const double scale = month.gamma_scale_mm * std::pow(wetness, 1.0 - kWetnessOnOccurrence);
  return std::max(kWetDayMm, draws.gamma(month.gamma_shape, scale));
}

Vector3 next_residual(const Vector3& before, Draws draws) {
  const double e0 = draws.normal(), e1 = draws.normal(), e2 = draws.normal();
  const Vector3 e{e0, e1, e2};
  Vector3 x{};
  for (std::size_t i = 0; i < 3; ++i) x[i] = dot(kA[i], before) + dot(kB[i], e);
  return x;
}

// Never minus zero, so that texts compare.
double tenths(double x) { return std::round(x * 10.0) / 10.0 + 0.0; }

double solar_of(const MonthClimate& month, double mean, const Memory& today, const Site& site, Date date) {
  const double pi = wet_day_share(month);
  const double dry = mean / (1.0 - pi + pi * month.wet_day_solar_share);
  const double value =
      (today.wet ? dry * month.wet_day_solar_share : dry) * (1.0 + month.solar_sd_share * today.residual[2]);
  const auto ra = extraterrestrial_radiation(site.latitude_deg, day_of_year(date));
  const double most = clear_sky_radiation(ra, Metre{site.elevation_m}).value();
  return std::clamp(value, kLeastSolarShare * ra.value(), most);
}

double humidity_of(const MonthClimate& month, const Row& row, bool wet, Draws draws) {
  const double below = month.dewpoint_below_tmin_c - (wet ? month.wet_day_dewpoint_rise_c : 0.0) +
                       month.dewpoint_sd_c * draws.normal();
  const double ea = saturation_vapour_pressure(Celsius{*row.tmin_c - below}).value();
  const double saturated =
      vapour_pressure_from_mean_humidity(Celsius{*row.tmin_c}, Celsius{*row.tmax_c}, 100.0).value();
  return std::clamp(100.0 * ea / saturated, kLeastHumidity, 100.0);
}

double wind_of(const MonthClimate& month, Draws draws) {
  const double variance = month.wind_sd_share * month.wind_sd_share;
  return variance > 0.0 && month.wind_m_s > 0.0 ? draws.gamma(1.0 / variance, month.wind_m_s * variance)
                                                : month.wind_m_s;
}

void put_temperatures(Row& row, const MonthClimate& month, const Means& means, const Memory& today) {
  const double from_mean = (today.wet ? 1.0 : 0.0) - wet_day_share(month);  // keeps the mean over all days
  const double tmax =
      means.tmax_c + from_mean * month.wet_day_tmax_shift_c + month.tmax_sd_c * today.residual[0];
  const double tmin =
      means.tmin_c + from_mean * month.wet_day_tmin_shift_c + month.tmin_sd_c * today.residual[1];
  const double middle = 0.5 * (tmax + tmin);
  const double half_range = std::max(0.5 * kLeastRange, 0.5 * (tmax - tmin));
  row.tmax_c = tenths(middle + half_range);
  row.tmin_c = tenths(middle - half_range);
}

Memory next(const Memory& yesterday, const GeneratorParameters& p, std::uint64_t seed, Date date) {
  const MonthClimate& month = month_at(p, month_of(date));
  return {is_wet(month, wetness_of(p, seed, date), yesterday.wet, draws_of(seed, "weather wet day", date)),
          next_residual(yesterday.residual, draws_of(seed, "weather residual", date))};
}

Row row_of(const Memory& today, const GeneratorParameters& p, const Site& site, std::uint64_t seed,
           Date date) {
  const MonthClimate& month = month_at(p, month_of(date));
  const Means means = means_at(p, date);
  Row row;
  row.date = date;
  put_temperatures(row, month, means, today);
  row.rain_mm =
      today.wet
          ? tenths(rain_of(month, wetness_of(p, seed, date), draws_of(seed, "weather rain amount", date)))
          : 0.0;
  row.rh_mean_percent = tenths(humidity_of(month, row, today.wet, draws_of(seed, "weather dew point", date)));
  row.wind_m_s = tenths(wind_of(month, draws_of(seed, "weather wind", date)));
  row.solar_mj_m2 = tenths(solar_of(month, means.solar_mj_m2, today, site, date));
  return row;
}

}  // namespace

double wet_day_share(const MonthClimate& month) {
  return month.p_wet_after_dry / (1.0 + month.p_wet_after_dry - month.p_wet_after_wet);
}

double mean_rain_mm(const MonthClimate& month, int days) {
  return days * wet_day_share(month) * month.gamma_shape * month.gamma_scale_mm;
}

Matrix3 residual_covariance() {
  const Matrix3 noise = times(kB, kB, true);
  Matrix3 m = noise;
  for (int i = 0; i < 200; ++i) {  // converges with the square of the largest eigenvalue of A, about 0.7
    m = times(times(kA, m, false), kA, true);
    for (std::size_t r = 0; r < 3; ++r) {
      for (std::size_t c = 0; c < 3; ++c) m[r][c] += noise[r][c];
    }
  }
  return m;
}

std::vector<Row> generate(const GeneratorParameters& parameters, const Site& site, int first_year, int years,
                          std::uint64_t seed) {
  require(years > 0, "at least one year of weather is asked for");
  const Date first = make_date(first_year, 9, 1);
  const Date end = make_date(first_year + years, 9, 1);
  Memory memory;
  for (Date date = first - kRunInDays; date < first; date = date + 1)
    memory = next(memory, parameters, seed, date);
  std::vector<Row> rows;
  rows.reserve(static_cast<std::size_t>(end - first));
  for (Date date = first; date < end; date = date + 1) {
    memory = next(memory, parameters, seed, date);
    rows.push_back(row_of(memory, parameters, site, seed, date));
  }
  return rows;
}

}  // namespace aftercut::weather
