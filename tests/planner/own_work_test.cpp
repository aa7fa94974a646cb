// No field's own work in a year is below what the bound takes it to be: farms with soils, machines and
// weather of their own, whole records of weather, methods and orders drawn at random.

#include <string>
#include <vector>

#include "aftercut/core/random.hpp"
#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/planner/bound.hpp"
#include "catch2/catch.hpp"
#include "gone_on.hpp"
#include "half_baled.hpp"
#include "invented_region.hpp"
#include "random_decisions.hpp"
#include "scratch.hpp"

using namespace aftercut;
using namespace aftercut::planner;

namespace {

constexpr std::uint64_t plans = 60;

/// [field][recipe] the bound's cost of a year without prices, to the cent below.
std::vector<std::vector<double>> least_cents(const dispatch::Table& t, std::size_t year) {
  const BoundModel m = make_bound_model(t, {year}, 1);
  return evaluate(m, {DayPrices(m.resources.minutes.size(), 0.0)}, 1).by_method;
}

struct Compared {
  std::size_t fields = 0;
  std::string above;
};

void compare_years(const dispatch::Table& t, const std::string& farm, Compared& c, std::size_t step = 1) {
  for (std::size_t year = 0; year < t.drivers.size(); year += step) {
    const auto least = least_cents(t, year);
    for (std::uint64_t k = 0; k < plans; ++k) {
      Draws draws{17, stream_of("own work"), (k << 8) + year};
      const plan::Decision d = test::random_decision(t, draws);
      const plan::YearRun run = dispatch::run(t, d, year);
      for (std::size_t f = 0; f < d.method.size(); ++f) {
        if (d.method[f] == plan::none) continue;
        ++c.fields;
        const double own = static_cast<double>(run.fields[f].cost.out_of_pocket());
        const double bound = least[f][static_cast<std::size_t>(d.method[f])];
        if (rounded_down(bound) > own)
          c.above += farm + ": field " + t.problem->farm.fields[f].id.value + ", year " +
                     std::to_string(year) + ", " +
                     t.problem->farm.book.recipes[static_cast<std::size_t>(d.method[f])].id.value + ", " +
                     std::to_string(bound / own) + " times; ";
      }
    }
  }
}

/// An invented farm of twelve fields, all of them cut.
farm::Problem cut_farm(const std::string& folder) {
  const test::Scratch scratch{folder};
  test::write_invented_region(scratch.path, {.farms = 1, .fields_a_farm = 12});
  const auto read = farm::read(scratch.path / "farms" / "F001", {.as_of = parse_iso_date("2026-09-01")});
  REQUIRE(read.ok());
  farm::Problem p = read.value();
  for (farm::Field& f : p.farm.fields) f.cut = true;
  return p;
}

}  // namespace

TEST_CASE("no field's work in a year costs less than the bound takes it to cost", "[identity]") {
  const test::Scratch scratch{"own-work"};
  test::write_invented_region(scratch.path, {.farms = 2, .fields_a_farm = 12});
  Compared c;
  for (const char* farm : {"F001", "F002"}) {
    const auto problem = farm::read(scratch.path / "farms" / farm, {.as_of = parse_iso_date("2026-10-12")});
    REQUIRE(problem.ok());
    compare_years(dispatch::make_table(problem.value(), 1), farm, c);
  }
  CAPTURE(c.above);
  CHECK(c.fields > 20000);
  CHECK(c.above.empty());
}

TEST_CASE("nor from the middle of a season on", "[identity]") {
  const farm::Problem p = cut_farm("own-work-so-far");
  const dispatch::Table whole = dispatch::make_table(p, 1);
  Draws draws{3, stream_of("so far")};
  Compared c;
  for (std::size_t year = 0; year < p.years.years.size(); year += 3) {
    const plan::YearRun run = dispatch::run(whole, test::random_decision(whole, draws), year);
    const int day = 45 + static_cast<int>(draws.below(200));
    const farm::Problem now = test::gone_on(p, run, year, day);
    compare_years(dispatch::make_table(now, 1), "F001 from day " + std::to_string(day), c, 5);
  }
  CAPTURE(c.above);
  CHECK(c.fields > 20000);
  CHECK(c.above.empty());
}

TEST_CASE("nor from fields on that are baled in part, bales hauled behind the baler", "[identity]") {
  const farm::Problem p = cut_farm("own-work-half-baled");
  Draws draws{7, stream_of("half baled")};
  Compared c;
  int fields = 0;
  for (std::size_t year = 0; year < p.years.years.size(); year += 3) {
    const int day = 50 + static_cast<int>(draws.below(40));
    farm::Problem now = test::with_weather_so_far(p, year, day);
    fields += test::bale_in_part(now, draws);
    compare_years(dispatch::make_table(now, 1), "F001 half baled on day " + std::to_string(day), c, 5);
  }
  CAPTURE(c.above);
  CHECK(fields > 20);
  CHECK(c.fields > 10000);
  CHECK(c.above.empty());
}
