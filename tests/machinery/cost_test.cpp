// Repair, remaining value and ownership.
#include "aftercut/machinery/cost.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::machinery;
using test::Kind;

namespace {

Owning tractor() {
  Owning o;
  o.price = Money{150000};
  o.years = 15;
  o.hours_per_year = 400;
  o.interest = 0.08;
  o.value_class = "tractor_over_112_kw";
  o.repair_class = "tractor_four_wheel";
  return o;
}

}  // namespace

TEST_CASE("a tractor keeps the published share of its price", "[published]") {
  test::check({
      {"180 hp, 15 y, 400 h/y", "A3-29", Kind::published, 0.23,
       remaining_value("tractor_over_112_kw", 15, 400).value(), 0.005},
      {"the same, more digits", "D497.7 table 4", Kind::recalled, 0.2276,
       remaining_value("tractor_over_112_kw", 15, 400).value(), 5e-5},
      {"baler, 10 y", "D497.7 table 4", Kind::recalled, 0.2837, remaining_value("baler", 10, 300).value(),
       5e-5},
      {"disk, 10 y", "D497.7 table 4", Kind::recalled, 0.2950, remaining_value("tillage", 10, 300).value(),
       5e-5},
      {"new, never used: c1 squared", "D497.7 table 4", Kind::recalled, 0.756 * 0.756,
       remaining_value("mower", 0, 0).value(), 1e-12},
  });
  for (const std::string& name : value_classes()) {
    CAPTURE(name);
    CHECK(remaining_value(name, 5, 300) > remaining_value(name, 10, 300));
    CHECK(remaining_value(name, 10, 900) <= remaining_value(name, 10, 300));
    CHECK(remaining_value(name, 5000, 300).value() == 0.0);  // never rises again past zero
  }
  CHECK_THROWS_AS(remaining_value("spaceship", 1, 1), InternalError);
}

TEST_CASE("capital recovery of the published tractor", "[derived]") {
  const double crf = capital_recovery_factor(0.08, 15);
  // The same by summing what the payments are worth today.
  double worth = 0.0;
  for (int n = 1; n <= 15; ++n) worth += std::pow(1.08, -n);
  test::check({
      {"factor 8 %, 15 y", "EP496.3, inputs A3-29", Kind::derived, 0.116830, crf, 5e-7},
      {"factor by summation", "present worth of 15 payments", Kind::cross, 1.0 / worth, crf, 1e-12},
      {"130 000 less 34 500 a year", "EP496.3, inputs A3-29", Kind::derived, 13917.22,
       capital_recovery(Money{130000}, Money{34500}, 0.08, 15).value(), 0.005},
      {"no interest: straight line", "definition", Kind::identity, 0.1, capital_recovery_factor(0.0, 10),
       1e-12},
      {"interest near none", "limit", Kind::identity, 0.1, capital_recovery_factor(1e-9, 10), 1e-7},
  });
  CHECK_THROWS_AS(capital_recovery_factor(-0.01, 10), InternalError);
  CHECK_THROWS_AS(capital_recovery_factor(0.05, 0), InternalError);
}

TEST_CASE("repairs over a life reproduce the table's own column", "[recalled]") {
  // RF1 (life / 1000)^RF2 against the life repair column: 4 points granted as both are recalled and rounded.
  const auto life = [](const char* kind, double share) {
    const KindRow& row = *row_of(kind);
    return test::Row{kind,
                     "D497.7 table 3",
                     Kind::recalled,
                     share,
                     repair_share(row.repair_factor_1, row.repair_factor_2, row.life_h),
                     0.04};
  };
  test::check({life("disk", 0.60), life("chisel", 0.75), life("baler", 0.75), life("rake", 0.60),
               life("chopper", 0.35), life("grooved_roller", 0.40), life("bale_wagon", 0.80)});
  test::check(
      {{"large baler, 3000 h", "D497.7 table 3", Kind::recalled, 0.7225, repair_share(0.10, 1.8, 3000), 5e-5},
       {"disk, 2000 h", "D497.7 table 3", Kind::recalled, 0.5848, repair_share(0.18, 1.7, 2000), 5e-5},
       {"2WD tractor, 12 000 h", "D497.7 table 3", Kind::recalled, 1.008, repair_share(0.007, 2.0, 12000),
        5e-4},
       {"4WD tractor, 16 000 h", "D497.7 table 3", Kind::recalled, 0.768, repair_share(0.003, 2.0, 16000),
        5e-4},
       {"cultivator, 2000 h", "D497.7 table 3", Kind::recalled, 0.713, repair_share(0.27, 1.4, 2000), 5e-4},
       {"rotary mower, 2000 h", "D497.7 table 3", Kind::recalled, 1.76, repair_share(0.44, 2.0, 2000), 5e-3},
       {"round baler, 1500 h", "D497.7 table 3", Kind::recalled, 0.892, repair_share(0.43, 1.8, 1500),
        5e-4}});
}

TEST_CASE("an hour's cost adds up to the life's cost", "[identity]") {
  const Owning o = tractor();
  const HourlyCost c = hourly_cost(o);
  const double hours = 15 * 400;
  const double salvage = 150000 * remaining_value("tractor_over_112_kw", 15, 400).value();
  const double a_year =
      (150000 - salvage) * capital_recovery_factor(0.08, 15) + salvage * 0.08 + 0.02 * 150000;
  test::check(
      {{"repairs over the life", "definition", Kind::identity, 150000 * 0.003 * 36, c.repair.value() * hours,
        1e-6},
       {"ownership over a year", "definition", Kind::identity, a_year, c.ownership.value() * 400, 1e-6}});
}

TEST_CASE("cost moves the right way", "[identity]") {
  Owning o = tractor();
  const HourlyCost base = hourly_cost(o);
  o.price = Money{300000};
  CHECK(hourly_cost(o).repair.value() == Approx(2 * base.repair.value()));
  CHECK(hourly_cost(o).ownership.value() == Approx(2 * base.ownership.value()));
  o = tractor();
  o.interest = 0.04;
  CHECK(hourly_cost(o).ownership < base.ownership);
  o = tractor();
  o.hours_per_year = 800;
  CHECK(hourly_cost(o).ownership < base.ownership);
  CHECK(hourly_cost(o).repair > base.repair);
  o.price = Money{0};
  o.value_class = o.repair_class = "";
  CHECK(hourly_cost(o).repair == Money{0});
  CHECK(hourly_cost(o).ownership == Money{0});
}

TEST_CASE("a priced machine of an unknown class is our own fault", "[identity]") {
  Owning o = tractor();
  o.repair_class = "spaceship";
  CHECK_THROWS_AS(hourly_cost(o), InternalError);
  o = tractor();
  o.value_class = "spaceship";
  CHECK_THROWS_AS(hourly_cost(o), InternalError);
  o = tractor();
  o.hours_per_year = 0;
  CHECK_THROWS_AS(hourly_cost(o), InternalError);
}

TEST_CASE("every kind and tractor has its classes", "[identity]") {
  const auto has = [](const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  for (const std::string& kind : known_kinds()) {
    CHECK(has(value_classes(), value_class_of_kind(kind)));
    CHECK(has(repair_classes(), kind));
  }
  CHECK(value_class_of_tractor(KiloWatt{59.9}) == "tractor_under_60_kw");
  CHECK(value_class_of_tractor(KiloWatt{60}) == "tractor_60_to_112_kw");
  CHECK(value_class_of_tractor(KiloWatt{112}) == "tractor_60_to_112_kw");
  CHECK(value_class_of_tractor(KiloWatt{112.1}) == "tractor_over_112_kw");
  for (const Drive d : {Drive::two_wheel, Drive::front_assist, Drive::four_wheel, Drive::track})
    CHECK(has(repair_classes(), repair_class_of_tractor(d)));
}
