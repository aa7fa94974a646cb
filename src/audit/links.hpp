#pragma once
// Water between fields, worked out afresh: who is fed by whom, who drains to whom, what seeps, storm rounds.

#include "field_replay.hpp"

namespace aftercut::audit {

/// Water stands this morning on every field that `field` fills from.
bool fed(const farm::Farm& farm, const std::vector<FieldReplay>& fields, int field);
/// What seeps into the field today [mm].
double seeping_mm(const farm::Farm& farm, const std::vector<FieldReplay>& fields, int field);
/// Boards that come out today: not while the boards of a field below are in, no more hectares than the drains
/// take on a day. `fields` as they woke.
Findings check_drawdown(const farm::Farm& farm, const std::vector<FieldReplay>& fields,
                        const std::vector<plan::Work>& day, int year);
/// The field after the irrigator's round of the day, if its boards were in this morning and it stormed.
FieldReplay after_round(const farm::Farm& farm, int field, FieldReplay f, double rain_mm);

}  // namespace aftercut::audit
