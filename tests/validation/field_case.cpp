#include "field_case.hpp"

#include <algorithm>
#include <stdexcept>

namespace aftercut::validation {
namespace {

const method::Operation& operation(const farm::Farm& farm, const std::string& id) {
  for (const auto& op : farm.book.operations)
    if (op.id.value == id) return op;
  throw std::runtime_error("no operation " + id);
}

double store_mm(const season::FieldYear& field) {
  const soil::WaterState& w = field.water();
  return w.seedbed_mm + w.below_mm + w.ponded_mm;
}

soil::WaterFluxes since(const soil::WaterFluxes& now, const soil::WaterFluxes& then) {
  return {now.rain_mm - then.rain_mm, now.water_in_mm - then.water_in_mm,
          now.evaporation_mm - then.evaporation_mm, now.percolation_mm - then.percolation_mm,
          now.spill_mm - then.spill_mm};
}

}  // namespace

WinterRun live(const farm::Farm& farm, const season::YearDrivers& drivers, const Case& c, MonthDay until) {
  WinterRun run{.end = season::FieldYear{farm, 0, drivers, {}}};
  season::FieldYear& field = run.end;
  const int last = farm.season.day(until);
  const int in = c.hold ? farm.season.day(c.hold->from) : last,
            out = c.hold ? farm.season.day(c.hold->until) : last;
  soil::WaterFluxes before;
  while (field.day() < last) {
    const int day = field.day();
    for (const ScriptedWork& w : c.work)
      if (farm.season.day(w.on) == day) field.apply(operation(farm, w.operation));
    if (day == in) {
      before = field.water_ledger().sum;
      run.start_mm = store_mm(field);
      field.set_boards(c.hold->board_mm);
    }
    if (day == out) {
      run.over_hold = since(field.water_ledger().sum, before);
      run.end_mm = store_mm(field);
      field.set_boards(0.0);
    }
    const bool held = day >= in && day < out;
    if (held && field.water().ponded_mm >= 50.0) ++run.days_with_50_mm;
    const bool low = held && c.hold->depth_mm > 0.0 && field.water().ponded_mm < c.hold->depth_mm;
    const double let_in = low ? field.fill_need_mm(c.hold->depth_mm) : 0.0;
    run.canal_mm += let_in;
    field.end_day(let_in);
  }
  return run;
}

std::vector<Case> straw_cases() {
  const MonthDay work{10, 15}, again{10, 18}, in{11, 1}, out{3, 1}, roll{11, 4};
  const Hold water{in, out};
  const std::vector<ScriptedWork> disked{{work, "chop"}, {work, "disk"}, {again, "disk"}};
  return {{.name = "left standing, stubble 30 cm", .work = {}, .hold = {}},
          {.name = "on the surface, cut at the ground", .cut_height_cm = 1.0, .work = {}, .hold = {}},
          {.name = "chopped and disked twice", .work = disked, .hold = {}},
          {.name = "chopped, disked twice, flooded", .work = disked, .hold = water},
          {.name = "flooded and rolled", .work = {{roll, "cage_roll"}}, .hold = water},
          {.name = "baled, stubble disked twice",
           .cut_height_cm = 20.0,
           .lay = straw::Lay::windrow,
           .work = {{work, "rake"}, {work, "bale"}, {work, "disk"}, {again, "disk"}},
           .hold = {}}};
}

}  // namespace aftercut::validation
