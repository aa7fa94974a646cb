// Each rule by which points of a yield map are left out, with a planted case; maps that cannot be read.

#include <algorithm>

#include "bad_rows.hpp"
#include "catch2/catch.hpp"
#include "mapped_farm.hpp"
#include "yield_parts.hpp"

using namespace aftercut;
using namespace aftercut::test;
using farm::Drop;

namespace {

const geo::Shape square_field{{geo::Polygon{{{a_west, a_south},
                                             {a_west + a_size, a_south},
                                             {a_west + a_size, a_south + a_size},
                                             {a_west, a_south + a_size},
                                             {a_west, a_south}},
                                            {}}},
                              {},
                              {}};

/// A hundred sound points, 8800 to 9196 kg/ha.
std::vector<farm::MapPoint> sound_points() {
  std::vector<farm::MapPoint> out;
  for (int i = 0; i < 100; ++i)
    out.push_back(
        {{a_west + 0.0005 * (1 + i % 10), a_south + 0.0005 * (1 + i / 10)}, 8800.0 + 4.0 * i, 0.14});
  return out;
}

farm::Sifted sifted(const std::vector<farm::MapPoint>& more, const farm::MapSettings& s = {}) {
  std::vector<farm::MapPoint> points = sound_points();
  points.insert(points.end(), more.begin(), more.end());
  return farm::sift(points, {square_field}, s);
}

struct Planted {
  const char* name;
  Drop why;
  farm::MapPoint point;
};

constexpr geo::Point inside{a_west + 0.00523, a_south + 0.00523}, outside{a_west - 0.0001, a_south + 0.003};

}  // namespace

TEST_CASE("each rule leaves out its planted point and no other", "[identity]") {
  CHECK(sifted({}).kept[0].size() == 100);
  const std::vector<Planted> planted{
      {"empty cell", Drop::empty, {inside, {}, 0.14}},
      {"over the boundary", Drop::outside, {outside, 9000.0, 0.14}},
      {"too dry to be true", Drop::moisture, {inside, 9000.0, 0.01}},
      {"too wet to be true", Drop::moisture, {inside, 9000.0, 0.48}},
      {"no yield", Drop::impossible, {inside, 0.0, 0.14}},
      {"negative yield", Drop::impossible, {inside, -5.0, 0.14}},
      {"more than rice can bear", Drop::impossible, {inside, 21000.0, 0.14}},
      {"a place counted twice", Drop::same_place, {sound_points()[0].at, 9000.0, 0.14}},
      {"far above the median", Drop::far_from_median, {inside, 14000.0, 0.14}},
      {"far below the median", Drop::far_from_median, {inside, 3000.0, 0.14}},
  };
  for (const Planted& row : planted) {
    INFO(row.name);
    const farm::Sifted s = sifted({row.point});
    CHECK(s.all == 101);
    CHECK(s.kept[0].size() == 100);
    for (std::size_t r = 0; r < farm::drops; ++r)
      CHECK(s.dropped[r] == (r == static_cast<std::size_t>(row.why) ? 1U : 0U));
  }
}

TEST_CASE("the middle one of several points at a place stays", "[identity]") {
  const geo::Point at = sound_points()[0].at;  // 8800 there
  const farm::Sifted s = sifted({{at, 9100.0, 0.14}, {at, 12000.0, 0.14}});
  CHECK(s.dropped[static_cast<std::size_t>(Drop::same_place)] == 2);
  const bool middle = std::any_of(s.kept[0].begin(), s.kept[0].end(),
                                  [&](const geo::Sample& k) { return k.value == Approx(9100.0 * 0.86); });
  CHECK(middle);
}

TEST_CASE("a real heavy end is no outlier, however even the rest", "[regression]") {
  // A quarter of the points 35 % above the rest: many deviations off, but nearer than half the median.
  std::vector<farm::MapPoint> heavy;
  for (int i = 0; i < 33; ++i) heavy.push_back({{inside.x, inside.y + 1e-5 * i}, 12150.0, 0.14});
  CHECK(sifted(heavy).kept[0].size() == 133);
  farm::MapSettings strict;
  strict.outlier_share = 0.0;
  CHECK(sifted(heavy, strict).dropped[static_cast<std::size_t>(Drop::far_from_median)] == 33);
}

TEST_CASE("points that are all alike have no outliers", "[identity]") {
  std::vector<farm::MapPoint> points = sound_points();
  for (auto& p : points) p.kg_per_ha = 9000.0;
  points[7].kg_per_ha = 3000.0;
  CHECK(farm::sift(points, {square_field}, {}).kept[0].size() == 100);
}

TEST_CASE("the report counts what each rule left out", "[identity]") {
  std::vector<std::string> rows = lattice(40, [](double u, double) { return 9000.0 + 400.0 * u; });
  rows.push_back("-121.8977,39.3977,0,14");
  rows.push_back("-121.8977,39.3978,25000,14");
  rows.push_back("-121.95,39.3978,9000,14");
  const auto p = sound(mapped_farm(rows));
  const auto& notes = p.farm.yield_map.notes;
  REQUIRE_FALSE(notes.empty());
  CHECK(notes[0] ==
        "Yield map: 1,600 of 1,603 points kept; left out: 1 outside the fields, 2 of no or too much yield");
}

TEST_CASE("maps that cannot be read say why, with the place and what mends it", "[regression]") {
  const auto flat = [](double, double) { return 9000.0; };
  const auto map = [flat](const std::string& header, const std::string& row) {
    return [header, row, flat](FarmFiles& f) {
      f = mapped_farm({});
      only(f, "map.csv", header + "\n" + row + "\n");
    };
  };
  const auto with = [flat](const Json& settings) {
    return [settings, flat](FarmFiles& f) {
      f = mapped_farm(lattice(40, flat));
      f.farm["yield_map"].update(settings);
    };
  };
  const std::string row = "-121.897,39.397,9000";
  check_bad({
      {"no yield column", map("lon,lat,speed", row), "map.csv", "column yield", "no such column", "its unit",
       "lon, lat, speed"},
      {"no unit", map("lon,lat,yield", row), "map.csv", "column yield", "no unit", "kg/ha",
       "yield_map.columns.yield"},
      {"a unit of something else",
       with({{"columns", {{"yield", {{"column", "yield_kg_per_ha"}, {"unit", "mm"}}}}}}), "map.csv",
       "column yield_kg_per_ha", "mm", "kg/ha", "yield_map.columns.yield"},
      {"a mapped column that is not there", with({{"columns", {{"yield", "YLD"}}}}), "farm.json",
       "yield_map.columns.yield", "YLD", "a column of map.csv", "the file has"},
      {"no places", map("a,lat,yield_kg_per_ha", row), "map.csv", "column x", "no such column", "lon",
       "yield_map.columns.x"},
      {"places without a reference system", map("x,y,yield_kg_per_ha", row), "map.csv", "columns x and y",
       "no reference system", "EPSG:32610", "yield_map.reference_system"},
      {"unknown reference system", with({{"reference_system", "EPSG:999999"}}), "farm.json",
       "yield_map.reference_system", "EPSG:999999", "PROJ", "correct the code"},
      {"degrees taken for metres", with({{"reference_system", "EPSG:32610"}}), "map.csv", "coordinates",
       "look like degrees", "EPSG:32610", "reference system"},
      {"far from the farm", map("lon,lat,yield_kg_per_ha", "-121.6,39.397,9000"), "farm.json",
       "yield_map.file", "none of them in a field", "inside the fields", "reference system"},
      {"text for a number", map("lon,lat,yield_kg_per_ha", "-121.897,39.397,much"), "map.csv",
       "line 2, column yield_kg_per_ha", "much", "a number", "correct the cell"},
      {"an empty file",
       [](FarmFiles& f) {
         f = mapped_farm({});
         only(f, "map.csv", "");
       },
       "map.csv", "whole file", "empty", "a header line", "again"},
      {"a header alone",
       [](FarmFiles& f) {
         f = mapped_farm({});
         only(f, "map.csv", "lon,lat,yield_kg_per_ha\n");
       },
       "map.csv", "whole file", "no rows", "a row for each", "again"},
      {"no such file", with({{"file", "gone.csv"}}), "gone.csv", "whole file", "no such file", "", ""},
      {"no file named", [](FarmFiles& f) { f.farm["yield_map"] = Json::object(); }, "farm.json",
       "yield_map.file", "nothing", "a file of yields", "yield_map.file"},
      {"a raster that is none", with({{"kind", "raster"}, {"file", "fields.geojson"}}), "fields.geojson",
       "whole file", "not a raster", "a raster", "again"},
      {"a layer of outlines", with({{"file", "fields.geojson"}}), "fields.geojson", "feature 1",
       "no single point", "one point", "raster"},
  });
}
