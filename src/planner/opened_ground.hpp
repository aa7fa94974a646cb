#pragma once
// Inside room planner: the least pull of the ground on a day over all histories of a field, lived or not.
// Ground that tillage opened pulls least until water stands on it, so it hangs on the last day on which that
// tillage may have ended, which few histories hold.

#include "aftercut/planner/openings.hpp"

namespace aftercut::planner {

/// Too dry in this history, or in one like it.
bool could_be_too_dry(const season::FieldYear& sim);

class OpenedGround {
 public:
  OpenedGround(const dispatch::Table& table, std::size_t field);
  /// A history had this much water standing on that evening.
  void evening(std::size_t day, double ponded_mm);
  /// Closed ground, then these passes.
  void begin(const std::vector<Opening>& passes);
  void worked(const Opening& pass);
  /// Least pull of the operation's tools on the field's morning, had the last pass ended as late as it may.
  [[nodiscard]] double least_pull(const method::Operation& operation, const season::FieldYear& sim) const;

 private:
  [[nodiscard]] double most_opened(const season::FieldYear& sim) const;

  const method::Book& book_;
  const soil::Profile& soil_;
  bool seeps_;
  std::vector<double> least_ponded_mm_;  // [day] of the histories that lived it
  double share_ = 0.0;
  std::vector<std::uint16_t> ends_;
};

}  // namespace aftercut::planner
