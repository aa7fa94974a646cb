#include "money.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "aftercut/core/numbers.hpp"
#include "bales.hpp"
#include "outfits.hpp"

namespace aftercut::audit {
namespace {

const machinery::Hire* hire_of(const farm::Farm& farm, int implement) {
  if (implement == plan::none) return nullptr;
  const auto& hire = farm.implements[static_cast<std::size_t>(implement)].hire;
  return hire ? &*hire : nullptr;
}

}  // namespace

double loss_on(const std::vector<farm::LateNode>& curve, Date day) {
  if (day <= curve.front().day) return curve.front().loss_kg_per_ha;
  for (std::size_t k = 1; k < curve.size(); ++k) {
    if (curve[k].day < day) continue;
    const double share =
        static_cast<double>(day - curve[k - 1].day) / static_cast<double>(curve[k].day - curve[k - 1].day);
    return curve[k - 1].loss_kg_per_ha + share * (curve[k].loss_kg_per_ha - curve[k - 1].loss_kg_per_ha);
  }
  return curve.back().loss_kg_per_ha;
}

plan::CostParts cost_of_stretch(const Facts& facts, const plan::Work& w, double fuel_l, double area_ha) {
  const farm::Farm& farm = facts.farm();
  const double hours = static_cast<double>(w.end_min - w.start_min) / 60.0;
  plan::CostParts c;
  c.fuel = to_cents(fuel_l * farm.prices.diesel_per_l.value() * (1.0 + farm.prices.lubricant_share));
  for (const int p : people_of(w)) {
    const auto& person = farm.operators[static_cast<std::size_t>(p)];
    const std::int64_t pay = to_cents(hours * person.wage_per_h.value());
    if (person.paid) c.wages += pay;
    if (!person.paid) c.own_labour += pay;
  }
  double repair = 0.0, ownership = 0.0;
  if (w.tractor != plan::none) {
    repair += facts.tractor_cost[static_cast<std::size_t>(w.tractor)].repair.value();
    ownership += facts.tractor_cost[static_cast<std::size_t>(w.tractor)].ownership.value();
  }
  if (w.implement != plan::none) {
    repair += facts.implement_cost[static_cast<std::size_t>(w.implement)].repair.value();
    ownership += facts.implement_cost[static_cast<std::size_t>(w.implement)].ownership.value();
  }
  c.repair = to_cents(repair * hours);
  c.ownership = to_cents(ownership * hours);
  if (const auto* hire = hire_of(farm, w.implement))
    c.hire = to_cents(area_ha * hire->per_ha.value() + hours * hire->per_hour.value());
  if (farm.book.operations[static_cast<std::size_t>(w.operation)].burning)
    c.fees = to_cents(area_ha * farm.prices.burn_fee_per_ha.value());
  return c;
}

plan::CostParts cost_of_straw(const farm::Farm& farm, int implement, double dry_kg, double area_ha) {
  plan::CostParts c;
  const double tonnes = dry_kg / 1000.0 / dry_share_as_sold;
  const double bales = bales_from(farm, dry_kg);
  c.twine = to_cents(tonnes * farm.prices.twine_per_tonne.value());
  double income = tonnes * farm.prices.straw_per_tonne.value() + bales * farm.prices.straw_per_bale.value();
  income -= farm.bales.storage_loss * income;
  c.straw_income = -to_cents(income + farm.prices.straw_per_ha.value() * area_ha);
  if (const auto* hire = hire_of(farm, implement))
    c.hire = to_cents(tonnes * hire->per_tonne.value() + bales * hire->per_bale.value());
  return c;
}

plan::CostParts cost_of_water(const farm::Farm& farm, double m3, bool first_of_year, double area_ha) {
  plan::CostParts c;
  if (!farm.supply) return c;
  c.water = to_cents(m3 * farm.supply->per_m3.value());
  if (first_of_year) c.water += to_cents(area_ha * farm.supply->per_ha_once.value());
  return c;
}

plan::CostParts call_out(const farm::Farm& farm, int implement) {
  plan::CostParts c;
  if (const auto* hire = hire_of(farm, implement)) c.hire = to_cents(hire->call_out.value());
  return c;
}

plan::CostParts lease_income(const farm::Field& field) {
  plan::CostParts c;
  if (field.lease) c.lease_income = -to_cents(field.area.value() * field.lease->per_ha.value());
  return c;
}

std::int64_t cost_of_lateness(const farm::Farm& farm, const farm::Field& field, Date ready) {
  const farm::Target& t = farm.target;
  const double area = field.area.value();
  if (t.risk == farm::Risk::chance) return 0;
  if (t.late_per_ha_day && !field.next.own_late_curve)
    return to_cents(t.late_per_ha_day->value() * (ready - field.next.planting) * area);
  if (field.next.late_curve.empty()) return 0;
  return to_cents(loss_on(field.next.late_curve, ready) * area * farm.prices.grain_per_kg.value());
}

plan::CostParts cost_of_outcome(const farm::Farm& farm, const farm::Field& field, plan::Status status,
                                int ready_day) {
  plan::CostParts c;
  if (field.next.kind == farm::NextUseKind::fallow) return c;
  const double area = field.area.value();
  if (status == plan::Status::unplanted || status == plan::Status::no_method)
    c.unplanted = to_cents(area * farm.prices.unplanted_per_ha.value());
  if (status == plan::Status::late) c.late = cost_of_lateness(farm, field, farm.season.date(ready_day));
  return c;
}

plan::Status status_of(const farm::Farm& farm, const farm::Field& field, bool has_method, int ready_day) {
  if (!has_method) return plan::Status::no_method;
  if (field.next.kind == farm::NextUseKind::fallow) return plan::Status::nothing_due;
  if (ready_day == plan::none) return plan::Status::unplanted;
  const Date ready = farm.season.date(ready_day);
  if (ready <= field.next.planting) return plan::Status::ready;
  return ready <= field.next.cut_off ? plan::Status::late : plan::Status::unplanted;
}

Findings compare_costs(const Place& place, const plan::CostParts& found, const plan::CostParts& expected,
                       std::int64_t tolerance) {
  Findings f;
  for (const plan::CostPart& p : plan::cost_parts) {
    Place where = place;
    where.what += std::string(where.what.empty() ? "" : " ") + p.key;
    f.expect(std::llabs(found.*p.of - expected.*p.of) <= tolerance, "wrong cost", where, [&] {
      return Texts{fmt::format("{} cents", found.*p.of), fmt::format("{} cents", expected.*p.of)};
    });
  }
  return f;
}

}  // namespace aftercut::audit
