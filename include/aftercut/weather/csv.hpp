#pragma once
// A daily record as CSV text with the units in the header, the form in which the farm reader takes it.

#include <string>
#include <vector>

#include "aftercut/weather/series.hpp"

namespace aftercut::weather {

/// "date,tmin_c,tmax_c,rain_mm,rh_mean_percent,wind_m_s,solar_mj_m2" and one line a row, one decimal; missing
/// cells are empty. The dew point has no column: give rh_mean.
std::string to_csv(const std::vector<Row>& rows);

}  // namespace aftercut::weather
