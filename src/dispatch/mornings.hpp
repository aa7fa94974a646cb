#pragma once
// Inside room dispatch: the parts of a table that hang on the season so far.

#include "aftercut/dispatch/table.hpp"

namespace aftercut::dispatch {

/// Days that the owner has called too wet.
void add_shut_days(Table& table);
/// Where every method takes up every field, and the field then. Needs the drivers, the state and the as-of
/// day.
void add_mornings(Table& table);

}  // namespace aftercut::dispatch
