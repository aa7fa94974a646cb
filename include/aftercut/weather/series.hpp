#pragma once
// Room weather, lead header. Purpose: what the sky did. Takes daily rows of values; gives complete daily
// series, years laid on the season, reference evapotranspiration, sun times and invented years. Leaves out
// files and soils.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/quantity.hpp"
#include "aftercut/core/result.hpp"

namespace aftercut::weather {

/// Where the record was taken.
struct Site {
  double latitude_deg = 0.0;   ///< north positive
  double longitude_deg = 0.0;  ///< east positive
  double elevation_m = 0.0;
  double utc_offset_h = 0.0;  ///< local standard time minus UTC
  bool near_coast = false;    ///< chooses the radiation coefficient 0.19 instead of 0.16
};

/// One day as recorded; what is missing is empty. Units in the names.
struct Row {
  Date date;
  int line = 0;  ///< line of the file, for issues
  std::optional<double> tmin_c, tmax_c, rain_mm, rh_mean_percent, dewpoint_c, wind_m_s, solar_mj_m2;
};

/// One complete day.
struct Day {
  double tmin_c = 0.0;
  double tmax_c = 0.0;
  double rain_mm = 0.0;
  double ea_kpa = 0.0;  ///< actual vapour pressure
  double wind_2m_m_s = 0.0;
  double solar_mj_m2 = 0.0;
};

/// How many days were filled, by the rule that filled them.
struct Estimated {
  int temperature_days = 0;  ///< between neighbours, at most `longest_gap_days`
  int rain_days = 0;         ///< none recorded: taken as dry, at most `longest_gap_days`
  int humidity_days = 0;     ///< dew point from the minimum temperature
  int wind_days = 0;         ///< the setting's mean wind
  int radiation_days = 0;    ///< from the temperature range
};

struct GapRules {
  int longest_gap_days = 5;            ///< a longer gap in temperature or rain is an issue
  double dewpoint_below_tmin_c = 0.0;  ///< FAO-56: 0 in humid places, 2 to 3 in dry ones
  double mean_wind_m_s = 2.0;          ///< FAO-56: 2 m/s where nothing is known
  double wind_height_m = 2.0;          ///< height at which the wind was measured
};

struct Series {
  Date first;
  std::vector<Day> days;  ///< one a day from `first`, no gaps
  Estimated estimated;
};

/// Orders nothing: rows must come in date order. Fills what FAO-56 says how to fill, counts it, and gives
/// every fault as an issue (date order, duplicate date, gap, tmin > tmax, impossible value). Source:
/// Allen1998 ch. 3 (recalled, checked by its examples).
Result<Series> complete(const std::vector<Row>& rows, const Site& site, const GapRules& rules,
                        const std::string& file);

/// One weather year laid on the season: element d is season day d.
struct Year {
  int year = 0;  ///< the calendar year in which the season starts
  std::vector<Day> days;
  std::vector<double> et0_mm;  ///< reference evapotranspiration, same shape
};

struct Years {
  Date season_first;        ///< of the season being planned
  std::vector<Year> years;  ///< rising by year
};

/// Every stretch of the record that covers a whole season starting on `season_first`'s month and day.
/// `season_days` long; an entry per start year, limited to [from, to] when given.
/// No whole season in the record gives no years (the caller says so); that is not an issue of the data.
Years lay_on_season(const Series& series, const Site& site, Date season_first, int season_days,
                    std::optional<int> from, std::optional<int> to);

/// The days of `forecast` replace the season days they fall on, in every year.
void put_forecast_in_front(Years& years, const Series& forecast, const Site& site);

/// The days from `first` to the day before `until` that have been recorded, up to the first that is missing:
/// those of `so_far`, and where it has none those of the record. Nothing when the first is missing.
std::optional<Series> days_seen(const Series& record, const std::optional<Series>& so_far, Date first,
                                Date until);

}  // namespace aftercut::weather
