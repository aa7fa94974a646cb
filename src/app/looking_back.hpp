#pragma once
// The season so far beside the plan that it began with, read from the options' farm folder and plan.

#include "aftercut/app/commands.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/season_review.hpp"

namespace aftercut::app {

struct LookedBack {
  farm::Problem now;
  plan::SeasonReview review;
};
Result<LookedBack> look_back(const Options& options);

}  // namespace aftercut::app
