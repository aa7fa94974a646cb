#include "aftercut/weather/humidity.hpp"

#include <algorithm>

#include "aftercut/weather/evapotranspiration.hpp"

namespace aftercut::weather {

double afternoon_humidity(const Day& day) {
  return std::min(1.0, day.ea_kpa / saturation_vapour_pressure(Celsius{day.tmax_c}).value());
}

}  // namespace aftercut::weather
