#pragma once
// A small invented farm for tests, whole in memory: five fields, few machines, invented weather. Header only,
// so that any room's tests can use it.
//
//   +---------+--------+
//   | 1 rice  | 2 rice |   1: 20 ha, standing      2: 12 ha, cut, in windrows
//   | 20 ha   | 12 ha  |   3: 16 ha, standing, locked to chop and disk
//   +---------+--------+   4:  9 ha, standing, fallow next year
//   | 3 rice  | 4  | 5 |   5:  7 ha, cut, with a disease finding; no lease
//   +---------+----+---+
#include <algorithm>
#include <cmath>
#include <numbers>

#include "aftercut/core/random.hpp"
#include "aftercut/farm/problem.hpp"

namespace aftercut::test {

inline constexpr int small_first_year = 2001;
inline constexpr int small_season_days = 273;  // 1 September to 31 May

inline farm::Field small_field(const char* id, double area_ha, bool cut, Date harvest, double corner_x,
                               double corner_y) {
  farm::Field f;
  f.id = FieldId{id};
  f.name = std::string{"Check "} + id;
  f.area = Hectare{area_ha};
  f.shape.polygons.push_back({{{corner_x, corner_y},
                               {corner_x + 0.004, corner_y},
                               {corner_x + 0.004, corner_y + 0.004},
                               {corner_x, corner_y + 0.004},
                               {corner_x, corner_y}},
                              {}});
  f.invented_shape = true;
  f.cut = cut;
  f.harvest = harvest;
  f.straw_load = KgPerHa{7600.0};
  f.summer_drain = harvest - 21;
  f.next.planting = make_date(2027, 4, 30);
  f.next.cut_off = make_date(2027, 5, 25);
  f.next.late_curve = {{make_date(2027, 4, 30), 0.0}, {make_date(2027, 5, 25), 1200.0}};
  return f;
}

inline std::vector<farm::Field> small_fields() {
  std::vector<farm::Field> all{small_field("1", 20.0, false, make_date(2026, 9, 16), -121.90, 39.30),
                               small_field("2", 12.0, true, make_date(2026, 9, 5), -121.89, 39.30),
                               small_field("3", 16.0, false, make_date(2026, 9, 20), -121.90, 39.29),
                               small_field("4", 9.0, false, make_date(2026, 9, 24), -121.89, 39.29),
                               small_field("5", 7.0, true, make_date(2026, 9, 8), -121.88, 39.29)};
  all[1].lay = straw::Lay::windrow;
  all[1].cut_height_cm = 20.0;
  all[2].locked = MethodId{"chop_disk"};
  all[3].next.kind = farm::NextUseKind::fallow;
  all[3].next.late_curve.clear();
  all[4].disease_finding = true;
  return all;
}

inline machinery::Owning small_owning(double price, const char* value_class, const char* repair_class) {
  return {.price = Money{price},
          .years = 12.0,
          .hours_per_year = 300.0,
          .interest = 0.05,
          .value_class = value_class,
          .repair_class = repair_class};
}

inline machinery::Implement small_implement(const char* id, const char* kind, double width_m,
                                            double speed_km_h, double efficiency) {
  machinery::Implement i;
  i.id = MachineId{id};
  i.name = std::string{"the "} + id;
  i.kind = kind;
  i.width = Metre{width_m};
  i.speed = KmPerHour{speed_km_h};
  i.field_efficiency = Fraction{efficiency};
  return i;
}

inline std::vector<machinery::Implement> small_implements() {
  std::vector<machinery::Implement> all{small_implement("bale-wagon", "bale_wagon", 6.0, 9.0, 0.70),
                                        small_implement("baler", "baler", 6.0, 7.0, 0.75),
                                        small_implement("cage", "cage_roller", 5.0, 8.0, 0.80),
                                        small_implement("chisel", "chisel", 4.0, 7.0, 0.80),
                                        small_implement("chopper", "chopper", 4.5, 8.0, 0.80),
                                        small_implement("disk", "disk", 5.0, 8.0, 0.80),
                                        small_implement("groover", "grooved_roller", 6.0, 8.0, 0.80),
                                        small_implement("plane", "plane", 4.0, 7.0, 0.80),
                                        small_implement("rake", "rake", 9.0, 10.0, 0.80),
                                        small_implement("torch", "torch", 20.0, 4.0, 0.60)};
  all[1].hire = machinery::Hire{.windows = {{make_date(2026, 9, 10), make_date(2026, 11, 15)}},
                                .per_ha = Money{12.0},
                                .per_tonne = Money{22.0},
                                .per_hour = Money{3.0},
                                .call_out = Money{150.0},
                                .brings_tractor = true,
                                .brings_operator = true};
  all[1].throughput = TonnePerHour{14.0};
  all[3].depth_cm = 15.0;
  all[3].tools = 8;
  all[5].depth_cm = 10.0;
  all[5].owning = small_owning(60000.0, "tillage", "disk");
  all[5].away = {{make_date(2026, 10, 12), make_date(2026, 10, 14)}};
  return all;
}

inline farm::Operator small_operator(const char* id, double wage, bool paid,
                                     std::vector<std::string> skills) {
  farm::Operator o;
  o.id = OperatorId{id};
  o.name = std::string{"Operator "} + id;
  o.wage_per_h = Money{wage};
  o.paid = paid;
  o.skills = std::move(skills);
  o.hours_per_day = Hours{9.0};
  o.weekdays_off = {6};
  return o;
}

/// Rows for everything else that the evaluation knows: no limit.
inline burn::Jurisdiction with_other_rows(burn::Jurisdiction j) {
  std::vector<std::string> missing;
  for (const std::string& name : burn::known_rule_names())
    if (std::none_of(j.rules.begin(), j.rules.end(), [&](const burn::Rule& r) { return r.name == name; }))
      missing.push_back(name);
  for (burn::Rule& row : burn::rows_without_limit(missing, j.rules.front()))
    j.rules.push_back(std::move(row));
  return j;
}

inline burn::Jurisdiction small_jurisdiction() {
  const auto rule = [](const char* name, const char* value, const char* unit, const char* comparison) {
    return burn::Rule{name, value, unit, comparison, "rule", "invented", make_date(2026, 1, 1), true};
  };
  return with_other_rows(
      {.name = "Invented district",
       .authority = "the invented air office",
       .rules = {rule("autumn_from", "09-01", "month-day", ">="),
                 rule("autumn_to", "11-30", "month-day", "<="), rule("season_share", "25", "%", "<="),
                 rule("daily_area", "10", "ha", "<="), rule("dry_days_spread", "4", "days", ">="),
                 rule("dry_days_windrow", "6", "days", ">="), rule("rain_reset", "3", "mm", ">"),
                 rule("most_wind", "4.6", "m/s", "<="), rule("least_wind", "none", "m/s", ">="),
                 rule("spring_from", "none", "month-day", ">="), rule("spring_to", "none", "month-day", "<="),
                 rule("setback_home", "none", "m", ">="), rule("setback_school", "none", "m", ">="),
                 rule("setback_road", "none", "m", ">="), rule("disease_finding", "yes", "yes/no", "="),
                 rule("day_class", "yes", "yes/no", "="), rule("start_from", "10:00", "clock", ">="),
                 rule("start_until", "17:00", "clock", "<=")},
       .burn_day_chance = 0.4});
}

inline void add_small_prices(farm::Farm& f) {
  f.prices.diesel_per_l = Money{1.05};
  f.prices.grain_per_kg = Money{0.42};
  f.prices.straw_per_tonne = Money{30.0};
  f.prices.twine_per_tonne = Money{2.2};
  f.prices.burn_fee_per_ha = Money{7.5};
  f.prices.unplanted_per_ha = Money{1900.0};
  f.prices.price_year = 2026;
}

inline farm::Farm small_farm() {
  farm::Farm f;
  f.name = "Small invented farm";
  f.currency = "USD";
  f.season = {make_date(2026, 9, 1), small_season_days};
  f.site = {39.3, -121.9, 25.0, -8.0, false};
  soil::ProfileInput clay;
  clay.name = "heavy clay";
  f.soils = {soil::make_profile(clay)};
  f.fields = small_fields();
  f.tractors = {{MachineId{"T1"},
                 "the big tractor",
                 KiloWatt{220.0},
                 machinery::Drive::four_wheel,
                 small_owning(210000.0, "tractor_over_112_kw", "tractor_four_wheel"),
                 {}},
                {MachineId{"T2"},
                 "the small tractor",
                 KiloWatt{120.0},
                 machinery::Drive::front_assist,
                 small_owning(95000.0, "tractor_over_112_kw", "tractor_two_wheel"),
                 {}}};
  f.implements = small_implements();
  f.operators = {small_operator("ana", 24.0, true, {"burning"}), small_operator("ben", 22.0, true, {}),
                 small_operator("cy", 30.0, false, {"burning"})};
  f.supply = water::Supply{.most_flow = CubicMetrePerDay{9000.0},
                           .on = {9, 1},
                           .off = {2, 1},
                           .per_m3 = Money{0.02},
                           .per_ha_once = Money{11.0}};
  f.burning = small_jurisdiction();
  f.book = method::builtin_book();
  add_small_prices(f);
  return f;
}

/// Rain of an invented winter: storms of up to four days, many from November to March.
inline std::vector<double> small_rain(int year) {
  std::vector<double> rain(static_cast<std::size_t>(small_season_days), 0.0);
  const double wetness[9] = {0.02, 0.05, 0.12, 0.16, 0.18,
                             0.16, 0.12, 0.06, 0.03};  // a storm starts on a day; September first
  Draws draws{17, stream_of("small-rain"), static_cast<std::uint64_t>(year)};
  for (std::size_t d = 0; d < rain.size(); ++d) {
    if (draws.uniform() > wetness[d / 31]) continue;
    const std::size_t days = 1 + draws.below(4);
    for (std::size_t k = d; k < std::min(d + days, rain.size()); ++k) rain[k] += 2.0 + 14.0 * draws.uniform();
  }
  return rain;
}

inline weather::Year small_year(int year) {
  weather::Year y;
  y.year = year;
  Draws draws{17, stream_of("small-weather"), static_cast<std::uint64_t>(year)};
  const auto rain = small_rain(year);
  for (int d = 0; d < small_season_days; ++d) {
    const double wave = std::cos(2.0 * std::numbers::pi * (d + 40.0) / 365.0);  // warmest in late July
    const double mean = 16.0 + 8.5 * wave + 1.5 * (draws.uniform() - 0.5);
    const bool wet = rain[static_cast<std::size_t>(d)] > 0.0;
    const double half_range = wet ? 3.5 : 8.0;
    const double dew = mean - half_range - (wet ? 0.0 : 1.0);
    y.days.push_back({.tmin_c = mean - half_range,
                      .tmax_c = mean + half_range,
                      .rain_mm = rain[static_cast<std::size_t>(d)],
                      .ea_kpa = 0.6108 * std::exp(17.27 * dew / (dew + 237.3)),
                      .wind_2m_m_s = 1.0 + 4.0 * draws.uniform(),
                      .solar_mj_m2 = (wet ? 0.5 : 1.0) * (16.0 + 9.0 * wave)});
    y.et0_mm.push_back(std::max(0.3, (wet ? 0.5 : 1.0) * (3.6 + 2.9 * wave)));
  }
  return y;
}

/// The farm with `years` weather years from 2001 on; work from 10 September 2026.
inline farm::Problem small_problem(int years = 4) {
  farm::Problem p;
  p.farm = small_farm();
  p.years.season_first = p.farm.season.first;
  for (int k = 0; k < years; ++k) p.years.years.push_back(small_year(small_first_year + k));
  p.as_of = make_date(2026, 9, 10);
  return p;
}

/// The same without rain from this day of the season on, in every year.
inline farm::Problem without_rain_from(farm::Problem p, std::size_t day) {
  for (auto& year : p.years.years)
    for (std::size_t d = day; d < year.days.size(); ++d) year.days[d].rain_mm = 0.0;
  return p;
}

}  // namespace aftercut::test
