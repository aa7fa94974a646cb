#pragma once
// Inside room planner: the least money that comes with a step on a day, whatever outfit does it, in cents.

#include "histories.hpp"

namespace aftercut::planner {

/// For the straw that a pass of baling takes off today, by any outfit that could; incomes negative.
double baling_cents(const StepAsked& asked, const season::FieldYear& sim);
/// Rounds after the storms from the evening of `day` until boards may come out.
double rounds_cents(const StepAsked& asked, int day);
/// Canal water.
double canal_cents(const StepAsked& asked, double mm);

}  // namespace aftercut::planner
