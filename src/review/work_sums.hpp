#pragma once
// Inside room review: recorded work with its true areas, and what it comes to beside a plan's.

#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/season_review.hpp"

namespace aftercut::review {

/// One record of work by the farm's own people or its hired outfits.
struct DoneWork {
  farm::WorkDone record;
  double ha = 0.0;              ///< of that day, what a finished pass left included
  double hours = 0.0;           ///< recorded, or expected
  double expected_hours = 0.0;  ///< at the rate of the farm's figures in ground of least draft; 0: unknown
  double fuel_l = 0.0;          ///< recorded, or expected
  bool hours_recorded = false;
};
std::vector<DoneWork> done_works(const dispatch::Table& table);

/// By operation, in the book's order: the runs' mean before a day, and what was done.
std::vector<plan::WorkReview> work_reviews(const dispatch::Table& table, const std::vector<DoneWork>& done,
                                           const std::vector<plan::YearRun>& runs, int until);
/// By implement, in the farm's order.
std::vector<plan::RateReview> rate_reviews(const dispatch::Table& table, const std::vector<DoneWork>& done);

}  // namespace aftercut::review
