#pragma once
// Room readiness, lead header. Purpose: how sure it is. Takes the runs of many years; gives chances by a date
// and quantiles.

#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::readiness {

struct FieldReadiness {
  plan::DaySpread ready;  ///< empty where not by the cut-off
  double chance = 0.0;    ///< share of years ready by the planting date
};

/// From one field's runs, one a year. Quantiles are the order statistic at ceil(p n) (a day that did occur);
/// a year without a ready day sorts last. Fallow: chance 1, no days.
FieldReadiness of_field(const farm::Field& field, const std::vector<plan::FieldRun>& runs);

}  // namespace aftercut::readiness
