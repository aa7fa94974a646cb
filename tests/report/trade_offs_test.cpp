// trade-offs.json against its schema, the table, the page.

#include "aftercut/report/trade_offs.hpp"

#include <regex>

#include "catch2/catch.hpp"
#include "departures.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

struct WeighedSample {
  test::Sample sample;
  plan::TradeOffs all;
  report::TradeOffsShown shown;

  explicit WeighedSample(farm::UnitSystem units) : sample{test::sample(units)} {
    const auto add = [&](const char* name, std::int64_t cents, double chance, double co2e, double baled) {
      plan::WeighedPlan p{.name = name, .planned = sample.planned};
      p.figures = {.cost_cents = cents, .cost_per_ha = 180.0, .chance = chance, .baled_t = baled};
      p.co2e_t = co2e;
      all.plans.push_back(std::move(p));
    };
    add("base", 10'000'000, 0.80, 900.0, 300.0);
    add("ready-5", 10'450'000, 0.88, 910.0, 280.0);
    add("air-100", 11'200'000, 0.79, 610.0, 700.0);
    all.plans[1].planned.plan.decision.method[0] = plan::none;
    all.searched = 16;
    all.same = 2;
    all.dropped = 11;
    shown = {&sample.problem, &all, {sample.audit, {}, {}}};
  }
};

std::string squeezed(const std::string& text) { return std::regex_replace(text, std::regex{"\\s+"}, " "); }

}  // namespace

TEST_CASE("trade-offs.json keeps to its schema", "[golden]") {
  const WeighedSample s{farm::UnitSystem::si};
  nlohmann::json written = nlohmann::json::parse(report::trade_offs_json(s.shown));
  CHECK(test::departures_from("trade-offs.schema.json", written) == std::vector<std::string>{});
  CHECK(written["plans"][1]["fields_unlike_base"] == 1);
  CHECK(written["plans"][1]["methods"][0]["method"].is_null());
  CHECK(written["plans"][2]["co2e_t"] == 610.0);
  written["plans"][0].erase("weights");
  CHECK_FALSE(test::departures_from("trade-offs.schema.json", written).empty());
}

TEST_CASE("the table of trade-offs fits the terminal and says what going furthest costs", "[golden]") {
  const WeighedSample s{farm::UnitSystem::us};
  const std::string text = report::trade_offs_text(s.shown);
  INFO(text);
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    CHECK(end - from <= 100);
    from = end + 1;
  }
  const std::string words = squeezed(text);
  CHECK(words.find("Surest seedbeds: ready-5, 88.0 % instead of 80.0 % for 4,500 USD more") !=
        std::string::npos);
  CHECK(words.find("Least CO2e: air-100, 610 t instead of 900 t for 12,000 USD more") != std::string::npos);
  CHECK(words.find("16 searches") != std::string::npos);
}

TEST_CASE("the page of trade-offs has three named pictures, a table, and nothing from elsewhere",
          "[golden]") {
  WeighedSample s{farm::UnitSystem::si};
  s.sample.problem.farm.name = "A <b> farm";
  const std::string page = report::trade_offs_html(s.shown);
  std::size_t pictures = 0;
  for (std::size_t at = page.find("role=\"img\""); at != std::string::npos;
       at = page.find("role=\"img\"", at + 1))
    ++pictures;
  CHECK(pictures == 3);
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("http") == std::string::npos);
  CHECK(page.find("A <b> farm") == std::string::npos);
  CHECK(page.find("href=\"air-100/report.html\"") != std::string::npos);
  CHECK(page.find("nan") == std::string::npos);
}

}  // namespace aftercut
