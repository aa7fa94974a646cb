// Sound farms: what the reader makes of them.

#include <algorithm>
#include <cmath>

#include "aftercut/core/numbers.hpp"
#include "aftercut/geo/layer.hpp"
#include "aftercut/geo/shape.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"
#include "scratch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// Everything of a farm that depends on its files, as one text.
std::string text_of(const farm::Farm& f) {
  std::string out = f.name + f.currency;
  const auto add = [&out](double x) { out += std::to_string(x) + ";"; };
  for (const farm::Field& x : f.fields) {
    out += x.id.value + x.name + x.pooled_ticket + iso(x.harvest) + iso(x.next.cut_off);
    for (double v : {x.area.value(), x.straw_load.value(), x.cut_height_cm, static_cast<double>(x.soil),
                     x.shape.polygons[0].outer[0].x})
      add(v);
  }
  for (const auto& t : f.tractors) out += t.id.value, add(t.pto_power.value());
  for (const auto& m : f.implements) out += m.id.value, add(m.width.value());
  for (const auto& o : f.operators) out += o.id.value;
  for (const auto& s : f.soils) out += s.input.name;
  for (const auto& n : f.notes) out += n;
  for (const auto& i : f.inputs) out += i.path + i.sha256;
  return out;
}

bool noted(const farm::Problem& p, const std::string& part) {
  return std::any_of(p.farm.notes.begin(), p.farm.notes.end(),
                     [&](const std::string& n) { return n.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("a small farm, cut and uncut fields mixed", "[derived]") {
  const farm::Problem p = sound(small_farm());
  REQUIRE(p.farm.fields.size() == 3);
  const farm::Field &a = field_of(p, "A"), &b = field_of(p, "B"), &c = field_of(p, "C");
  CHECK(a.cut);
  CHECK_FALSE(b.cut);
  CHECK(a.lay == straw::Lay::windrow);
  CHECK(b.lay == straw::Lay::spread);
  CHECK(c.load_given);
  CHECK(p.as_of == make_date(2026, 9, 25));
  CHECK(p.farm.season.days == 288);
  CHECK(p.farm.units == farm::UnitSystem::us);
  CHECK(a.summer_drain == make_date(2026, 9, 1));  // 21 days before harvest would lie before the season
  CHECK(b.summer_drain == make_date(2026, 9, 11));
  check({
      {"9200 lb/acre in kg/ha", "derived 9200 x 0.45359237 / 0.40468564224", Kind::derived, 10311.83,
       a.grain->value(), 0.005},
      {"straw of A: dry grain 0.82, HI 0.53", "derived 10311.83 x 0.82 x 0.47 / 0.53", Kind::derived,
       7498.452, a.straw_load.value(), 0.005},
      {"straw of B: 10 t/ha at 14 %, HI 0.53", "derived 8600 x 0.47 / 0.53", Kind::derived, 7626.415,
       b.straw_load.value(), 0.0005},
      {"straw of C as entered", "derived 6.9 x 1000", Kind::derived, 6900.0, c.straw_load.value(), 1e-9},
      {"area of A is its boundary's", "geo::geodesic_area", Kind::identity,
       geo::geodesic_area(a.shape).value(), a.area.value(), 0.0},
  });
}

TEST_CASE("quantities of machines, prices and people", "[derived]") {
  const farm::Problem p = sound(small_farm());
  const auto& disk = p.farm.implements[1];
  const auto& baler = p.farm.implements[0];
  REQUIRE(disk.id.value == "D1");
  check({
      {"225 hp in kW", "NIST811 1 hp = 0.74569987 kW", Kind::recalled, 167.7825,
       p.farm.tractors[0].pto_power.value(), 0.0005},
      {"21 ft in m", "NIST811", Kind::recalled, 6.4008, disk.width.value(), 1e-9},
      {"5 mph in km/h", "NIST811", Kind::recalled, 8.04672, disk.speed.value(), 1e-9},
      {"6 in in cm", "NIST811", Kind::recalled, 15.24, disk.depth_cm, 1e-9},
      {"60 acre/day in ha", "derived 60 x 0.40468564", Kind::derived, 24.28114,
       baler.entered_ha_per_day.value(), 0.000005},
      {"3.90 USD/gal by litre", "derived 3.90 / 3.785411784", Kind::derived, 1.030271,
       p.farm.prices.diesel_per_l.value(), 5e-7},
      {"0.20 USD/lb by kg", "derived 0.20 / 0.45359237", Kind::derived, 0.4409245,
       p.farm.prices.grain_per_kg.value(), 5e-8},
      {"450 USD/acre by ha", "derived 450 / 0.40468564", Kind::derived, 1111.974,
       p.farm.prices.unplanted_per_ha.value(), 5e-4},
      {"80 ft in m", "NIST811", Kind::recalled, 24.384, p.farm.site.elevation_m, 1e-9},
  });
  CHECK(p.farm.tractors[0].id.value == "T2");  // 2 before 10
  CHECK(p.farm.operators[0].id.value == "O1");
  CHECK_FALSE(p.farm.operators[0].paid);
  REQUIRE(baler.hire.has_value());
  CHECK(baler.hire->windows.size() == 1);
  CHECK(baler.hire->brings_tractor);
  CHECK(disk.owning.value_class == "tillage");
  CHECK(disk.owning.repair_class == "disk");
  CHECK(p.farm.prices.price_year == 2026);
}

TEST_CASE("the same farm in other units is the same farm", "[identity]") {
  FarmFiles us = small_farm(), si = small_farm();
  field(si, "A").erase("yield");
  field(si, "A")["yield_t_per_ha"] = 9200 * 0.45359237 / 0.40468564224 / 1000.0;
  field(si, "B").erase("yield_kg_per_ha");
  field(si, "B")["yield"] = "10 t/ha";
  field(us, "C")["straw_load"] = "6156.04 lb/acre";
  si.farm["implements"][0].erase("width");
  si.farm["implements"][0]["width_m"] = 6.4008;
  si.farm["prices"]["diesel"] = "1.0302709 USD/L";
  si.farm["tractors"][0]["pto_power"] = "167.78247 kW";
  const farm::Problem x = sound(us), y = sound(si);
  for (std::size_t i = 0; i < x.farm.fields.size(); ++i)
    CHECK(x.farm.fields[i].straw_load.value() == Approx(y.farm.fields[i].straw_load.value()).epsilon(1e-6));
  CHECK(x.farm.implements[1].width.value() == Approx(y.farm.implements[1].width.value()));
  CHECK(x.farm.prices.diesel_per_l.value() == Approx(y.farm.prices.diesel_per_l.value()).epsilon(1e-6));
  CHECK(x.farm.tractors[0].pto_power.value() == Approx(y.farm.tractors[0].pto_power.value()).epsilon(1e-6));
}

TEST_CASE("shuffled rows and entries give the same farm and the same digests", "[identity]") {
  FarmFiles a = small_farm();
  a.farm["field_values"] =
      Json::parse(R"([{"id": "A", "can_flood": false}, {"id": "B", "planting_order": 2}])");
  FarmFiles b = a;
  std::reverse(b.fields["features"].begin(), b.fields["features"].end());
  for (const char* list : {"tractors", "implements", "operators", "field_values"})
    std::reverse(b.farm[list].begin(), b.farm[list].end());
  CHECK(text_of(sound(a).farm) == text_of(sound(b).farm));
  b.farm["tractors"][0]["pto_power_kw"] = 91;
  b.farm["tractors"][0].erase("pto_power");
  CHECK(text_of(sound(a).farm) != text_of(sound(b).farm));
}

TEST_CASE("every input file has its digest", "[regression]") {
  FarmFiles files = small_farm();
  const farm::Problem p = sound(files);
  REQUIRE(p.farm.inputs.size() == 3);
  CHECK(p.farm.inputs[0].path == "farm.json");
  CHECK(p.farm.inputs[2].path == "weather.csv");
  for (const auto& i : p.farm.inputs) CHECK(i.sha256.size() == 64);
  field(files, "B")["moisture_percent"] = 15;
  const farm::Problem q = sound(files);
  CHECK(p.farm.inputs[1].sha256 != q.farm.inputs[1].sha256);
  CHECK(p.farm.inputs[0].sha256 == q.farm.inputs[0].sha256);
}

TEST_CASE("an entry wins over a column, a column over the default, whatever the unit", "[identity]") {
  FarmFiles files = small_farm();
  files.farm["field_defaults"] = {{"cut_height", "10 in"}, {"moisture", "20 %"}};
  field(files, "A")["cut_height_cm"] = 22;
  field(files, "B")["cut_height_cm"] = 22;
  files.farm["field_values"] = {{{"id", "B"}, {"cut_height", "40 cm"}}};
  const farm::Problem p = sound(files);
  CHECK(field_of(p, "A").cut_height_cm == Approx(22.0));
  CHECK(field_of(p, "B").cut_height_cm == Approx(40.0));
  CHECK(field_of(p, "C").cut_height_cm == Approx(25.4));
}

TEST_CASE("columns by mapping", "[identity]") {
  FarmFiles files = small_farm();
  for (Json& f : files.fields["features"]) {
    f["properties"]["CHECK_NO"] = f["properties"]["id"];
    f["properties"].erase("id");
  }
  Json& b = files.fields["features"][1]["properties"];
  b["YLD"] = b["yield_kg_per_ha"].get<double>() / 1000.0;
  b.erase("yield_kg_per_ha");
  files.farm["fields"]["columns"] = {{"id", "CHECK_NO"}, {"yield", {{"column", "YLD"}, {"unit", "t/ha"}}}};
  Json& a = files.fields["features"][0]["properties"];
  a.erase("yield");
  a["straw_load_kg_per_ha"] = 7000;
  const farm::Problem p = sound(files);
  CHECK(field_of(p, "B").grain->value() == Approx(10000.0));
  CHECK(field_of(p, "A").straw_load.value() == Approx(7000.0));
}

TEST_CASE("a pooled ticket is shared out by area and its mass is kept", "[identity]") {
  FarmFiles files = small_farm();
  field(files, "B").erase("yield_kg_per_ha");
  field(files, "C").erase("straw_load");
  files.farm["tickets"] = {
      {{"name", "dryer 3"}, {"fields", {"B", "C"}}, {"grain", "250 t"}, {"moisture", "18 %"}}};
  const farm::Problem p = sound(files);
  const farm::Field &b = field_of(p, "B"), &c = field_of(p, "C");
  check({{"grain of both fields [kg]", "the ticket's 250 t", Kind::identity, 250000.0,
          b.grain->value() * b.area.value() + c.grain->value() * c.area.value(), 1e-6}});
  CHECK(b.grain->value() == Approx(c.grain->value()));
  CHECK(b.straw_load.value() == Approx(b.grain->value() * 0.82 * 0.47 / 0.53));
  CHECK(b.pooled_ticket == "dryer 3");
  CHECK(noted(p, "Ticket dryer 3: 250.0 t"));
}

TEST_CASE("a crossing boundary is mended and told", "[regression]") {
  FarmFiles files = small_farm();
  Json& ring = files.fields["features"][0]["geometry"]["coordinates"][0];
  std::swap(ring[1], ring[2]);  // a bow tie
  const farm::Problem p = sound(files);
  CHECK(noted(p, "Field A: "));
  CHECK(field_of(p, "A").area.value() > 1.0);
}

TEST_CASE("an overlap is told with its area", "[derived]") {
  FarmFiles files = small_farm();
  for (Json& point : files.fields["features"][1]["geometry"]["coordinates"][0])
    point[0] = point[0].get<double>() - 0.003;  // B over half a cell row of A
  const farm::Problem p = sound(files);
  const double cell_ha = field_of(p, "C").area.value() / 2.0;  // C is two cells
  REQUIRE(noted(p, "Fields A and B overlap by "));
  for (const std::string& n : p.farm.notes)
    if (n.find("overlap by ") != std::string::npos)
      CHECK(std::stod(n.substr(n.find("by ") + 3)) == Approx(cell_ha).epsilon(0.01));
}

TEST_CASE("a stated area that differs from the boundary's is told", "[regression]") {
  FarmFiles files = small_farm();
  field(files, "A")["area_acre"] = 500;
  CHECK(noted(sound(files), "Field A: stated area 202.3 ha"));
}

TEST_CASE("a table without boundaries gives rectangles of its areas", "[identity]") {
  FarmFiles files = small_farm();
  files.farm["fields"]["file"] = "fields.csv";
  files.others["fields.csv"] =
      "id,area_acre,harvest,yield_lb_per_acre\n10,76,2026-10-01,9000\n2,40,2026-10-05,9100\n";
  const farm::Problem p = sound(files);
  REQUIRE(p.farm.fields.size() == 2);
  CHECK(p.farm.fields[0].id.value == "2");
  CHECK(p.farm.fields[0].invented_shape);
  CHECK(p.farm.fields[0].area.value() == Approx(40 * 0.40468564224));
  CHECK(geo::geodesic_area(p.farm.fields[1].shape).value() == Approx(76 * 0.40468564224));
  CHECK(noted(p, "invented rectangles"));
  CHECK(geo::overlaps({p.farm.fields[0].shape, p.farm.fields[1].shape}, Hectare{1e-6}).empty());
}

TEST_CASE("a skill that nobody has is told", "[regression]") {
  FarmFiles files = small_farm();
  CHECK_FALSE(noted(sound(files), "No operator has the skill"));
  files.farm["operators"][0]["skills"] = Json::array();
  CHECK(noted(sound(files), "No operator has the skill burning"));
}

TEST_CASE("links, lease, bars, places and levees arrive", "[regression]") {
  FarmFiles files = small_farm();
  files.farm["field_values"] = Json::parse(
      R"([{"id": "B", "links": {"fills_from": ["A"], "seeps_from": ["C"]}, "disease_finding": true,
    "lease": {"from": "2026-11-20", "until": "2027-01-31", "pays": "22 USD/acre"}, "not_allowed": [{"method": "bale", "why": "landlord"}],
    "ground": "rutted", "burn_answer": "come back in October"}])");
  files.farm["places"] = {{"file", "places.geojson"}};
  Json places = drawn_fields({".H"});
  places["features"][0]["properties"] = {{"kind", "home"}, {"name", "house"}};
  files.others["places.geojson"] = places.dump();
  files.farm["levees"] = {{"file", "levees.geojson"}};
  Json levee = drawn_fields({"A"});
  levee["features"][0]["properties"] = {{"field", "A"}};
  levee["features"][0]["geometry"] = {{"type", "LineString"},
                                      {"coordinates", {{-121.9, 39.399}, {-121.895, 39.399}}}};
  files.others["levees.geojson"] = levee.dump();
  const farm::Problem p = sound(files);
  const farm::Field& b = field_of(p, "B");
  REQUIRE(b.links.size() == 2);
  CHECK(b.links[0].other.value == "A");
  CHECK(b.links[1].kind == farm::LinkKind::seeps_from);
  REQUIRE(b.lease.has_value());
  CHECK(b.lease->per_ha.value() == Approx(22 / 0.40468564224));
  CHECK(b.not_allowed[0].why == "landlord");
  CHECK(b.ground.depth_mm == Approx(100.0));
  CHECK(b.disease_finding == true);
  CHECK(b.burn_answer == "come back in October");
  REQUIRE(p.farm.places.size() == 1);
  CHECK(p.farm.places[0].kind == farm::PlaceKind::home);
  CHECK(field_of(p, "A").levees.size() == 1);
}

TEST_CASE("an entered area per day is told beside the computed one", "[derived]") {
  const farm::Problem p =
      sound(small_farm());  // a baler 16 ft wide at the kind's speed and efficiency, 60 acre/day entered
  const auto told = std::find_if(p.farm.notes.begin(), p.farm.notes.end(), [](const std::string& n) {
    return n.find("60.0 acre/day as entered") != std::string::npos;
  });
  REQUIRE(told != p.farm.notes.end());
  // 8 km/h x 4.8768 m x 0.80 / 10 = 3.1212 ha/h, x 9 h = 28.09 ha = 69.4 acre
  CHECK(told->find("69.4 from width, speed and efficiency (-14 %)") != std::string::npos);
}
