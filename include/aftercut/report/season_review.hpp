#pragma once
// A season looked back on, for people and scripts (docs/season.md, "Review").

#include <string>

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/season_review.hpp"

namespace aftercut::report {

std::string season_review_text(const farm::Problem& now, const plan::SeasonReview& review);
std::string season_review_json(const farm::Problem& now, const plan::SeasonReview& review);

}  // namespace aftercut::report
