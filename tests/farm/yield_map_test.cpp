// Maps of yield into straw: means, scaling to weighed grain, zones, rasters, order of rows.

#include <algorithm>
#include <cmath>

#include "aftercut/core/save_file.hpp"
#include "aftercut/geo/gridding.hpp"
#include "catch2/catch.hpp"
#include "mapped_farm.hpp"
#include "rows.hpp"
#include "scratch.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

bool map_noted(const farm::Problem& p, const std::string& part) {
  return std::any_of(p.farm.notes.begin(), p.farm.notes.end(),
                     [&](const std::string& n) { return n.find(part) != std::string::npos; });
}

double plane(double u, double v) { return 9000.0 + 2000.0 * u - 1000.0 * v; }  // mean 9500

/// West three quarters 8 t/ha, east quarter 12 t/ha: mean 9 t/ha.
double step(double u, double) { return u > 0.75 ? 12000.0 : 8000.0; }

FarmFiles without_yield(FarmFiles files) {
  field(files, "A").erase("yield");
  field(files, "A").erase("moisture_percent");
  return files;
}

/// The mean of a raster's cells that have a value.
double mean_of(const geo::Grid& g) {
  double sum = 0.0, n = 0.0;
  for (const double v : g.values)
    if (!std::isnan(v)) sum += v, n += 1.0;
  return sum / n;
}

}  // namespace

TEST_CASE("points of a plane surface give its mean as the field's yield", "[identity]") {
  const farm::Problem p = sound(without_yield(mapped_farm(lattice(64, plane))));
  const farm::Field& a = field_of(p, "A");
  check({{"grain by the map alone", "derived", Kind::identity, 9500.0, a.grain->value(), 1.0},
         {"straw, 0.86 of grain, HI 0.53", "derived", Kind::derived, 9500.0 * 0.86 * 0.47 / 0.53,
          a.straw_load.value(), 1.0},
         {"mean of the straw raster", "derived", Kind::identity, a.straw_load.value(),
          mean_of(p.farm.yield_map.straw), 20.0}});
  CHECK(pattern_of_a(p).gives_mean);
  CHECK(pattern_of_a(p).points == 64U * 64U);
  CHECK(map_noted(p, "its mean counts where there is neither a yield nor a ticket: A"));
}

TEST_CASE("the spread of a plane surface is that of its values", "[derived]") {
  const auto slope = [](double u, double) { return 8000.0 + 4000.0 * u; };
  const farm::Problem p = sound(without_yield(mapped_farm(lattice(64, slope))));
  const double load = field_of(p, "A").straw_load.value();
  const farm::YieldPattern& m = pattern_of_a(p);
  // Uniform from 0.8 to 1.2 of the mean; the moving mean flattens the last half reach at either end.
  check({{"p10 of uniform 0.8 to 1.2", "derived", Kind::derived, 0.84, m.p10_kg_per_ha / load, 0.004},
         {"p90 of uniform 0.8 to 1.2", "derived", Kind::derived, 1.16, m.p90_kg_per_ha / load, 0.004},
         {"cv of uniform 0.8 to 1.2", "derived", Kind::derived, 0.4 / std::sqrt(12.0), m.cv, 0.003}});
  CHECK(m.zones.empty());
}

TEST_CASE("a row's weighed grain counts for the mean, the map for the pattern", "[identity]") {
  const farm::Problem bare = sound(small_farm()), p = sound(mapped_farm(lattice(64, plane)));
  CHECK(field_of(p, "A").straw_load == field_of(bare, "A").straw_load);
  CHECK(field_of(p, "A").grain == field_of(bare, "A").grain);
  CHECK_FALSE(pattern_of_a(p).gives_mean);
  CHECK(mean_of(p.farm.yield_map.straw) == Approx(field_of(p, "A").straw_load.value()).epsilon(0.003));
  // 9200 lb/acre at 18 % are 8455.7 kg/ha dry; the map has 9500 at 14 %: 8170, 3.4 % less.
  CHECK(map_noted(p, "A -3.4"));
}

TEST_CASE("a ticket of mapped fields is shared out by the map", "[identity]") {
  FarmFiles files = mapped_farm(lattice(40, [](double, double) { return 9000.0; }));
  for (int i = 0; i < 40; ++i)
    for (int j = 0; j < 40; ++j)
      files.others["map.csv"] +=
          fmt::format("{:.8f},{:.8f},6000,14\n", a_west + a_size * (1 + (i + 0.5) / 40),
                      a_south + a_size * (0.5 + (j + 0.5) / 80));
  for (const char* id : {"A", "B"}) {
    field(files, id).erase("yield");
    field(files, id).erase("yield_kg_per_ha");
  }
  files.farm["tickets"] = {{{"name", "t1"}, {"fields", {"A", "B"}}, {"grain", "400 t"}}};
  const farm::Problem p = sound(files);
  const farm::Field &a = field_of(p, "A"), &b = field_of(p, "B");
  CHECK(a.grain->value() / b.grain->value() == Approx(1.5).epsilon(1e-6));
  CHECK(a.grain->value() * a.area.value() + b.grain->value() * b.area.value() == Approx(400000.0));
  CHECK(map_noted(p, "shared out by the yield map over fields A, B"));
}

TEST_CASE("the heavy end of a step is outlined with its area and load", "[identity]") {
  const farm::Problem p = sound(without_yield(mapped_farm(lattice(64, step))));
  const farm::YieldPattern& m = pattern_of_a(p);
  REQUIRE(m.zones.size() == 1);
  const double field_ha = field_of(p, "A").area.value(), quarter = 0.25 * field_ha;
  // The edge of the step is known to a cell: 20 m along 666 m.
  CHECK(m.zones[0].area.value() == Approx(quarter).margin(20.0 * 666.0 / 1e4));
  CHECK(m.heavy_share == Approx(0.25).margin(0.04));
  const double dry_straw = 12000.0 * 0.86 * 0.47 / 0.53;
  CHECK(m.heavy_kg_per_ha == Approx(dry_straw).epsilon(0.01));
  for (const geo::Point& q : m.zones[0].outline.polygons[0].outer) CHECK(q.x > a_west + 0.7 * a_size);
}

TEST_CASE("what is heavy, and how large it has to be, can be set", "[identity]") {
  const auto zones = [](const Json& settings) {
    FarmFiles files = without_yield(mapped_farm(lattice(64, step)));
    files.farm["yield_map"].update(settings);
    return pattern_of_a(sound(files)).zones.size();
  };
  CHECK(zones({{"heavy_over_mean", 1.4}}) == 0);
  CHECK(zones({{"heavy_load", "9 t/ha"}}) == 1);
  CHECK(zones({{"heavy_load", "9.5 t/ha"}}) == 0);
  CHECK(zones({{"smallest_zone", "20 ha"}}) == 0);
}

TEST_CASE("the order of rows changes neither digest nor value", "[identity]") {
  std::vector<std::string> rows = lattice(40, plane);
  const farm::Problem first = sound(mapped_farm(rows));
  std::reverse(rows.begin(), rows.end());
  std::rotate(rows.begin(), rows.begin() + 333, rows.end());
  const farm::Problem second = sound(mapped_farm(rows));
  const auto digest = [](const farm::Problem& p) {
    return std::find_if(p.farm.inputs.begin(), p.farm.inputs.end(),
                        [](const auto& i) { return i.path == "map.csv"; })
        ->sha256;
  };
  CHECK(digest(first) == digest(second));
  CHECK(pattern_of_a(first).p90_kg_per_ha == pattern_of_a(second).p90_kg_per_ha);
  CHECK(pattern_of_a(first).cv == pattern_of_a(second).cv);
  rows.back().back() = '5';
  CHECK(digest(sound(mapped_farm(rows))) != digest(first));
}

TEST_CASE("a layer of points and columns by mapping give the same map", "[cross]") {
  FarmFiles files = mapped_farm({});
  files.farm["yield_map"] = {{"file", "map.geojson"},
                             {"columns", {{"yield", {{"column", "YLD"}, {"unit", "t/ha"}}}}}};
  Json features = Json::array();
  for (int i = 0; i < 40; ++i)
    for (int j = 0; j < 40; ++j)
      features.push_back(
          {{"type", "Feature"},
           {"properties", {{"YLD", plane((i + 0.5) / 40, (j + 0.5) / 40) / 1000.0}}},
           {"geometry",
            {{"type", "Point"},
             {"coordinates", {a_west + a_size * (i + 0.5) / 40, a_south + a_size * (j + 0.5) / 40}}}}});
  only(files, "map.geojson", Json{{"type", "FeatureCollection"}, {"features", features}}.dump());
  const farm::Problem by_layer = sound(files), by_table = sound(mapped_farm(lattice(40, plane)));
  CHECK(pattern_of_a(by_layer).cv == Approx(pattern_of_a(by_table).cv).epsilon(1e-4));
  CHECK(pattern_of_a(by_layer).mapped_dry_grain.value() ==
        Approx(pattern_of_a(by_table).mapped_dry_grain.value()).epsilon(1e-4));
}

TEST_CASE("a raster of yields is a map too", "[cross]") {
  const Scratch scratch{"raster"};
  const geo::Shape a{{geo::Polygon{{{a_west, a_south},
                                    {a_west + a_size, a_south},
                                    {a_west + a_size, a_south + a_size},
                                    {a_west, a_south + a_size},
                                    {a_west, a_south}},
                                   {}}},
                     {},
                     {}};
  const geo::Frame frame = geo::frame_over({a}, {-121.897, 39.397}, Metre{20.0});
  geo::Grid grid = geo::grid_of(frame, std::vector<double>(frame.size(), 9.0));
  REQUIRE(geo::write_geotiff(scratch.path / "map.tif", grid, "yield").ok());
  FarmFiles files = without_yield(mapped_farm({}));
  files.farm["yield_map"] = {{"file", "map.tif"}, {"unit", "t/ha"}, {"moisture", "20 %"}};
  field(files, "A")["moisture_percent"] = 20;
  only(files, "map.tif", read_file(scratch.path / "map.tif").value());
  const farm::Problem p = sound(files);
  CHECK(field_of(p, "A").grain->value() == Approx(9000.0).epsilon(1e-9));
  CHECK(pattern_of_a(p).cv == Approx(0.0).margin(1e-9));
}

TEST_CASE("a field with too few points or too little cover keeps its own figure", "[identity]") {
  const farm::Problem few = sound(mapped_farm(lattice(5, plane)));
  CHECK(few.farm.yield_map.patterns.empty());
  CHECK(map_noted(few, "fewer than 30 points, A keeps its own figure alone"));
  const farm::Problem thin = sound(mapped_farm(lattice(8, plane)));  // 64 m by 83 m apart
  CHECK(map_noted(thin, "over half of the field without a point within 20 m, A keeps its own figure alone"));
  FarmFiles reach = mapped_farm(lattice(8, plane));
  reach.farm["yield_map"]["reach"] = "60 m";
  CHECK(sound(reach).farm.yield_map.patterns[0].has_value());
}

TEST_CASE("without a map nothing is mapped and nothing is said", "[identity]") {
  const farm::Problem p = sound(small_farm());
  CHECK(p.farm.yield_map.patterns.empty());
  CHECK(p.farm.yield_map.straw.columns == 0);
  CHECK_FALSE(map_noted(p, "ield map"));
}
