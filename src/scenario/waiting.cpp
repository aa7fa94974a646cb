#include "aftercut/scenario/waiting.hpp"

#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"
#include "aftercut/farm/wishes.hpp"

namespace aftercut::scenario {
namespace {

constexpr int week = 7;
constexpr int most_weeks = 60;  // longer than any season

struct Held {
  std::size_t field = 0;
  int method = plan::none;
};

plan::Decision with_method(const plan::Decision& decision, const Held& held) {
  plan::Decision d = decision;
  d.method[held.field] = held.method;
  return d;
}

bool ready_in(const OutcomeInput& in, const Held& held, const plan::Decision& d, std::size_t year,
              int start_day) {
  const dispatch::RunOptions hold{.start_after_field = static_cast<int>(held.field),
                                  .start_after_day = start_day - 1};
  return dispatch::run(*in.table, d, year, hold).fields[held.field].status == plan::Status::ready;
}

/// Whether the wanted chance holds when the first step waits until `start_day`. Years that failed before come
/// first, so that a failure shows soon; it ends as soon as the years left cannot change the answer.
class Trials {
 public:
  Trials(const OutcomeInput& in, const Held& held)
      : in_{in}, held_{held}, decision_{with_method(*in.decision, held)}, years_{in.shown} {}

  bool safe(int start_day) {
    const farm::Farm& farm = in_.table->problem->farm;
    const double wanted = farm::wanted_chance(farm, farm.fields[held_.field]);
    const auto n = static_cast<double>(years_.size());
    std::size_t failed = 0;
    for (std::size_t k = 0; k < years_.size(); ++k) {
      if (static_cast<double>(k - failed) / n >= wanted) return true;
      if (ready_in(in_, held_, decision_, years_[k], start_day)) continue;
      ++failed;
      std::rotate(years_.begin(), years_.begin() + static_cast<std::ptrdiff_t>(k),
                  years_.begin() + static_cast<std::ptrdiff_t>(k) + 1);
      if ((n - static_cast<double>(failed)) / n < wanted) return false;
    }
    return true;
  }

 private:
  const OutcomeInput& in_;
  Held held_;
  plan::Decision decision_;
  std::vector<std::size_t> years_;
};

/// Weeks that the first step may wait: known to be safe, known or taken to be unsafe.
struct Bracket {
  int good = 0, bad = 1;
};

/// First around a guess, then by halving.
int weeks_safe(Trials& trials, Bracket b, int first, std::optional<int> guess) {
  const auto look_at = [&](int weeks) {
    if (weeks <= b.good || weeks >= b.bad) return;
    (trials.safe(first + week * weeks) ? b.good : b.bad) = weeks;
  };
  if (guess) {
    look_at(*guess);
    look_at(*guess + 1);
    look_at(*guess - 1);
  }
  while (b.bad - b.good > 1) look_at((b.good + b.bad) / 2);
  return b.good;
}

struct LastStart {
  int weeks = 0;
  std::optional<int> day;
};

/// Between at once (known to be safe) and the planting date or the fall-back.
LastStart last_start(const OutcomeInput& in, const Held& held, std::optional<int> guess) {
  const farm::Farm& farm = in.table->problem->farm;
  const int first = first_possible_day(*in.table, held.field);
  const auto& back = farm.book.recipes[static_cast<std::size_t>(held.method)].fall_back;
  Bracket b{0, std::max(1, (farm.season.day(farm.fields[held.field].next.planting) - first) / week + 1)};
  std::optional<int> last;
  if (back) {
    last = farm.season.day(back->start_by) - 1;
    if (*last < first) return {};
    b.bad = std::min(b.bad, (*last - first + week - 1) / week + 1);
  }
  Trials trials{in, held};
  const int weeks = weeks_safe(trials, b, first, back ? std::min(guess.value_or(0), b.bad - 1) : guess);
  return {weeks, last ? std::min(*last, first + week * weeks) : first + week * weeks};
}

/// [recipe] of one field; methods that go one after another often end on the same day.
std::vector<std::optional<int>> starts_of(const OutcomeInput& in, std::size_t field,
                                          const std::vector<plan::MethodOutcome>& methods) {
  const farm::Farm& farm = in.table->problem->farm;
  std::vector<std::optional<int>> starts(methods.size());
  if (!farm::seedbed_due(farm.fields[field])) return starts;
  const double wanted = farm::wanted_chance(farm, farm.fields[field]);
  std::optional<int> guess;
  for (std::size_t r = 0; r < methods.size(); ++r) {
    if (!methods[r].possible || methods[r].chance_ready < wanted) continue;
    const bool falls_back = farm.book.recipes[r].fall_back.has_value();
    const LastStart found =
        last_start(in, {field, methods[r].method}, falls_back ? std::optional{most_weeks} : guess);
    starts[r] = found.day;
    if (!falls_back && found.day) guess = found.weeks;
  }
  return starts;
}

}  // namespace

int first_possible_day(const dispatch::Table& table, std::size_t field) {
  const farm::Farm& farm = table.problem->farm;
  return std::max(table.as_of_day, farm.season.day(farm.fields[field].harvest) + 1);
}

std::vector<std::vector<std::optional<int>>> last_safe_starts(
    const OutcomeInput& in, const std::vector<std::vector<plan::MethodOutcome>>& outcomes) {
  std::vector<std::vector<std::optional<int>>> starts(outcomes.size());
  for_each_index(outcomes.size(), in.threads,
                 [&](std::size_t f) { starts[f] = starts_of(in, f, outcomes[f]); });
  return starts;
}

std::vector<std::optional<std::int64_t>> cost_of_a_week(const OutcomeInput& in) {
  const std::size_t years = in.table->drivers.size(), fields = in.decision->method.size();
  std::vector<std::int64_t> more(fields * years, 0), at_once(years, 0);
  for_each_index(years, in.threads, [&](std::size_t y) {
    at_once[y] = dispatch::cost_of(dispatch::run(*in.table, *in.decision, y));
  });
  for_each_index(fields * years, in.threads, [&](std::size_t k) {
    const std::size_t f = k / years, y = k % years;
    if (in.decision->method[f] == plan::none) return;
    const dispatch::RunOptions hold{.start_after_field = static_cast<int>(f),
                                    .start_after_day = first_possible_day(*in.table, f) + week - 1};
    more[k] = dispatch::cost_of(dispatch::run(*in.table, *in.decision, y, hold)) - at_once[y];
  });
  std::vector<std::optional<std::int64_t>> cost(fields);
  for (std::size_t f = 0; f < fields; ++f) {
    if (in.decision->method[f] == plan::none) continue;
    std::int64_t sum = 0;
    for (std::size_t y = 0; y < years; ++y) sum += more[f * years + y];
    cost[f] = to_cents(static_cast<double>(sum) / static_cast<double>(years) / 100.0);
  }
  return cost;
}

}  // namespace aftercut::scenario
