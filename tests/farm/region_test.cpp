// region.json: what it names, and every fault in it at once.

#include "aftercut/farm/region.hpp"

#include <algorithm>

#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"
#include "scratch.hpp"

namespace fs = std::filesystem;
using namespace aftercut;
using test::Scratch;

namespace {

void put(const fs::path& file, const std::string& text) {
  fs::create_directories(file.parent_path());
  REQUIRE(save_file(file, text).ok());
}

bool tells(const Issues& issues, const std::string& place, const std::string& found) {
  return std::ranges::any_of(issues, [&](const Issue& i) {
    return i.file == "region.json" && i.place == place && i.found.find(found) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("a region names its farms by the folder in which they lie, in natural order", "[identity]") {
  const Scratch scratch{"region"};
  for (const char* farm : {"farms/F2", "farms/F10", "farms/F1"}) put(scratch.path / farm / "farm.json", "{}");
  put(scratch.path / "farms/notes/readme.txt", "no farm");
  put(scratch.path / "region.json",
      R"({"name": "Low country", "currency": "EUR", "farms": "farms",
          "burning": {"authority": "the desk", "area_per_day": "100 acre"}, "canal": {"most_flow": "2 m3/s"}})");
  const auto read = farm::read_region(scratch.path);
  REQUIRE(read.ok());
  const farm::RegionFolder& r = read.value();
  CHECK(r.farms == std::vector<std::string>{"farms/F1", "farms/F2", "farms/F10"});
  CHECK(r.currency == "EUR");
  CHECK(r.authority == "the desk");
  CHECK(*r.limits.burn_day_ha == Approx(40.468564224));  // 100 international acres, exact by definition
  CHECK_FALSE(r.limits.burn_season_ha);
  CHECK(*r.limits.flow_m3_s == Approx(2.0));
}

TEST_CASE("every fault of a region is told at once", "[golden]") {
  const Scratch scratch{"region"};
  put(scratch.path / "a/farm.json", "{}");
  put(scratch.path / "region.json",
      R"({"farms": ["a", "b", "a"], "burnings": 1, "burning": {"area_per_dy": "4 ha", "area_per_season": "40 kg"},
          "canal": {"most_flow": "-2 m3/s"}})");
  const Issues issues = farm::read_region(scratch.path).issues();
  for (const Issue& i : issues) UNSCOPED_INFO(to_text(i));
  CHECK(tells(issues, "farms[1]", "\"b\""));
  CHECK(tells(issues, "farms[2]", "twice"));
  CHECK(tells(issues, "burnings", "burnings"));
  CHECK(tells(issues, "burning.area_per_dy", "area_per_dy"));
  CHECK(tells(issues, "burning.area_per_season", "40 kg"));
  CHECK(tells(issues, "canal.most_flow", "-172800"));
  CHECK(issues.size() == 6);
}

TEST_CASE("a region without file, farms or sense is told", "[golden]") {
  const Scratch scratch{"region"};
  CHECK_FALSE(farm::read_region(scratch.path).ok());
  put(scratch.path / "region.json", "[1, 2]");
  CHECK_FALSE(farm::read_region(scratch.path).ok());
  put(scratch.path / "region.json", "{\"farms\": ");
  CHECK_FALSE(farm::read_region(scratch.path).ok());
  put(scratch.path / "region.json", "{\"farms\": \"nowhere\"}");
  CHECK(tells(farm::read_region(scratch.path).issues(), "farms", "nowhere"));
  put(scratch.path / "region.json", "{\"name\": \"x\"}");
  CHECK(tells(farm::read_region(scratch.path).issues(), "farms", "none"));
}
