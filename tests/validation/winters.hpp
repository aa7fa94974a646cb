#pragma once
// Real winters for validation: the open Davis record in ../shared, which users' machines do not have; tests
// skip without it.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/geo/table.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::validation {

/// One day on which the station measured the soil.
struct SoilDay {
  Date date;
  double air_c = 0.0;
  std::optional<double> soil_c;
};

/// Rain of one day; every day of the record in order.
struct RainDay {
  Date date;
  double rain_mm = 0.0;
};

struct Record {
  std::vector<RainDay> rain;
  weather::Years winters;  ///< 1 September to 31 May, by the year of the September; 1971 to 1994
  std::vector<SoilDay> soil;
};

/// Where the record's file is, if it is there.
std::filesystem::path davis_file();
/// Nothing where the record is not there. Humidity from the minimum temperature, radiation from the
/// temperature range, wind 2 m/s: the record's own do not cover the years. Its days end at 8 in the morning;
/// not shifted.
const std::optional<Record>& davis();
/// True, and said so in the test, where there is no record.
bool no_record();

/// The column of that name; throws where the file has none.
std::size_t column_of(const geo::Table& table, const std::string& name);

/// One rice field of heavy clay with this much straw, spread on 14 October by a combine that leaves 30 cm of
/// stubble.
farm::Farm one_field(double load_kg_per_ha, double cut_height_cm = 30.0, straw::Lay lay = straw::Lay::spread);

/// p50 and the like of a sample: the order statistic at ceil(p n).
double at_share(std::vector<double> values, double p);
/// "p10 / p50 / p90" in whole numbers.
std::string three(const std::vector<double>& sample);

}  // namespace aftercut::validation
