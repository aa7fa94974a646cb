#pragma once
// Invented weather years: a two-state wet-day chain with gamma amounts by month, temperatures and radiation
// by a first-order vector process, and a whole-year wetness factor so that wet and dry winters differ as
// observed ones do. Source: Richardson1981 (read in part); whole-year factor: ours, see
// docs/weather-generator.md.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "aftercut/core/result.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::weather {

struct MonthClimate {
  double p_wet_after_dry = 0.0;
  double p_wet_after_wet = 0.0;
  double gamma_shape = 1.0;
  double gamma_scale_mm = 1.0;
  double tmax_c = 0.0, tmin_c = 0.0;        ///< month means over all days
  double tmax_sd_c = 3.0, tmin_sd_c = 3.0;  ///< of the days about their dry-day or wet-day mean
  double wet_day_tmax_shift_c = -2.0;       ///< wet days are cooler at noon
  double solar_mj_m2 = 0.0,
         solar_sd_share = 0.2;  ///< mean over all days; share of the dry-day or wet-day mean
  double dewpoint_below_tmin_c = 0.0;
  double wind_m_s = 2.0;
  double wet_day_tmin_shift_c = 0.0;
  double wet_day_solar_share = 1.0;  ///< wet-day mean over dry-day mean
  double dewpoint_sd_c = 0.0;
  double wet_day_dewpoint_rise_c = 0.0;
  double wind_sd_share = 0.0;
};

struct GeneratorParameters {
  std::array<MonthClimate, 12> months;  ///< January first
  /// Standard deviation of the logarithm of the yearly wetness factor (October to September); 0: none.
  double yearly_log_sd = 0.0;
  Site site;               ///< the place that the parameters speak of
  std::uint64_t seed = 1;  ///< of the series that goes with the parameters
};

/// Stationary share of wet days of the chain, no yearly factor.
double wet_day_share(const MonthClimate& month);

/// Mean rain of a month of `days` days, no yearly factor [mm].
double mean_rain_mm(const MonthClimate& month, int days);

using Matrix3 = std::array<std::array<double, 3>, 3>;  ///< [row][column]; order tmax, tmin, solar

/// Stationary covariance M of the residual process X(t) = A X(t-1) + B e(t): the solution of M = A M A' + B
/// B'.
Matrix3 residual_covariance();

/// Reads the parameter file (JSON text, keys in docs/weather-generator.md).
Result<GeneratorParameters> read_generator_parameters(std::string_view json, const std::string& file);

/// `years` whole calendar-day years from 1 September of `first_year`, rounded to one decimal. The same
/// arguments give the same days, and a date has the same weather whatever stretch is asked for (a year of
/// run-in goes before).
std::vector<Row> generate(const GeneratorParameters& parameters, const Site& site, int first_year, int years,
                          std::uint64_t seed);

}  // namespace aftercut::weather
