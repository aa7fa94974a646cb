#pragma once
// Machines and people of one day: who is free from when, and the next stretch of work that they can do.

#include <array>
#include <limits>
#include <optional>
#include <vector>

#include "aftercut/dispatch/progress.hpp"
#include "aftercut/dispatch/table.hpp"

namespace aftercut::dispatch {

/// A machine's or a person's day: free from, until, and where last.
struct Slot {
  int from = 0, until = 0;  ///< minutes after midnight; from >= until: not there
  int field = plan::none;
};

struct Stretch {
  const Outfit* outfit = nullptr;
  Pace pace;  ///< of the outfit on this day
  std::array<int, 4> crew{plan::none, plan::none, plan::none, plan::none};
  int start_min = 0, end_min = 0;
  double area_ha = 0.0;
  bool finishes = false;
};

/// Operators of the farm at work in it.
int people_of(const Stretch& stretch);
/// The stretch as it stands in a year's run.
plan::Work work_of(const Progress& progress, int field, int day, const Stretch& stretch);

/// A stretch that a field asks for.
struct Wanted {
  std::size_t field = 0;
  int operation = 0;
  double area_ha = 0.0;                                             ///< at most
  bool whole = false;                                               ///< only if it can be finished today
  int not_before = 0, not_after = std::numeric_limits<int>::max();  ///< minutes after midnight
  double draft_factor = 1.0;                                        ///< of the field's ground today
  std::vector<int> not_with = {};                                   ///< implements whose turn it is not
};

class DayPool {
 public:
  /// `there_from`: [implement] season day from which it is there.
  DayPool(const Table& table, std::vector<int> there_from);
  void set_there_from(const std::vector<int>& days) { there_from_ = days; }
  void start_day(int day);
  /// The first outfit of the list that is free and ends the pass today; else the one that gets furthest, of
  /// the farm's own up to the tractor that keeps its pace in today's ground. Nothing when nobody is free for
  /// a sensible stretch.
  [[nodiscard]] std::optional<Stretch> find(const Wanted& wanted) const;
  void take(const Stretch& stretch, std::size_t field);
  /// Nobody of the crew has had other work today.
  [[nodiscard]] bool all_idle(const Stretch& stretch) const;

 private:
  [[nodiscard]] int earliest(const Slot& slot, std::size_t field) const;
  struct Crew {
    std::array<int, 4> who{plan::none, plan::none, plan::none, plan::none};
    int from = 0, until = 0;
  };
  [[nodiscard]] std::optional<Crew> crew_for(int operation, std::size_t field) const;
  [[nodiscard]] std::optional<Crew> crew_with_time(const Wanted& wanted) const;

  const Table* table_;
  int day_ = 0;
  std::vector<int> there_from_;
  std::vector<Slot> tractors_, implements_, operators_;
  std::vector<int> by_pay_;  // operators, who costs least out of pocket first
};

}  // namespace aftercut::dispatch
