#pragma once
// When the passes of a field's chosen method come, over the weather years.

namespace aftercut::plan {

/// Season days by which a tenth, a half and nine tenths of the years had come so far; each did occur.
struct DayMarks {
  int p10 = 0, p50 = 0, p90 = 0;
  friend bool operator==(const DayMarks&, const DayMarks&) = default;
};

/// One pass of one step of the chosen method, or of its fall-back: its first and last day with work, over the
/// years in which there was work on it.
struct Job {
  int operation = 0, step = 0, pass = 0;  ///< as of plan::Work
  bool fell_back = false;
  int years_done = 0;  ///< of all years played
  DayMarks first, last;
  friend bool operator==(const Job&, const Job&) = default;
};

}  // namespace aftercut::plan
