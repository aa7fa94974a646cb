#pragma once
// What a field waits for on a day without work.

#include "aftercut/dispatch/progress.hpp"
#include "aftercut/plan/waits.hpp"

namespace aftercut::dispatch {

/// Of a step that is current and was not worked today: the first thing, in the order of plan::WaitsFor, that
/// the day lacks.
plan::WaitsFor waits_for_what(const Table& table, std::size_t field, std::size_t year, int day,
                              const Progress& progress, const season::FieldYear& sim);

}  // namespace aftercut::dispatch
