#pragma once
// What has been done and seen since the season's first day, as checked facts: the journal's entries that hold
// by the plan's first day, their names resolved. Room journal makes it and works out the fields' state.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "aftercut/core/date.hpp"

namespace aftercut::farm {

inline constexpr int nobody = -1;  ///< no tractor, no implement

/// Work on a field on one day.
struct WorkDone {
  std::size_t field = 0;
  int operation = 0;       ///< index into Book::operations
  double area_ha = 0.0;    ///< of this day; a pass that finishes covers what was left of the field
  bool finishes = false;   ///< the pass is complete
  bool no_more = false;    ///< no further pass of it is wanted, whatever the method asks for
  bool by_others = false;  ///< neither the farm's people nor its machines: nothing to pay
  int tractor = nobody, implement = nobody;
  std::vector<int> crew;  ///< indices into Farm::operators
  std::optional<double> hours, fuel_l;
  std::optional<double> board_mm;      ///< height of boards put in; none: the methods' own
  std::optional<double> bales_beyond;  ///< hauled beyond those that lay there by their count
  friend bool operator==(const WorkDone&, const WorkDone&) = default;
};

/// The canal's water is let onto a field, or shut off.
struct WaterTurned {
  std::size_t field = 0;
  bool on = false;
  std::optional<double> depth_mm;  ///< wanted; none: the methods' own
  friend bool operator==(const WaterTurned&, const WaterTurned&) = default;
};

/// Canal water that came onto a field on the day, by its meter: before what the model takes it to have got.
struct WaterMetered {
  std::size_t field = 0;
  double m3 = 0.0;
  friend bool operator==(const WaterMetered&, const WaterMetered&) = default;
};

/// What a gauge caught on the day, on the whole farm or on one field.
struct RainCaught {
  std::optional<std::size_t> field;
  double mm = 0.0;
  double record_mm = 0.0;  ///< what the record had for the day
  friend bool operator==(const RainCaught&, const RainCaught&) = default;
};

/// What was seen on the morning of the day.
struct FieldSeen {
  std::size_t field = 0;
  std::optional<bool> workable;
  std::optional<double> standing_mm;      ///< depth of water on it
  std::optional<double> cover;            ///< share of a line's points that touch straw, 0 to 1
  std::optional<double> straw_kg_per_ha;  ///< on top, oven-dry, weighed
  friend bool operator==(const FieldSeen&, const FieldSeen&) = default;
};

/// The owner's word: no machine on the field from the day until `until`, included.
struct TooWet {
  std::size_t field = 0;
  Date until;
  friend bool operator==(const TooWet&, const TooWet&) = default;
};

/// A hired outfit is there.
struct OutfitHere {
  int implement = 0;
  friend bool operator==(const OutfitHere&, const OutfitHere&) = default;
};

/// Bales counted on a field; what they come to in hectares is in the hauls.
struct BalesCounted {
  std::size_t field = 0;
  double bales = 0.0;
  friend bool operator==(const BalesCounted&, const BalesCounted&) = default;
};

struct Happened {
  int seq = 0;  ///< of the journal's entry, the effective one where it was corrected
  Date day;
  std::variant<WorkDone, WaterTurned, WaterMetered, RainCaught, FieldSeen, TooWet, OutfitHere, BalesCounted>
      what;
  friend bool operator==(const Happened&, const Happened&) = default;
};

struct SoFar {
  std::vector<Happened> events;  ///< by day, then seq; what was done before the plan's first day, what was
                                 ///< seen by its morning
  int entries = 0;               ///< of the journal, corrections included
  [[nodiscard]] bool empty() const { return events.empty(); }
};

}  // namespace aftercut::farm
