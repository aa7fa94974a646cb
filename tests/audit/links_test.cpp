// Water between fields, storm rounds and ruts: clean plans, and what each rule catches.

#include <cmath>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "sound_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// Fields 1 to 3 under winter water, 4 and 5 chopped and disked; links between them all.
farm::Problem linked() {
  farm::Problem p = small_problem(4);
  const char* methods[] = {"flood", "chop_disk_flood", "flood", "chop_disk", "chop_disk"};
  for (std::size_t f = 0; f < p.farm.fields.size(); ++f) p.farm.fields[f].locked = MethodId{methods[f]};
  const auto link = [&](std::size_t f, farm::LinkKind kind, std::size_t other) {
    p.farm.fields[f].links.push_back({kind, p.farm.fields[other].id});
  };
  link(0, farm::LinkKind::fills_from, 2);
  link(1, farm::LinkKind::drains_to, 0);
  link(4, farm::LinkKind::seeps_from, 1);
  link(3, farm::LinkKind::seeps_from, 2);
  p.farm.supply->drawdown_ha_per_day = 25.0;
  p.farm.supply->storm_rain_mm = 8.0;
  p.farm.supply->seepage_mm_per_day = 3.0;
  return p;
}

plan::PlannedYears plan_with_links(const farm::Problem& p) {
  return scenario::make_plan(p, {.seed = 5, .threads = 1, .evaluations = 12, .progress = {}});
}

/// The rules broken when a plan made for `made_for` is held against `held_against`.
std::set<std::string> broken(const farm::Problem& made_for, const farm::Problem& held_against) {
  return broken_rules(held_against, plan_with_links(made_for));
}

}  // namespace

TEST_CASE("a plan with links between its fields is clean", "[cross]") {
  const farm::Problem p = linked();
  const audit::Audit a = audit::check(p, plan_with_links(p));
  INFO(listed(a));
  CHECK(a.ok());
}

TEST_CASE("plans that forget a link are named", "[cross]") {
  const farm::Problem p = linked();
  const auto without = [&](std::size_t field) {
    farm::Problem q = p;
    q.farm.fields[field].links.clear();
    return q;
  };
  farm::Problem dry_feeder = p;  // 1 would fill from a field without water
  dry_feeder.farm.fields[0].links = {{farm::LinkKind::fills_from, p.farm.fields[4].id}};
  CHECK(broken(p, dry_feeder).contains("water not asked for"));
  CHECK(broken(without(1), p).contains("drained onto a field with boards in"));
  CHECK(broken(without(4), p).contains("straw balance"));
}

TEST_CASE("drains over their limit, storm rounds left out and other boards' hours are named", "[cross]") {
  const farm::Problem p = linked();
  farm::Problem wide = p, calm = p, slow = p;
  wide.farm.supply->drawdown_ha_per_day.reset();
  farm::Problem narrow = p;
  narrow.farm.supply->drawdown_ha_per_day = 1.0;
  wide.farm.fields[1].links.clear();
  narrow.farm.fields[1].links.clear();
  CHECK(broken(wide, narrow).contains("drains over their limit"));
  calm.farm.supply->storm_rain_mm = 400.0;
  CHECK(broken(calm, p).contains("hours balance"));
  slow.farm.supply->labour_min_per_ha_fill = 20.0;
  CHECK(broken(slow, p).contains("wrong hours"));
}

TEST_CASE("a baler on ruts that its combine made is named", "[cross]") {
  farm::Problem p = small_problem(4);
  for (auto& f : p.farm.fields)
    f.locked = MethodId{"bale"}, f.cut = false, f.harvest = make_date(2026, 9, 20);
  farm::Problem soft = p;
  soft.farm.fields[0].summer_drain = soft.farm.fields[2].summer_drain = make_date(2026, 9, 19);  // too late
  CHECK(broken(p, soft).contains("work on rutted ground"));
  const plan::PlannedYears planned = plan_with_links(soft);
  const audit::Audit a = audit::check(soft, planned);
  INFO(listed(a));
  CHECK(a.ok());
  const dispatch::Table table = dispatch::make_table(soft, planned.plan.seed);
  int rutted = 0, level = 0;
  for (std::size_t y = 0; y < planned.runs.size(); ++y)
    for (std::size_t f = 0; f < soft.farm.fields.size(); ++f) {
      const bool ruts = dispatch::first_morning(table, f, y, planned.plan.decision.method[f]).rutted();
      ++(ruts ? rutted : level);
      if (ruts) CHECK(planned.runs[y].fields[f].baled_kg_per_ha == 0.0);
    }
  CHECK(rutted > 0);
  CHECK(level > 0);
  for (std::size_t f = 0; f < soft.farm.fields.size(); ++f) {
    const double years = planned.plan.fields[f].rut_chance * static_cast<double>(planned.runs.size());
    CHECK(years == Approx(std::round(years)));
  }
}

TEST_CASE("ruts that are still there in spring ask for two more passes", "[cross]") {
  farm::Problem p = small_problem(3);
  for (auto& f : p.farm.fields) f.locked = MethodId{"leave"};
  farm::Problem rutted = p;
  rutted.farm.fields[1].ground = {farm::GroundState::rutted, 0.2, 100.0};
  const auto passes = [](const farm::Problem& q, const plan::PlannedYears& planned, const char* id) {
    int count = 0;
    for (const plan::YearRun& run : planned.runs)
      for (const plan::Work& w : run.work)
        count += w.field == 1 && w.finishes && w.operation == operation_named(q.farm, id) ? 1 : 0;
    return count;
  };
  const plan::PlannedYears level = plan_with_links(p), mended = plan_with_links(rutted);
  for (const char* id : {"rut_disk", "rut_plane"}) {
    CHECK(passes(p, level, id) == 0);
    CHECK(passes(rutted, mended, id) == 3);
  }
  CHECK(audit::check(rutted, mended).ok());
  for (const auto& m : mended.plan.fields[1].methods) {
    const auto& recipe = rutted.farm.book.recipes[static_cast<std::size_t>(m.method)];
    if (recipe.bales || recipe.burns) CHECK(!m.possible);
  }
}
