#pragma once
// How each implement fits each field: field efficiency by the field's own outline and levees.

#include <vector>

#include "aftercut/core/quantity.hpp"
#include "aftercut/geo/shape.hpp"
#include "aftercut/machinery/machines.hpp"
#include "aftercut/machinery/swath_time.hpp"

namespace aftercut::farm {

struct Farm;

struct FieldFit {
  Fraction efficiency;  ///< stops counted: area over what width and speed would do in the hours on the field
  bool by_outline = false;  ///< false: the typical or entered efficiency
};

/// The machine as its passes are laid.
machinery::SwathMachine swath_machine(const machinery::Implement& implement);

/// [field][implement]. The typical (or entered) efficiency holds where the outline is invented, where an
/// efficiency was entered, and for what is carried along the edge (a torch).
std::vector<std::vector<FieldFit>> fit_implements(const Farm& farm);

/// Of one implement on one field; the implement's own where the farm has no fits (made without its reader).
Fraction efficiency_on(const Farm& farm, std::size_t field, std::size_t implement);

/// How many times the hours that the typical efficiencies would give this field's shape takes: mean over the
/// implements that were laid on it; 1 where none was.
double hours_over_typical(const Farm& farm, std::size_t field);

}  // namespace aftercut::farm
