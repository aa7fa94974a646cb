// What methods leave for the next crop, the air and the birds on the small invented farm.
#include "aftercut/scenario/environment.hpp"

#include <map>
#include <numeric>
#include <stdexcept>
#include <string>

#include "aftercut/dispatch/dispatch.hpp"
#include "catch2/catch.hpp"
#include "small_farm.hpp"

using namespace aftercut;

namespace {

/// The small farm with every field open to every method.
farm::Problem open_problem() {
  farm::Problem p = test::small_problem();
  for (farm::Field& f : p.farm.fields) f.locked.reset();
  return p;
}

int recipe(const farm::Farm& farm, const char* id) {
  for (std::size_t r = 0; r < farm.book.recipes.size(); ++r)
    if (farm.book.recipes[r].id.value == id) return static_cast<int>(r);
  throw std::runtime_error(id);
}

struct Tried {
  std::vector<plan::FieldRun> runs;
  plan::Environment environment;
};

/// One method on field 1, alone on the farm.
Tried tried(const farm::Problem& problem, const char* method) {
  const dispatch::Table table = dispatch::make_table(problem, 5);
  plan::Decision d;
  d.method.assign(problem.farm.fields.size(), plan::none);
  d.method[0] = recipe(problem.farm, method);
  d.autumn_order.resize(d.method.size());
  std::iota(d.autumn_order.begin(), d.autumn_order.end(), 0);
  d.spring_order = d.autumn_order;
  Tried t;
  std::vector<std::size_t> years;
  for (std::size_t y = 0; y < table.drivers.size(); ++y) {
    t.runs.push_back(dispatch::run(table, d, y, {.only_field = 0, .keep_next_crop = true}).fields[0]);
    years.push_back(y);
  }
  const scenario::Untouched untouched = scenario::untouched_of(table, 0);
  t.environment = scenario::environment_of({&problem.farm, 0, &t.runs, &years, &untouched});
  return t;
}

const Tried& of(const char* method) {
  static const farm::Problem problem = open_problem();
  static std::map<std::string, Tried> all;
  const auto found = all.find(method);
  return found != all.end() ? found->second : all.emplace(method, tried(problem, method)).first->second;
}

const plan::Environment& environment(const char* method) { return of(method).environment; }

}  // namespace

TEST_CASE("watching a field changes nothing of its run", "[identity]") {
  const farm::Problem problem = open_problem();
  const dispatch::Table table = dispatch::make_table(problem, 5);
  plan::Decision d;
  d.method.assign(problem.farm.fields.size(), recipe(problem.farm, "chop_disk"));
  d.autumn_order = d.spring_order = {0, 1, 2, 3, 4};
  for (std::size_t y = 0; y < table.drivers.size(); ++y) {
    const plan::YearRun plain = dispatch::run(table, d, y);
    plan::YearRun watched = dispatch::run(table, d, y, {.keep_next_crop = true});
    for (plan::FieldRun& f : watched.fields) {
      CHECK(f.next_crop != plan::NextCrop{});
      f.next_crop = {};
    }
    CHECK(plain == watched);
  }
}

TEST_CASE("straw worked in is what the run says, and only that counts", "[identity]") {
  for (const char* method : {"bale", "chop_disk", "roll_flood", "leave"})
    for (const plan::FieldRun& run : of(method).runs) {
      const plan::NextCrop& c = run.next_crop;
      INFO(method);
      CHECK(c.applied_early_kg_per_ha >= 0.0);
      CHECK(c.applied_late_kg_per_ha >= 0.0);
      // What a disk brings in twice cannot be more than there was.
      CHECK(c.applied_early_kg_per_ha + c.applied_late_kg_per_ha + run.baled_kg_per_ha +
                run.burned_kg_per_ha <=
            run.straw_left_kg_per_ha + run.decayed_kg_per_ha + run.baled_kg_per_ha + run.burned_kg_per_ha +
                1e-6);
    }
  CHECK(environment("chop_disk").applied_early > environment("leave").applied_early);
  CHECK(environment("bale").straw_factor < environment("leave").straw_factor);
  CHECK(environment("bale").methane.mean < environment("leave").methane.mean);
}

TEST_CASE("nitrogen taken up is held or given back", "[identity]") {
  for (const plan::FieldRun& run : of("chop_disk").runs) {
    CHECK(run.next_crop.n_taken_up_kg_per_ha > 0.0);
    CHECK(run.next_crop.n_given_back_kg_per_ha > 0.0);
    CHECK(run.next_crop.n_held_kg_per_ha > 0.0);
  }
  CHECK(environment("chop_disk").n_taken_up.mean > environment("bale").n_taken_up.mean);
}

TEST_CASE("disease, grain and water by method", "[identity]") {
  const auto index = [](const char* method) { return environment(method).disease->mean; };
  for (const char* method : {"bale", "chop_disk", "chop_disk_flood", "roll_flood", "leave"}) {
    INFO(method);
    CHECK(index(method) > 0.0);
    CHECK(index(method) <= 1.0);
    CHECK(environment(method).waste_grain.mean <= 388.0);
  }
  CHECK(index("bale") < index("leave"));
  CHECK(index("chop_disk") < index("leave"));
  CHECK(index("chop_disk_flood") < index("chop_disk"));
  CHECK(environment("roll_flood").bird_days.mean > environment("leave").bird_days.mean);
  CHECK(environment("chop_disk").waste_grain.mean < environment("leave").waste_grain.mean);
}

TEST_CASE("a higher cut leaves more disease behind a baler", "[identity]") {
  farm::Problem low = open_problem(), high = low;
  for (auto& r : low.farm.book.recipes) r.harvest.cut_height_cm = 10.0;
  for (auto& r : high.farm.book.recipes) r.harvest.cut_height_cm = 40.0;
  CHECK(tried(low, "bale").environment.disease->mean < tried(high, "bale").environment.disease->mean);
}

TEST_CASE("ranges hold their means, and parts make up the whole", "[identity]") {
  for (const char* method : {"bale", "chop_disk", "roll_flood", "leave"}) {
    const plan::Environment& e = environment(method);
    INFO(method);
    for (const plan::Figure& f : {e.methane, e.methane_dry_winter, e.methane_flooded_winter, e.residue_n2o,
                                  e.co2e, e.co2e_burn, e.co2e_methane, e.co2e_n2o, e.co2e_diesel}) {
      CHECK(f.low <= f.mean);
      CHECK(f.mean <= f.high);
      CHECK(f.p10 <= f.p90);
    }
    CHECK(e.co2e.mean ==
          Approx(e.co2e_burn.mean + e.co2e_methane.mean + e.co2e_n2o.mean + e.co2e_diesel.mean));
    CHECK(e.methane_flooded_winter.mean >= e.methane_dry_winter.mean);
    CHECK(e.late_loss_high >= e.late_loss);
    CHECK_FALSE(e.replacement);
  }
}

TEST_CASE("settings of the farm", "[identity]") {
  farm::Problem problem = open_problem();
  const double before = tried(problem, "roll_flood").environment.methane.mean;
  SECTION("a winter flood that always counts") {
    problem.farm.environment.winter_flood = farm::WinterFlood::flooded;
    const plan::Environment e = tried(problem, "roll_flood").environment;
    CHECK(e.methane.mean > before);
    CHECK(e.methane.mean == e.methane_flooded_winter.mean);
  }
  SECTION("prices of nutrients, and what a fire takes") {
    problem.farm.prices.nutrients = {.n_per_kg = 1.5, .p_per_kg = 3.0, .k_per_kg = 1.0};
    const Tried t = tried(problem, "bale");
    double baled = 0.0;
    for (const plan::FieldRun& r : t.runs) baled += r.baled_kg_per_ha / static_cast<double>(t.runs.size());
    REQUIRE(t.environment.replacement);
    CHECK(t.environment.replacement->mean == Approx(baled * (1.5 * 0.0059 + 3.0 * 0.00085 + 0.012)));
  }
  SECTION("a field without disease carries none; without rice there is no index and no methane") {
    problem.farm.fields[0].disease = {.entered = true, .weight = 0.0};
    CHECK(tried(problem, "leave").environment.disease->mean == 0.0);
    problem.farm.fields[0].next.kind = farm::NextUseKind::other;
    const plan::Environment e = tried(problem, "leave").environment;
    CHECK_FALSE(e.disease);
    CHECK(e.rice_years == 0);
    CHECK(e.methane.high == 0.0);
    CHECK(e.co2e.mean == Approx(e.co2e_diesel.mean));
  }
  SECTION("warming potentials of the other set") {
    problem.farm.environment.warming = burn::WarmingSet::ar5;
    const plan::Environment e = tried(problem, "roll_flood").environment;
    CHECK(e.methane.mean == before);
    CHECK(e.co2e_methane.mean == Approx(28.0 * before));
  }
}
