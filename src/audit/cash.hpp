#pragma once
// Money by calendar month, from what each day of the replay added to the fields' costs.

#include <map>

#include "totals.hpp"

namespace aftercut::audit {

class MoneyByMonth {
 public:
  MoneyByMonth(const farm::Farm& farm, int fields);
  /// The field's cost on the evening of a day.
  void note(int field, int day, const plan::CostParts& cost);
  /// Its cost at the season's end: what came last is booked on its own days.
  void note_end(int field, const plan::CostParts& cost);
  [[nodiscard]] const std::map<int, plan::CostParts>& months() const { return months_; }

 private:
  struct OfField {
    plan::CostParts cost;
    int hired = 0;  ///< last day with money for hire
  };
  plan::CostParts& month_of_day(int day);

  const farm::Farm* farm_;
  std::vector<OfField> fields_;
  std::map<int, plan::CostParts> months_;
};

/// The plan's months against the replayed ones: every part's mean, the spread, and the sum of all.
Findings check_cash(const farm::Farm& farm, const plan::Plan& plan, const Replays& replays);

}  // namespace aftercut::audit
