#pragma once
// Inside room report: sums over a region.

#include <string>
#include <vector>

#include "aftercut/plan/region.hpp"

namespace aftercut::report {

double area_of(const plan::Region& region);
std::size_t field_count(const plan::Region& region);
double used_of(const plan::Region& region, std::size_t kind);  ///< by all farms, each on its fullest day
double gap_percent(const plan::Region& region);

struct MethodArea {
  std::string method, name;
  double area_ha = 0.0;
  int fields = 0;
};
/// Largest first.
std::vector<MethodArea> methods_by_area(const plan::Region& region);

}  // namespace aftercut::report
