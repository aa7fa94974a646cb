#pragma once
// What the search asks of the years beside money: in how many of them each field has to be ready by its
// planting date (docs/decisions/0012-a-wanted-chance-in-the-search.md).

#include <cstdint>
#include <tuple>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/decision.hpp"

namespace aftercut::planner {

/// [field] years out of so many; 0: nothing is asked. Empty where the farm's wanted chances do not bind.
using LeastReady = std::vector<int>;
LeastReady least_ready(const farm::Farm& farm, std::size_t years);

/// Years that fields lack, by hectares: chance short of the wish x area x years.
double short_ha_years(const farm::Farm& farm, const LeastReady& least, const std::vector<int>& ready);

/// A plan by what counts: first what it is short of its wishes, then what it costs.
struct Merit {
  double short_ha_years = 0.0;
  double cents = 0.0;
  friend bool operator<(const Merit& a, const Merit& b) {
    return std::tie(a.short_ha_years, a.cents) < std::tie(b.short_ha_years, b.cents);
  }
};

/// What a missing hectare-year of each field costs on the walk, cents: it rises while the field is short
/// where the walk stands and sinks slowly while it is not, so that the walk stays about where the wishes are
/// just met.
class ShortPrices {
 public:
  ShortPrices() = default;
  /// In units of what a hectare left unplanted loses or, where that is less, what one costs in a year.
  ShortPrices(const farm::Farm& farm, LeastReady least, double start_cents, std::size_t years);
  /// Of all that is short with so many years ready.
  [[nodiscard]] double cents(const std::vector<int>& ready) const;
  void learn(const std::vector<int>& ready);

 private:
  const farm::Farm* farm_ = nullptr;
  LeastReady least_;
  std::vector<double> price_;  // [field]
  double unit_ = 0.0;
};

}  // namespace aftercut::planner
