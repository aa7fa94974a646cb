#include "aftercut/dispatch/burn_day.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/random.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/weather/humidity.hpp"
#include "aftercut/weather/sun.hpp"

namespace aftercut::dispatch {
namespace {

constexpr double area_slack_ha = 1e-9;

bool between(double value, std::optional<double> least, std::optional<double> most) {
  return (!least || value >= *least) && (!most || value <= *most);
}

/// Inside a season window; every day where the rules have none.
bool in_season(const burn::Limits& l, Date date) {
  if (!l.autumn_from && !l.autumn_to && !l.spring_from && !l.spring_to) return true;
  return in_window(date, l.autumn_from, l.autumn_to) || in_window(date, l.spring_from, l.spring_to);
}

bool weather_is_open(const burn::Limits& l, const weather::Day& day) {
  return between(day.wind_2m_m_s, l.least_wind_m_s, l.most_wind_m_s) &&
         between(weather::afternoon_humidity(day), l.least_humidity, l.most_humidity) &&
         between(day.tmax_c, l.least_temperature_c, l.most_temperature_c);
}

/// The same month and day in the season that starts in `first_year`; 29 February becomes the 28th.
Date same_day_in(int first_year, const farm::Calendar& season, Date date) {
  const int year = first_year + year_of(date) - year_of(season.first);
  const bool leap_day = month_of(date) == 2 && day_of_month(date) == 29 && !is_leap_year(year);
  return make_date(year, month_of(date), leap_day ? 28 : day_of_month(date));
}

/// Start years of the seasons that hold an entered call.
std::vector<int> seasons_entered(const farm::Farm& farm) {
  std::vector<int> years;
  const MonthDay first{month_of(farm.season.first), day_of_month(farm.season.first)};
  for (const burn::DayCall& c : farm.burn_calls) {
    const MonthDay day{month_of(c.day), day_of_month(c.day)};
    const int start = year_of(c.day) - (day < first ? 1 : 0);
    if (years.empty() || years.back() != start) years.push_back(start);
  }
  return years;
}

/// The season whose calls a weather year takes over: its own, else one drawn.
std::optional<int> season_of_calls(const Table& t, int year) {
  const std::vector<int> entered = seasons_entered(t.problem->farm);
  if (entered.empty()) return std::nullopt;
  if (std::binary_search(entered.begin(), entered.end(), year)) return year;
  Draws draw{t.seed, stream_of("burn-season"), static_cast<std::uint64_t>(year)};
  return entered[draw.below(static_cast<std::uint32_t>(entered.size()))];
}

bool dried_enough(const Table& t, const farm::Field& field, std::size_t year, int day, straw::Lay lay) {
  const burn::Limits& l = t.burn_limits;
  const int dry = (lay == straw::Lay::windrow ? l.dry_days_windrow : l.dry_days_spread).value_or(0);
  return day - t.problem->farm.season.day(field.harvest) >= dry &&
         t.burn_days[year].days_since_rain_reset[static_cast<std::size_t>(day)] >= dry;
}

}  // namespace

bool date_is_open(const burn::Limits& l, Date date) {
  const MonthDay day{month_of(date), day_of_month(date)};
  return in_season(l, date) &&
         std::count(l.weekdays_banned.begin(), l.weekdays_banned.end(), weekday(date)) == 0 &&
         std::count(l.dates_banned.begin(), l.dates_banned.end(), day) == 0;
}

bool closed_for_early_harvest(const burn::Limits& l, const farm::Field& field, Date date) {
  if (!l.early_before || field.burn.leave) return false;
  const MonthDay harvest{month_of(field.harvest), day_of_month(field.harvest)};
  return harvest < *l.early_before && in_window(date, l.early_closed_from, l.early_closed_to);
}

BurnDays burn_days_of(const Table& t, std::size_t year) {
  const farm::Farm& farm = t.problem->farm;
  BurnDays b;
  const auto n = static_cast<std::size_t>(farm.season.days);
  b.called.assign(n, 0);
  b.open.assign(n, 0);
  b.days_since_rain_reset.assign(n, long_ago);
  if (!farm.burning) return b;
  const burn::Limits& l = t.burn_limits;
  const weather::Year& weather = t.problem->years.years[year];
  const std::optional<int> calls_of = season_of_calls(t, weather.year);
  int since = long_ago;
  for (std::size_t d = 0; d < n; ++d) {
    const Date date = farm.season.date(static_cast<int>(d));
    since = burn::resets_drying(l, Millimetre{weather.days[d].rain_mm}) ? 0 : std::min(since + 1, long_ago);
    b.days_since_rain_reset[d] = since;
    std::optional<bool> call;
    if (calls_of) call = burn::called_on(farm.burn_calls, same_day_in(*calls_of, farm.season, date));
    Draws draw{t.seed, stream_of("burn-day"), (static_cast<std::uint64_t>(weather.year) << 16) + d};
    const bool drawn = draw.uniform() < farm.burning->burn_day_chance;
    b.called[d] = in_season(l, date) && (!l.call_needed || call.value_or(drawn)) ? 1 : 0;
    b.open[d] = date_is_open(l, date) && weather_is_open(l, weather.days[d]) ? 1 : 0;
  }
  return b;
}

std::vector<BurnClock> burn_clocks_of(const Table& t) {
  const farm::Farm& farm = t.problem->farm;
  const burn::Limits& l = t.burn_limits;
  std::vector<BurnClock> clocks;
  for (int d = 0; d < farm.season.days; ++d) {
    double from = l.start_hour.value_or(0.0) * 60.0, until = l.end_hour.value_or(24.0) * 60.0;
    const weather::SunTimes sun = weather::sun_times(farm.site, farm.season.date(d));
    if (l.after_sunrise_h) from = std::max(from, sun.sunrise_min + *l.after_sunrise_h * 60.0);
    if (l.before_sunset_h) until = std::min(until, sun.sunset_min - *l.before_sunset_h * 60.0);
    clocks.push_back({static_cast<int>(std::ceil(from - 1e-9)), static_cast<int>(std::floor(until + 1e-9))});
  }
  return clocks;
}

bool open_to_burn(const Table& t, std::size_t f, std::size_t year, int day, straw::Lay lay,
                  const BurnTally& tally) {
  const burn::Limits& l = t.burn_limits;
  const farm::Farm& farm = t.problem->farm;
  const farm::Field& field = farm.fields[f];
  const double area = field.area.value();
  const auto d = static_cast<std::size_t>(day);
  if (!t.burn_days[year].open[d] || closed_for_early_harvest(l, field, farm.season.date(day))) return false;
  if (l.burn_area_ha && area > *l.burn_area_ha + area_slack_ha) return false;
  const double times = t.burn_area_times.empty() ? 1.0 : t.burn_area_times[d];
  if (l.daily_area_ha && tally.today_ha + area > times * *l.daily_area_ha) return false;
  if (l.season_area_ha && tally.season_ha + area > *l.season_area_ha) return false;
  if (l.season_share && tally.season_ha + area > *l.season_share * t.farm_area_ha) return false;
  return dried_enough(t, field, year, day, lay);
}

std::optional<HeldUpBy> held_up_by(const Table& t, std::size_t f, std::size_t year, int day,
                                   const Progress& p, const season::FieldYear& sim) {
  const burn::Limits& l = t.burn_limits;
  const farm::Field& field = t.problem->farm.fields[f];
  const Date date = t.problem->farm.season.date(day);
  if (!is_due(t, f, p, day) || !date_is_open(l, date) || closed_for_early_harvest(l, field, date))
    return std::nullopt;
  const auto d = static_cast<std::size_t>(day);
  if (!t.burn_days[year].called[d]) return &plan::DaysNotBurned::not_called;
  if (sim.rutted() || !conditions_hold(t, current_operation(t, p), sim.mask()) ||
      !dried_enough(t, field, year, day, sim.lay()))
    return &plan::DaysNotBurned::too_wet;
  if (!t.burn_days[year].open[d]) return &plan::DaysNotBurned::out_of_limits;
  return &plan::DaysNotBurned::no_room;
}

Wanted with_burn_clock(const Table& t, Wanted wanted, int day) {
  const BurnClock& clock = t.burn_clock[static_cast<std::size_t>(day)];
  wanted.not_before = clock.from_min;
  wanted.not_after = clock.until_min;
  return wanted;
}

std::optional<Stretch> waiting_for_call(const Table& t, const Stretch& wanted, int day) {
  static const Outfit nothing_moves;
  if (!wanted.outfit->own_crew) return std::nullopt;
  int minutes = t.longest_min[static_cast<std::size_t>(day)];
  for (const int who : wanted.crew)
    if (who != plan::none)
      minutes =
          std::min(minutes, t.operator_min[static_cast<std::size_t>(who)][static_cast<std::size_t>(day)]);
  Stretch wait{.outfit = &nothing_moves, .crew = wanted.crew, .start_min = t.shift_start_min};
  wait.end_min = wait.start_min + minutes / 2;
  if (wait.end_min <= wait.start_min) return std::nullopt;
  return wait;
}

}  // namespace aftercut::dispatch
