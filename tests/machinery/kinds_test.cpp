// The implement table: every row can be used.
#include <set>

#include "aftercut/machinery/machines.hpp"
#include "catch2/catch.hpp"

using namespace aftercut::machinery;

TEST_CASE("every kind has one row with usable numbers", "[identity]") {
  std::set<std::string> seen;
  for (const std::string& kind : known_kinds()) {
    CAPTURE(kind);
    CHECK(seen.insert(kind).second);
    const KindRow* row = row_of(kind);
    REQUIRE(row != nullptr);
    CHECK(row->kind == kind);
    CHECK(row->efficiency > 0.5);
    CHECK(row->efficiency <= 0.9);
    CHECK(row->speed_low_km_h < row->speed_km_h);
    CHECK(row->speed_km_h < row->speed_high_km_h);
    CHECK(row->life_h >= 1200.0);
    CHECK(row->repair_factor_1 > 0.0);
    CHECK(row->repair_factor_2 >= 1.0);
    CHECK(row->f_coarse <= row->f_medium);
    CHECK(row->f_medium <= 1.0);
    CHECK(row->band_percent >= 25.0);
    CHECK(row->band_percent <= 50.0);
  }
  CHECK(seen == std::set<std::string>{"rake", "baler", "bale_wagon", "chopper", "disk", "cage_roller",
                                      "chisel", "plane", "grooved_roller", "torch", "mower"});
}

TEST_CASE("an unknown kind has no row", "[identity]") {
  CHECK(row_of("") == nullptr);
  CHECK(row_of("Disk") == nullptr);
  CHECK(row_of("spaceship") == nullptr);
}

TEST_CASE("only the chisel counts tools; only tillage feels depth", "[identity]") {
  for (const std::string& kind : known_kinds()) {
    CAPTURE(kind);
    CHECK(row_of(kind)->draft_by_tools == (kind == "chisel"));
    CHECK(row_of(kind)->depth_matters == (kind == "chisel" || kind == "disk"));
  }
}
