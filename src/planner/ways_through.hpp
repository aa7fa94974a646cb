#pragma once
// Inside room planner: the ways in which a method may go in one weather year, priced.

#include <limits>
#include <optional>

#include "aftercut/planner/bound.hpp"

namespace aftercut::planner {

inline constexpr double infinite = std::numeric_limits<double>::infinity();

/// Prices that prove something: for every weather year, none below zero. Anything else is our own fault.
void require_prices(const BoundModel& model, const std::vector<DayPrices>& prices);

/// One field in one weather year: passes priced as they are asked for.
class FieldPrices {
 public:
  FieldPrices(const BoundModel& model, std::size_t field, const DayPrices& prices);
  Way way(const Opening& opening, std::size_t open_day);
  std::vector<PricedPass> priced(const Chain& chain);

 private:
  const BoundModel& m_;
  std::size_t field_;
  const DayPrices& prices_;
  std::vector<std::vector<std::optional<Way>>> ways_;  // [operation][day], in ground of least draft
};

struct Least {
  double cents = infinite;
  const Openings* openings = nullptr;
  WayThrough way;
};

/// The cheapest way of a method in one year; ways that are dearer even without prices are not looked at.
Least least_of(const BoundModel& model, FieldPrices& prices, std::size_t field, const Openings& openings,
               const std::vector<WayThrough>& ways);

/// The ways of a method, what they cost without prices, the cheapest first.
std::vector<WayThrough> ways_of(const BoundModel& model, FieldPrices& without, std::size_t field,
                                const Openings& openings);

/// Adds the minutes of a way's cheapest days, [resource * days + day].
void add_use_of(const BoundModel& model, FieldPrices& prices, std::size_t field, const Least& least,
                DayPrices& used);

}  // namespace aftercut::planner
