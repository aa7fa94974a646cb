// region-plan.json against its schema, the table, the page, the layer and the progress.

#include "aftercut/report/region.hpp"

#include "catch2/catch.hpp"
#include "departures.hpp"

namespace aftercut {
namespace {

plan::Region sample() {
  plan::Region r{.name = "Two & more", .currency = "USD", .years = 12};
  r.limits = {50.0, std::nullopt, 0.8};
  r.worth = {120.0, 0.0, 35.5};
  for (int k = 0; k < 2; ++k) {
    plan::RegionFarm farm{.folder = "farms/F" + std::to_string(k + 1),
                          .name = "Farm <" + std::to_string(k) + ">"};
    farm.decision = {.method = {0, plan::none}, .autumn_order = {1, 0}, .spring_order = {0, 1}};
    farm.share = {25.0, std::numeric_limits<double>::infinity(), 0.4};
    farm.used = {20.0, 20.0, 0.1 * k};
    farm.cost_cents = 500'000, farm.alone_cents = 480'000, farm.bound_cents = 400'000;
    for (int f = 0; f < 2; ++f) {
      plan::RegionField field{.id = "P" + std::to_string(f), .name = "Parcel"};
      if (f == 0) field.method = "bale", field.method_name = "bale & haul";
      field.area_ha = 20.0, field.cost_cents = 250'000, field.chance = 0.5;
      const double x = -141.0 + 0.02 * k + 0.01 * f;
      field.outline = {{x, 38.6}, {x + 0.005, 38.6}, {x + 0.005, 38.605}, {x, 38.6}};
      farm.fields.push_back(field);
      farm.area_ha += field.area_ha;
    }
    r.farms.push_back(farm);
  }
  return r;
}

const std::vector<report::RegionMoment> moments{
    {.seconds = 10.0, .looked_at = 2, .farms = 2, .cost = 10'200.0},
    {.seconds = 20.0,
     .looked_at = 2,
     .planned = 1,
     .farms = 2,
     .cost = 10'100.0,
     .planned_cost = 5'000.0,
     .bound = 4'000.0},
    {.seconds = 300.0,
     .looked_at = 2,
     .planned = 2,
     .farms = 2,
     .cost = 10'000.0,
     .planned_cost = 10'000.0,
     .bound = 8'000.0}};

}  // namespace

TEST_CASE("region-plan.json keeps to its schema", "[golden]") {
  const plan::Region region = sample();
  nlohmann::json written = nlohmann::json::parse(report::region_json({&region, {}, "0.1.0", moments}));
  CHECK(test::departures_from("region-plan.schema.json", written) == std::vector<std::string>{});
  CHECK(written["objective"]["gap_percent"] == 20.0);
  CHECK(written["shared"]["burn_season_ha"]["limit"].is_null());
  CHECK(written["farms"][1]["autumn"] == nlohmann::json({"P1", "P0"}));
  CHECK(written["farms"][0]["fields"][1]["method"].is_null());
  CHECK(written["chance_ready"] == 0.5);
  written["farms"][0].erase("share");
  CHECK_FALSE(test::departures_from("region-plan.schema.json", written).empty());
}

TEST_CASE("the region's table fits the terminal, its page is whole and escapes names", "[golden]") {
  const plan::Region region = sample();
  const report::RegionShown shown{&region, {}, "0.1.0", moments};
  const std::string text = report::region_text(shown), page = report::region_html(shown);
  INFO(text);
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    CHECK(end - from <= 100);
    from = end + 1;
  }
  CHECK(text.find("gap 20.0 %") != std::string::npos);
  CHECK(text.find("burn area in one season") == std::string::npos);  // no limit, no row
  CHECK(page.find("Two &amp; more") != std::string::npos);
  CHECK(page.find("Farm <") == std::string::npos);
  CHECK(page.find("http") == std::string::npos);
  CHECK(page.find("that is for the authority") != std::string::npos);
}

TEST_CASE("the layer holds every field, the progress every moment", "[golden]") {
  const plan::Region region = sample();
  const nlohmann::json layer = nlohmann::json::parse(report::region_fields_geojson(region));
  CHECK(layer["features"].size() == 4);
  CHECK(layer["features"][3]["properties"]["farm"] == "farms/F2");
  const std::string rows = report::region_progress_csv(moments);
  CHECK(std::count(rows.begin(), rows.end(), '\n') == 4);
  CHECK(rows.find("20.0,2,2,1,10100.00,5000.00,4000.00,60.40,20.00") != std::string::npos);
  const std::string picture = report::region_progress_svg(moments, "USD");
  CHECK(picture.find("gap 20.0 %") != std::string::npos);
  CHECK(picture.find("minutes") != std::string::npos);
  CHECK(report::region_progress_svg({}, "USD").find("<svg") == 0);
}

}  // namespace aftercut
