#pragma once
// Inside room planner: the least money that comes with a step on a day, whatever outfit does it, in cents.

#include "histories.hpp"

namespace aftercut::planner {

/// For the straw that a pass of baling takes off today, by any outfit that could; incomes negative.
double baling_cents(const StepAsked& asked, const season::FieldYear& sim);
/// The least that comes with a baling begun by now, should it break off: no work is to be done for it.
double begun_baling_cents(const StepAsked& asked, const season::FieldYear& sim, int baled_by);
/// Of one more bale sold: part of one counts as a whole.
double bale_price_cents(const dispatch::Table& table);
/// [day] rounds after the storms from its evening until boards may come out.
std::vector<double> rounds_cents(const StepAsked& asked);
/// Canal water.
double canal_cents(const StepAsked& asked, double mm);

}  // namespace aftercut::planner
