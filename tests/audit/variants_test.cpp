// Farms that are short of something: little water, few people, late starts, ruts, leases, small burn areas.
// The plan of each is clean; this is where dispatch and audit would part if they read a rule differently.

#include "catch2/catch.hpp"
#include "rows.hpp"
#include "sound_plan.hpp"

#include <array>
#include <functional>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/scenario/base_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

void lock_all(farm::Problem& p, const std::array<const char*, 5>& methods) {
  for (std::size_t f = 0; f < methods.size(); ++f) p.farm.fields[f].locked = MethodId{methods[f]};
}

struct Variant {
  const char* name;
  std::function<void(farm::Problem&)> change;
};

const std::vector<Variant>& variants() {
  static const std::vector<Variant> all{
      {"little water for four fields",
       [](farm::Problem& p) {
         lock_all(p, {"flood", "chop_disk_flood", "roll_flood", "flood", "flood"});
         p.farm.supply->most_flow = CubicMetrePerDay{1500.0};
       }},
      {"water that ends before the fields are full",
       [](farm::Problem& p) {
         lock_all(p, {"flood", "flood", "roll_flood", "roll_rain", "bale_flood"});
         p.farm.supply->most_flow = CubicMetrePerDay{900.0};
         p.farm.supply->off = {11, 20};
       }},
      {"a lease that outlasts the supply",
       [](farm::Problem& p) {
         p.farm.fields[0].lease =
             farm::WaterLease{make_date(2026, 11, 15), make_date(2027, 2, 20), Money{80.0}};
         p.farm.fields[4].lease =
             farm::WaterLease{make_date(2026, 12, 1), make_date(2027, 1, 10), Money{80.0}};
       }},
      {"one operator on short days",
       [](farm::Problem& p) {
         p.farm.operators = {small_operator("ana", 24.0, true, {"burning"})};
         p.farm.operators[0].hours_per_day = Hours{5.0};
         p.farm.operators[0].weekdays_off = {0, 5, 6};
       }},
      {"all fields baled by one short visit",
       [](farm::Problem& p) {
         lock_all(p, {"bale", "bale_disk", "bale", "bale", "bale_flood"});
         p.farm.implements[1].hire->windows = {{make_date(2026, 10, 1), make_date(2026, 10, 6)}};
         p.farm.implements[1].hire->brings_tractor = false;
         p.farm.implements[1].hire->brings_operator = false;
       }},
      {"everything to burn, little of it on a day",
       [](farm::Problem& p) {
         lock_all(p, {"burn", "burn", "burn", "burn", "burn"});
         for (auto& f : p.farm.fields) f.disease_finding = true, f.area = Hectare{6.0};
         p.farm.burning->rules[2].value = "60";
       }},
      {"no burn day ever called",
       [](farm::Problem& p) {
         lock_all(p, {"bale", "chop_disk", "chop_disk", "leave", "burn"});
         p.farm.burning->burn_day_chance = 0.0;
       }},
      {"work from late November", [](farm::Problem& p) { p.as_of = make_date(2026, 11, 25); }},
      {"rutted ground and heavy straw",
       [](farm::Problem& p) {
         for (auto& f : p.farm.fields) {
           f.straw_load = KgPerHa{11500.0};
           f.ground = {farm::GroundState::rutted, 0.4, 150.0};
         }
       }},
      {"all windrows to scatter",
       [](farm::Problem& p) {
         for (auto& f : p.farm.fields)
           f.cut = true, f.lay = straw::Lay::windrow, f.harvest = make_date(2026, 9, 6);
         lock_all(p, {"chop_disk", "leave", "roll_flood", "flood", "chop_disk"});
       }},
      {"no method possible on two fields",
       [](farm::Problem& p) {
         p.farm.fields[0].locked = MethodId{"burn"};
         p.farm.fields[3].locked = MethodId{"burn"};
       }},
      {"a planting date that comes too soon",
       [](farm::Problem& p) {
         for (auto& f : p.farm.fields)
           f.next.planting = make_date(2027, 3, 20), f.next.cut_off = make_date(2027, 4, 12);
       }},
      {"rates entered by the day",
       [](farm::Problem& p) {
         for (auto& i : p.farm.implements) i.entered_ha_per_day = 7.0;
         p.farm.work_day.move_between_fields = Hours{1.25};
         p.farm.work_day.shift_start_h = 8.5;
       }},
      {"a spring without rain, hard ground and little power",
       [](farm::Problem& p) {
         p = without_rain_from(std::move(p), 130);
         soil::ProfileInput hard = p.farm.soils[0].input;
         hard.entered_dry_limit = 0.395;
         hard.dry_draft_gain = 1.6;
         p.farm.soils[0] = soil::make_profile(hard);
         for (auto& t : p.farm.tractors) t.pto_power = KiloWatt{95.0};
         p.farm.most_dry_wait_days = 11;
       }},
      {"no straw",
       [](farm::Problem& p) {
         for (auto& f : p.farm.fields) f.straw_load = KgPerHa{0.0};
       }},
  };
  return all;
}

}  // namespace

TEST_CASE("plans of farms that are short of something are clean", "[cross]") {
  for (const Variant& v : variants()) {
    farm::Problem problem = small_problem(3);
    v.change(problem);
    const auto planned =
        scenario::make_plan(problem, {.seed = 11, .threads = 1, .evaluations = 8, .progress = {}});
    const audit::Audit a = audit::check(problem, planned);
    INFO(v.name << "\n" << listed(a));
    CHECK(a.ok());
  }
}

TEST_CASE("random decisions played by the dispatch are clean year by year", "[cross]") {
  farm::Problem problem = small_problem(2);
  problem.farm.fields[2].locked.reset();
  problem.farm.fields[3].next = problem.farm.fields[0].next;
  const dispatch::Table table = dispatch::make_table(problem, 23);
  Draws draws{23, stream_of("audit-test"), 0};
  for (int trial = 0; trial < 40; ++trial) {
    plan::PlannedYears planned =
        scenario::make_plan(problem, {.seed = 23, .threads = 1, .evaluations = 1, .progress = {}});
    plan::Decision& d = planned.plan.decision;
    for (std::size_t f = 0; f < d.method.size(); ++f) {
      do
        d.method[f] =
            static_cast<int>(draws.below(static_cast<std::uint32_t>(problem.farm.book.recipes.size())));
      while (!table.why_not[f][static_cast<std::size_t>(d.method[f])].empty());
      planned.plan.fields[f].chosen.method = d.method[f];
      std::swap(d.autumn_order[f], d.autumn_order[draws.below(5)]);
      std::swap(d.spring_order[f], d.spring_order[draws.below(5)]);
    }
    for (std::size_t y = 0; y < planned.runs.size(); ++y)
      planned.runs[y] = dispatch::run(table, d, y, {.keep_next_crop = true});
    const audit::Audit a = audit::check(problem, planned);
    for (const auto& v : a.violations) {  // figures over the years were those of another decision
      INFO(v.rule << " | " << v.where << " | " << v.found << " | " << v.expected);
      CHECK(v.where.find("year ") == std::string::npos);
    }
  }
}

// Minutes by hand: area / (speed x width x efficiency / 10), of the third field's first disk pass and chop.
TEST_CASE("minutes of a pass are area over rate", "[derived]") {
  const auto& planned = sound_plan();
  const auto& farm = locked_problem().farm;
  std::vector<Row> rows;
  for (const auto& run : planned.runs) {
    double chop = 0.0, disk = 0.0;
    for (const auto& w : run.work) {
      if (w.field != 2 || w.pass != 0) continue;
      if (w.operation == operation_named(farm, "chop")) chop += w.end_min - w.start_min;
      if (w.operation == operation_named(farm, "disk")) disk += w.end_min - w.start_min;
    }
    rows.push_back(
        {"chop 16 ha, 8 km/h x 4.5 m x 0.8 [min]", "rules of work, Rates", Kind::derived, 333.33, chop, 1.0});
    rows.push_back(
        {"disk 16 ha, 8 km/h x 5 m x 0.8 [min]", "rules of work, Rates", Kind::derived, 300.0, disk, 1.0});
  }
  check(rows);
}
