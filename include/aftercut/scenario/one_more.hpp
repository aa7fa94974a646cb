#pragma once
// What one more hour of a machine or a person, or a little more of a limit, is worth: the plan played again
// with a tenth more of it, methods and orders kept (docs/one-more.md).

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/plan/one_more.hpp"

namespace aftercut::scenario {

/// A farm with a tenth more of one thing.
struct WithMore {
  plan::MoreOf of;  ///< kind, id, unit and how much more
  farm::Problem problem;
  /// [day] whether the thing is more on it; empty: a limit of the whole season.
  std::vector<char> days;
};

/// [day] 1 on every tenth day of a season, from day `round` modulo ten on.
std::vector<char> every_tenth_day(int season_days, int round);

/// A person's days a tenth longer (never past daylight); a second machine like it on every tenth day; limits
/// a tenth higher; hired outfits a tenth more days at the end of their last window. `round` moves the tenth
/// days.
std::vector<WithMore> with_a_tenth_more(const farm::Problem& problem, int round = 0);

/// A second person and a second machine like each, there whenever the first is; limits and hired days as much
/// again.
std::vector<WithMore> with_each_twice(const farm::Problem& problem);
/// All of that together.
farm::Problem with_all_twice(const farm::Problem& problem);

/// The plan and so many neighbours of it: a few places in each list swapped. One plan's orders fit the length
/// of its days by luck, and a longer day undoes that; the mean over neighbours does not.
std::vector<plan::Decision> neighbours_of(const plan::Decision& decision, int count, std::uint64_t seed);

struct OneMoreInput {
  const dispatch::Table* table = nullptr;
  const plan::Decision* decision = nullptr;
  int plans = 6;
  int threads = 1;
  std::function<void(double)> progress;
  std::optional<std::string> only_kind = {}, only_id = {};  ///< the one thing asked for; none: all
};
/// Over all weather years of the table.
plan::OneMore one_more(const OneMoreInput& input);

}  // namespace aftercut::scenario
