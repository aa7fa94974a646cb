#include "aftercut/journal/follow.hpp"

#include <algorithm>

#include "aftercut/core/require.hpp"
#include "replay.hpp"

namespace aftercut::journal {

struct Follow::Inside {
  explicit Inside(const farm::Problem& p) : problem{&p}, replay{p}, mornings{replay.begin()} {}

  const farm::Problem* problem;
  Replay replay;
  std::vector<farm::Happened> events;  // by day, then seq
  std::vector<State> mornings;         // [day] before what was seen on it

  [[nodiscard]] int day_of(const farm::Happened& h) const { return problem->farm.season.day(h.day); }
  [[nodiscard]] std::span<const farm::Happened> on(int day) const {
    const Date date = problem->farm.season.date(day);
    // Two searches: equal_range's pair does not compile with clang 14 over g++ 12's library.
    return {std::ranges::lower_bound(events, date, {}, &farm::Happened::day),
            std::ranges::upper_bound(events, date, {}, &farm::Happened::day)};
  }
  /// Nothing after the morning of `day` is known any more, nor its rain.
  void forget_from(int day) {
    const auto keep = static_cast<std::size_t>(day) + 1;
    if (mornings.size() > keep) mornings.resize(keep);
  }
  /// The day's rain, as its gauges caught it: the farm's first, then the fields' own.
  void set_rain(int day) {
    replay.forget_rain(day);
    for (const bool own : {false, true})
      for (const farm::Happened& h : on(day))
        if (const auto* rain = std::get_if<farm::RainCaught>(&h.what); rain && rain->field.has_value() == own)
          replay.catch_rain(day, *rain);
  }
};

Follow::Follow(const farm::Problem& problem) : in_{std::make_unique<Inside>(problem)} {}
Follow::Follow(Follow&&) noexcept = default;
Follow::~Follow() = default;

void Follow::take_back(int seq) {
  const auto at = std::ranges::find(in_->events, seq, &farm::Happened::seq);
  if (at == in_->events.end()) return;
  in_->forget_from(in_->day_of(*at));
  in_->events.erase(at);
}

void Follow::add(const farm::Happened& event) {
  take_back(event.seq);
  const auto before = [](const farm::Happened& a, const farm::Happened& b) {
    return std::pair{a.day, a.seq} < std::pair{b.day, b.seq};
  };
  in_->events.insert(std::ranges::upper_bound(in_->events, event, before), event);
  in_->forget_from(in_->day_of(event));
}

State Follow::on(int day) {
  require(day >= 0 && day < in_->problem->farm.season.days, "a state is of a morning of the season");
  auto& mornings = in_->mornings;
  while (static_cast<int>(mornings.size()) <= day) {
    const int today = static_cast<int>(mornings.size()) - 1;
    in_->set_rain(today);
    State next = in_->replay.next(mornings.back(), in_->on(today));
    mornings.push_back(std::move(next));
  }
  return in_->replay.look(mornings[static_cast<std::size_t>(day)], in_->on(day));
}

}  // namespace aftercut::journal
