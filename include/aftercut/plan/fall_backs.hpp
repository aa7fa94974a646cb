#pragma once
// What a plan's methods hang on beside the farm's own machines and people, and what holds when none of it
// comes (docs/rules-of-work.md, "When the others do not come").

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace aftercut::plan {

/// What has to come for a method to run: the authority's call, a hired outfit, days that dry the straw,
/// water from the canal, rain behind the boards.
enum class Trigger { burn_call, hired_outfit, dry_days, canal_water, caught_rain };
/// Key in outputs, by Trigger.
inline constexpr std::array<const char*, 5> trigger_keys{"burn_call", "hired_outfit", "dry_days",
                                                         "canal_water", "caught_rain"};

/// What one field does in a what-if in which its trigger does not come.
struct Instead {
  int from_day = -1;         ///< season day; -1: the field's method as it is
  int method = -1;           ///< takes over on that morning; -1: the field's own method goes on
  std::vector<int> without;  ///< operations that are never done; their steps are passed over from that day on
  friend bool operator==(const Instead&, const Instead&) = default;
};

/// The storm of a what-if: these days of the record, laid on its first days.
struct Storm {
  int year = 0;  ///< weather year in which it fell
  int day = 0;   ///< season day on which it began there
  int days = 0;
  double rain_mm = 0.0;
  friend bool operator==(const Storm&, const Storm&) = default;
};

/// One trigger of one field's chosen method.
struct HangsOn {
  Trigger trigger = Trigger::burn_call;
  std::string words;            ///< what has not come
  int method = -1;              ///< takes over; -1: the method goes on without
  std::string instead;          ///< what the field then does, in words
  std::optional<int> rule_day;  ///< season day on which the recipe itself goes over
  double chance_taken = 0.0;    ///< share of the shown years in which it does not come in time
  int test = -1;                ///< index into Plan::fall_back_tests, of its kind
};

/// The fall-backs of many fields at once: nothing that they hang on comes, and on the day on which they start
/// a storm does.
struct FallBackTest {
  std::vector<Trigger> triggers;  ///< of the fields; several: all kinds together
  std::string words;              ///< what does not come
  std::vector<int> fields;
  std::optional<int> start_by;  ///< last day of the weekly grid on which they fit; none: not even at once
  int day = 0;                  ///< of the runs that are kept: start_by, else the first day
  Storm storm;                  ///< on that day
  double chance = 0.0;          ///< share of the shown years in which all are done in time, from that day
  double chance_ready = 0.0;    ///< and in which every seedbed of them is ready by planting
  std::optional<int> rule_day;  ///< latest day on which a recipe of them goes over
  double chance_by_rule = 0.0;  ///< the same share from that day
  [[nodiscard]] bool late() const { return !start_by || (rule_day && *rule_day > *start_by); }
};

}  // namespace aftercut::plan
