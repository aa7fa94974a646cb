#pragma once
// Inside room dispatch: one weather year in the making. Days and fields in run.cpp, passes in year_work.cpp,
// water in year_water.cpp.

#include <limits>

#include "aftercut/dispatch/burn_day.hpp"
#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/dispatch/hired.hpp"
#include "aftercut/dispatch/progress.hpp"
#include "aftercut/dispatch/waterways.hpp"
#include "next_crop.hpp"
#include "winter.hpp"

namespace aftercut::dispatch {

struct FieldState {
  season::FieldYear sim;
  Progress p;
  NextCropWatch watch;
  WinterWatch winter;
  plan::FieldRun out{};
  plan::CostParts billed{};  // of its cost so far
  bool live = true;
  bool pass_ends = false;  // today
  bool worked = false;     // today
  bool watered = false;    // this year
  bool straw_weighed = false;
  season::StrawLedger straw{};  // at the ready day or the season's end
  int lease_days = 0;
  int implement = plan::none;  // of the last stretch
  double water_mm = 0.0;       // today
};

/// One weather year in the making.
class YearPlay {
 public:
  YearPlay(const Table& table, const plan::Decision& decision, std::size_t year, const RunOptions& options);
  plan::YearRun play();

 private:
  [[nodiscard]] bool included(std::size_t f) const;
  void add_field(std::size_t f);
  /// Straw on and in the ground when spring work begins, or had begun by the first morning.
  static void weigh_straw(FieldState& s);
  void live_day(int day);
  [[nodiscard]] bool awake(std::size_t f, int day) const;
  void note_water(int day);
  void wake(std::size_t f, int day);
  void note_workable(std::size_t f, int day);
  void serve(int field, int day, bool spring);
  /// Lets in what the flow still gives, at most `need_mm`; true when the need was met.
  bool let_in(std::size_t f, int day, double need_mm);
  void fill(std::size_t f, int day);
  void work(std::size_t f, int day, const method::Operation& op);
  /// A crew that waits for the burn call that does not come today.
  void wait_for_call(std::size_t f, int day, const Stretch& wanted);
  /// Costs and people's minutes of a stretch.
  plan::CostParts pay(FieldState& s, int operation, const Stretch& x);
  void book(std::size_t f, int day, int operation, const Stretch& x);
  /// Hired outfits that have fields before this one in their own order.
  [[nodiscard]] std::vector<int> out_of_turn(std::size_t f, int operation) const;
  void take_effect(std::size_t f, int operation, double share);
  void rest(std::size_t f, int day);
  void go_round(std::size_t f, int day);
  /// What held up a burn that was the next step and did not come today.
  void note_not_burned(std::size_t f, int day);
  /// What a step that was still to come waited for, on a day without work.
  void note_wait(std::size_t f, int day);
  void note_ready(std::size_t f);
  void close(std::size_t f);
  /// What the day added to the fields' costs.
  void note_bills(int day);
  [[nodiscard]] int last_hire_day(std::size_t f) const;
  /// A cost that is known at the season's end, on its day.
  void charge(std::size_t f, int day, const plan::CostParts& parts);
  const Table& t_;
  const farm::Farm& farm_;
  const plan::Decision& decision_;
  std::size_t year_;
  const RunOptions& options_;
  HiredSeason hired_;
  DayPool pool_;
  std::vector<FieldState> fields_;
  plan::YearRun run_;
  int first_day_ = std::numeric_limits<int>::max();
  MorningWater morning_;
  double flow_left_m3_ = 0.0, drained_today_ha_ = 0.0;
  BurnTally burned_;
};

}  // namespace aftercut::dispatch
