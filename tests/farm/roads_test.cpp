// Roads, ways between fields, levees and outlines: what the reader makes of them.

#include <cmath>

#include "aftercut/machinery/field_time.hpp"
#include "catch2/catch.hpp"
#include "scratch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// Fields A, B and C of the small farm lie beside each other; one road runs by.
Json road(const char* state, const std::vector<std::vector<double>>& points) {
  return {{"type", "Feature"},
          {"properties", {{"state", state}}},
          {"geometry", {{"type", "LineString"}, {"coordinates", points}}}};
}
Json layer(const std::vector<Json>& features) {
  return {{"type", "FeatureCollection"}, {"features", features}};
}

/// The middle of a field's outline.
geo::Point middle(const farm::Problem& p, const char* id) { return geo::label_point(field_of(p, id).shape); }

FarmFiles with_roads(const std::vector<Json>& roads, geo::Point yard) {
  FarmFiles files = small_farm();
  files.others["roads.geojson"] = layer(roads).dump();
  files.farm["roads"] = {{"file", "roads.geojson"},
                         {"yard", {{"longitude_deg", yard.x}, {"latitude_deg", yard.y}}}};
  return files;
}

}  // namespace

TEST_CASE("without roads the way is the straight distance and a detour", "[identity]") {
  FarmFiles files = small_farm();
  const farm::Problem p = sound(files);
  REQUIRE(p.farm.travel.km.size() == 3);
  CHECK(p.farm.travel.access.empty());
  for (std::size_t a = 0; a < 3; ++a)
    for (std::size_t b = 0; b < 3; ++b) {
      const double straight = geo::distance(p.farm.fields[a].shape, p.farm.fields[b].shape).value() / 1000.0;
      const double expected = a == b ? 0.0 : straight * (straight > 0.030 ? 1.3 : 1.0);
      CHECK(p.farm.travel.km[a][b] == Approx(expected));
    }
  files.farm["work_day"]["detour"] = 2.0;
  const farm::Problem longer = sound(files);
  CHECK(longer.farm.travel.km[0][2] >= p.farm.travel.km[0][2]);
}

TEST_CASE("a soft road is a soft way to the yard, a closed one none", "[identity]") {
  const farm::Problem plain = sound(small_farm());
  const geo::Point a = middle(plain, "A"), c = middle(plain, "C"), yard{a.x, a.y + 0.01};
  const std::vector<std::vector<double>> past_a{{yard.x, yard.y}, {a.x, a.y}}, to_c{{a.x, a.y}, {c.x, c.y}};
  const auto access_of = [&](const char* state, const char* id) {
    const farm::Problem p = sound(with_roads({road("passable", past_a), road(state, to_c)}, yard));
    const auto at = &field_of(p, id) - p.farm.fields.data();
    return p.farm.travel.access[static_cast<std::size_t>(at)];
  };
  CHECK(access_of("passable", "C") == farm::Access::hard);
  CHECK(access_of("soft", "C") == farm::Access::soft);
  CHECK(access_of("closed", "C") == farm::Access::none);
  CHECK(access_of("soft", "A") == farm::Access::hard);
  const farm::Problem soft = sound(with_roads({road("passable", past_a), road("soft", to_c)}, yard));
  bool told = false;
  for (const std::string& note : soft.farm.notes) told |= note.find("soft roads") != std::string::npos;
  CHECK(told);
}

TEST_CASE("faulty roads are told with their place", "[identity]") {
  const auto first_issue = [](const FarmFiles& files) {
    const auto read = read_farm(files);
    REQUIRE(!read.ok());
    return read.issues().front();
  };
  const Issue state =
      first_issue(with_roads({road("muddy", {{-121.9, 39.4}, {-121.8, 39.4}})}, {-121.9, 39.4}));
  CHECK(state.file == "roads.geojson");
  CHECK(state.found == "\"muddy\"");
  const Issue none = first_issue(with_roads({}, {-121.9, 39.4}));
  CHECK(none.file == "roads.geojson");
  FarmFiles no_yard = with_roads({road("soft", {{-121.9, 39.4}, {-121.8, 39.4}})}, {-121.9, 39.4});
  no_yard.farm["roads"].erase("yard");
  const Issue yard = first_issue(no_yard);
  CAPTURE(yard.place, yard.found, yard.expected, yard.fix);
  CHECK((yard.place + yard.found + yard.fix).find("yard") != std::string::npos);
}

TEST_CASE("efficiency comes from the outline unless it was entered", "[identity]") {
  FarmFiles files = small_farm();
  const farm::Problem p = sound(files);
  REQUIRE(p.farm.fits.size() == 3);
  for (std::size_t f = 0; f < 3; ++f)
    for (std::size_t i = 0; i < p.farm.implements.size(); ++i) {
      const machinery::Implement& im = p.farm.implements[i];
      const farm::FieldFit& fit = p.farm.fits[f][i];
      CHECK(fit.by_outline == (im.kind != "torch" && !im.efficiency_entered));
      CHECK(farm::efficiency_on(p.farm, f, i) == fit.efficiency);
      if (!fit.by_outline) {
        CHECK(fit.efficiency == im.field_efficiency);
        continue;
      }
      const auto time = machinery::time_on_field(p.farm.fields[f].shape, {}, farm::swath_machine(im));
      CHECK(fit.efficiency.value() == Approx(0.92 * time.field_efficiency));
    }
  for (auto& im : files.farm["implements"]) im["turns"] = "fishtail";
  const farm::Problem reversing = sound(files);
  for (std::size_t i = 0; i < reversing.farm.implements.size(); ++i) {
    CHECK(reversing.farm.implements[i].turns == machinery::Turn::fishtail);
    CHECK(reversing.farm.fits[0][i].efficiency <= p.farm.fits[0][i].efficiency);
  }
  for (auto& im : files.farm["implements"]) im["field_efficiency"] = "66 %";
  const farm::Problem entered = sound(files);
  for (const farm::FieldFit& fit : entered.farm.fits[0]) CHECK(fit.efficiency.value() == Approx(0.66));
}

TEST_CASE("levees part a field for its machines unless they are crossed", "[identity]") {
  FarmFiles files = small_farm();
  const farm::Problem plain = sound(files);
  const geo::Point at = middle(plain, "B");
  files.others["levees.geojson"] =
      layer({{{"type", "Feature"},
              {"properties", {{"field", "B"}}},
              {"geometry",
               {{"type", "LineString"}, {"coordinates", {{at.x - 0.1, at.y}, {at.x + 0.1, at.y}}}}}}})
          .dump();
  files.farm["levees"] = {{"file", "levees.geojson"}};
  const farm::Problem parted = sound(files);
  files.farm["levees"]["crossed"] = true;
  const farm::Problem crossed = sound(files);
  for (std::size_t i = 0; i < plain.farm.implements.size(); ++i) {
    if (!plain.farm.fits[1][i].by_outline) continue;
    CHECK(parted.farm.fits[1][i].efficiency < plain.farm.fits[1][i].efficiency);
    CHECK(crossed.farm.fits[1][i].efficiency == plain.farm.fits[1][i].efficiency);
    CHECK(parted.farm.fits[0][i].efficiency == plain.farm.fits[0][i].efficiency);
  }
}

TEST_CASE("a table without shapes has typical efficiencies and no ways", "[identity]") {
  FarmFiles files = small_farm();
  files.others["fields.csv"] =
      "id,area_ha,harvest,yield_kg_per_ha\nA,20,2026-10-01,9000\nB,30,2026-10-02,9000\n";
  files.farm["fields"] = {{"file", "fields.csv"}};
  files.farm.erase("field_values");
  const auto read = read_farm(files);
  if (!read.ok()) {
    for (const Issue& issue : read.issues())
      WARN(issue.place << ": " << issue.found << " / " << issue.expected);
  }
  REQUIRE(read.ok());
  const farm::Farm& farm = read.value().farm;
  CHECK(farm.travel.km.empty());
  for (const auto& fits : farm.fits)
    for (const farm::FieldFit& fit : fits) CHECK(!fit.by_outline);
}

TEST_CASE("the roads drawn are kept for other ways than those between fields", "[identity]") {
  const farm::Problem plain = sound(small_farm());
  CHECK_FALSE(plain.farm.roads.has_value());
  const geo::Point a = middle(plain, "A"), yard{a.x, a.y + 0.01};
  const farm::Problem p = sound(with_roads({road("soft", {{yard.x, yard.y}, {a.x, a.y}})}, yard));
  REQUIRE(p.farm.roads.has_value());
  CHECK(p.farm.roads->roads.front().state == farm::RoadState::soft);
  CHECK(p.farm.roads->yard == yard);
}
