#pragma once
// Words and units that the burn sheet, its JSON and the terminal share. Internal to the room.

#include "aftercut/report/burn.hpp"
#include "parts.hpp"

namespace aftercut::report {

std::string standing_words(const farm::Farm& farm, const season::BurnStanding& s);  ///< of the closed set
std::string clock_words(double hour);                                               ///< "10:00"
std::string metres(const farm::Farm& farm, double m);                               ///< "420 m" or "1,380 ft"
std::string wind_words(const farm::Farm& farm, double km_h);
std::string temperature_words(const farm::Farm& farm, double c);
std::string mass_words(const farm::Farm& farm, double kg);  ///< "t" or "ton"
std::string place_words(geo::Point p);                      ///< "39.2012 N, 140.0131 W"
std::string task_moment(const season::BurnTask& task);      ///< "by 2026-10-11 10:00" or empty
std::string weather_words(const farm::Farm& farm, const season::BurnStanding& s);
std::string one_in(double chance);  ///< "23 in 100", "under 1 in 100"
/// What the equations of the cautions leave out.
inline constexpr const char* cautions_leave_out =
    "The figures come from equations for cured grass, cut or grazed, on level ground. Embers, whirlwinds, "
    "slopes, "
    "chaff, loose mats and windrows are left out, and a fire in them runs and jumps otherwise. A small "
    "chance is still "
    "a chance.";
inline constexpr const char* cautions_sources =
    "McArthur1966, Cheney1998, Cruz2015, Byram1959, Wilson1988, Noble1980 (read second-hand); Rothermel1972 "
    "and "
    "flame length (from memory)";

}  // namespace aftercut::report
