// hindcast.json against its schema, the table in the terminal, the rows of hindcast.csv, the picture.

#include "aftercut/report/hindcast.hpp"

#include <algorithm>
#include <regex>
#include <sstream>

#include "catch2/catch.hpp"
#include "departures.hpp"
#include "sample_farm.hpp"
#include "terminal.hpp"

namespace aftercut {
namespace {

plan::ChanceClass chance_class(double from, int field_winters, int winters, double said, double happened) {
  return {.from = from,
          .below = from + 0.25,
          .field_winters = field_winters,
          .winters = winters,
          .said = said,
          .happened = happened};
}

struct HindcastSample {
  test::Sample sample = test::sample(farm::UnitSystem::si);
  plan::Hindcast hindcast;

  HindcastSample() {
    hindcast.winters = {1971, 1972};
    hindcast.decisions = {sample.planned.plan.decision, sample.planned.plan.decision};
    plan::HindcastDate date{.day = sample.problem.farm.season.day(MonthDay{11, 1})};
    date.said = {
        {.winter = 1971, .field = 0, .said = 0.8, .climatology = 0.5, .at_start = 0.75, .happened = true},
        {.winter = 1972, .field = 0, .said = 0.25, .climatology = 1.0, .at_start = 0.6}};
    date.said[0].ready_day = sample.problem.farm.season.day(MonthDay{4, 7});
    date.classes = {chance_class(0.0, 0, 0, 0.0, 0.0), chance_class(0.25, 51, 24, 0.43, 0.45),
                    chance_class(0.5, 1, 1, 0.6, 1.0), chance_class(0.75, 95, 24, 0.85, 0.853)};
    date.classes[1].interval = plan::Interval{0.289, 0.621};
    date.classes[3].interval = plan::Interval{0.738, 0.961};
    date.scores = {.said = 0.2073,
                   .climatology = {0.2134, 0.0286, -0.0061, plan::Interval{-0.019, 0.003}},
                   .at_start = {0.2165, 0.0425, -0.0092, plan::Interval{-0.0134, -0.0026}}};
    hindcast.dates = {date};
  }
  [[nodiscard]] report::HindcastShown shown() const {
    return {.problem = &sample.problem, .hindcast = &hindcast, .version = "0", .seed = 3, .evaluations = 9};
  }
};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::ptrdiff_t count_of(const std::string& text, const std::string& pattern) {
  const std::regex find{pattern};
  return std::distance(std::sregex_iterator{text.begin(), text.end(), find}, std::sregex_iterator{});
}

}  // namespace

TEST_CASE("hindcast.json keeps to its schema", "[golden]") {
  HindcastSample s;
  nlohmann::json written = nlohmann::json::parse(report::hindcast_json(s.shown()));
  CHECK(test::departures_from("hindcast.schema.json", written) == std::vector<std::string>{});
  const auto& date = written["dates"][0];
  CHECK(date["date"] == "11-01");
  CHECK(date["classes"][0]["mean_said"].is_null());
  CHECK(date["classes"][1]["happened_interval"]["low"] == 0.289);
  CHECK(date["scores"]["at_start"]["difference_interval"]["high"] == -0.0026);
  CHECK(date["said"][0]["ready_on"] == "04-07");
  CHECK(date["said"][1]["ready_on"].is_null());
  written["dates"][0]["scores"].erase("climatology");
  CHECK_FALSE(test::departures_from("hindcast.schema.json", written).empty());
  s.hindcast.dates[0].scores.climatology = {0.0, {}, 0.2, {}};
  CHECK(test::departures_from("hindcast.schema.json", nlohmann::json::parse(report::hindcast_json(
                                                          s.shown()))) == std::vector<std::string>{});
}

TEST_CASE("the table of a hindcast fits the terminal and says what is beyond chance", "[golden]") {
  const HindcastSample s;
  const std::string text = report::hindcast_text(s.shown());
  INFO(text);
  CHECK(test::longest_line(text) <= 100);
  CHECK(holds(text, "Said on 1 Nov"));
  CHECK(holds(text, "29 to 62 %"));
  CHECK(holds(text, "Climatology 0.213: 3 % better, difference -0.006 (-0.019 to +0.003), within chance."));
  CHECK(holds(text, "-0.009 (-0.013 to -0.003), beyond"));
  CHECK(holds(text, "program's own run"));
}

TEST_CASE("hindcast.csv has a row for each date, winter and field; names are quoted where they must be",
          "[golden]") {
  HindcastSample s;
  s.sample.problem.farm.fields[0].id = FieldId{"low, by \"the\" road"};
  const auto lines = lines_of(report::hindcast_csv(s.shown()));
  REQUIRE(lines.size() == 3);
  CHECK(lines[0] == "date,winter,field,chance_said,ready_in_time,ready_on,climatology,chance_at_start");
  CHECK(lines[1] == "11-01,1971,\"low, by \"\"the\"\" road\",0.8000,yes,04-07,0.5000,0.7500");
  CHECK(lines[2] == "11-01,1972,\"low, by \"\"the\"\" road\",0.2500,no,,1.0000,0.6000");
}

TEST_CASE("the picture shows points, intervals and class sizes in greys, whatever the farm is called",
          "[golden]") {
  HindcastSample s;
  s.sample.problem.farm.name = "A & B <\"lower\">";
  const std::string svg = report::hindcast_svg(s.shown());
  CHECK(count_of(svg, "class=\"point\"") == 3);         // the empty class has none
  CHECK(count_of(svg, "class=\"interval\"") == 2 * 3);  // an upright line and two ends
  CHECK(count_of(svg, "class=\"bar\"") == 4);
  CHECK(holds(svg, ">51</text>"));
  CHECK(holds(svg, ">of 24</text>"));
  CHECK(holds(svg, "A &amp; B &lt;"));
  CHECK_FALSE(holds(svg, "<\"lower"));
  const std::regex colour{"#([0-9a-f]{3}|[0-9a-f]{6})\\b"};
  for (std::sregex_iterator it{svg.begin(), svg.end(), colour}; it != std::sregex_iterator{}; ++it) {
    const std::string hex = (*it)[1];
    const std::size_t n = hex.size() / 3;
    CHECK(hex.substr(0, n) == hex.substr(n, n));
    CHECK(hex.substr(0, n) == hex.substr(2 * n, n));
  }
  CHECK(count_of(svg, "#[0-9a-f]{3,6}") > 5);
}

}  // namespace aftercut
