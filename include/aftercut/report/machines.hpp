#pragma once
// The machine table for the terminal: what each machine asks for, does, takes and truly costs.

#include <string>

#include "aftercut/farm/machine_table.hpp"

namespace aftercut::report {

/// Implements at work, then tractors, then what no tractor pulls and who is away when; fits 100 columns.
std::string machines_text(const farm::Farm& farm);

}  // namespace aftercut::report
