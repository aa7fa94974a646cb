#include "aftercut/machinery/outfit_rakes.hpp"

namespace aftercut::machinery {

std::vector<Implement> with_outfit_rakes(std::vector<Implement> implements) {
  const std::size_t n = implements.size();
  for (std::size_t k = 0; k < n; ++k) {
    const Implement& baler = implements[k];
    if (!baler.hire || !baler.hire->rakes) continue;
    Implement rake;
    rake.id.value = baler.id.value + "+rake";
    rake.name = baler.name + ", its rake";
    rake.kind = "rake";
    rake.width = baler.width;
    rake.speed = baler.speed;
    rake.field_efficiency = baler.field_efficiency;
    rake.efficiency_entered = baler.efficiency_entered;
    rake.turning_radius = baler.turning_radius;
    rake.headland_rounds = baler.headland_rounds;
    rake.stops = baler.stops;
    rake.away = baler.away;
    rake.hire = Hire{};
    rake.hire->windows = baler.hire->windows;
    rake.hire->with = baler.id;
    implements.push_back(std::move(rake));
  }
  return implements;
}

}  // namespace aftercut::machinery
