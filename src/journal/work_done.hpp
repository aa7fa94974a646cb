#pragma once
// Inside room journal: what recorded work does to a field.

#include "aftercut/journal/state.hpp"

namespace aftercut::journal {

/// One record of work, by the evening of its day; `life` is the field then.
void note_work(const farm::Farm& farm, State& state, season::FieldYear& life, const farm::WorkDone& work);

}  // namespace aftercut::journal
