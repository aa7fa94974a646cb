#pragma once
// Rakes that hired balers bring.

#include <vector>

#include "aftercut/machinery/machines.hpp"

namespace aftercut::machinery {

/// A rake beside each hired baler whose outfit rakes: its width, speed and efficiency, there on the same
/// days, with its own tractor and people, at no price of its own.
std::vector<Implement> with_outfit_rakes(std::vector<Implement> implements);

}  // namespace aftercut::machinery
