#include "aftercut/scenario/jobs.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "aftercut/core/require.hpp"

namespace aftercut::scenario {
namespace {

/// Which pass of which field: by field, fall-back, step, pass, operation.
using PassKey = std::tuple<int, bool, int, int, int>;

struct FirstAndLast {
  int first = 0, last = 0;
};

struct PassDays {
  std::vector<int> first, last;  ///< one a year with work
};

std::map<PassKey, FirstAndLast> passes_of(const plan::YearRun& run) {
  std::map<PassKey, FirstAndLast> passes;
  for (const plan::Work& w : run.work) {
    if (w.stands_by) continue;
    const auto [at, fresh] =
        passes.try_emplace({w.field, w.fell_back, w.step, w.pass, w.operation}, FirstAndLast{w.day, w.day});
    if (fresh) continue;
    at->second.first = std::min(at->second.first, w.day);
    at->second.last = std::max(at->second.last, w.day);
  }
  return passes;
}

}  // namespace

plan::DayMarks day_marks(std::vector<int> days) {
  require(!days.empty(), "a pass was worked in some year");
  std::sort(days.begin(), days.end());
  const auto mark = [&](double p) {
    const double rank = std::ceil(p * static_cast<double>(days.size()) - 1e-9);
    return days[static_cast<std::size_t>(std::max(1.0, rank)) - 1];
  };
  return {.p10 = mark(0.1), .p50 = mark(0.5), .p90 = mark(0.9)};
}

std::vector<std::vector<plan::Job>> jobs_of(const std::vector<plan::YearRun>& runs, std::size_t fields) {
  std::map<PassKey, PassDays> all;
  for (const plan::YearRun& run : runs)
    for (const auto& [key, days] : passes_of(run)) {
      all[key].first.push_back(days.first);
      all[key].last.push_back(days.last);
    }
  std::vector<std::vector<plan::Job>> out(fields);
  for (const auto& [key, days] : all) {
    const auto& [field, fell_back, step, pass, operation] = key;
    out.at(static_cast<std::size_t>(field))
        .push_back({.operation = operation,
                    .step = step,
                    .pass = pass,
                    .fell_back = fell_back,
                    .years_done = static_cast<int>(days.first.size()),
                    .first = day_marks(days.first),
                    .last = day_marks(days.last)});
  }
  // Within a field the passes came in the order of their keys: that breaks ties.
  for (auto& jobs : out)
    std::stable_sort(jobs.begin(), jobs.end(),
                     [](const plan::Job& a, const plan::Job& b) { return a.first.p50 < b.first.p50; });
  return out;
}

}  // namespace aftercut::scenario
