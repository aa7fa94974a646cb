#include "aftercut/machinery/field_time.hpp"

#include "aftercut/geo/cuts.hpp"
#include "aftercut/geo/swaths.hpp"

namespace aftercut::machinery {
namespace {

constexpr double levee_reach_m =
    6.0;  // a levee drawn so short of the edge still parts. Source: LeveeReach (assumed)
constexpr double least_bend_deg =
    30.0;  // outlines that bend less are worked as one. Source: LeastBend (assumed)
constexpr std::size_t cuts_tried = 6;
constexpr double m2_per_ha = 1e4;

FieldPiece whole(const geo::Shape& outline, const SwathMachine& machine) {
  return {outline, best_swaths({outline, machine.width.value(), machine.headland_rounds}, machine)};
}

Hours hours_of(const std::vector<FieldPiece>& pieces) {
  Hours sum{0.0};
  for (const FieldPiece& p : pieces) sum = sum + p.time.hours;
  return sum + (pieces.empty() ? 0.0 : static_cast<double>(pieces.size() - 1)) * to_next_piece;
}

/// One check as it is, or the fastest of its cuts in two.
std::vector<FieldPiece> best_blocks(const geo::Shape& check, const SwathMachine& machine) {
  std::vector<FieldPiece> best{whole(check, machine)};
  for (const geo::Path& cut : geo::cuts_at_bends(check, least_bend_deg, cuts_tried)) {
    std::vector<FieldPiece> blocks;
    for (const geo::Shape& block : geo::cut_along(check, {cut}, 1.0)) blocks.push_back(whole(block, machine));
    if (blocks.size() > 1 && hours_of(blocks).value() < hours_of(best).value() * (1.0 - 1e-9))
      best = std::move(blocks);
  }
  return best;
}

}  // namespace

FieldTime time_on_field(const geo::Shape& field, const std::vector<geo::Path>& levees,
                        const SwathMachine& machine) {
  FieldTime t;
  double area_ha = 0.0;
  for (const geo::Shape& check : geo::cut_along(field, levees, levee_reach_m)) {
    ++t.checks;
    for (FieldPiece& piece : best_blocks(check, machine)) t.pieces.push_back(std::move(piece));
  }
  for (const FieldPiece& p : t.pieces) {
    t.working_m += p.time.working_m;
    t.turning_m += p.time.turning_m;
    t.passes += p.time.sums.passes;
    area_ha += p.time.area_m2 / m2_per_ha;
  }
  t.hours = hours_of(t.pieces);
  if (t.hours.value() > 0.0)
    t.field_efficiency = area_ha / (machine.speed.value() * machine.width.value() / 10.0 * t.hours.value());
  return t;
}

}  // namespace aftercut::machinery
