#pragma once
// What became of a field's straw in earlier seasons, as entered or carried over.

#include <optional>
#include <string>

#include "aftercut/core/date.hpp"
#include "aftercut/core/quantity.hpp"

namespace aftercut::farm {

struct PastSeason {
  int year = 0;                  ///< in which its harvest began
  std::string method;            ///< id; empty: not known, or no work was done
  bool burned = false;           ///< fire went over it
  std::optional<KgPerHa> grain;  ///< as delivered
  std::optional<Date> ready;     ///< seedbed finished
  friend bool operator==(const PastSeason&, const PastSeason&) = default;
};

}  // namespace aftercut::farm
