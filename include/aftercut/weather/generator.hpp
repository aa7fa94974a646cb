#pragma once
// Invented weather years: a two-state wet-day chain with gamma amounts by month, temperatures and radiation by a
// first-order vector process, and a whole-year wetness factor so that wet and dry winters differ as observed ones do.
// Source: Richardson1981 (read in part); whole-year factor: ours, see docs/decisions.

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
  double tmax_c = 0.0, tmin_c = 0.0;             ///< month means
  double tmax_sd_c = 3.0, tmin_sd_c = 3.0;
  double wet_day_tmax_shift_c = -2.0;            ///< wet days are cooler at noon
  double solar_mj_m2 = 0.0, solar_sd_share = 0.2;
  double dewpoint_below_tmin_c = 0.0;
  double wind_m_s = 2.0;
};

struct GeneratorParameters {
  std::array<MonthClimate, 12> months;  ///< January first
  /// Standard deviation of the logarithm of the yearly wetness factor (October to September); 0: none.
  double yearly_log_sd = 0.0;
};

/// Reads the parameter file (JSON text, keys in docs/weather-generator.md).
Result<GeneratorParameters> read_generator_parameters(std::string_view json, const std::string& file);

/// `years` whole calendar-day years from 1 September of `first_year`. The same arguments give the same days.
std::vector<Row> generate(const GeneratorParameters& parameters, const Site& site, int first_year, int years, std::uint64_t seed);

}  // namespace aftercut::weather
