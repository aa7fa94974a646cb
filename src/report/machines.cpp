#include "aftercut/report/machines.hpp"

#include <algorithm>

#include "aftercut/core/customary.hpp"
#include "aftercut/machinery/traction.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

/// Power, area and fuel as the farm shows them.
struct Shown {
  bool us = false;
  [[nodiscard]] double power(KiloWatt p) const { return us ? p.value() / kw_per_hp : p.value(); }
  [[nodiscard]] double area(double ha) const { return us ? ha / ha_per_acre : ha; }
  [[nodiscard]] double fuel(LitrePerHa f) const {
    return us ? f.value() / l_per_gal * ha_per_acre : f.value();
  }
  [[nodiscard]] const char* power_unit() const { return us ? "hp" : "kW"; }
  [[nodiscard]] const char* area_unit() const { return us ? "ac" : "ha"; }
  [[nodiscard]] const char* fuel_unit() const { return us ? "gal/ac" : "L/ha"; }
};
Shown shown(const farm::Farm& farm) { return {farm.units == farm::UnitSystem::us}; }

std::string machine_row(const std::array<std::string, 12>& c) {
  return fmt::format("{} {} {} {} {} {} {} {} {} {} {} {}\n", fit(c[0], 16), fit(c[1], 8), fit(c[2], 7),
                     fit(c[3], 4, true), fit(c[4], 8, true), fit(c[5], 5, true), fit(c[6], 5, true),
                     fit(c[7], 6, true), fit(c[8], 10, true), fit(c[9], 8, true), fit(c[10], 5, true),
                     fit(c[11], 4, true));
}

std::string slip_words(const farm::MachineRow& r) {
  if (r.spins) return "spins";
  if (!r.slip) return "-";
  return fmt::format("{:.0f}/{:.0f} %", 100.0 * *r.slip, 100.0 * *r.traction_efficiency);
}

std::string machine_line(const farm::Farm& farm, const farm::MachineRow& r) {
  const Shown u = shown(farm);
  const machinery::Implement& i = farm.implements[r.job.implement];
  const auto& op = farm.book.operations[r.job.operation];
  const bool pulled = r.tractor.has_value();
  const double rate = r.rate.value();
  const double hour = r.hourly.repair.value() + r.hourly.ownership.value() + r.fuel_per_hour.value();
  const KiloWatt rated = pulled ? farm.tractors[*r.tractor].pto_power : KiloWatt{0.0};
  const bool asks = r.power.asked.value() > 0.0;
  const std::string tractor = pulled ? farm.tractors[*r.tractor].id.value : i.hire ? "hired" : "-";
  return machine_row(
      {i.id.value, op.name, tractor, asks ? fmt::format("{:.0f}", u.power(r.power.asked)) : "-",
       asks ? fmt::format("{:.0f}-{:.0f}", u.power(r.power.low), u.power(r.power.high)) : "-",
       r.refused ? "NONE"
       : pulled  ? fmt::format("{:.0f} %", 100.0 * (r.power.asked / rated))
                 : "-",
       fmt::format("{:.2f}", u.area(rate)), pulled ? fmt::format("{:.1f}", u.fuel(r.fuel)) : "-",
       pulled ? fmt::format("{:.1f}-{:.1f}", u.fuel(r.fuel_low), u.fuel(r.fuel_high)) : "-", slip_words(r),
       r.refused || i.hire ? "-" : fmt::format("{:.0f}", hour),
       r.refused || i.hire ? "-" : fmt::format("{:.0f}", hour / u.area(rate))});
}

std::string tractor_line(const farm::Farm& farm, const machinery::Tractor& t) {
  static constexpr const char* drives[] = {"two wheels", "front assist", "four wheels", "tracks"};
  const Shown u = shown(farm);
  const machinery::HourlyCost c = machinery::hourly_cost(t.owning);
  const double left =
      machinery::remaining_value(t.owning.value_class, t.owning.years, t.owning.hours_per_year).value();
  return fmt::format(
      "{} {} {} {} {} {}\n", fit("  " + t.id.value, 20), fit(drives[static_cast<std::size_t>(t.drive)], 13),
      fit(fmt::format("{:.0f} {}", u.power(t.pto_power), u.power_unit()), 9, true),
      fit(fmt::format("{:.2f}", c.repair.value()), 11, true),
      fit(fmt::format("{:.2f}", c.ownership.value()), 12, true),
      fit(fmt::format("{:.0f} % of price after {:.0f} years", 100.0 * left, t.owning.years), 30, true));
}

std::string away_words(const std::string& id, const std::vector<machinery::DateRange>& away) {
  std::string out;
  for (const auto& r : away)
    out += "  " +
           wrapped(fmt::format("{} is away {} to {}{}", id, short_date(r.from), short_date(r.to),
                               r.why.empty() ? "" : ": " + r.why),
                   terminal_width - 2, 4) +
           "\n";
  return out;
}

std::string notes(const farm::Farm& farm) {
  std::string out;
  for (const auto& note : farm::power_notes(farm))
    out += "  " + wrapped("! " + note, terminal_width - 2, 4) + "\n";
  for (const auto& t : farm.tractors) out += away_words(t.id.value, t.away);
  for (const auto& i : farm.implements) out += away_words(i.id.value, i.away);
  return out;
}

}  // namespace

std::string machines_text(const farm::Farm& farm) {
  const Shown u = shown(farm);
  std::string out = machine_row({"Implement", "work", "tractor", u.power_unit(), "band", "share",
                                 std::string{u.area_unit()} + "/h", u.fuel_unit(), "band", "slip/eff", "/h",
                                 std::string{"/"} + u.area_unit()}) +
                    std::string(terminal_width, '-') + "\n";
  for (const farm::MachineRow& r : farm::machine_table(farm)) out += machine_line(farm, r);
  out += fmt::format("\n{} {} {} {} {} {}\n", fit("Tractor", 20), fit("drive", 13), fit("PTO", 9, true),
                     fit("repair/h", 11, true), fit("ownership/h", 12, true), fit("value left", 30, true));
  for (const auto& t : farm.tractors) out += tractor_line(farm, t);
  out += notes(farm);
  return out +
         wrapped(
             fmt::format(
                 "Each implement with the weakest tractor that pulls it, on the field that asks most of it. "
                 "{} "
                 "asked for at the PTO with the stated range of the draft or power value, share of that "
                 "tractor's power, fuel with that range and {:.0f} % either way on top. Slip and traction "
                 "efficiency: bias-ply tyres, a tractor of 75 kg per kW on usual ground (assumed); none for "
                 "tracks. Costs in {} of {}: repair, ownership, fuel and oil of tractor and implement, "
                 "without "
                 "labour; a hired outfit's are its prices.",
                 u.power_unit(), 100.0 * machinery::fuel_band, farm.currency, farm.prices.price_year),
             terminal_width, 0) +
         "\n";
}

}  // namespace aftercut::report
