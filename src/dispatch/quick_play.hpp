#pragma once
// Inside room dispatch: one quick run in the making.

#include <optional>
#include <span>

#include "aftercut/dispatch/burn_day.hpp"
#include "aftercut/dispatch/quick_runs.hpp"
#include "aftercut/dispatch/waterways.hpp"

namespace aftercut::dispatch {

class QuickRuns::Play {
 public:
  explicit Play(const Table& table);
  /// `record`: mornings and what asked for work are kept.
  void set_year(const plan::Decision& decision, std::size_t year,
                const std::vector<std::unique_ptr<Spells>>& spells, bool record);
  /// Every field on its first morning.
  void start();
  /// From a morning on; fields whose first morning is still to come start under their own method.
  void go_on(const QuickMorning& morning);
  /// To the season's end.
  void play();
  [[nodiscard]] std::int64_t cents() const { return record_.cents; }
  QuickRecord taken() { return std::move(record_); }
  [[nodiscard]] const std::vector<std::uint64_t>& in_time() const { return in_time_; }
  [[nodiscard]] std::size_t words() const { return words_; }

 private:
  void enter_first(std::size_t f);
  void enter(std::size_t f, int spell);
  [[nodiscard]] double asked_ha(std::size_t f) const;
  [[nodiscard]] double left_ha(std::size_t f) const;
  void look_again(std::size_t f, int from);
  void put_on_agenda(std::size_t f);
  void leave(std::size_t f, int last);
  void live_day(int day);
  void wake(std::size_t f, int day);
  void serve_all(bool spring, int day);
  void serve(std::size_t f, int day);
  void fill(std::size_t f, int day, const Spell& spell);
  void pay_water(std::size_t f, double m3);
  void work(std::size_t f, int day, const Spell& spell, const method::Operation& op);
  void wait_for_call(std::size_t f, int day, int operation, const Stretch& wanted);
  void book(std::size_t f, int operation, const Stretch& x);
  void sell(std::size_t f, const SpellEnd& end);
  void rest(std::size_t f, int day);
  const MorningWater& morning(int day);
  [[nodiscard]] std::vector<int> out_of_turn(std::size_t f, int operation) const;
  [[nodiscard]] bool is_ready(std::size_t f, const Spell& spell) const;
  void close(std::size_t f);

  const Table& t_;
  const farm::Farm& farm_;
  const plan::Decision* decision_ = nullptr;
  std::size_t year_ = 0, words_ = 0;
  int today_ = 0;
  const std::vector<std::unique_ptr<Spells>>* spells_ = nullptr;  // [field]
  std::optional<HiredSeason> hired_;
  DayPool pool_;
  std::vector<QuickField> fields_;
  std::vector<std::uint64_t> agenda_;                   // [day * words_ + word] fields to look at
  std::array<std::vector<std::uint64_t>, 2> by_place_;  // [spring] today's, by place in the list
  std::array<std::vector<std::size_t>, 2> place_;       // [spring][field]
  std::vector<std::size_t> ended_;                      // today
  MorningWater morning_;
  bool linked_ = false, morning_known_ = false, records_ = true;
  double flow_left_m3_ = 0.0, drained_today_ha_ = 0.0;
  BurnTally burned_;
  std::vector<std::uint64_t> in_time_;  // [word] fields ready by their planting date
  QuickRecord record_;
};

}  // namespace aftercut::dispatch
