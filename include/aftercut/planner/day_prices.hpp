#pragma once
// Prices on the minutes of every machine and person on every day of every weather year, and what a hectare of
// work costs on a day when they are paid.

#include <array>
#include <optional>
#include <vector>

#include "aftercut/dispatch/table.hpp"

namespace aftercut::planner {

/// Tractors first, then implements, then operators.
struct Resources {
  std::size_t tractors = 0, implements = 0, operators = 0;
  std::size_t days = 0;
  std::vector<double> minutes;  ///< [resource * days + day] there for work, the same in all years
  [[nodiscard]] std::size_t count() const { return tractors + implements + operators; }
  [[nodiscard]] std::size_t tractor(int i) const { return static_cast<std::size_t>(i); }
  [[nodiscard]] std::size_t implement(int i) const { return tractors + static_cast<std::size_t>(i); }
  [[nodiscard]] std::size_t person(int i) const {
    return tractors + implements + static_cast<std::size_t>(i);
  }
};
Resources resources_of(const dispatch::Table& table);

/// Cents a minute, [resource * days + day], of one weather year.
using DayPrices = std::vector<double>;

/// The prices times the minutes that are there [cents].
double paid_back(const Resources& resources, const DayPrices& prices);

/// The cheapest way to do an operation on a field on a day.
struct Way {
  double cents_per_ha = 0.0;
  double minutes_per_ha = 0.0;
  int tractor = plan::none, implement = plan::none;
  std::array<int, 4> crew{plan::none, plan::none, plan::none, plan::none};
  bool possible = false;
};
Way cheapest_way(const dispatch::Table& table, const Resources& resources, const DayPrices& prices,
                 std::size_t field, int operation, int day, double draft = 1.0);

/// Most hectares of the operation that one outfit can do on the field in a day.
double most_ha_a_day(const dispatch::Table& table, const Resources& resources, std::size_t field,
                     int operation);

}  // namespace aftercut::planner
