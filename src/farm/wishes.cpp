#include "aftercut/farm/wishes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "parts.hpp"

namespace aftercut::farm {

double wanted_chance(const Farm& farm, const Field& field) {
  return field.next.wanted_chance.value_or(farm.target.wanted_chance);
}

int years_wanted(double chance, std::size_t years) {
  constexpr double slack = 1e-9;  // 0.8 of 15 years are 12
  return static_cast<int>(std::ceil(static_cast<double>(years) * (chance - slack)));
}

bool seedbed_due(const Field& field) { return field.next.kind != NextUseKind::fallow; }

bool chance_binds(const Target& target) { return target.risk != Risk::price; }

namespace {

/// A price of late days that has no say, or says that no crop is better than a late one.
void check_late_price(const Object& top, const Farm& farm, Risk risk) {
  const Object o = top.child("target");
  if (!farm.target.late_per_ha_day) return;
  int most_days = -1;
  for (const Field& f : farm.fields)
    if (seedbed_due(f) && !f.next.own_late_curve)
      most_days = std::max(most_days, f.next.cut_off - f.next.planting);
  const double most = most_days * farm.target.late_per_ha_day->value();
  const double unplanted = farm.prices.unplanted_per_ha.value();
  const auto fault = [&](const std::string& found, const char* expected, const char* fix) {
    o.fault("late_price", found, expected, fix);
  };
  if (risk == Risk::chance)
    fault("late_price beside risk \"chance\"", "no price of a late day: none is counted",
          "take late_price out, or set risk to \"both\"");
  else if (top.child("season").has("late_curve"))
    fault("late_price beside season.late_curve", "one of the two",
          "take out late_price or season.late_curve");
  else if (!farm.fields.empty() && most_days < 0)
    fault("late_price beside a late_curve of every field", "a field that goes by the price",
          "take out late_price or the fields' late curves");
  else if (most > unplanted + 1e-9)
    fault(fmt::format("{:.0f} {}/ha for {} days up to the cut-off", most, farm.currency, most_days),
          "no more than ground left unplanted loses (prices.unplanted)",
          "lower late_price, raise prices.unplanted or set an earlier cut_off");
}

}  // namespace

Risk read_risk(const Object& top, const Farm& farm) {
  const Object o = top.child("target");
  const auto stated = o.word("risk", {"price", "chance", "both"});
  const bool chance_stated = o.has("wanted_chance") || std::ranges::any_of(farm.fields, [](const Field& f) {
                               return f.next.wanted_chance.has_value();
                             });
  const Risk risk = stated ? static_cast<Risk>(*stated) : chance_stated ? Risk::both : Risk::price;
  check_late_price(top, farm, risk);
  return risk;
}

}  // namespace aftercut::farm
