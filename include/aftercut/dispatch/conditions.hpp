#pragma once
// What a step asks of the field on a morning, whatever machines and people are free (docs/rules-of-work.md,
// "Steps" and "Conditions").

#include "aftercut/dispatch/table.hpp"

namespace aftercut::dispatch {

/// Every condition that the operation's data names holds on this mask, and the farm's limit for baling.
bool conditions_hold(const Table& table, const method::Operation& operation, const season::DayMask& mask);
/// Work that a rutted field bars: baling, burning and windrowing.
bool kept_off_ruts(const method::Operation& operation);
/// The step does not apply to the field as it is this morning.
bool left_out(const Table& table, const farm::Field& field, const method::Step& step,
              const season::FieldYear& sim);
/// Passes that this much straw asks for; 0: none.
int passes_of(const method::Step& step, double straw_kg_per_ha);

}  // namespace aftercut::dispatch
