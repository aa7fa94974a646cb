// trial.json against its schema, the table in the terminal.

#include "aftercut/report/trial.hpp"

#include <regex>

#include "catch2/catch.hpp"
#include "departures.hpp"
#include "sample_farm.hpp"
#include "terminal.hpp"

namespace aftercut {
namespace {

struct TrialSample {
  test::Sample sample;
  plan::Trial trial;
  explicit TrialSample(farm::UnitSystem units) : sample{test::sample(units)} {
    trial.decision = sample.planned.plan.decision;
    for (const char* name : {"searched", "kept_apart", "invented"})
      trial.sets.push_back({.name = name,
                            .years = {1998, 1999},
                            .season_rain_mm = {508.0, 25.4},
                            .cost = {81924.4, 1539.0},
                            .straw_done = {0.951, 0.011},
                            .seedbed_ready = {0.83, 0.064},
                            .planted = {1.0, 0.0}});
    trial.apart_less_searched = {2903.0, 3145.0};
    trial.search_flatters = {1166.0, 737.0};
    trial.record_rain_spread_mm = 195.2;
    trial.invented_rain_spread_mm = 184.1;
  }
  [[nodiscard]] report::TrialShown shown() const {
    return {.problem = &sample.problem,
            .trial = &trial,
            .version = "0",
            .seed = 1,
            .evaluations = 9,
            .parameters = ""};
  }
};

std::string one_line(const std::string& text) { return std::regex_replace(text, std::regex{"\\s+"}, " "); }

}  // namespace

TEST_CASE("trial.json keeps to its schema, with and without invented years", "[golden]") {
  TrialSample s{farm::UnitSystem::si};
  nlohmann::json written = nlohmann::json::parse(report::trial_json(s.shown()));
  CHECK(test::departures_from("trial.schema.json", written) == std::vector<std::string>{});
  CHECK(written["sets"][1]["cost"]["standard_error"] == 1539.0);
  CHECK(written["sets"][2]["years"].is_null());
  written["sets"][0].erase("cost");
  CHECK_FALSE(test::departures_from("trial.schema.json", written).empty());
  s.trial.sets.pop_back();
  s.trial.no_invented = "the record is short";
  s.trial.search_flatters.error.reset();
  written = nlohmann::json::parse(report::trial_json(s.shown()));
  CHECK(test::departures_from("trial.schema.json", written) == std::vector<std::string>{});
  CHECK(written["invented"]["why_none"] == "the record is short");
  CHECK(written["search_flatters"]["standard_error"].is_null());
}

TEST_CASE("the table of a trial fits the terminal and says what the difference means", "[golden]") {
  for (const auto units : {farm::UnitSystem::si, farm::UnitSystem::us}) {
    TrialSample s{units};
    const std::string text = report::trial_text(s.shown());
    INFO(text);
    CHECK(test::longest_line(text) <= 100);
    CHECK(text.find("81,924 ± 1,539") != std::string::npos);
    CHECK(text.find("83.0 ± 6.4 %") != std::string::npos);
    CHECK(text.find(units == farm::UnitSystem::us ? "20.0 ± 1.0" : "508 ± 25") != std::string::npos);
    CHECK(one_line(text).find("Years differ by as much by chance") != std::string::npos);
    s.trial.apart_less_searched = {9000.0, 1000.0};
    s.trial.search_flatters.mean = -5.0;
    const std::string other = one_line(report::trial_text(s.shown()));
    CHECK(other.find("more than years differ by chance") != std::string::npos);
    CHECK(other.find("does not flatter") != std::string::npos);
  }
}

}  // namespace aftercut
