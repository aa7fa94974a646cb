#pragma once
// The farm.json that a new farm starts from: the season and soils of its table, and invented machines, people
// and prices.

#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/quantity.hpp"
#include "aftercut/farm/farm.hpp"

namespace aftercut::farm {

struct StarterTicket {
  std::string name;
  std::vector<std::string> fields;
  Kilogram grain;
  double moisture_percent = 14.0;
};

struct Starter {
  std::string name;
  UnitSystem units = UnitSystem::si;
  Date season_first, season_last, planting, as_of;
  double latitude_deg = 0.0, longitude_deg = 0.0;
  int utc_offset_h = 0;
  std::string fields_file;
  std::vector<std::string> soils;  ///< names as in the table
  std::vector<StarterTicket> tickets;
  Hectare area;  ///< of the farm; sets how many machines and people there are, and the canal's flow
};

/// The text of farm.json, every quantity in the farm's units.
std::string starter_json(const Starter& starter);

/// The texture class that a soil's name speaks of ("Silty clay, deep" -> "silty clay"); "clay" where it
/// speaks of none.
std::string texture_in_name(const std::string& soil);

/// "3 tractors (...), 11 implements, 3 operators" of a farm of this size, for people.
std::string starter_machines(Hectare area);

}  // namespace aftercut::farm
