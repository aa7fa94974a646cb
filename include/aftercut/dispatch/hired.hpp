#pragma once
// Hired outfits in one weather year: from when each is there, whose turn it is, what it was paid
// (docs/rules-of-work.md, "Hired outfits").

#include <functional>

#include "aftercut/dispatch/progress.hpp"
#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/decision.hpp"

namespace aftercut::dispatch {

/// [implement][field] place in the outfit's own order, fields that it does not list last; empty where it has
/// none.
std::vector<std::vector<int>> places_in_order(const farm::Farm& farm);

/// [implement] the day from which it is there in this weather year, by its terms; what the farm owns, from
/// the first.
std::vector<int> arrivals(const Table& table, int year);

/// Of the outfits that could do the operation, those that the contracts leave: where every baler's outfit
/// rakes, its rake alone makes windrows; its rake does nothing else.
std::vector<Outfit> under_contract(const farm::Farm& farm, const method::Operation& operation,
                                   std::vector<Outfit> outfits);

/// Area of the fields whose method has a step for this outfit [ha].
double area_asked(const Table& table, const plan::Decision& decision, int implement);

/// The field still has, or is at, a step of this season that the outfit could do. `pass_ends`: its current
/// pass ends today.
bool waits_for(const Table& table, std::size_t field, const Progress& progress, bool pass_ends, int implement,
               method::Season season);

class HiredSeason {
 public:
  /// `alone`: one field is played by itself, and no outfit stays away for want of area.
  HiredSeason(const Table& table, const plan::Decision& decision, std::size_t year, bool alone);

  /// [implement] season day; never: after any day.
  [[nodiscard]] const std::vector<int>& there_from() const { return there_from_; }
  [[nodiscard]] bool keeps_order() const { return keeps_order_; }
  /// Of the outfits for this work on a field, those that have fields before it in their own order which still
  /// wait for them.
  [[nodiscard]] std::vector<int> out_of_turn(
      std::size_t field, int operation,
      const std::function<bool(std::size_t other, int implement)>& waits) const;
  /// The outfit's coming, on its first stretch of the year.
  plan::CostParts call_out(int implement);
  void note(int implement, std::size_t field, std::int64_t hire_cents, double area_ha);
  /// What is added to the field's hire where an outfit did less than the area that it charges for.
  [[nodiscard]] plan::CostParts top_up(std::size_t field) const;

 private:
  [[nodiscard]] std::vector<std::size_t> before(std::size_t field, int implement) const;
  struct Paid {
    double area_ha = 0.0;
    bool called_out = false;
    std::vector<std::int64_t> cents;  ///< [field]
  };
  const Table* table_;
  std::vector<int> there_from_;
  std::vector<Paid> paid_;  ///< [implement]; cents only for outfits that charge for a least area
  bool keeps_order_ = false;
};

}  // namespace aftercut::dispatch
