#include "aftercut/scenario/risk.hpp"

#include "aftercut/dispatch/money.hpp"
#include "aftercut/farm/wishes.hpp"

namespace aftercut::scenario {
namespace {

int years_ready(const RiskInput& in, std::size_t field, const std::vector<std::size_t>& years) {
  int ready = 0;
  for (const std::size_t y : years)
    ready += (*in.runs)[y].fields[field].status == plan::Status::ready ? 1 : 0;
  return ready;
}

/// From the planting date to the cut-off, a day and a hectare, mean over the fields by area [money].
std::optional<double> late_per_ha_day(const farm::Farm& farm) {
  double cents = 0.0, area = 0.0;
  for (const farm::Field& f : farm.fields) {
    const int planting = farm.season.day(f.next.planting), cut_off = farm.season.day(f.next.cut_off);
    if (!farm::seedbed_due(f) || cut_off <= planting) continue;
    cents += static_cast<double>(dispatch::late_cents(farm, f, cut_off) -
                                 dispatch::late_cents(farm, f, planting)) /
             (cut_off - planting);
    area += f.area.value();
  }
  return cents > 0.0 ? std::optional{cents / 100.0 / area} : std::nullopt;
}

}  // namespace

plan::RiskTold risk_told(const RiskInput& in) {
  const farm::Farm& farm = in.table->problem->farm;
  plan::RiskTold told{.search_years = static_cast<int>(in.searched.size()),
                      .shown_years = static_cast<int>(in.shown.size()),
                      .late_per_ha_day = late_per_ha_day(farm)};
  for (std::size_t f = 0; f < farm.fields.size(); ++f)
    if (farm::seedbed_due(farm.fields[f]))
      told.wishes.push_back({static_cast<int>(f), farm::wanted_chance(farm, farm.fields[f]),
                             years_ready(in, f, in.searched), years_ready(in, f, in.shown)});
  if (!farm::chance_binds(farm.target)) return told;
  told.in_the_way = in_the_way(in, told.wishes);
  for (plan::InTheWay& way : told.in_the_way) way.words = way_words(farm, told, way);
  return told;
}

}  // namespace aftercut::scenario
