#pragma once
// Inside room dispatch: where each method takes up a field that has been worked on this season
// (docs/rules-of-work.md, "The season so far").

#include <string>
#include <vector>

#include "aftercut/dispatch/table.hpp"

namespace aftercut::dispatch {

/// Of a farm without a season so far: every method from its first step after the harvest.
Start take_up(const Table& table, std::size_t field, std::size_t recipe);
/// Why what has been done bars the method; empty: it does not. Needs the table's starts.
std::vector<std::string> barred_by_work_done(const Table& table, std::size_t field, std::size_t recipe);
/// The field on its first morning where the pass that runs is broken off: what was done takes effect.
season::FieldYear broken_off(const Table& table, std::size_t field, season::FieldYear sim);

}  // namespace aftercut::dispatch
