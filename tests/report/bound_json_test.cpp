// bound.json: its schema, numbers that read back to the same double, and a file that comes and goes with the
// plan's bound.

#include <unistd.h>

#include <filesystem>

#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "departures.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

/// Two charged resources in the first year, none in the others; odd numbers of cents.
test::Sample sample_with_bound() {
  test::Sample s = test::sample();
  plan::BoundProof b{.rounds = 3, .cents = 123456789, .cents_a_year = 4115226, .without_prices = 123000000};
  for (const int year : s.planned.plan.years)
    b.years.push_back({.year = year, .paid_back = 0.0, .prices = {}});
  b.years.front().paid_back = 1234.1 / 3.0;
  b.years.front().prices = {{plan::Resource::tractor, 0, 40, 1.0 / 3.0},
                            {plan::Resource::tractor, 0, 41, 5e-324},
                            {plan::Resource::person, 0, 40, 1234567.0 / 7.0}};
  for (std::size_t f = 0; f < s.problem.farm.fields.size(); ++f)
    b.fields.push_back(
        {.method = 1,
         .methods = {{.method = 0, .cents = 0.1 + 0.2, .by_year = {}},
                     {.method = 1, .cents = -2.0 / 3.0, .by_year = {-1.0 / 3.0, -1.0 / 3.0}}}});
  b.fields.back() = {};
  s.planned.bound = b;
  s.planned.plan.bound_cents = b.cents_a_year;
  return s;
}

json written(const test::Sample& s) { return json::parse(report::bound_json(s.problem, s.planned)); }

}  // namespace

TEST_CASE("bound.json keeps to its schema, and the schema notices what is wrong", "[golden]") {
  const json good = written(sample_with_bound());
  CHECK(test::departures_from("bound.schema.json", good) == std::vector<std::string>{});
  json missing = good, below = good, kind = good, day = good, unknown = good;
  missing["fields"][0].erase("methods");
  below["years"][0]["multipliers"][0]["cents_a_minute"][0] = -0.1;
  kind["years"][0]["multipliers"][0]["kind"] = "horse";
  day["years"][0]["multipliers"][0]["days"][0] = 40;
  unknown["colour"] = "red";
  for (const json& wrong : {missing, below, kind, day, unknown})
    CHECK_FALSE(test::departures_from("bound.schema.json", wrong).empty());
}

TEST_CASE("numbers of bound.json read back to the same double", "[identity]") {
  const test::Sample s = sample_with_bound();
  const json b = written(s);
  const json& first = b["years"][0];
  CHECK(first["paid_back_cents"].get<double>() == s.planned.bound->years[0].paid_back);
  REQUIRE(first["multipliers"].size() == 2);
  CHECK(first["multipliers"][0]["kind"] == "tractor");
  CHECK(first["multipliers"][0]["id"] == s.problem.farm.tractors[0].id.value);
  CHECK(first["multipliers"][0]["cents_a_minute"] == json({1.0 / 3.0, 5e-324}));
  CHECK(first["multipliers"][1]["kind"] == "operator");
  CHECK(first["multipliers"][1]["days"][0] == iso(s.problem.farm.season.date(40)));
  CHECK(first["multipliers"][1]["cents_a_minute"][0].get<double>() == 1234567.0 / 7.0);
  CHECK(b["fields"][0]["methods"][0]["cents"].get<double>() == 0.1 + 0.2);
  CHECK_FALSE(b["fields"][0]["methods"][0].contains("by_year_cents"));
  CHECK(b["fields"].back()["method"].is_null());
}

TEST_CASE("bound.json is written with a bound and taken away without one", "[identity]") {
  const fs::path out = fs::temp_directory_path() / ("aftercut-bound-json-" + std::to_string(::getpid()));
  test::Sample s = sample_with_bound();
  REQUIRE(report::write(s.problem, s.planned, s.audit, out).ok());
  CHECK(read_file(out / "bound.json").value() == report::bound_json(s.problem, s.planned));
  REQUIRE(report::write(s.problem, s.planned, s.audit, out).ok());
  CHECK(fs::exists(out / "bound.json"));
  s.planned.bound.reset();
  s.planned.plan.bound_cents.reset();
  REQUIRE(report::write(s.problem, s.planned, s.audit, out).ok());
  CHECK_FALSE(fs::exists(out / "bound.json"));
  CHECK(fs::exists(out / "plan.json"));
  fs::remove_all(out);
}

TEST_CASE("a number of the bound that is not one is our own fault, never written", "[regression]") {
  test::Sample s = sample_with_bound();
  s.planned.bound->fields[0].methods[0].cents = std::nan("");
  CHECK_THROWS_AS(report::bound_json(s.problem, s.planned), InternalError);
}

}  // namespace aftercut
