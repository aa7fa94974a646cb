#pragma once
// Room dispatch, lead header. Purpose: the one evaluator. Takes a checked problem and a decision; plays each
// weather year day by day and gives the work, costs and ready days. Leaves out which decision is good. Rules:
// docs/rules-of-work.md.

#include <optional>

#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/decision.hpp"
#include "aftercut/plan/fall_backs.hpp"

namespace aftercut::dispatch {

struct RunOptions {
  std::optional<int> only_field = {};  ///< every other field is left out (what a method costs alone)
  std::optional<int> start_after_field =
      {};  ///< with start_after_day: that field's first step waits until after that day
  int start_after_day = 0;
  bool keep_workable = false;                           ///< fill YearRun::workable
  bool keep_next_crop = false;                          ///< fill FieldRun::next_crop
  bool keep_bills = false;                              ///< fill YearRun::bills
  bool keep_winter = false;                             ///< fill YearRun::winter
  bool keep_waits = false;                              ///< fill YearRun::waits
  const std::vector<plan::Instead>* instead = nullptr;  ///< [field] a what-if; null: none
};

/// One weather year (index into Problem::years). The same arguments give the same run.
plan::YearRun run(const Table& table, const plan::Decision& decision, std::size_t year,
                  const RunOptions& options = {});

/// Out-of-pocket cost of a run, cents.
std::int64_t cost_of(const plan::YearRun& run);

}  // namespace aftercut::dispatch
