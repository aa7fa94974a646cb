#include "aftercut/weather/csv.hpp"

#include <fmt/format.h>

#include <iterator>

namespace aftercut::weather {

std::string to_csv(const std::vector<Row>& rows) {
  std::string text = "date,tmin_c,tmax_c,rain_mm,rh_mean_percent,wind_m_s,solar_mj_m2\n";
  for (const Row& row : rows) {
    text += iso(row.date);
    for (const auto& cell :
         {row.tmin_c, row.tmax_c, row.rain_mm, row.rh_mean_percent, row.wind_m_s, row.solar_mj_m2}) {
      text += ',';
      if (cell) fmt::format_to(std::back_inserter(text), "{:.1f}", *cell);
    }
    text += '\n';
  }
  return text;
}

}  // namespace aftercut::weather
