#include "aftercut/farm/field_table.hpp"

#include <string>
#include <vector>

#include "catch2/catch.hpp"
#include "rows.hpp"
#include "scratch.hpp"

using namespace aftercut;
using test::Kind;
using test::says;
using test::Scratch;
using test::us_table;

TEST_CASE("A table in acres and pounds becomes SI values", "[derived]") {
  const Scratch s{"us_table"};
  const auto fields = farm::read_field_table(s.file("t.csv", us_table), true);
  REQUIRE(fields.ok());
  REQUIRE(fields.value().size() == 3);
  const auto& f = fields.value()[0];
  CHECK(f.name == "North 76");
  CHECK(f.line == 2);
  CHECK(f.ticket == "301");
  CHECK(iso(f.harvest) == "2026-09-18");
  CHECK(fields.value()[2].soil == "Silty clay, deep");
  CHECK_FALSE(fields.value()[1].grain.has_value());
  test::check({{"76 acres in ha", "exact acre", Kind::derived, 30.75610880, f.area->value(), 1e-7},
               {"1,200,000 lb in kg", "exact pound", Kind::derived, 544310.844, f.grain->value(), 1e-6}});
}

TEST_CASE("Every unit of grain and yield is known", "[derived]") {
  const Scratch s{"units"};
  struct Unit {
    const char* header;
    double kg;  ///< of 100 units: kg, or kg/ha
    bool by_area;
  };
  const std::vector<Unit> units{{"grain_kg", 100, false},
                                {"grain_t", 100000, false},
                                {"Delivered (tonnes)", 100000, false},
                                {"grain_lb", 45.359237, false},
                                {"grain_lbs", 45.359237, false},
                                {"grain_cwt", 4535.9237, false},
                                {"dryer_short_tons", 90718.474, false},
                                {"yield_kg_per_ha", 100, true},
                                {"Yield (kg/ha)", 100, true},
                                {"yield_lb_per_acre", 112.08511561, true},
                                {"yield_cwt_per_acre", 11208.511561, true}};
  for (const Unit& u : units) {
    const auto got = farm::read_field_table(s.file("u.csv", std::string{"field,area_ha,harvest,soil,"} +
                                                                u.header + "\na,10,2026-09-10,clay,100\n"),
                                            true);
    INFO(u.header);
    REQUIRE(got.ok());
    const auto& f = got.value()[0];
    REQUIRE(f.yield.has_value() == u.by_area);
    const double found = u.by_area ? f.yield->value() : f.grain->value();
    test::check({{u.header, "exact pound and acre", Kind::derived, u.kg, found, 1e-6 * u.kg}});
  }
}

TEST_CASE("Faulty headers say which header would do", "[regression]") {
  const Scratch s{"headers"};
  const auto bare =
      farm::read_field_table(s.file("a.csv", "field,area,harvest,soil,grain\na,1,2026-09-14,clay,9\n"), true);
  REQUIRE_FALSE(bare.ok());
  CHECK(bare.issues().size() == 2);
  CHECK(says(bare.issues(), "area_ha or area_acres"));
  CHECK(says(bare.issues(), "grain_t or grain_lb"));
  const auto none = farm::read_field_table(s.file("b.csv", "x,y\n1,2\n"), true);
  REQUIRE_FALSE(none.ok());
  CHECK(none.issues().size() == 5);
  const auto two = farm::read_field_table(
      s.file("c.csv", "field,name,area_ha,harvest,soil,grain_t\na,a,1,2026-09-14,clay,9\n"), true);
  REQUIRE_FALSE(two.ok());
  CHECK(says(two.issues(), "a second column for the name"));
  const auto gone = farm::read_field_table(s.path / "none.csv", true);
  CHECK_FALSE(gone.ok());
}

TEST_CASE("Rows of one ticket have to agree, and every field needs grain", "[regression]") {
  const Scratch s{"tickets"};
  const std::string head = "field,area_ha,harvest,soil,grain_t,ticket,moisture_percent\n";
  CHECK(farm::read_field_table(s.file("a.csv", head + "a,1,2026-09-14,clay,9,7,\nb,1,2026-09-14,clay,9,7,\n"),
                               true)
            .ok());
  const auto other = farm::read_field_table(
      s.file("b.csv", head + "a,1,2026-09-14,clay,9,7,\nb,1,2026-09-14,clay,8,7,\n"), true);
  REQUIRE_FALSE(other.ok());
  CHECK(says(other.issues(), "ticket '7'"));
  const auto wetter = farm::read_field_table(
      s.file("c.csv", head + "a,1,2026-09-14,clay,9,7,14\nb,1,2026-09-14,clay,,7,16\n"), true);
  CHECK_FALSE(wetter.ok());
  const auto nothing = farm::read_field_table(s.file("d.csv", head + "a,1,2026-09-14,clay,,8,\n"), true);
  REQUIRE_FALSE(nothing.ok());
  CHECK(says(nothing.issues(), "neither grain nor yield"));
}
