#include "facts.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/machinery/capacity.hpp"
#include "aftercut/weather/sun.hpp"
#include "hired.hpp"

namespace aftercut::audit {
namespace {

constexpr double fine_from_clay_percent =
    35.0;  // soil group of the draft equation. Source: RulesOfWork (assumed)

machinery::SoilGroup group_of(const soil::Profile& profile) {
  return profile.input.clay_percent >= fine_from_clay_percent ? machinery::SoilGroup::fine
                                                              : machinery::SoilGroup::medium;
}

bool brings_tractor(const machinery::Implement& i) { return i.hire && i.hire->brings_tractor; }

machinery::PowerParts parts_asked(const farm::Farm& farm, int field, const method::Operation& op, int tractor,
                                  int implement) {
  const auto& f = farm.fields.at(static_cast<std::size_t>(field));
  const auto& t = farm.tractors.at(static_cast<std::size_t>(tractor));
  const auto& i = farm.implements.at(static_cast<std::size_t>(implement));
  return machinery::power_parts(i, t.drive, ground_of(op), group_of(farm.soils.at(f.soil)),
                                KgPerHa{loose_straw(f)});
}

}  // namespace

Facts facts_of(const farm::Problem& problem, std::uint64_t seed) {
  Facts f;
  f.problem = &problem;
  f.seed = seed;
  const farm::Farm& farm = problem.farm;
  for (const auto& t : farm.tractors) f.tractor_cost.push_back(machinery::hourly_cost(t.owning));
  for (const auto& i : farm.implements)
    f.implement_cost.push_back(i.hire ? machinery::HourlyCost{} : machinery::hourly_cost(i.owning));
  for (int d = 0; d < farm.season.days; ++d) {
    const double hours = weather::sun_times(farm.site, farm.season.date(d)).length_h;
    f.daylight_min.push_back(static_cast<int>(std::floor(hours * 60.0)));
  }
  f.so_far = journal::state_of(problem);
  if (farm.burning) f.burn_limits = burn::limits_of(*farm.burning);
  for (const auto& field : farm.fields) f.farm_area_ha += field.area.value();
  for (const auto& o : farm.operators)
    f.longest_operator_min =
        std::max(f.longest_operator_min, static_cast<int>(std::lround(o.hours_per_day.value() * 60.0)));
  f.shift_start_min = static_cast<int>(std::lround(farm.work_day.shift_start_h * 60.0));
  return f;
}

double loose_straw(const farm::Field& field) {
  return field.straw_load.value() * (1.0 - straw::stubble_share(field.cut_height_cm).value());
}

machinery::Ground ground_of(const method::Operation& op) {
  if (op.when.least_ponded_mm) return machinery::Ground::soft;
  return op.tillage ? machinery::Ground::tilled : machinery::Ground::firm;
}

double power_asked(const farm::Farm& farm, int field, const method::Operation& op, int tractor,
                   int implement) {
  const machinery::PowerParts parts = parts_asked(farm, field, op, tractor, implement);
  return parts.rotary.value() + parts.pulled.value();
}

Pace pace_of(const farm::Farm& farm, const plan::Work& w, double draft_factor) {
  const auto& op = farm.book.operations.at(static_cast<std::size_t>(w.operation));
  Pace p;
  if (w.implement == plan::none) {
    double labour = op.labour_min_per_ha;
    if (farm.supply && op.water == method::Water::boards_in) labour = farm.supply->labour_min_per_ha_fill;
    if (farm.supply && op.water == method::Water::boards_out)
      labour = farm.supply->labour_min_per_ha_drawdown;
    if (labour > 0.0) p.ha_per_hour = 60.0 / labour;
    return p;
  }
  const auto& i = farm.implements.at(static_cast<std::size_t>(w.implement));
  const auto& f = farm.fields.at(static_cast<std::size_t>(w.field));
  if (i.entered_ha_per_day) {
    p.ha_per_hour = *i.entered_ha_per_day / farm.work_day.hours_for_area_per_day.value();
  } else {
    const double fits = farm.fits.empty() ? i.field_efficiency.value()
                                          : farm.fits.at(static_cast<std::size_t>(w.field))
                                                .at(static_cast<std::size_t>(w.implement))
                                                .efficiency.value();
    const double rate = i.speed.value() * i.width.value() * fits / 10.0;
    p.ha_per_hour =
        machinery::capped_by_throughput(HaPerHour{rate}, i.throughput, KgPerHa{loose_straw(f)}).value();
  }
  if (w.tractor == plan::none) return p;
  const KiloWatt rated = farm.tractors.at(static_cast<std::size_t>(w.tractor)).pto_power;
  const machinery::PowerParts parts = parts_asked(farm, w.field, op, w.tractor, w.implement);
  const double load = (parts.rotary.value() + parts.pulled.value() * draft_factor) / rated.value();
  if (load > 1.0) p.ha_per_hour /= load;
  p.fuel_l_per_hour = machinery::fuel_rate(std::min(load, 1.0) * rated, rated).value();
  return p;
}

double draft_factor_of(const soil::Profile& soil, const method::Operation& op, const season::DayMask& mask) {
  if (!op.tillage) return 1.0;
  const bool on_hard_clods = mask.too_dry && op.when.not_too_dry;
  return on_hard_clods ? soil.input.dry_draft_gain + 1.0 : mask.draft_factor;
}

std::string outfit_fault(const farm::Farm& farm, int field, const method::Operation& op, int tractor,
                         int implement) {
  if (op.implement.empty()) {
    return tractor == plan::none && implement == plan::none ? "" : "machines for hand work";
  }
  if (implement == plan::none) return "no " + op.implement;
  const auto& i = farm.implements.at(static_cast<std::size_t>(implement));
  if (i.kind != op.implement) return "a " + i.kind + " where a " + op.implement + " is wanted";
  if (const std::string fault = contract_fault(farm, op, implement); !fault.empty()) return fault;
  const bool wants_tractor = op.tractor && !brings_tractor(i);
  if (wants_tractor != (tractor != plan::none))
    return wants_tractor ? "no tractor" : "a tractor that is not wanted";
  if (!wants_tractor) return "";
  const double asked = power_asked(farm, field, op, tractor, implement);
  const double has = farm.tractors.at(static_cast<std::size_t>(tractor)).pto_power.value();
  return has + 1e-9 >= asked ? "" : "too little power";
}

std::string nobody_can(const farm::Farm& farm, int field, const method::Operation& op) {
  int skilled = 0;
  for (const auto& o : farm.operators)
    skilled +=
        op.skill.empty() || std::find(o.skills.begin(), o.skills.end(), op.skill) != o.skills.end() ? 1 : 0;
  const bool enough = skilled >= op.crew;
  if (op.implement.empty()) {
    if (op.labour_min_per_ha <= 0.0) return "no labour is stated for " + op.name;
    return enough ? "" : "too few people for " + op.name;
  }
  for (int i = 0; i < static_cast<int>(farm.implements.size()); ++i) {
    const auto& hire = farm.implements[static_cast<std::size_t>(i)].hire;
    if (!enough && !(hire && hire->brings_operator)) continue;
    for (int t = plan::none; t < static_cast<int>(farm.tractors.size()); ++t)
      if (outfit_fault(farm, field, op, t, i).empty()) return "";
  }
  return "no outfit can " + op.name;
}

}  // namespace aftercut::audit
