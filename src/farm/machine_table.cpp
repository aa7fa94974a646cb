#include "aftercut/farm/machine_table.hpp"

#include <algorithm>
#include <set>

#include "aftercut/machinery/traction.hpp"

namespace aftercut::farm {
namespace {

/// The first field of those on which the implement asks most of a front-assist tractor.
std::size_t hardest_field(const Farm& farm, Job job) {
  std::size_t hardest = 0;
  double most = -1.0;
  for (job.field = 0; job.field < farm.fields.size(); ++job.field) {
    const double asked = power_asked(farm, job, machinery::Drive::front_assist).asked.value();
    if (asked > most) hardest = job.field, most = asked;
  }
  return hardest;
}

/// The weakest tractor that pulls it, the first by id of equals.
std::optional<std::size_t> tractor_for(const Farm& farm, const Job& job) {
  std::optional<std::size_t> best;
  for (std::size_t t = 0; t < farm.tractors.size(); ++t) {
    const machinery::Tractor& tractor = farm.tractors[t];
    if (power_asked(farm, job, tractor.drive).asked > tractor.pto_power) continue;
    if (!best || tractor.pto_power < farm.tractors[*best].pto_power) best = t;
  }
  return best;
}

HaPerHour rate_of(const Farm& farm, const Job& job) {
  const machinery::Implement& i = farm.implements[job.implement];
  if (i.entered_ha_per_day)
    return HaPerHour{*i.entered_ha_per_day / farm.work_day.hours_for_area_per_day.value()};
  return machinery::capped_by_throughput(
      machinery::field_capacity(i.speed, i.width, efficiency_on(farm, job.field, job.implement)),
      i.throughput, loose_straw_of(farm.fields[job.field]));
}

MachineRow with_traction(const Farm& farm, MachineRow row, const machinery::Tractor& tractor) {
  const machinery::Implement& i = farm.implements[row.job.implement];
  const machinery::Ground ground = ground_of(farm.book.operations[row.job.operation]);
  const Field& field = farm.fields[row.job.field];
  const machinery::PowerParts parts = machinery::power_parts(
      i, tractor.drive, ground, group_of(farm.soils[field.soil]), loose_straw_of(field));
  const auto driven = machinery::driven_weight_share(tractor.drive);
  if (!driven || parts.pulled.value() <= 0.0) return row;
  const double drawbar_kw = parts.pulled.value() * machinery::traction_ratio(tractor.drive, ground).value();
  const double pull_kn = drawbar_kw * 3.6 / i.speed.value();
  const double bn = machinery::usual_mobility_number(ground);
  row.slip =
      machinery::slip_for(bn, pull_kn / (*driven * machinery::usual_weight(tractor.pto_power).value()));
  row.spins = !row.slip;
  if (row.slip) row.traction_efficiency = machinery::traction(bn, *row.slip).efficiency;
  return row;
}

MachineRow with_fuel(const Farm& farm, MachineRow row, const machinery::Tractor& tractor) {
  const auto litres = [&](KiloWatt used) {
    return machinery::fuel_rate(std::min(used, tractor.pto_power), tractor.pto_power).value();
  };
  const double rate = row.rate.value();
  row.fuel = LitrePerHa{litres(row.power.asked) / rate};
  row.fuel_low = LitrePerHa{(1.0 - machinery::fuel_band) * litres(row.power.low) / rate};
  row.fuel_high = LitrePerHa{(1.0 + machinery::fuel_band) * litres(row.power.high) / rate};
  row.fuel_per_hour =
      litres(row.power.asked) * (1.0 + farm.prices.lubricant_share) * farm.prices.diesel_per_l;
  const machinery::HourlyCost c = machinery::hourly_cost(tractor.owning);
  row.hourly.repair = row.hourly.repair + c.repair;
  row.hourly.ownership = row.hourly.ownership + c.ownership;
  return row;
}

MachineRow row_for(const Farm& farm, Job job) {
  const machinery::Implement& i = farm.implements[job.implement];
  job.field = hardest_field(farm, job);
  MachineRow row{.job = job, .tractor = {}, .power = {}, .rate = rate_of(farm, job)};
  if (!i.hire) row.hourly = machinery::hourly_cost(i.owning);
  row.power = power_asked(farm, job, machinery::Drive::front_assist);
  const bool own = farm.book.operations[job.operation].tractor && !(i.hire && i.hire->brings_tractor);
  if (!own) return row;
  row.tractor = tractor_for(farm, job);
  row.refused = !row.tractor;
  if (row.refused) return row;
  const machinery::Tractor& tractor = farm.tractors[*row.tractor];
  row.power = power_asked(farm, job, tractor.drive);
  return with_fuel(farm, with_traction(farm, row, tractor), tractor);
}

}  // namespace

std::vector<MachineRow> machine_table(const Farm& farm) {
  std::vector<MachineRow> rows;
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    std::set<machinery::Ground> done;
    for (std::size_t o = 0; o < farm.book.operations.size(); ++o) {
      const method::Operation& op = farm.book.operations[o];
      if (op.implement != farm.implements[i].kind || !done.insert(ground_of(op)).second) continue;
      rows.push_back(row_for(farm, {i, o, 0}));
    }
  }
  return rows;
}

}  // namespace aftercut::farm
