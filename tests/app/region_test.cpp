// A region through the real program: shares kept, the same for any number of threads, whole plans audited.

#include <nlohmann/json.hpp>

#include "catch2/catch.hpp"
#include "command_line.hpp"
#include "invented_region.hpp"
#include "sanitized.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

const std::string small_region = sanitized ? " --years 1998..1999 --look-effort 10 --farm-effort 10"
                                           : " --years 1998..2000 --look-effort 60 --farm-effort 60";

struct Region {
  DemoCopy copy;
  fs::path folder = copy.root() / "region", out = copy.root() / "out";
  Region() {
    write_invented_region(folder, {.farms = 3,
                                   .fields_a_farm = sanitized ? 5 : 10,
                                   .burn_day_ha_a_farm = 8.0,
                                   .burn_season_ha_a_farm = 15.0,
                                   .flow_m3_s_a_farm = 0.05});
  }
  [[nodiscard]] Ran run(const std::string& more) const {
    return run_program("region " + folder.string() + " --as-of 2026-10-12 --out " + out.string() +
                       small_region + more);
  }
};

}  // namespace

TEST_CASE("a region keeps its limits, whatever the threads, and its farms' whole plans pass the audit",
          "[golden]") {
  const Region region;
  const Ran one = region.run(" --threads 1 --whole farms/F003");
  INFO(one.out << one.err);
  REQUIRE(one.code <= 1);  // 1 would be the audit's: looked at below
  CHECK(one.out.find(" 0 violations") != std::string::npos);
  const std::string text = text_of(region.out / "region-plan.json");
  const Json plan = Json::parse(text);
  CHECK(plan["audit"]["ok"] == true);
  CHECK(plan["shares_fit"] == true);
  CHECK(plan["objective"]["bound"] <= plan["objective"]["plan"]);
  double burned = 0.0, share = 0.0;
  for (const Json& farm : plan["farms"]) {
    share += farm["share"]["burn_season_ha"].get<double>();
    burned += farm["used"]["burn_season_ha"].get<double>();
  }
  CHECK(share <= 45.0 + 1e-4);
  CHECK(burned <= share + 1e-4);
  CHECK(fs::exists(region.out / "farms/F003/report.html"));
  const Json whole = Json::parse(text_of(region.out / "farms/F003/plan.json"));
  CHECK(whole["objective"]["plan"] == plan["farms"][2]["cost"]);
  CHECK(region.run(" --threads 2").code <= 1);
  CHECK(text_of(region.out / "region-plan.json") == text);
  for (const char* file :
       {"region.html", "region-fields.geojson", "region-progress.csv", "region-progress.svg"})
    CHECK(fs::exists(region.out / file));
}

TEST_CASE("faults of all farms of a region are told at once, and nothing is written", "[golden]") {
  const Region region;
  edit(region.folder / "farms/F001/farm.json", "\"diesel\": \"1.05 USD/L\"", "\"diesel\": \"1.05 USD/ha\"");
  edit(region.folder / "farms/F002/farm.json", "\"currency\": \"USD\"", "\"currency\": \"EUR\"");
  const Ran ran = region.run("");
  INFO(ran.err);
  CHECK(ran.code == 2);
  CHECK(ran.err.find("farms/F001/farm.json: prices.diesel") != std::string::npos);
  CHECK(ran.err.find("farms/F002/farm.json") != std::string::npos);
  CHECK_FALSE(fs::exists(region.out));
  CHECK(region.run(" --whole farms/F009").err.find("--whole") != std::string::npos);
}
