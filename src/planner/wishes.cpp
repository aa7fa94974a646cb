#include "aftercut/planner/wishes.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "aftercut/farm/wishes.hpp"

namespace aftercut::planner {
namespace {

// Shares of the unit. Tried on the demo farm (docs/decisions/0012-a-wanted-chance-in-the-search.md).
constexpr double first_share = 0.1, least_share = 0.01, most_share = 20.0;
constexpr double rise = 1.01, sink = 1.003;  // a move

}  // namespace

LeastReady least_ready(const farm::Farm& farm, std::size_t years) {
  LeastReady least;
  if (!farm::chance_binds(farm.target)) return least;
  for (const farm::Field& f : farm.fields)
    least.push_back(farm::seedbed_due(f) ? farm::years_wanted(farm::wanted_chance(farm, f), years) : 0);
  return least;
}

double short_ha_years(const farm::Farm& farm, const LeastReady& least, const std::vector<int>& ready) {
  double sum = 0.0;
  for (std::size_t f = 0; f < least.size(); ++f)
    sum += farm.fields[f].area.value() * std::max(0, least[f] - ready[f]);
  return sum;
}

ShortPrices::ShortPrices(const farm::Farm& farm, LeastReady least, double start_cents, std::size_t years)
    : farm_{&farm}, least_{std::move(least)} {
  double area = 0.0;
  for (const farm::Field& f : farm.fields) area += f.area.value();
  const double a_year = std::abs(start_cents) / (area * static_cast<double>(years));
  unit_ = std::max({100.0 * farm.prices.unplanted_per_ha.value(), a_year, 1.0});
  price_.assign(least_.size(), first_share * unit_);
}

double ShortPrices::cents(const std::vector<int>& ready) const {
  double sum = 0.0;
  for (std::size_t f = 0; f < least_.size(); ++f)
    sum += price_[f] * farm_->fields[f].area.value() * std::max(0, least_[f] - ready[f]);
  return sum;
}

void ShortPrices::learn(const std::vector<int>& ready) {
  for (std::size_t f = 0; f < least_.size(); ++f)
    price_[f] = std::clamp(ready[f] < least_[f] ? rise * price_[f] : price_[f] / sink, least_share * unit_,
                           most_share * unit_);
}

}  // namespace aftercut::planner
