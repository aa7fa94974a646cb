#pragma once
// What people write down, as values: one entry is one line of journal.jsonl (docs/journal.md). Names are the
// farm's, not yet looked up; quantities are in the unit of their name.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/ids.hpp"

namespace aftercut::journal {

/// A field was cut.
struct Harvested {
  std::optional<double> yield_kg_per_ha;  ///< grain as delivered
  std::string lay;                        ///< "windrow", "spread", "chopped"; empty: as the farm says
  std::optional<double> cut_height_cm;
  friend bool operator==(const Harvested&, const Harvested&) = default;
};

/// Work on a field on one day: begun, part done or finished.
struct Worked {
  std::string operation;          ///< its id: "disk", "bale", "burn", "boards_in", ...
  std::optional<double> area_ha;  ///< of that day; none with finished: what was left
  bool finished = false;          ///< the pass is complete
  bool no_more = false;           ///< no further pass of it is wanted; without area: it is skipped
  bool by_others = false;         ///< a neighbour did it: nothing to pay
  std::vector<std::string> with;  ///< machines and people, by id
  std::optional<double> hours, fuel_l, board_cm;
  friend bool operator==(const Worked&, const Worked&) = default;
};

struct Rain {
  double mm = 0.0;  ///< in the gauge of the farm, or of the entry's field
  friend bool operator==(const Rain&, const Rain&) = default;
};

/// A field was looked at that morning.
struct Looked {
  std::optional<bool> workable;
  std::optional<double> standing_cm;      ///< depth of water
  std::optional<double> cover_percent;    ///< points of a line that touch straw
  std::optional<double> straw_kg_per_ha;  ///< on top, dried and weighed
  friend bool operator==(const Looked&, const Looked&) = default;
};

/// The authority was asked, or has answered; a burn that is done or stopped is work.
struct BurnWord {
  enum class What { asked, answered };
  What what = What::asked;
  std::string who, words;  ///< the office; its words
  friend bool operator==(const BurnWord&, const BurnWord&) = default;
};

/// Canal water let on, shut off, or read off a meter.
struct Water {
  enum class What { on, off, metered };
  What what = What::on;
  std::optional<double> depth_cm;  ///< wanted, with `on`
  std::optional<double> m3;        ///< with `metered`: of that day
  friend bool operator==(const Water&, const Water&) = default;
};

struct Bales {
  std::optional<double> counted;  ///< on the field
  std::optional<double> hauled;   ///< taken off that day
  friend bool operator==(const Bales&, const Bales&) = default;
};

/// A machine or a person is there or not.
struct Presence {
  enum class What { down, up, here };
  What what = What::down;
  std::string who;
  std::optional<Date> until;  ///< with `down`: the last day away, as far as is known
  friend bool operator==(const Presence&, const Presence&) = default;
};

/// The owner's word, with a line of reason. It beats model and plan.
struct Word {
  enum class What { method, not_method, too_wet, free };  ///< free: takes back what was said of the field
  What what = What::too_wet;
  std::string method;         ///< with method and not_method
  std::optional<Date> until;  ///< with too_wet: the last day; none: six days on
  std::string why;
  friend bool operator==(const Word&, const Word&) = default;
};

/// Corrects an entry by taking it back.
struct TakenBack {
  friend bool operator==(const TakenBack&, const TakenBack&) = default;
};

using What = std::variant<Harvested, Worked, Rain, Looked, BurnWord, Water, Bales, Presence, Word, TakenBack>;

struct Entry {
  int seq = 0;     ///< 1, 2, 3, ... in the order of recording
  std::string id;  ///< of whoever recorded it: recorded twice, it stands once
  Date done_on;
  std::string recorded_at;  ///< "2026-10-14T18:03:22Z"
  std::string by;           ///< who says so
  std::optional<FieldId> field;
  What what;
  std::string note;
  std::optional<int> corrects;  ///< seq of the entry whose place this one takes
  friend bool operator==(const Entry&, const Entry&) = default;
};

/// The entries that hold for a plan made on `day`: recorded by then, the last correction of each in its place
/// and under its number, those taken back left out; by day done, then number.
std::vector<Entry> standing_on(const std::vector<Entry>& entries, Date day);

}  // namespace aftercut::journal
