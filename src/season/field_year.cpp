#include "aftercut/season/field_year.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "live_day.hpp"

namespace aftercut::season {
namespace {

constexpr double paddy_depth_mm = 50.0;  // on the field the morning it is drained. Source: assumed

SkyOf<double> sky_of(const YearDrivers& drivers, int day) {
  const auto d = static_cast<std::size_t>(day);
  return {drivers.rain_mm[d],        drivers.et0_mm[d],           drivers.air_c[d],
          drivers.equilibrium_db[d], drivers.straw_wetting_mm[d], drivers.air_factor[d]};
}

}  // namespace

YearDrivers drivers_of(const weather::Year& year, const farm::Farm& farm) {
  YearDrivers d;
  d.year = year.year;
  d.rates = {straw::rates_of(farm.moisture),
             straw::rates_of(farm.decay),
             {.content_kg_per_kg = farm.decay.nitrogen_g_per_kg / 1000.0}};
  d.et0_mm = year.et0_mm;
  for (const weather::Day& day : year.days) {
    d.rain_mm.push_back(day.rain_mm);
    d.air_c.push_back(0.5 * (day.tmin_c + day.tmax_c));
    d.equilibrium_db.push_back(straw::day_equilibrium(day));
    d.wind_m_s.push_back(day.wind_2m_m_s);
    d.straw_wetting_mm.push_back(day.rain_mm + straw::dew_of(day, farm.moisture.dew_mm));
    d.air_factor.push_back(straw::temperature_factor(d.rates.decay, d.air_c.back()));
  }
  const auto none_below_zero = [](const std::vector<double>& x) {
    return std::all_of(x.begin(), x.end(), [](double value) { return value >= 0.0; });  // nor missing
  };
  require(none_below_zero(d.rain_mm) && none_below_zero(d.et0_mm),
          "rain and evaporative demand are not negative");
  return d;
}

FieldYear::FieldYear(const farm::Farm& farm, std::size_t field, const YearDrivers& drivers,
                     const method::HarvestSetting& setting)
    : farm_{&farm},
      field_{&farm.fields.at(field)},
      profile_{&farm.soils.at(farm.fields[field].soil)},
      drivers_{&drivers},
      setting_{setting},
      ground_{soil::ground_of(*profile_, field_->ground.slow_share)},
      traffic_{soil::traffic_contents(*profile_, farm.traffic)},
      harvest_day_{farm.season.day(field_->harvest)},
      drain_day_{farm.season.day(field_->summer_drain)} {
  require(drivers.rain_mm.size() >= static_cast<std::size_t>(farm.season.days),
          "the weather year covers the season");
  if (field_->cut) setting_ = {field_->lay, field_->cut_height_cm};
  lay_ = setting_.lay;
  life_.keep_loose = straw::keep_of(lay_, drivers.rates.drying);
  life_.water = soil::saturated_state(*profile_, paddy_depth_mm);
  life_.water_sum.start_store = ground_.seedbed_full + ground_.below_full + paddy_depth_mm;
  life_.loose_db = life_.standing_db = farm.moisture.at_harvest;
  life_.running_mean_c = drivers.air_c.front();
  if (field_->ground.state == farm::GroundState::rutted) life_.rutted_share = field_->ground.share;
  rut_depth_mm_ = field_->ground.depth_mm;
}

DayMask FieldYear::mask() const {
  const auto d = static_cast<std::size_t>(day_);
  DayMask m;
  m.cut = day_ > harvest_day_;
  m.workable = life_.dry_days > field_->ground.slow_days;
  const GroundPull pull = ground_pull(life_.opened, 0.0);
  m.too_dry = pull.too_dry;
  m.draft_factor = pull.draft_factor;
  m.drive_light = soil::trafficable(*profile_, life_.water, soil::LoadClass::light, traffic_);
  m.drive_heavy = soil::trafficable(*profile_, life_.water, soil::LoadClass::heavy, traffic_);
  m.drive_tracked = soil::trafficable(*profile_, life_.water, soil::LoadClass::tracked, traffic_);
  const double afternoon =
      straw::next_moisture(life_.loose_db, drivers_->equilibrium_db[d], drivers_->straw_wetting_mm[d],
                           life_.keep_loose, drivers_->rates.drying);
  m.straw_moisture_percent = 100.0 * straw::wet_from_dry_basis(afternoon / 100.0);
  m.ponded_mm = life_.water.ponded_mm;
  m.rain_mm = drivers_->rain_mm[d];
  m.drying_mm = life_.drying_mm;
  return m;
}

GroundPull FieldYear::ground_pull(double opened, double wetter_mm) const {
  soil::WaterState water = life_.water;
  water.seedbed_mm += wetter_mm;
  return {.too_dry = soil::too_dry(*profile_, water),
          .draft_factor = 1.0 + (1.0 - opened) * (soil::draft_factor(*profile_, water) - 1.0)};
}

void FieldYear::apply(const method::Operation& op, double share, const straw::Tool& with) {
  const method::Effect& e = op.effect;
  straw::Transfer t = e.straw;
  t.bury = straw::buried_share(t.bury, e.usual_depth_cm, with.depth_cm, straw_length_mm_, farm_->burial);
  t.flatten *= share;
  t.press *= share;
  t.bury *= share;
  t.resurface *= share;
  const bool was_spread = setting_.lay == straw::Lay::spread;
  const double baled = was_spread ? e.bale_share_spread.value_or(e.bale_share) : e.bale_share;
  if (baled > 0.0) remove_straw(baled * share, 0.0, life_.straw.baled, life_.nitrogen_sum.baled);
  if (e.burn_share_flat > 0.0 || e.burn_share_standing > 0.0)
    remove_straw(e.burn_share_flat * share, e.burn_share_standing * share, life_.straw.burned,
                 life_.nitrogen_sum.burned);
  life_.pools = straw::move(life_.pools, t);
  life_.cover = straw::cover(life_.pools);
  if (share < 1.0) return;
  if (e.lay_after) lay_ = *e.lay_after;
  if (e.lay_after == straw::Lay::chopped)
    straw_length_mm_ = with.chop_length_mm > 0.0 ? with.chop_length_mm : farm_->burial.default_chop_mm;
  life_.keep_loose = straw::keep_of(lay_, drivers_->rates.drying);
  if (e.opened) life_.opened = *e.opened;
  if (e.mends_ruts) life_.rutted_share = 0.0;
  if (op.tillage) life_.drying_mm = 0.0;
}

void FieldYear::remove_straw(double share_of_flat, double share_of_standing, double& straw_sum,
                             double& nitrogen_sum) {
  const straw::Removal r = straw::remove(life_.pools, share_of_flat, share_of_standing);
  life_.pools = r.pools;
  straw_sum += r.removed_kg_per_ha;
  const double nitrogen = drivers_->rates.nitrogen.content_kg_per_kg * r.removed_kg_per_ha;
  life_.nitrogen.in_straw -= nitrogen;
  nitrogen_sum += nitrogen;
}

double FieldYear::straw_for_passes() const {
  return straw::straw_for_passes(life_.pools.total(), straw_length_mm_, farm_->burial);
}

void FieldYear::set_boards(double height_mm) { life_.board_mm = height_mm; }

double FieldYear::fill_need_mm(double target_mm) const {
  return std::max(0.0, target_mm - life_.water.ponded_mm) +
         soil::saturation_deficit_mm(*profile_, life_.water);
}

void FieldYear::lay_straw() {
  const double stubble = straw::stubble_share(setting_.cut_height_cm).value();
  life_.pools = straw::fresh(field_->straw_load.value(), stubble, farm_->decay);
  straw_length_mm_ = straw::length_after_combine(setting_.cut_height_cm, stubble,
                                                 setting_.lay == straw::Lay::chopped, farm_->burial);
  life_.straw.in = life_.pools.total();
  life_.nitrogen.in_straw = drivers_->rates.nitrogen.content_kg_per_kg * life_.straw.in;
  life_.nitrogen_sum.in = life_.nitrogen.in_straw;
  life_.cover = straw::cover(life_.pools);
  life_.loose_db = life_.standing_db = farm_->moisture.at_harvest;
}

/// Combine and grain wagons on the morning of the harvest: ground that does not carry them is rutted.
void FieldYear::drive_combine() {
  const bool open = !field_->cut && field_->ground.state == farm::GroundState::firm;
  if (!open || soil::trafficable(*profile_, life_.water, soil::LoadClass::heavy, traffic_)) return;
  life_.rutted_share = farm_->combine_ruts.share;
  rut_depth_mm_ = farm_->combine_ruts.depth_mm;
}

void FieldYear::day_is_over() {
  if (day_ == harvest_day_) lay_straw();
  ++day_;
  if (day_ == harvest_day_) drive_combine();
}

void FieldYear::end_day(double water_in_mm) {
  require(water_in_mm >= 0.0, "water let in is not negative");
  live_day<double>(life_, {ground_, rut_depth_mm_}, drivers_->rates, sky_of(*drivers_, day_), water_in_mm,
                   drained());
  day_is_over();
}

}  // namespace aftercut::season
