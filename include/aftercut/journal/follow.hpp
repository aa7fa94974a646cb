#pragma once
// The fields' state as the journal grows: each entry costs the days since it, not the whole season again.

#include <memory>

#include "aftercut/journal/state.hpp"

namespace aftercut::journal {

class Follow {
 public:
  /// From the season's first day, with nothing done yet. The problem's own events are not looked at.
  explicit Follow(const farm::Problem& problem);
  Follow(Follow&&) noexcept;
  ~Follow();
  /// One more event; it may lie before others. An event with the same seq as an earlier one takes its place.
  void add(const farm::Happened& event);
  void take_back(int seq);
  /// The state on the morning of a season day, what was seen that morning included.
  State on(int day);

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

}  // namespace aftercut::journal
