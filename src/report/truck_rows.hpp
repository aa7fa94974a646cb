#pragma once
// What the truck sheet says of each field, as plain texts: for paper and for a message. Internal to the room.

#include <string>
#include <vector>

#include "plan_text.hpp"
#include "sheet_words.hpp"

namespace aftercut::report::sheets {

/// The earlier of the day that was tried out and the day on which the method itself goes over; none: at once.
std::optional<Date> start_by_of(const FallBack& fall_back);
/// Start of a fall-back in words: "by the week of 26 Oct, if the baler has not come: chop, disk".
std::string fall_back_words(const Plan& plan, const FallBack& fall_back);

struct TruckRow {
  std::string field, area, method, job, when, who;
  std::vector<std::string> instead;   ///< one for each thing that it hangs on
  std::vector<std::string> water;     ///< boards in, canal water, boards out
  std::vector<std::string> keep_out;  ///< flooded ground, smoke, stacks
};
std::vector<TruckRow> truck_rows(const Plan& plan);
/// The same for a narrow table: "wk 12 Oct" for a week, letters for what has not come, single words for what
/// to keep out of; and what they stand for.
struct BriefRows {
  std::vector<TruckRow> rows;
  std::vector<std::string> legend;
};
BriefRows brief_truck_rows(const Plan& plan);

/// "Plan of Mon 12 Oct 2026. Forecast until Fri 16 Oct; later days are weeks."
std::string plan_day_words(const Plan& plan);

/// The back page: what it costs and could cost, greenhouse gas.
std::vector<std::string> truck_back(const Plan& plan);
/// What one more of a thing is worth, told ones only, the dearest first: what, a tenth, saves a year, give or
/// take.
std::vector<std::vector<std::string>> worth_rows(const Plan& plan);
/// Why there are no such rows.
std::string no_worth_words(const Plan& plan);

}  // namespace aftercut::report::sheets
