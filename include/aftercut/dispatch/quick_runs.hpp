#pragma once
// What plans cost, quickly: the rules of `run` on spells that are already known instead of days lived again
// (docs/quick-runs.md). With the strictest likeness and no water shared between fields a quick run costs what
// the run does, to the cent.

#include <cstdint>
#include <memory>
#include <vector>

#include "aftercut/dispatch/hired.hpp"
#include "aftercut/dispatch/spells.hpp"
#include "aftercut/plan/decision.hpp"

namespace aftercut::dispatch {

/// Where a field stands in a quick run.
struct QuickField {
  int spell = 0;
  int due = 0;                 ///< the day on which it is next looked at
  int implement = plan::none;  ///< of the last stretch
  int lease_days = 0;
  int ready_day = plan::none;  ///< known when the run is over
  bool begun = false, pass_ends = false, watered = false;
  double left_ha = 0.0;    ///< of the pass
  double water_mm = 0.0;   ///< today
  std::int64_t cents = 0;  ///< out of pocket
};

/// The farm on a morning of a quick run, to go on from.
struct QuickMorning {
  int day = 0;
  std::vector<QuickField> fields;
  HiredSeason hired;
  double burned_ha = 0.0;
};

/// A quick run and what it takes to run a part of it again.
struct QuickRecord {
  std::int64_t cents = 0;
  std::vector<QuickField> fields;      ///< at the end
  std::vector<std::uint64_t> in_time;  ///< [word] a bit for each field that is ready by its planting date
  std::vector<std::uint64_t>
      asked[2];                        ///< [spring][day * words + word] fields that could have been worked on
  std::vector<QuickMorning> mornings;  ///< a few, rising
  int from_day = 0;                    ///< the first day that this record knows; before it holds the base's
  std::size_t kept_mornings = 0;       ///< of the base, that hold too
};

/// How a decision differs from the one before: one field's method, or fields' places in one list.
struct QuickChange {
  int field = plan::none;            ///< whose method changed; none: a list did
  bool spring = false;               ///< which list
  std::vector<std::uint64_t> moved;  ///< fields whose place changed against those of `across`
  std::vector<std::uint64_t> across;
};

/// Learns as it runs: two runs of one farm must not go on at the same time, and with a loose likeness what a
/// plan costs may depend on the plans asked for before.
class QuickRuns {
 public:
  QuickRuns(const Table& table, const Likeness& like);
  QuickRuns(QuickRuns&&) noexcept;
  QuickRuns& operator=(QuickRuns&&) noexcept;
  ~QuickRuns();

  /// One weather year from its first day.
  QuickRecord run(const plan::Decision& decision, std::size_t year);
  /// Its cost alone [cents].
  std::int64_t cents(const plan::Decision& decision, std::size_t year);
  /// The first day of a year on which a change can tell; the season's end when on none.
  [[nodiscard]] int first_changed_day(const QuickRecord& base, const QuickChange& change, std::size_t year);
  /// What the changed decision costs [cents]: the year again from that day.
  std::int64_t cents_from(const QuickRecord& base, const plan::Decision& changed, std::size_t year, int day);
  /// The same with a record. It knows its own days only, see `joined`.
  QuickRecord run_from(const QuickRecord& base, const plan::Decision& changed, std::size_t year, int day);
  /// The record of a changed decision as a whole.
  [[nodiscard]] QuickRecord joined(QuickRecord base, QuickRecord changed) const;

  /// [word] fields ready by their planting date in the year that was played last.
  [[nodiscard]] const std::vector<std::uint64_t>& in_time() const;
  /// 64-bit words that hold one bit for each field.
  [[nodiscard]] std::size_t words() const;
  [[nodiscard]] std::size_t spells() const;

 private:
  class Play;
  void enter_year(const plan::Decision& decision, std::size_t year, bool record);
  /// Where the changed decision's year goes on, ready to play; mornings of the base that hold too.
  std::size_t go_on(const QuickRecord& base, const plan::Decision& changed, std::size_t year, int day,
                    bool record);
  const Table* table_;
  Likeness like_;
  std::vector<std::vector<std::unique_ptr<Spells>>> spells_;  // [year][field]
  std::unique_ptr<Play> play_;
};

}  // namespace aftercut::dispatch
