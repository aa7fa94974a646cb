#include "aftercut/season/burn_standing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/farm/burn_evidence.hpp"
#include "aftercut/weather/evapotranspiration.hpp"
#include "aftercut/weather/humidity.hpp"
#include "aftercut/weather/sun.hpp"

namespace aftercut::season {
namespace {

constexpr double trees_near_m = 20.0;         // Source: Wilson1988 (read second-hand)
constexpr double dead_straw_percent = 100.0;  // cured: straw is dead. Source: common practice

const weather::Day* day_in(const weather::Series& series, Date day) {
  const int at = day - series.first;
  return at >= 0 && at < static_cast<int>(series.days.size()) ? &series.days[static_cast<std::size_t>(at)]
                                                              : nullptr;
}

/// The forecast's day, or the record's.
const weather::Day* weather_on(const farm::Problem& p, Date day) {
  if (p.forecast)
    if (const weather::Day* d = day_in(*p.forecast, day)) return d;
  return day_in(p.record, day);
}

/// Days since rain reset the drying; nothing where a day between the harvest and now is not known.
std::optional<int> days_since_reset(const farm::Problem& p, const burn::Limits& l, Date harvest, Date day) {
  for (Date d = day; d >= harvest; d = d - 1) {
    const weather::Day* sky = weather_on(p, d);
    if (sky == nullptr) return std::nullopt;
    if (burn::resets_drying(l, Millimetre{sky->rain_mm})) return day - d;
  }
  return std::max(0, day - harvest);
}

burn::Facts facts_on(const farm::Farm& farm, const farm::Field& field, Date day) {
  burn::Facts f = farm::burn_evidence(farm, field, day);
  f.straw_in_windrow = field.lay == straw::Lay::windrow;
  f.days_since_cut = day - field.harvest;
  if (field.burn.dryness_test == day) f.dryness_test = true;
  f.called = burn::called_on(farm.burn_calls, day);
  return f;
}

BurnStanding with_sky(BurnStanding s, const farm::Problem& p, const burn::Limits& l) {
  const farm::Field& field = p.farm.fields[s.field];
  s.sunrise_hour = *s.facts.sunrise_hour;
  s.sunset_hour = *s.facts.sunset_hour;
  s.light_from_hour = l.start_hour;
  s.light_until_hour = l.end_hour;
  if (l.after_sunrise_h)
    s.light_from_hour = std::max(s.light_from_hour.value_or(0.0), s.sunrise_hour + *l.after_sunrise_h);
  if (l.before_sunset_h)
    s.light_until_hour = std::min(s.light_until_hour.value_or(24.0), s.sunset_hour - *l.before_sunset_h);
  s.facts.days_since_rain_reset = days_since_reset(p, l, field.harvest, s.day);
  const weather::Day* sky = weather_on(p, s.day);
  if (sky == nullptr) return s;
  s.sky = *sky;
  s.sky_from = p.forecast && day_in(*p.forecast, s.day) != nullptr ? "forecast" : "record";
  s.facts.wind_m_s = sky->wind_2m_m_s;
  s.facts.humidity = weather::afternoon_humidity(*sky);
  s.facts.temperature_c = sky->tmax_c;
  return s;
}

/// The moment of a duty that has one, by lighting at the day's first hour.
BurnTask task_of(const burn::Rule& rule, burn::Role role, const BurnStanding& s) {
  BurnTask task{role, rule.name, burn::quoted(rule), {}, {}};
  const auto clock = [&](int days_before) {
    task.by_day = s.day - days_before;
    task.by_hour = burn::clock_or_hours(rule);
  };
  if (rule.name == "notice_day_before") clock(1);
  if (rule.name == "notice_same_day" || rule.name == "late_change") clock(0);
  const auto hours = burn::clock_or_hours(rule);
  if (!hours) return task;
  const bool before = rule.name.starts_with("notice_") && !task.by_day;
  const bool after = rule.name == "ash_within" || rule.name == "watch";
  if (!before && !after) return task;
  const double light =
      before ? s.light_from_hour.value_or(s.sunrise_hour) : s.light_until_hour.value_or(s.sunset_hour);
  const double at = light + (before ? -*hours : *hours);
  const double days = std::floor(at / 24.0);
  task.by_day = s.day + static_cast<int>(days);
  task.by_hour = at - 24.0 * days;
  return task;
}

std::vector<BurnTask> tasks_of(const burn::Jurisdiction& rules, const BurnStanding& s) {
  std::vector<BurnTask> tasks;
  for (const burn::RowKind& kind : burn::row_kinds())
    for (const burn::Rule& rule : rules.rules)
      if (rule.name == kind.name && rule.value != "none" && rule.value != "no" &&
          (kind.role != burn::Role::judged || rule.name == "day_class"))
        tasks.push_back(task_of(rule, rule.name == "day_class" ? burn::Role::asked : kind.role, s));
  return tasks;
}

FireCaution caution(const char* when, const burn::FireWeather& w, const BurnStanding& s,
                    const farm::Field& field) {
  FireCaution c{.when = when, .weather = w};
  const KgPerHa fuel{s.load_kg_per_ha};
  c.head_km_h = burn::head_spread_km_h(burn::Pasture::cut, w, dead_straw_percent);
  c.other_head_km_h =
      burn::short_grass_spread_km_h(burn::dead_grass_moisture_percent(w), burn::midflame_share * w.wind_km_h);
  c.intensity_kw_per_m = burn::front_intensity_kw_per_m(fuel, c.head_km_h);
  c.flame_m = burn::flame_length_m(c.intensity_kw_per_m);
  c.danger_index = burn::grass_danger(w, dead_straw_percent, s.load_kg_per_ha / 1000.0).index;
  const bool trees = s.facts.to_trees_m && *s.facts.to_trees_m <= trees_near_m;
  std::vector<double> widths{3.0, 5.0, 10.0};
  if (field.burn.firebreak_m) widths = {*field.burn.firebreak_m, 2.0 * *field.burn.firebreak_m};
  for (const double width : widths)
    c.crossing.emplace_back(width, burn::chance_of_crossing(c.intensity_kw_per_m, Metre{width}, trees));
  return c;
}

BurnStanding with_cautions(BurnStanding s, const farm::Field& field, const burn::Limits& l) {
  const double to_10_m = 1.0 / weather::wind_at_2m(MetrePerSecond{1.0}, Metre{10.0}).value();
  if (s.sky)
    s.cautions.push_back(
        caution("the day's mean wind and highest temperature",
                {s.sky->tmax_c, 100.0 * *s.facts.humidity, 3.6 * to_10_m * s.sky->wind_2m_m_s}, s, field));
  if (l.most_wind_m_s)
    s.cautions.push_back(caution("at the rules' most wind, in warm dry air",
                                 {l.most_temperature_c.value_or(30.0),
                                  100.0 * l.least_humidity.value_or(0.25), 3.6 * to_10_m * *l.most_wind_m_s},
                                 s, field));
  s.cautions.push_back(caution("a mild day", {20.0, 50.0, 8.0}, s, field));
  s.cautions.push_back(caution("a warm, dry, windy day", {30.0, 25.0, 20.0}, s, field));
  return s;
}

BurnStanding with_neighbours(BurnStanding s, const farm::Farm& farm, const farm::Field& field) {
  for (std::size_t kind = 0; kind < burn::setback_kinds.size(); ++kind) {
    std::vector<geo::Shape> shapes;
    std::vector<std::size_t> places;
    for (std::size_t k = 0; k < farm.places.size(); ++k) {
      if (static_cast<std::size_t>(farm.places[k].kind) != kind) continue;
      shapes.push_back(farm.places[k].shape);
      places.push_back(k);
    }
    const geo::Around around = geo::nearest_by_sector(field.shape, shapes);
    for (std::size_t sector = 0; sector < around.size(); ++sector) {
      if (!around[sector]) continue;
      s.around[sector].by_kind[kind] = *around[sector];
      s.around[sector].by_kind[kind]->place = places[around[sector]->place];
    }
  }
  return s;
}

/// Straw on the field at harvest, and what a burn would consume of it by the book's own burn.
BurnStanding with_straw(BurnStanding s, const farm::Farm& farm, const farm::Field& field) {
  s.load_kg_per_ha = field.straw_load.value();
  s.standing_kg_per_ha = s.load_kg_per_ha * straw::stubble_share(field.cut_height_cm).value();
  s.mass_kg = s.load_kg_per_ha * field.area.value();
  const auto burns = std::find_if(farm.book.operations.begin(), farm.book.operations.end(),
                                  [](const method::Operation& op) { return op.burning; });
  if (burns != farm.book.operations.end())
    s.burned_kg =
        field.area.value() * (burns->effect.burn_share_standing * s.standing_kg_per_ha +
                              burns->effect.burn_share_flat * (s.load_kg_per_ha - s.standing_kg_per_ha));
  s.air = burn::burn_air(Kilogram{s.burned_kg}, farm.environment.burn_factors,
                         {.in_rows = field.lay == straw::Lay::windrow});
  s.co2e_kg = burn::burn_co2e_kg(s.air, farm.environment.warming);
  return s;
}

}  // namespace

BurnStanding burn_standing(const farm::Problem& problem, std::size_t f, Date day) {
  const farm::Farm& farm = problem.farm;
  const farm::Field& field = farm.fields.at(f);
  BurnStanding s{.field = f, .day = day};
  s.facts = facts_on(farm, field, day);
  s.middle = geo::label_point(field.shape);
  const burn::Limits limits = farm.burning ? burn::limits_of(*farm.burning) : burn::Limits{};
  s = with_straw(with_sky(std::move(s), problem, limits), farm, field);
  s = with_neighbours(with_cautions(std::move(s), field, limits), farm, field);
  if (!farm.burning) {
    s.finding = {burn::Standing::unknown, {{{}, "no burn rules are entered for this place", {}, {}}}};
    return s;
  }
  s.finding = burn::evaluate(*farm.burning, s.facts);
  s.tasks = tasks_of(*farm.burning, s);
  return s;
}

}  // namespace aftercut::season
