// The demo farm holds what its README says.

#include <algorithm>
#include <filesystem>

#include "aftercut/farm/read.hpp"
#include "aftercut/geo/layer.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"
#include "scratch.hpp"

using namespace aftercut;
using test::Kind;

namespace {

std::filesystem::path demo() { return std::filesystem::path{AFTERCUT_SOURCE_DIR} / "fields" / "demo"; }

farm::Problem read_demo() {
  farm::ReadOptions options;
  options.as_of = make_date(2026, 10, 12);
  auto read = farm::read(demo(), options);
  INFO(test::all_text(read.issues()));
  REQUIRE(read.ok());
  return std::move(read).value();
}

const farm::Field& field(const farm::Farm& f, const std::string& id) {
  const auto at =
      std::find_if(f.fields.begin(), f.fields.end(), [&](const farm::Field& x) { return x.id.value == id; });
  REQUIRE(at != f.fields.end());
  return *at;
}

}  // namespace

TEST_CASE("The demo farm reads without an issue and has what its README says", "[golden]") {
  const farm::Problem p = read_demo();
  const farm::Farm& f = p.farm;
  CHECK(p.years.years.size() == 29);
  REQUIRE(f.fields.size() == 24);
  double area = 0.0;
  for (const farm::Field& x : f.fields) area += x.area.value();
  CHECK(area > 480.0);
  CHECK(area < 520.0);
  const auto count = [&](auto what) { return std::count_if(f.fields.begin(), f.fields.end(), what); };
  CHECK(count([](const farm::Field& x) { return !x.cut; }) == 3);
  CHECK(count([](const farm::Field& x) { return x.next.kind == farm::NextUseKind::fallow; }) == 1);
  CHECK(count([](const farm::Field& x) { return x.lease.has_value(); }) == 1);
  CHECK(count([](const farm::Field& x) { return x.ground.state == farm::GroundState::rutted; }) == 1);
  CHECK(count([](const farm::Field& x) { return x.pooled_ticket == "dryer 1"; }) == 3);
  CHECK(count([](const farm::Field& x) { return !x.not_allowed.empty(); }) == 4);
  CHECK(count([](const farm::Field& x) { return x.disease_finding == true; }) == 5);
  CHECK(count([](const farm::Field& x) { return x.invented_shape; }) == 0);
  CHECK(f.tractors.size() == 4);
  CHECK(f.operators.size() == 3);
  CHECK(f.places.size() == 11);
  REQUIRE(f.burning.has_value());
  REQUIRE(f.supply.has_value());
}

TEST_CASE("The demo's pump yard is no part of its field, and neighbours do not overlap", "[derived]") {
  const farm::Farm f = read_demo().farm;
  const farm::Field& b4 = field(f, "B4");
  REQUIRE(b4.shape.polygons.size() == 1);
  REQUIRE(b4.shape.polygons[0].holes.size() == 1);
  const geo::Shape whole{{{b4.shape.polygons[0].outer, {}}}, {}, {}};
  test::check({{"yard of 44 m by 60 m [ha]", "drawn with 0.1 % of slack", Kind::derived, 0.264,
                geo::geodesic_area(whole).value() - b4.area.value(), 0.001}});
  std::vector<geo::Shape> shapes;
  for (const farm::Field& x : f.fields) shapes.push_back(x.shape);
  CHECK(geo::overlaps(shapes, Hectare{0.0001}).empty());
}

TEST_CASE("The demo's canal cannot fill all its fields in a week", "[derived]") {
  const farm::Farm f = read_demo().farm;
  double area = 0.0;
  for (const farm::Field& x : f.fields)
    if (x.can_flood && x.holds_water) area += x.area.value();
  const double days =
      water::volume(Millimetre{100.0}, Hectare{area}) / CubicMetre{f.supply->most_flow.value()};
  CHECK(days > 7.0);
}
