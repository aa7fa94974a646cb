#pragma once
// Straw left by 15 April in every case and every real winter.

#include <map>
#include <string>
#include <vector>

#include "field_case.hpp"

namespace aftercut::validation {

inline constexpr MonthDay spring{4, 15};

struct Left {
  int year = 0;
  double rain_mm = 0.0;                     ///< from 15 October to 15 April
  std::map<std::string, double> share;      ///< by case
  std::map<std::string, double> kg_per_ha;  ///< by case
  double baled_share = 0.0;                 ///< of the straw, in the case that bales
};

/// Worked out once. Only where there is a record.
const std::vector<Left>& left_by_winter();

}  // namespace aftercut::validation
