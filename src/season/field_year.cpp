#include "aftercut/season/field_year.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/soil/temperature.hpp"

namespace aftercut::season {
namespace {

constexpr double paddy_depth_mm = 50.0;    // on the field the morning it is drained. Source: assumed
constexpr double flooded_above_mm = 10.0;  // less is puddles
constexpr double pond_stops_drying_mm = 1.0;
constexpr double balance_share = 1e-9;

}  // namespace

YearDrivers drivers_of(const weather::Year& year, const farm::Farm& farm) {
  const straw::DecayRates decay = straw::rates_of(farm.decay);
  YearDrivers d;
  d.year = year.year;
  d.et0_mm = year.et0_mm;
  for (const weather::Day& day : year.days) {
    d.rain_mm.push_back(day.rain_mm);
    d.air_c.push_back(0.5 * (day.tmin_c + day.tmax_c));
    d.equilibrium_db.push_back(straw::day_equilibrium(day));
    d.wind_m_s.push_back(day.wind_2m_m_s);
    d.straw_wetting_mm.push_back(day.rain_mm + straw::dew_of(day, farm.moisture.dew_mm));
    d.air_factor.push_back(straw::temperature_factor(decay, d.air_c.back()));
  }
  return d;
}

FieldYear::FieldYear(const farm::Farm& farm, std::size_t field, const YearDrivers& drivers,
                     const method::HarvestSetting& setting)
    : farm_{&farm},
      field_{&farm.fields.at(field)},
      profile_{&farm.soils.at(farm.fields[field].soil)},
      drivers_{&drivers},
      setting_{setting},
      drying_{straw::rates_of(farm.moisture)},
      decay_{straw::rates_of(farm.decay)},
      traffic_{soil::traffic_contents(*profile_, farm.traffic)},
      harvest_day_{farm.season.day(field_->harvest)},
      drain_day_{farm.season.day(field_->summer_drain)} {
  require(drivers.rain_mm.size() >= static_cast<std::size_t>(farm.season.days),
          "the weather year covers the season");
  if (field_->cut) setting_ = {field_->lay, field_->cut_height_cm};
  lay_ = setting_.lay;
  water_ = {profile_->saturation * profile_->seedbed_depth_mm,
            profile_->saturation * profile_->below_depth_mm, paddy_depth_mm};
  ledger_.start_store = water_.seedbed_mm + water_.below_mm + water_.ponded_mm;
  moisture_db_ = farm.moisture.at_harvest;
  running_mean_c_ = drivers.air_c.front();
  if (field_->ground.state == farm::GroundState::rutted) rutted_share_ = field_->ground.share;
}

DayMask FieldYear::mask() const {
  const auto d = static_cast<std::size_t>(day_);
  DayMask m;
  m.cut = day_ > harvest_day_;
  m.workable = dry_days_ > field_->ground.slow_days;
  m.drive_light = soil::trafficable(*profile_, water_, soil::LoadClass::light, traffic_);
  m.drive_heavy = soil::trafficable(*profile_, water_, soil::LoadClass::heavy, traffic_);
  m.drive_tracked = soil::trafficable(*profile_, water_, soil::LoadClass::tracked, traffic_);
  const double afternoon = straw::next_moisture(moisture_db_, drivers_->equilibrium_db[d],
                                                drivers_->straw_wetting_mm[d], lay_, drying_);
  m.straw_moisture_percent = 100.0 * straw::wet_from_dry_basis(afternoon / 100.0);
  m.ponded_mm = water_.ponded_mm;
  m.rain_mm = drivers_->rain_mm[d];
  m.drying_mm = drying_mm_;
  return m;
}

void FieldYear::apply(const method::Operation& op, double share) {
  const method::Effect& e = op.effect;
  straw::Transfer t = e.straw;
  t.flatten *= share;
  t.press *= share;
  t.bury *= share;
  t.resurface *= share;
  if (e.bale_share > 0.0) {
    const straw::Removal r = straw::remove(pools_, e.bale_share * share, 0.0);
    pools_ = r.pools;
    straw_.baled += r.removed_kg_per_ha;
  }
  if (e.burn_share_flat > 0.0 || e.burn_share_standing > 0.0) {
    const straw::Removal r = straw::remove(pools_, e.burn_share_flat * share, e.burn_share_standing * share);
    pools_ = r.pools;
    straw_.burned += r.removed_kg_per_ha;
  }
  pools_ = straw::move(pools_, t);
  cover_ = straw::cover(pools_);
  if (share < 1.0) return;
  if (e.lay_after) lay_ = *e.lay_after;
  if (e.opened) opened_ = *e.opened;
  if (e.mends_ruts) rutted_share_ = 0.0;
  if (op.tillage) drying_mm_ = 0.0;
}

void FieldYear::set_boards(double height_mm) { board_mm_ = height_mm; }

double FieldYear::fill_need_mm(double target_mm) const {
  return std::max(0.0, target_mm - water_.ponded_mm) + soil::saturation_deficit_mm(*profile_, water_);
}

void FieldYear::lay_straw() {
  const double stubble = straw::stubble_share(setting_.cut_height_cm).value();
  pools_ = straw::fresh(field_->straw_load.value(), stubble, farm_->decay);
  straw_.in = pools_.total();
  cover_ = straw::cover(pools_);
  moisture_db_ = farm_->moisture.at_harvest;
}

void FieldYear::end_day(double water_in_mm) {
  const bool flooded = water_.ponded_mm > flooded_above_mm;
  running_mean_c_ =
      soil::next_running_mean(running_mean_c_, drivers_->air_c[static_cast<std::size_t>(day_)], flooded, {});
  if (day_ >= drain_day_) live_water(water_in_mm);
  dry_days_ = soil::workable(*profile_, water_, field_->ground.slow_share) ? dry_days_ + 1 : 0;
  if (straw_.in > 0.0) live_straw(flooded);
  if (day_ == harvest_day_) lay_straw();
  ++day_;
}

void FieldYear::live_water(double water_in_mm) {
  const auto d = static_cast<std::size_t>(day_);
  const soil::WaterStep step = soil::next(*profile_, water_,
                                          {.rain_mm = drivers_->rain_mm[d],
                                           .et0_mm = drivers_->et0_mm[d],
                                           .water_in_mm = water_in_mm,
                                           .cover = cover_,
                                           .board_height_mm = board_mm_,
                                           .opened = opened_,
                                           .rutted_share = rutted_share_,
                                           .rut_depth_mm = field_->ground.depth_mm});
  water_ = step.state;
  ledger_.sum.rain_mm += step.fluxes.rain_mm;
  ledger_.sum.water_in_mm += step.fluxes.water_in_mm;
  ledger_.sum.evaporation_mm += step.fluxes.evaporation_mm;
  ledger_.sum.percolation_mm += step.fluxes.percolation_mm;
  ledger_.sum.spill_mm += step.fluxes.spill_mm;
  drying_mm_ = water_.ponded_mm > pond_stops_drying_mm ? 0.0 : drying_mm_ + step.fluxes.evaporation_mm;
  if (water_.ponded_mm > flooded_above_mm) opened_ = 0.0;
}

void FieldYear::live_straw(bool flooded) {
  const auto d = static_cast<std::size_t>(day_);
  moisture_db_ = straw::next_moisture(moisture_db_, drivers_->equilibrium_db[d],
                                      drivers_->straw_wetting_mm[d], lay_, drying_);
  const straw::DecayStep rot =
      straw::decay(pools_,
                   {.soil_factor = straw::temperature_factor(
                        decay_, soil::soil_temperature(running_mean_c_, cover_, flooded, {})),
                    .air_factor = drivers_->air_factor[d],
                    .surface_wetness = straw::surface_wetness(moisture_db_),
                    .soil_wetness = soil::decay_wetness(*profile_, water_),
                    .pores_full = soil::pores_full(*profile_, water_),
                    .flooded = water_.ponded_mm > flooded_above_mm},
                   decay_);
  pools_ = rot.pools;
  straw_.decayed += rot.decayed_kg_per_ha;
  cover_ = straw::cover(pools_);
  const double out = straw_.baled + straw_.burned + straw_.decayed + pools_.total();
  require(std::abs(straw_.in - out) <= balance_share * straw_.in, "the straw of a field balances");
}

}  // namespace aftercut::season
