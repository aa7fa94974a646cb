// Water supply, prices, target, working day, straw settings, limits of the ground.

#include <cmath>

#include "parts.hpp"

namespace aftercut::farm {

std::optional<water::Supply> read_supply(const Object& top, const std::string& currency) {
  if (!top.has("water")) return std::nullopt;
  const Object w = top.child("water");
  water::Supply s;
  s.most_flow = CubicMetrePerDay{w.quantity("most_flow", "m3/day", {1.0, 1e8}).value_or(1.0)};
  s.on = w.month_day("on").value_or(s.on);
  s.off = w.month_day("off").value_or(s.off);
  s.per_m3 = Money{w.money("price", "m3", currency, {0.0, 1e3}).value_or(0.0)};
  s.per_ha_once = Money{w.money("charge", "ha", currency, {0.0, 1e5}).value_or(0.0)};
  s.labour_min_per_ha_fill =
      w.quantity("labour_fill", "min/ha", {0.0, 600.0}).value_or(s.labour_min_per_ha_fill);
  s.labour_min_per_ha_drawdown =
      w.quantity("labour_drawdown", "min/ha", {0.0, 600.0}).value_or(s.labour_min_per_ha_drawdown);
  s.storm_rain_mm = w.quantity("storm_rain", "mm", {0.0, 500.0}).value_or(s.storm_rain_mm);
  s.labour_min_per_ha_storm =
      w.quantity("labour_storm", "min/ha", {0.0, 600.0}).value_or(s.labour_min_per_ha_storm);
  s.seepage_mm_per_day = w.quantity("seepage", "mm/day", {0.0, 50.0}).value_or(s.seepage_mm_per_day);
  s.drawdown_ha_per_day = w.quantity("drawdown_rate", "ha/day", {0.1, 1e5});
  return s;
}

Prices read_prices(const Object& top, const std::string& currency, int default_year) {
  const Object o = top.child("prices");
  const auto price = [&](const char* key, const char* per) {
    return Money{o.money(key, per, currency, {0.0, 1e7}).value_or(0.0)};
  };
  Prices p;
  p.diesel_per_l = price("diesel", "L");
  p.grain_per_kg = price("grain", "kg");
  p.straw_per_tonne = price("straw", "t");
  p.straw_per_ha = price("straw_area", "ha");
  p.straw_per_bale = price("straw_bale", "");
  p.twine_per_tonne = price("twine", "t");
  p.burn_fee_per_ha = price("burn_fee", "ha");
  p.unplanted_per_ha = price("unplanted", "ha");
  p.nutrients = read_nutrient_prices(o, currency);
  p.lubricant_share = o.quantity("lubricant", "%", {0.0, 100.0}).value_or(p.lubricant_share * 100.0) / 100.0;
  p.price_year = o.whole("price_year", 1900, 2200).value_or(default_year);
  return p;
}

Target read_target(const Object& top, const std::string& currency) {
  const Object o = top.child("target");
  Target t;
  t.wanted_chance = o.number("wanted_chance", {0.0, 1.0}).value_or(t.wanted_chance);
  if (o.has("late_price"))
    if (const auto price = o.money("late_price", "ha", currency, {0.0, 1e6}))
      t.late_per_ha_day = Money{*price};
  t.change_gain_per_ha =
      Money{o.money("change_gain", "ha", currency, {0.0, 1e5}).value_or(t.change_gain_per_ha.value())};
  t.toss_up_per_ha =
      Money{o.money("toss_up_margin", "ha", currency, {0.0, 1e5}).value_or(t.toss_up_per_ha.value())};
  const auto share = [&](const char* key, double otherwise) {
    return o.quantity(key, "%", {0.0, 100.0}).value_or(100.0 * otherwise) / 100.0;
  };
  t.straw_price_spread = share("straw_price_spread", t.straw_price_spread);
  t.diesel_price_spread = share("diesel_price_spread", t.diesel_price_spread);
  t.storm.days = o.whole("storm_days", 1, 14).value_or(t.storm.days);
  t.storm.one_year_in = o.number("storm_one_year_in", {1.0, 100.0}).value_or(t.storm.one_year_in);
  return t;
}

WorkDay read_work_day(const Object& top) {
  const Object o = top.child("work_day");
  WorkDay w;
  w.move_between_fields = Hours{o.quantity("move", "h", {0.0, 12.0}).value_or(w.move_between_fields.value())};
  w.road_speed = KmPerHour{o.quantity("road_speed", "km/h", {1.0, 80.0}).value_or(w.road_speed.value())};
  w.detour = o.number("detour", {1.0, 10.0}).value_or(w.detour);
  w.least_stay_min = static_cast<int>(std::lround(
      o.quantity("least_stay", "min", {0.0, 600.0}).value_or(static_cast<double>(w.least_stay_min))));
  w.hours_for_area_per_day =
      Hours{o.number("hours_for_area_per_day", {1.0, 16.0}).value_or(w.hours_for_area_per_day.value())};
  const auto clock = o.text("shift_start");  // "07:00" by the schema
  if (clock && clock->size() == 5)
    w.shift_start_h = ((*clock)[0] - '0') * 10 + ((*clock)[1] - '0') +
                      (((*clock)[3] - '0') * 10 + ((*clock)[4] - '0')) / 60.0;
  return w;
}

straw::DecaySettings read_decay(const Object& straw) {
  straw::DecaySettings d;
  d.fast_share = straw.number("fast_share", {0.0, 1.0}).value_or(d.fast_share);
  d.fast_to_slow_rate = straw.number("fast_to_slow_rate", {1.0, 20.0}).value_or(d.fast_to_slow_rate);
  d.slow_rate_25c_per_day =
      straw.number("slow_rate_25c_per_day", {0.0001, 0.1}).value_or(d.slow_rate_25c_per_day);
  d.q10 = straw.number("q10", {1.0, 4.0}).value_or(d.q10);
  d.oxygen_wet_percent = straw.quantity("oxygen_wet", "%", {0.0, 21.0}).value_or(d.oxygen_wet_percent);
  d.oxygen_flooded_percent =
      straw.quantity("oxygen_flooded", "%", {0.0, 21.0}).value_or(d.oxygen_flooded_percent);
  d.nitrogen_g_per_kg =
      10.0 * straw.quantity("nitrogen", "%", {0.1, 2.0}).value_or(d.nitrogen_g_per_kg / 10.0);
  if (straw.yes("waterfowl").value_or(false)) {
    d.waterfowl_loose = straw::duck_loss_loose;
    d.waterfowl_pressed = straw::duck_loss_pressed;
  }
  return d;
}

straw::MoistureSettings read_drying(const Object& straw) {
  straw::MoistureSettings m;
  m.lag_windrow_days = straw.number("lag_windrow_days", {0.05, 10.0}).value_or(m.lag_windrow_days);
  m.lag_spread_days = straw.number("lag_spread_days", {0.05, 10.0}).value_or(m.lag_spread_days);
  m.lag_standing_days = straw.number("lag_standing_days", {0.05, 10.0}).value_or(m.lag_standing_days);
  m.dew_mm = straw.quantity("dew", "mm", {0.0, 2.0}).value_or(m.dew_mm);
  return m;
}

straw::BurialSettings read_burial(const Object& straw) {
  straw::BurialSettings b;
  b.per_cm = straw.number("buried_per_cm", {0.0, 0.05}).value_or(b.per_cm);
  b.long_burial = straw.number("long_straw_buried", {0.1, 1.0}).value_or(b.long_burial);
  b.long_weight = straw.number("long_straw_weight", {1.0, 3.0}).value_or(b.long_weight);
  b.combine_chop_mm = straw.quantity("combine_chop_length", "mm", {10.0, 400.0}).value_or(b.combine_chop_mm);
  b.combine_straw_mm =
      straw.quantity("combine_straw_length", "mm", {50.0, 900.0}).value_or(b.combine_straw_mm);
  return b;
}

soil::TrafficLimits read_limits(const Object& top) {
  const Object o = top.child("limits");
  soil::TrafficLimits t;
  t.light_kpa = o.quantity("light", "kPa", {10.0, 3000.0}).value_or(t.light_kpa);
  t.heavy_kpa = o.quantity("heavy", "kPa", {10.0, 3000.0}).value_or(t.heavy_kpa);
  t.tracked_kpa = o.quantity("tracked", "kPa", {10.0, 3000.0}).value_or(t.tracked_kpa);
  return t;
}

CombineRuts read_combine_ruts(const Object& limits) {
  CombineRuts r;
  r.share = limits.quantity("combine_ruts", "%", {0.0, 100.0}).value_or(100.0 * r.share) / 100.0;
  r.depth_mm = limits.quantity("combine_rut_depth", "mm", {0.0, 600.0}).value_or(r.depth_mm);
  return r;
}

}  // namespace aftercut::farm
