#pragma once
// Readiness through the season, and what a storm in the forecast asks for, as values.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"

namespace aftercut::plan {

/// One field on one day.
struct FieldLook {
  std::string field, method;  ///< ids; method empty: none
  double chance = 0.0;        ///< of a ready seedbed by planting
  double wanted = 0.0;
  std::optional<Date> last_safe_start;  ///< of its next step
  bool begun = false;                   ///< its method is under way
  std::optional<Date> ready;            ///< its seedbed has been ready since
  friend bool operator==(const FieldLook&, const FieldLook&) = default;
};

/// One day's look at the fields on which a seedbed is due, in the farm's order.
struct Look {
  Date day;
  std::vector<FieldLook> fields;
  friend bool operator==(const Look&, const Look&) = default;
};

/// Something that needs a decision.
enum class Calls { below_wanted, start_soon, start_passed, no_method };
struct Call {
  Calls what = Calls::below_wanted;
  FieldLook look;
  friend bool operator==(const Call&, const Call&) = default;
};

/// A field that is not as it was on the look before.
struct LookChange {
  FieldLook before, now;
  friend bool operator==(const LookChange&, const LookChange&) = default;
};

/// Season days with rain, of the first such days that make a storm.
struct StormAhead {
  int first_day = 0, last_day = 0;
  double rain_mm = 0.0;
  friend bool operator==(const StormAhead&, const StormAhead&) = default;
};

/// The next work of a field, done before the storm against left until after it.
struct Rush {
  int field = 0;
  int operation = 0;
  double hours = 0.0;              ///< of its best outfit for what is left of the pass
  std::int64_t avoided_cents = 0;  ///< of the whole farm in the mean year
  [[nodiscard]] double cents_per_hour() const {
    return hours > 0.0 ? static_cast<double>(avoided_cents) / hours : 0.0;
  }
};

struct StormList {
  StormAhead storm;
  std::vector<Rush> rush;      ///< dearest hour first; only fields that gain
  std::vector<int> bales;      ///< fields with bales on them
  std::vector<int> boards;     ///< fields with boards in whose next work wants dry ground
  std::vector<int> soft_ways;  ///< fields with bales whose way to the yard carries no wagon after rain
};

/// The days ahead as they look on one morning, under the plan that stands.
struct Ahead {
  Look look;
  std::optional<Look> before;  ///< the last look of a day before
  std::vector<Call> calls;
  std::vector<LookChange> changes;  ///< since `before`
  std::optional<StormList> storm;   ///< none: no storm in the forecast
};

}  // namespace aftercut::plan
