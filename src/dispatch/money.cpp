#include "aftercut/dispatch/money.hpp"

#include <algorithm>
#include <array>
#include <span>

#include "aftercut/core/numbers.hpp"
#include "aftercut/farm/wishes.hpp"

namespace aftercut::dispatch {

double wage_paid(const farm::Operator& who) { return who.paid ? who.wage_per_h.value() : 0.0; }

double fuel_money(const farm::Farm& farm, const Pace& pace, double hours) {
  return pace.fuel_l_per_hour * hours * farm.prices.diesel_per_l.value() *
         (1.0 + farm.prices.lubricant_share);
}

double hire_money(const machinery::Hire& hire, double area_ha, double hours) {
  return hire.per_ha.value() * area_ha + hire.per_hour.value() * hours;
}

plan::CostParts stretch_cost(const Table& t, const Stretch& s, int operation) {
  const farm::Farm& farm = t.problem->farm;
  const Outfit& o = *s.outfit;
  const double hours = (s.end_min - s.start_min) / 60.0;
  plan::CostParts c;
  c.fuel = to_cents(fuel_money(farm, s.pace, hours));
  c.repair = to_cents(o.repair_per_hour * hours);
  c.ownership = to_cents(o.ownership_per_hour * hours);
  for (const int who : s.crew) {
    if (who == plan::none) continue;
    const farm::Operator& person = farm.operators[static_cast<std::size_t>(who)];
    (person.paid ? c.wages : c.own_labour) += to_cents(person.wage_per_h.value() * hours);
  }
  if (o.implement != plan::none) {
    if (const auto& hire = farm.implements[static_cast<std::size_t>(o.implement)].hire)
      c.hire = to_cents(hire_money(*hire, s.area_ha, hours));
  }
  if (farm.book.operations[static_cast<std::size_t>(operation)].burning)
    c.fees = to_cents(farm.prices.burn_fee_per_ha.value() * s.area_ha);
  return c;
}

plan::CostParts baled_cost(const Table& t, int implement, double dry_kg, double area_ha) {
  const farm::Farm& farm = t.problem->farm;
  const farm::Prices& prices = farm.prices;
  const double tonnes = dry_kg / machinery::bale_dry_share / 1000.0;
  const int bales = machinery::bales_of(Kilogram{1000.0 * tonnes}, farm.bales);
  const double sold = 1.0 - farm.bales.storage_loss;
  plan::CostParts c;
  c.twine = to_cents(tonnes * prices.twine_per_tonne.value());
  c.straw_income =
      -to_cents(sold * (tonnes * prices.straw_per_tonne.value() + bales * prices.straw_per_bale.value()) +
                area_ha * prices.straw_per_ha.value());
  if (implement != plan::none) {
    if (const auto& hire = farm.implements[static_cast<std::size_t>(implement)].hire)
      c.hire = to_cents(hire->per_tonne.value() * tonnes + hire->per_bale.value() * bales);
  }
  return c;
}

plan::CostParts call_out_cost(const farm::Farm& farm, int implement) {
  plan::CostParts c;
  if (const auto& hire = farm.implements[static_cast<std::size_t>(implement)].hire)
    c.hire = to_cents(hire->call_out.value());
  return c;
}

plan::CostParts water_cost(const Table& t, double m3, bool first, double area_ha) {
  const water::Supply& supply = *t.problem->farm.supply;
  plan::CostParts c;
  c.water =
      to_cents(m3 * supply.per_m3.value()) + (first ? to_cents(supply.per_ha_once.value() * area_ha) : 0);
  return c;
}

plan::Status status_of(const farm::Farm& farm, const farm::Field& field, int ready_day) {
  if (field.next.kind == farm::NextUseKind::fallow) return plan::Status::nothing_due;
  if (ready_day == plan::none || ready_day > farm.season.day(field.next.cut_off))
    return plan::Status::unplanted;
  return ready_day <= farm.season.day(field.next.planting) ? plan::Status::ready : plan::Status::late;
}

double late_loss_kg_per_ha(const farm::Farm& farm, const farm::Field& field, int ready_day) {
  if (field.next.late_curve.empty()) return 0.0;
  std::vector<Node> nodes;
  for (const auto& n : field.next.late_curve)
    nodes.push_back({static_cast<double>(farm.season.day(n.day)), n.loss_kg_per_ha});
  return interpolate(nodes, ready_day);
}

std::optional<plan::CostParts> lease_paid(const farm::Farm& farm, const farm::Field& field,
                                          int standing_mornings) {
  if (!field.lease) return std::nullopt;
  const int asked = farm.season.day(field.lease->until) - farm.season.day(field.lease->from) + 1;
  if (standing_mornings != asked) return std::nullopt;
  return plan::CostParts{.lease_income = -to_cents(field.lease->per_ha.value() * field.area.value())};
}

std::int64_t late_cents(const farm::Farm& farm, const farm::Field& field, int ready_day) {
  if (!farm::lateness_costs(farm.target)) return 0;
  const double area = field.area.value();
  if (const auto price = farm::late_price(farm, field))
    return to_cents(price->value() * (ready_day - farm.season.day(field.next.planting)) * area);
  return to_cents(late_loss_kg_per_ha(farm, field, ready_day) * area * farm.prices.grain_per_kg.value());
}

plan::CostParts outcome_cost(const farm::Farm& farm, const farm::Field& field, plan::Status status,
                             int ready_day) {
  plan::CostParts c;
  if (field.next.kind == farm::NextUseKind::fallow) return c;
  const double area = field.area.value();
  if (status == plan::Status::unplanted || status == plan::Status::no_method) {
    c.unplanted = to_cents(farm.prices.unplanted_per_ha.value() * area);
  } else if (status == plan::Status::late) {
    c.late = late_cents(farm, field, ready_day);
  }
  return c;
}

}  // namespace aftercut::dispatch
