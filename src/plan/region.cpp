#include "aftercut/plan/region.hpp"

namespace aftercut::plan {

std::int64_t cost_of(const Region& region) {
  std::int64_t sum = 0;
  for (const RegionFarm& farm : region.farms) sum += farm.cost_cents;
  return sum;
}

std::int64_t bound_of(const Region& region) {
  std::int64_t sum = 0;
  for (const RegionFarm& farm : region.farms) sum += farm.bound_cents;
  return sum;
}

double chance_of(const Region& region) {
  double area = 0.0, ready = 0.0;
  for (const RegionFarm& farm : region.farms)
    for (const RegionField& field : farm.fields) {
      if (!field.wants_seedbed) continue;
      area += field.area_ha;
      ready += field.chance * field.area_ha;
    }
  return area > 0.0 ? ready / area : 1.0;
}

}  // namespace aftercut::plan
