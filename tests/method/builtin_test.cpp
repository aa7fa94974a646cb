// The built-in methods: each recipe can be followed from its first step to a ready seedbed, and its shares
// agree with what is published.
#include <algorithm>
#include <set>

#include "aftercut/core/save_file.hpp"
#include "aftercut/machinery/machines.hpp"
#include "aftercut/method/recipe.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::method;
using test::Kind;

namespace {

const Recipe& recipe(const std::string& id) {
  const Book& book = builtin_book();
  const auto at = std::find_if(book.recipes.begin(), book.recipes.end(),
                               [&](const Recipe& r) { return r.id.value == id; });
  REQUIRE(at != book.recipes.end());
  return *at;
}

const Operation& operation_of(const Step& step) {
  return builtin_book().operations.at(static_cast<std::size_t>(step.operation));
}

const Operation& operation(const std::string& id) {
  const auto& all = builtin_book().operations;
  const auto at = std::find_if(all.begin(), all.end(), [&](const Operation& o) { return o.id.value == id; });
  REQUIRE(at != all.end());
  return *at;
}

std::vector<std::string> straw_steps(const Recipe& r) {
  std::vector<std::string> ids;
  for (const Step& step : r.steps)
    if (step.season != Season::spring) ids.push_back(operation_of(step).id.value);
  return ids;
}

}  // namespace

TEST_CASE("the embedded book is the file in the source tree", "[identity]") {
  const auto text = read_file(std::string{AFTERCUT_SOURCE_DIR} + "/src/method/builtin_methods.json");
  REQUIRE(text.ok());
  const auto book = read_book(text.value(), "builtin_methods.json");
  REQUIRE(book.ok());
  REQUIRE(book.value().recipes.size() == builtin_book().recipes.size());
  for (std::size_t i = 0; i < book.value().recipes.size(); ++i)
    CHECK(book.value().recipes[i].steps == builtin_book().recipes[i].steps);
}

TEST_CASE("every method is there, once", "[identity]") {
  std::set<std::string> ids;
  for (const Recipe& r : builtin_book().recipes) ids.insert(r.id.value);
  CHECK(ids == std::set<std::string>{"bale", "bale_disk", "bale_flood", "bale_low", "burn", "burn_spring",
                                     "chop_disk", "chop_disk_flood", "flood", "leave", "roll_flood",
                                     "roll_rain"});
  CHECK(ids.size() == builtin_book().recipes.size());
}

TEST_CASE("every recipe ends with the spring chain and keeps its seasons in order", "[identity]") {
  const Book& book = builtin_book();
  REQUIRE_FALSE(book.spring_chain.empty());
  for (const Recipe& r : book.recipes) {
    CAPTURE(r.id.value);
    REQUIRE(r.steps.size() >= book.spring_chain.size());
    CHECK(std::equal(book.spring_chain.rbegin(), book.spring_chain.rend(), r.steps.rbegin()));
    CHECK(operation_of(r.steps.back()).id.value == "groove_roll");
    CHECK(std::is_sorted(r.steps.begin(), r.steps.end(),
                         [](const Step& a, const Step& b) { return a.season < b.season; }));
    for (const Step& step : r.steps) {
      CHECK(step.operation >= 0);
      CHECK(step.operation < static_cast<int>(book.operations.size()));
      for (const PassRow& row : step.passes) CHECK(row.passes >= 1);
    }
    CHECK_FALSE(r.takes.empty());
    CHECK_FALSE(r.summary.empty());
  }
}

TEST_CASE("a spring step does not run in winter", "[identity]") {
  const Step& first = builtin_book().spring_chain.front();
  REQUIRE(first.earliest);
  CHECK(*first.earliest == MonthDay{3, 1});
}

TEST_CASE("a fall-back exists and has none itself", "[identity]") {
  int with_fall_back = 0;
  for (const Recipe& r : builtin_book().recipes) {
    CAPTURE(r.id.value);
    CHECK(r.fall_back.has_value() == (r.burns || r.bales));
    if (!r.fall_back) continue;
    ++with_fall_back;
    CHECK_FALSE(recipe(r.fall_back->method.value).fall_back);
    CHECK_FALSE(r.fall_back->trigger.empty());
  }
  CHECK(with_fall_back == 6);
  CHECK(recipe("burn").fall_back->start_by == MonthDay{11, 10});
  CHECK(recipe("burn_spring").fall_back->start_by == MonthDay{4, 1});
  CHECK(recipe("bale_flood").fall_back->start_by == MonthDay{11, 1});
}

TEST_CASE("burning and baling are told from the operations", "[identity]") {
  CHECK(recipe("burn").burns);
  CHECK_FALSE(recipe("burn").bales);
  CHECK(recipe("burn_spring").burns);
  CHECK(*recipe("burn_spring").steps.front().earliest == MonthDay{2, 15});
  CHECK(recipe("bale").bales);
  CHECK(recipe("bale_disk").bales);
  CHECK_FALSE(recipe("chop_disk").burns);
}

TEST_CASE("chopped straw is never baled; unbaled windrows are scattered first", "[identity]") {
  for (const Recipe& r : builtin_book().recipes) {
    CAPTURE(r.id.value);
    const bool chopped = std::count(r.takes.begin(), r.takes.end(), straw::Lay::chopped) > 0;
    CHECK(chopped != r.bales);
    if (r.bales || r.burns) continue;
    const Step& first = r.steps.front();
    CHECK(first.only_if_windrow);
    CHECK(operation_of(first).effect.lay_after == straw::Lay::spread);
  }
}

TEST_CASE("the steps of each method are those of the trade", "[identity]") {
  using Ids = std::vector<std::string>;
  CHECK(straw_steps(recipe("bale_disk")) == Ids{"rake", "bale", "haul", "disk"});
  CHECK(straw_steps(recipe("bale_low")) == Ids{"mow", "rake", "bale", "haul"});
  CHECK(straw_steps(recipe("bale_flood")) == Ids{"rake", "bale", "haul", "boards_in", "fill", "boards_out"});
  CHECK(straw_steps(recipe("chop_disk")) == Ids{"scatter", "chop", "disk"});
  CHECK(straw_steps(recipe("roll_flood")) == Ids{"scatter", "boards_in", "fill", "cage_roll", "boards_out"});
  CHECK(straw_steps(recipe("roll_rain")) == Ids{"scatter", "boards_in", "cage_roll", "boards_out"});
  CHECK(straw_steps(recipe("leave")) == Ids{"scatter"});
}

TEST_CASE("boards go in before and come out after the water, outside the spring chain", "[identity]") {
  for (const Recipe& r : builtin_book().recipes) {
    CAPTURE(r.id.value);
    const auto count = [&](Water w) {
      return std::count_if(r.steps.begin(), r.steps.end(), [&](const Step& s) {
        return operation_of(s).water == w && s.season == Season::winter;
      });
    };
    CHECK(count(Water::boards_in) == (r.water ? 1 : 0));
    CHECK(count(Water::boards_out) == (r.water ? 1 : 0));
    CHECK(count(Water::fill) == (r.water && r.water->from_canal ? 1 : 0));
    if (r.water) CHECK(r.water->board_mm >= r.water->target_mm);
  }
}

TEST_CASE("each kind of implement is one of the machine table", "[identity]") {
  for (const Operation& op : builtin_book().operations) {
    CAPTURE(op.id.value);
    if (op.implement.empty()) CHECK_FALSE(op.tractor);
    if (!op.implement.empty()) CHECK(machinery::row_of(op.implement) != nullptr);
    if (op.tillage) CHECK(op.when.workable);
    if (op.tillage) CHECK(op.when.most_rain_mm == 2.0);
  }
  CHECK(operation("bale").when.most_rain_mm == 0.5);
  CHECK(operation("bale").when.most_straw_moisture_percent == 17.0);
  CHECK(operation("bale").load == soil::LoadClass::heavy);
  CHECK(operation("haul").load == soil::LoadClass::heavy);
  CHECK_FALSE(operation("cage_roll").when.can_drive);
  CHECK(operation("cage_roll").when.least_ponded_mm == 20.0);
  CHECK(operation("cage_roll").when.most_ponded_mm == 150.0);
  CHECK(operation("burn").crew == 2);
  CHECK_FALSE(operation("burn").tractor);
}

TEST_CASE("only the passes that make the seedbed fine wait for moister ground", "[identity]") {
  for (const Operation& op : builtin_book().operations) {
    CAPTURE(op.id.value);
    CHECK(op.when.not_too_dry == (op.id.value == "plane" || op.id.value == "groove_roll"));
  }
}

TEST_CASE("raked straw that was not baled in time is raked again", "[identity]") {
  const Step& bale = recipe("bale").steps.at(1);
  CHECK(operation_of(bale).id.value == "bale");
  CHECK(bale.most_lag_days == 9);
}

TEST_CASE("more straw asks for more passes", "[identity]") {
  const auto& chain = builtin_book().spring_chain;
  const auto at = std::find_if(chain.begin(), chain.end(), [](const Step& s) { return !s.passes.empty(); });
  REQUIRE(at != chain.end());
  const Step& disk = *at;
  CHECK(operation_of(disk).id.value == "disk_spring");
  REQUIRE(disk.passes.size() == 3);
  for (std::size_t i = 1; i < disk.passes.size(); ++i) {
    CHECK(disk.passes[i].above_kg_per_ha > disk.passes[i - 1].above_kg_per_ha);
    CHECK(disk.passes[i].passes == disk.passes[i - 1].passes + 1);
  }
}

TEST_CASE("what is taken off agrees with field results", "[published]") {
  // Linquist2006: California, 7000 kg/ha -> 4200 after baling (40 % removed), -> 1600 after burning.
  const Recipe& bale = recipe("bale");
  const double stands = straw::stubble_share(bale.harvest.cut_height_cm).value();
  const straw::Pools cut = straw::fresh(7000.0, stands, {});
  const Effect& baling = operation("bale").effect;
  const Effect& fire = operation("burn").effect;
  test::check({
      // Cutting height and baler of the trial are not reported: 5 points of the load (350 kg/ha) are granted.
      {"bale: left of 7000 kg/ha at 20 cm cut", "Linquist2006", Kind::published, 4200.0,
       straw::remove(cut, baling.bale_share, 0.0).pools.total(), 350.0},
      // Half the last printed digit (50 kg/ha).
      {"burn: left of 7000 kg/ha", "Linquist2006", Kind::published, 1600.0,
       straw::remove(cut, fire.burn_share_flat, fire.burn_share_standing).pools.total(), 50.0},
  });
  // Balers took 65 to 85 % of the cut loose straw. Source: SciRep2019 (read).
  CHECK(baling.bale_share >= 0.65);
  CHECK(baling.bale_share <= 0.85);
  // A tandem disk lays 86 to 95 % of standing stubble flat. Source: WagnerNelson1995 (read).
  CHECK(operation("disk").effect.straw.flatten >= 0.86);
  CHECK(operation("disk").effect.straw.flatten <= 0.95);
}

TEST_CASE("dates move half a year for the other hemisphere", "[identity]") {
  const Book south = half_a_year_later(builtin_book());
  CHECK(south.spring_chain.front().earliest == MonthDay{9, 1});
  const Recipe& bale = south.recipes.front();
  CHECK(bale.fall_back->start_by == MonthDay{5, 1});
  CHECK(south.recipes[2].water->draw_down == MonthDay{8, 1});
  const Book back = half_a_year_later(south);
  for (std::size_t i = 0; i < back.recipes.size(); ++i)
    CHECK(back.recipes[i].steps == builtin_book().recipes[i].steps);
}
