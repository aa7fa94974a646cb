#pragma once
// What no plan can undercut: prices on the minutes of every machine and person, each field on its own under
// those prices with the whole weather year known, its method chosen on the mean over the years. Any prices
// give a true lower bound; better prices a higher one (docs/bound.md).

#include <cstdint>
#include <functional>
#include <vector>

#include "aftercut/planner/chain_cost.hpp"
#include "aftercut/planner/day_prices.hpp"

namespace aftercut::planner {

/// One way in which a method may go in a year: a chain of its own or of its fall-back.
struct WayThrough {
  bool own = true;
  std::size_t chain = 0;     ///< of Openings::own or Openings::fall_backs
  double rounding = 0.0;     ///< that cents can take off
  double least_cents = 0.0;  ///< without prices; prices only add
};

/// Everything of the bound that does not depend on prices.
struct BoundModel {
  const dispatch::Table* table = nullptr;
  Resources resources;
  std::vector<std::size_t> years;  ///< of the problem
  std::vector<std::vector<std::vector<std::optional<Openings>>>>
      openings;                                    ///< [field][year][recipe], none: impossible
  std::vector<std::vector<double>> most_ha_a_day;  ///< [field][operation]
  std::vector<Outcome> outcomes;                   ///< [field]
  std::vector<std::vector<std::vector<std::vector<WayThrough>>>>
      ways;  ///< [field][year][recipe] the cheapest without prices first
};
BoundModel make_bound_model(const dispatch::Table& table, std::vector<std::size_t> years, int threads);
/// Over all years of the table.
BoundModel make_bound_model(const dispatch::Table& table, int threads);

/// The bound under some prices.
struct Evaluated {
  double cents = 0.0;                          ///< sum over the years of the whole farm's out-of-pocket cost
  std::vector<std::vector<double>> by_method;  ///< [field][recipe] sum over the years, before resources are
                                               ///< paid back; infinite: impossible; of one that cannot be
                                               ///< the cheapest its cost without prices
  std::vector<int> method;                     ///< [field] the cheapest
  std::vector<DayPrices> minutes_used;         ///< [year][resource * days + day] by those methods
};
Evaluated evaluate(const BoundModel& model, const std::vector<DayPrices>& prices, int threads,
                   bool with_use = false);

/// A whole cent lower, then down to whole cents: no rounding of floating sums can lift a bound.
double rounded_down(double cents);

struct BoundInput {
  const BoundModel* model = nullptr;
  double plan_cents = 0.0;  ///< of a plan over the same years: what the climb aims at
  int rounds = 0;
  int threads = 1;
  std::function<void(double)> progress;
};

struct Bound {
  double cents = 0.0;             ///< sum over the years; rounded down
  double without_prices = 0.0;    ///< the same with nothing shared
  std::vector<DayPrices> prices;  ///< [year]
  std::vector<int> method;        ///< of the best prices
};
/// Climbs by subgradient steps; the same arguments give the same bound whatever the threads.
Bound lower_bound(const BoundInput& input);

}  // namespace aftercut::planner
