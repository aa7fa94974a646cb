#pragma once
// Why a field's method was chosen, in numbers: against the next best possible one, with the rest of the plan
// as it is. Money in cents of the whole farm, mean over all years unless said otherwise.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/plan/decision.hpp"

namespace aftercut::plan {

/// A price that a break-even is told for, and what it is paid for.
enum class PriceOf {
  straw,       ///< by the tonne as baled and sold
  straw_area,  ///< by the hectare baled
  straw_bale,  ///< by the bale sold
  diesel,      ///< by the litre from the farm's tank
  water,       ///< by the m3 from the canal
  hire_area,   ///< of one outfit, by the hectare
  hire_hour,
  hire_mass,  ///< by the tonne as baled
  hire_bale
};
/// Every price with the key and the unit that it has in outputs, in the order of PriceOf.
struct PriceWord {
  const char* key;
  const char* unit;
};
inline constexpr std::array<PriceWord, 9> price_words{{{"straw", "t"},
                                                       {"straw_area", "ha"},
                                                       {"straw_bale", "bale"},
                                                       {"diesel", "L"},
                                                       {"water", "m3"},
                                                       {"hire_area", "ha"},
                                                       {"hire_hour", "h"},
                                                       {"hire_mass", "t"},
                                                       {"hire_bale", "bale"}}};

/// A price above so many times today's, or below that share of it, is told as out of reach; the straw price
/// may fall to nothing.
inline constexpr double break_even_reach = 4.0;

/// The price at which both methods cost the farm the same, if the work stays as it is in the runs.
struct BreakEven {
  PriceOf of = PriceOf::straw;
  int implement = none;                           ///< of a hire price
  double now = 0.0;                               ///< money by the unit
  double chosen_amount = 0.0, next_amount = 0.0;  ///< units of the whole farm, mean a year
  std::optional<double> even;                     ///< none: out of reach
  friend bool operator==(const BreakEven&, const BreakEven&) = default;
};

/// What makes the difference, in words: price, machine, days, burn, water, lease or sharing.
struct Decider {
  std::string what, text;
  friend bool operator==(const Decider&, const Decider&) = default;
};

/// The next best possible method of a field beside the chosen one. Differences are next minus chosen: above
/// zero the chosen one is cheaper.
struct NextBest {
  int method = none;
  std::int64_t saves = 0;                   ///< of the whole farm
  std::vector<std::int64_t> saves_by_year;  ///< in the order of Plan::years
  double spread = 0.0;                      ///< standard error of the mean over years, cents
  CostParts parts;                          ///< of the whole farm
  std::int64_t on_other_fields = 0;         ///< of `saves`, what falls on other fields
  std::vector<Decider> decides;
  std::vector<BreakEven> break_even;
  std::optional<std::int64_t> saves_cut_earlier;  ///< the field cut `earlier_days` earlier; none: cut already
  int earlier_days = 0;
};

/// Why the next best is as good as the chosen one. All false: it is not.
struct TossUp {
  bool margin = false;        ///< the difference is within the farm's margin
  bool years = false;         ///< it is within one standard error over the weather years
  bool straw_price = false;   ///< its sign turns within the spread entered for the straw price
  bool diesel_price = false;  ///< the same for diesel
  [[nodiscard]] bool any() const { return margin || years || straw_price || diesel_price; }
  friend bool operator==(const TossUp&, const TossUp&) = default;
};

}  // namespace aftercut::plan
