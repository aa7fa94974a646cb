// aftercut straw on the demo farm, through the real program.

#include <nlohmann/json.hpp>

#include "catch2/catch.hpp"
#include "command_line.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;
namespace fs = std::filesystem;

TEST_CASE("straw tells every field's load, spread and heavy ground, and writes the layers", "[golden]") {
  const DemoCopy demo;
  const fs::path out = demo.root() / "straw";
  const Ran ran = run_program("straw " + demo.farm().string() + " --out " + out.string());
  INFO(ran.out << ran.err);
  REQUIRE(ran.code == 0);
  for (const char* part : {"A4 Old Drain", "ticket", "own row", "carries over", "points kept; left out:",
                           "of no or too much yield", "at a place counted twice", "All fields:"})
    CHECK(ran.out.find(part) != std::string::npos);
  const Json fields = Json::parse(text_of(out / "straw.geojson"))["features"];
  CHECK(fields.size() == 24);
  int mapped = 0;
  for (const Json& f : fields) {
    const Json& p = f["properties"];
    CHECK(p["standing_kg_per_ha"].get<double>() + p["loose_kg_per_ha"].get<double>() ==
          Approx(p["straw_kg_per_ha"].get<double>()).margin(0.11));
    if (p.contains("p10_kg_per_ha") && !p["p10_kg_per_ha"].is_null()) {
      ++mapped;
      CHECK(p["p10_kg_per_ha"] < p["straw_kg_per_ha"]);
      CHECK(p["p90_kg_per_ha"] > p["straw_kg_per_ha"]);
    }
  }
  CHECK(mapped == 3);
  const Json zones = Json::parse(text_of(out / "heavy-straw.geojson"))["features"];
  REQUIRE(zones.size() >= 2);
  for (const Json& z : zones) CHECK(z["properties"]["straw_kg_per_ha"] > z["properties"]["over_kg_per_ha"]);
  CHECK(fs::file_size(out / "straw.tif") > 1000);
  CHECK(run_program("straw " + demo.farm().string() + " --out " + (demo.root() / "again").string()).code ==
        0);
  for (const char* file : {"straw.geojson", "straw.tif", "heavy-straw.geojson"})
    CHECK(text_of(out / file) == text_of(demo.root() / "again" / file));
}

TEST_CASE("straw leaves an output folder as it was when it cannot write", "[identity]") {
  const DemoCopy demo;
  put_text(demo.root() / "taken", "a file");
  const Ran ran = run_program("straw " + demo.farm().string() + " --out " + (demo.root() / "taken").string());
  CHECK(ran.code == 2);
  CHECK(text_of(demo.root() / "taken") == "a file");
}
