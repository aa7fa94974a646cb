#pragma once
// Inside room journal: what was seen on a field puts right what the model had thought of it (docs/journal.md,
// "What is seen").

#include "aftercut/journal/state.hpp"

namespace aftercut::journal {

/// How far off straw and water may be, as standard deviations. Source: StateSpread (assumed)
inline constexpr double load_spread = 0.15;             ///< of the straw at harvest, from the yield
inline constexpr double given_load_spread = 0.08;       ///< of a load that was entered
inline constexpr double decay_spread = 0.25;            ///< of the share that rots
inline constexpr double cover_spread = 0.05;            ///< of a line count, in share of cover
inline constexpr double weighed_spread = 0.10;          ///< of straw that was weighed
inline constexpr double seedbed_content_spread = 0.03;  ///< m3/m3, of the seedbed when it was never looked at
inline constexpr double seedbed_forgets_days = 4.0;     ///< in which the spread grows to 63 % of that

/// Both give what was seen beside what was thought; nothing where a sight says nothing new.
std::vector<Difference> put_straw_right(FieldState& field, season::FieldYear& life,
                                        const farm::FieldSeen& seen, int day);
std::vector<Difference> put_water_right(FieldState& field, season::FieldYear& life,
                                        const farm::FieldSeen& seen, int slow_days, int day);

/// A normal value of this mean and spread, known to lie above `limit` (or below it).
struct Cut {
  double mean = 0.0, spread = 0.0;
};
Cut known_above(double mean, double spread, double limit);
Cut known_below(double mean, double spread, double limit);

}  // namespace aftercut::journal
