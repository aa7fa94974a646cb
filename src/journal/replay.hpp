#pragma once
// Inside room journal: the farm's days one after the other, from what happened on each.

#include <span>

#include "aftercut/journal/state.hpp"

namespace aftercut::journal {

class Replay {
 public:
  explicit Replay(const farm::Problem& problem);
  Replay(const Replay&) = delete;
  Replay& operator=(const Replay&) = delete;

  /// The season's first morning.
  [[nodiscard]] State begin() const;
  /// What was seen on the morning, put right.
  State look(State state, std::span<const farm::Happened> today);
  /// The day lived: looks, work, water; the next morning.
  State next(State state, std::span<const farm::Happened> today);
  /// Rain that a gauge caught, in the place of the record's; the record's again before it is set anew.
  void forget_rain(int day);
  void catch_rain(int day, const farm::RainCaught& rain);

 private:
  season::FieldYear& at(const State& state, std::size_t field);
  [[nodiscard]] std::vector<char> standing(const State& state) const;
  void turn_water(State& state, std::span<const farm::Happened> today) const;
  void count_lease(State& state) const;
  std::vector<double> let_in(State& state, std::span<const farm::Happened> today);
  void note_fill(FieldState& field, int day) const;
  void live(State& state, std::size_t field, double water_in_mm);

  const farm::Problem* problem_;
  std::vector<season::YearDrivers> drivers_;  // [field]
  std::vector<season::FieldYear> lives_;      // [field]
};

}  // namespace aftercut::journal
