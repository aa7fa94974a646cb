#pragma once
// What a step asks of the field on a morning, whatever machines and people are free (docs/rules-of-work.md,
// "Steps" and "Conditions").

#include <optional>

#include "aftercut/dispatch/table.hpp"

namespace aftercut::dispatch {

const method::Operation& operation_of(const Table& table, const method::Step& step);
/// The index of the step whose success the method hangs on, baling or burning; the number of steps when it
/// has none.
int key_step(const Table& table, const method::Recipe& recipe);
/// Work that takes bales off the field.
bool hauls_bales(const method::Operation& operation);
/// The first step from `from` on that takes bales off; none: no step does.
std::optional<int> hauling_step(const Table& table, const method::Recipe& recipe, int from = 0);
/// The recipe that a fall-back names.
const method::Recipe& recipe_named(const Table& table, const MethodId& id);

/// The first day on which dates let the step be worked, whatever came before it.
int first_day_of(const Table& table, std::size_t field, const method::Recipe& recipe,
                 const method::Step& step);
/// The morning from which a fill that has not been met is over: the supply has ended or the boards are due
/// out.
int fill_over_on(const Table& table, std::size_t field, const method::Recipe& recipe);
/// A held pond has sunk so far that it is topped up.
bool wants_top_up(const method::WaterWanted& water, const season::FieldYear& sim);

/// The owner has called the field too wet for machines that day; work by hand goes on.
bool is_shut(const Table& table, std::size_t field, const method::Operation& operation, int day);
/// The ground carries what the operation drives.
bool drive_ok(const method::Operation& operation, const season::DayMask& mask);
/// Every condition that the operation's data names holds on this mask, and the farm's limit for baling.
bool conditions_hold(const Table& table, const method::Operation& operation, const season::DayMask& mask);
/// Work that a rutted field bars: baling, burning and windrowing.
bool kept_off_ruts(const method::Operation& operation);
/// The step does not apply to the field as it is this morning.
bool left_out(const Table& table, const farm::Field& field, const method::Step& step,
              const season::FieldYear& sim);
/// The bales would leave over soft roads on a day on which those carry no loaded wagon.
bool road_too_soft(const Table& table, std::size_t field, std::size_t year, int day,
                   const method::Operation& operation);
/// Passes that this much straw asks for; 0: none.
int passes_of(const method::Step& step, double straw_kg_per_ha);

}  // namespace aftercut::dispatch
