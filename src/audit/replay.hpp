#pragma once
// One weather year lived again: the stated work and water are done day by day, every rule is looked at, and
// what should have come of it is worked out.

#include <map>
#include <vector>

#include "facts.hpp"
#include "findings.hpp"

namespace aftercut::audit {

struct Replayed {
  Findings findings;
  std::vector<plan::FieldRun> fields;    ///< [field] as the replay finds them
  std::map<int, plan::CostParts> money;  ///< [12 year + month - 1] of all fields
  std::vector<double> untouched_on_top;  ///< [field] straw on a field left alone, when spring work began
  std::vector<std::vector<plan::WinterMorning>> winter;  ///< [field][week]
};
/// `year` is an index into the problem's years.
Replayed replay(const Facts& facts, const plan::Decision& decision, const plan::YearRun& run,
                std::size_t year);

/// The run lived again, with every field's outcome held against what the run states; `what` says whose it is.
Replayed lived_again(const Facts& facts, const plan::Decision& decision, const plan::YearRun& run,
                     std::size_t year, const char* what);

/// Stated against replayed outcome of one field.
Findings compare_outcome(const Place& place, const plan::FieldRun& found, const plan::FieldRun& expected);

}  // namespace aftercut::audit
