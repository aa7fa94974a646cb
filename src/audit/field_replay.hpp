#pragma once
// One field in a replayed year: its life, its standing, and the outcome as it grows.

#include <map>

#include "facts.hpp"
#include "findings.hpp"
#include "next_crop.hpp"
#include "steps.hpp"
#include "winter.hpp"

namespace aftercut::audit {

/// What a hired outfit did and was paid on one field, its coming aside.
struct HiredWork {
  double ha = 0.0;
  std::int64_t cents = 0;
};

struct FieldReplay {
  season::FieldYear life;
  Standing standing;
  plan::FieldRun run;
  season::DayMask mask;
  bool living = true;         ///< not ready yet
  bool pass_ends = false;     ///< today
  bool filled = false;        ///< filled, and the boards are still in
  bool watered = false;       ///< this year
  bool weighed = false;       ///< straw left has been taken
  bool spring_begun = false;  ///< before the plan's first day
  bool begun = false;         ///< cut, and not before the plan's first day
  bool boards_this_morning = false;
  int lease_days = 0;
  double water_mm = 0.0;                ///< today
  std::map<int, HiredWork> hired = {};  ///< by implement
  Seen seen;
  std::optional<season::StrawLedger> straw_when_ready = {};
  std::vector<plan::WinterMorning> winter = {};  ///< a morning a week until planting
};

FieldReplay start(const Facts& facts, int field, int recipe, const season::YearDrivers& drivers);
/// The morning: falls back, passes over, reads the mask.
FieldReplay wake(const Facts& facts, int field, FieldReplay f, int day);

struct Worked {
  FieldReplay field;
  Findings findings;
};
/// One stretch is looked at and done. `first_call` is true on the first stretch of a hired outfit in the
/// year.
Worked work(const Facts& facts, const Place& place, FieldReplay f, const plan::Work& w, bool first_call);
/// Canal water of today. `met`: all that was asked for by the fill.
FieldReplay let_in(const Facts& facts, int field, FieldReplay f, double m3);
/// The evening: effects, boards, water, straw, ready or not.
FieldReplay rest(const Facts& facts, int field, FieldReplay f, int day);
/// The season is over: status, straw, money of the outcome.
plan::FieldRun close(const Facts& facts, int field, const FieldReplay& f);

}  // namespace aftercut::audit
