#pragma once
// One field on one real day, as its burn rules see it: what is known, what the rules come to, what has to be
// asked and told. Weather is that of the forecast or of the record on that very day; other days are unknown.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/burn/emissions.hpp"
#include "aftercut/burn/fire_behaviour.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/geo/neighbours.hpp"

namespace aftercut::season {

/// Something to be asked, told or done, with its row in quotation marks.
struct BurnTask {
  burn::Role role = burn::Role::duty;
  std::string name;               ///< of the row
  std::string text;               ///< the row as a quotation, with its source
  std::optional<Date> by_day;     ///< with by_hour: the latest moment, by lighting at the day's first hour
  std::optional<double> by_hour;  ///< clock hour, standard time
};

/// The nearest place of each kind in one sector.
struct SectorNeighbours {
  std::array<std::optional<geo::Neighbour>, burn::setback_kinds.size()>
      by_kind;  ///< place: index into Farm::places
};

/// How a grass fire would run in some weather.
struct FireCaution {
  std::string when;  ///< which weather this is
  burn::FireWeather weather;
  double head_km_h = 0.0;        ///< over cut grass, nearest to stubble
  double other_head_km_h = 0.0;  ///< by the equation for short grass
  double intensity_kw_per_m = 0.0, flame_m = 0.0;
  std::vector<std::pair<double, double>> crossing;  ///< width of break [m], chance that the head crosses it
  double danger_index = 0.0;                        ///< grass danger, Mk 5
};

struct BurnStanding {
  std::size_t field = 0;
  Date day;
  burn::Facts facts;
  burn::Finding finding;
  std::vector<BurnTask> tasks;
  std::optional<weather::Day> sky;  ///< of the day
  std::string sky_from;             ///< "forecast", "record" or empty
  double sunrise_hour = 0.0, sunset_hour = 0.0;
  std::optional<double> light_from_hour, light_until_hour;  ///< left by the rows of clock and sun
  double load_kg_per_ha = 0.0, standing_kg_per_ha = 0.0, mass_kg = 0.0;  ///< oven-dry, at harvest
  geo::Point middle;
  std::array<SectorNeighbours, geo::sector_names.size()> around;
  std::vector<FireCaution> cautions;
  double burned_kg = 0.0;  ///< straw that a burn would consume
  burn::BurnAir air{};     ///< of that burn, by the farm's set of factors, with the range of all sets
  Uncertain co2e_kg;       ///< of its CH4 and N2O
};

/// Fields in the farm's order.
BurnStanding burn_standing(const farm::Problem& problem, std::size_t field, Date day);

}  // namespace aftercut::season
