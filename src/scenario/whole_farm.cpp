#include "aftercut/scenario/whole_farm.hpp"

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"
#include "aftercut/farm/wishes.hpp"
#include "aftercut/machinery/bales.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/readiness/readiness.hpp"

namespace aftercut::scenario {
namespace {

void add_chances(plan::WholeFarm& w, const farm::Farm& farm, const std::vector<double>& chance) {
  double due_area = 0.0;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    if (!farm::seedbed_due(farm.fields[f])) continue;
    const double ha = farm.fields[f].area.value();
    due_area += ha;
    w.chance += ha * chance[f];
    w.below_wanted += chance[f] + 1e-9 < farm::wanted_chance(farm, farm.fields[f]) ? 1 : 0;
  }
  w.chance = due_area > 0.0 ? w.chance / due_area : 1.0;
}

}  // namespace

std::int64_t mean_cost(const std::vector<plan::YearRun>& runs, bool full) {
  std::int64_t sum = 0;
  for (const auto& run : runs)
    for (const auto& field : run.fields) sum += full ? field.cost.full() : field.cost.out_of_pocket();
  return to_cents(static_cast<double>(sum) / static_cast<double>(runs.size()) / 100.0);
}

plan::WholeFarm whole_farm(const farm::Farm& farm, const std::vector<plan::YearRun>& runs,
                           const std::vector<double>& chance) {
  plan::WholeFarm w{.cost_cents = mean_cost(runs, false)};
  add_chances(w, farm, chance);
  double area = 0.0;
  for (const farm::Field& field : farm.fields) area += field.area.value();
  w.cost_per_ha = static_cast<double>(w.cost_cents) / 100.0 / area;
  const double share = 1.0 / static_cast<double>(runs.size());
  for (const plan::YearRun& run : runs) {
    for (const plan::Work& work : run.work)
      if (farm.book.operations[static_cast<std::size_t>(work.operation)].burning && !work.stands_by)
        w.burned_ha += share * work.area_ha;
    for (std::size_t f = 0; f < run.fields.size(); ++f) {
      w.baled_t += share * run.fields[f].baled_kg_per_ha * farm.fields[f].area.value() /
                   machinery::bale_dry_share / 1000.0;
      w.canal_m3 += share * run.fields[f].water_m3;
    }
  }
  return w;
}

plan::WholeFarm whole_farm(const farm::Farm& farm, const plan::PlannedYears& planned) {
  std::vector<double> chance(farm.fields.size(), 0.0);
  for (std::size_t f = 0; f < chance.size(); ++f) {
    const plan::FieldPlan& field = planned.plan.fields[f];
    if (field.chosen.method != plan::none)
      chance[f] = field.methods[static_cast<std::size_t>(field.chosen.method)].chance_ready;
  }
  return whole_farm(farm, planned.runs, chance);
}

PlayedInAll played_in_all(const dispatch::Table& table, const plan::Decision& decision, int threads,
                          const dispatch::RunOptions& options) {
  PlayedInAll out;
  out.runs.resize(table.drivers.size());
  for_each_index(out.runs.size(), threads,
                 [&](std::size_t y) { out.runs[y] = dispatch::run(table, decision, y, options); });
  const std::vector<std::size_t> shown = planner::fold(out.runs.size()).shown;
  const farm::Farm& farm = table.problem->farm;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    std::vector<plan::FieldRun> runs;
    for (const std::size_t y : shown) runs.push_back(out.runs[y].fields[f]);
    out.chance.push_back(decision.method[f] == plan::none ? 0.0
                                                          : readiness::of_field(farm.fields[f], runs).chance);
  }
  return out;
}

}  // namespace aftercut::scenario
