#include "aftercut/scenario/bales.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/core/customary.hpp"
#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/hired.hpp"
#include "aftercut/machinery/bales.hpp"

namespace aftercut::scenario {
namespace {

bool uses(const farm::Farm& farm, const method::Recipe& recipe, const std::string& kind) {
  return std::any_of(recipe.steps.begin(), recipe.steps.end(), [&](const method::Step& s) {
    return farm.book.operations[static_cast<std::size_t>(s.operation)].implement == kind;
  });
}

}  // namespace

plan::BaleCount count_bales(const farm::Farm& farm, const farm::Field& field,
                            const std::vector<plan::FieldRun>& runs) {
  std::vector<double> bales;
  for (const plan::FieldRun& run : runs)
    bales.push_back(machinery::bales_of(
        Kilogram{run.baled_kg_per_ha * field.area.value() / machinery::bale_dry_share}, farm.bales));
  plan::BaleCount count;
  count.bales = {quantile(bales, 0.1), quantile(bales, 0.5), quantile(bales, 0.9)};
  const auto middle = machinery::loads_of(static_cast<int>(std::ceil(count.bales.p50)), farm.bales);
  count.loads = middle.loads;
  count.twine_m = middle.twine.value();
  return count;
}

std::string bale_words(const farm::Farm& farm, const plan::BaleCount& count) {
  if (count.bales.p90 <= 0.0) return "no bales in most years";
  const bool us = farm.units == farm::UnitSystem::us;
  const double km = count.twine_m / 1000.0;
  return fmt::format(
      "about {:.0f} bales in the middle year ({:.0f} to {:.0f}), {:.0f} loads of {}, {:.1f} {} of twine",
      std::ceil(count.bales.p50), count.bales.p10, count.bales.p90, count.loads, farm.bales.per_load,
      us ? km / km_per_mile : km, us ? "miles" : "km");
}

std::vector<std::string> hire_notes(const dispatch::Table& t, const plan::Decision& decision,
                                    const method::Recipe& recipe) {
  const farm::Farm& farm = t.problem->farm;
  const bool us = farm.units == farm::UnitSystem::us;
  const auto area = [&](double ha) {
    return fmt::format("{:.0f} {}", us ? ha / ha_per_acre : ha, us ? "acres" : "ha");
  };
  std::vector<std::string> notes;
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    const auto& hire = farm.implements[i].hire;
    if (!hire || hire->with || !uses(farm, recipe, farm.implements[i].kind)) continue;
    const double asked = dispatch::area_asked(t, decision, static_cast<int>(i));
    if (asked + 1e-9 < hire->least_area.value())
      notes.push_back(
          fmt::format("{} {}: {} for it in this plan", farm.implements[i].name,
                      hire->below_least == machinery::BelowLeast::stays_away
                          ? "does not come for less than " + area(hire->least_area.value()) + " a season"
                          : "charges for at least " + area(hire->least_area.value()) + " a season",
                      area(asked)));
    if (hire->comes.empty()) continue;
    int missed = 0;
    for (std::size_t y = 0; y < t.drivers.size(); ++y)
      missed += dispatch::HiredSeason{t, decision, y, true}.there_from()[i] >= farm.season.days ? 1 : 0;
    if (missed > 0)
      notes.push_back(fmt::format("{} does not come in {} of {} years", farm.implements[i].name, missed,
                                  t.drivers.size()));
  }
  return notes;
}

}  // namespace aftercut::scenario
