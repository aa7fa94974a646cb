// The season so far and the plan made again, in plan.json, on the terminal and as a picture.

#include <nlohmann/json.hpp>

#include "aftercut/journal/state.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/report/season_review.hpp"
#include "aftercut/report/watch.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "gone_on.hpp"
#include "random_decisions.hpp"

using namespace aftercut;
using json = nlohmann::json;

namespace {

struct Made {
  farm::Problem problem;
  plan::PlannedYears planned;
};

const Made& made() {
  static const Made m = [] {
    farm::Problem p = test::open_problem(4);
    for (farm::Field& f : p.farm.fields) f.cut = true;
    const auto first = scenario::make_plan(p, {.seed = 2, .threads = 1, .evaluations = 20, .progress = {}});
    Made out{test::gone_on(p, first.runs[1], 1, 62), {}};
    const int seq = static_cast<int>(out.problem.so_far.events.size());
    out.problem.so_far.events.push_back(
        {seq + 1, out.problem.as_of, farm::FieldSeen{.field = 0, .cover = 0.9}});
    out.problem.so_far.events.push_back({seq + 2, out.problem.as_of, farm::TooWet{1, out.problem.as_of + 6}});
    out.planned = scenario::make_plan(
        out.problem,
        {.seed = 2, .threads = 1, .evaluations = 20, .progress = {}, .stands = first.plan.decision});
    return out;
  }();
  return m;
}

}  // namespace

TEST_CASE("plan.json holds the state that the plan began with", "[identity]") {
  const Made& m = made();
  const json plan = json::parse(report::plan_json(m.problem, m.planned, {}));
  REQUIRE(plan.contains("so_far"));
  REQUIRE(plan.contains("again"));
  const auto state = journal::state_of(m.problem);
  const json& so_far = plan["so_far"];
  REQUIRE(so_far["fields"].size() == m.problem.farm.fields.size());
  for (std::size_t f = 0; f < so_far["fields"].size(); ++f) {
    const json& field = so_far["fields"][f];
    CHECK(field["done"].size() == state->fields[f].done.size());
    CHECK(field["running"].is_null() != state->fields[f].running.has_value());
    CHECK(field["straw_on_top_kg_per_ha"].get<double>() ==
          Approx(state->fields[f].now.life.pools.on_top()).margin(0.06));
  }
  REQUIRE(so_far["differences"].size() == 1);
  CHECK(so_far["differences"][0]["what"] == "cover_share");
  REQUIRE(so_far["too_wet"].size() == 1);
  CHECK(so_far["too_wet"][0]["field"] == "2");
  CHECK(plan["again"]["stood"].get<double>() ==
        Approx(static_cast<double>(m.planned.plan.again->stood_cents) / 100.0));
}

TEST_CASE("a plan from nothing says nothing of a season so far", "[identity]") {
  const farm::Problem p = test::small_problem(2);
  const auto planned = scenario::make_plan(p, {.seed = 1, .threads = 1, .evaluations = 5, .progress = {}});
  const json plan = json::parse(report::plan_json(p, planned, {}));
  CHECK_FALSE(plan.contains("so_far"));
  CHECK_FALSE(plan.contains("again"));
  CHECK(report::summary_text(p, planned, {}).find("So far") == std::string::npos);
}

TEST_CASE("the terminal tells what was done and what moved, no line over 100 columns", "[identity]") {
  const Made& m = made();
  const std::string text = report::summary_text(m.problem, m.planned, {});
  CHECK(text.find("So far, by") != std::string::npos);
  CHECK(text.find("called too wet until") != std::string::npos);
  CHECK(text.find("Against the plan that stood") != std::string::npos);
}

TEST_CASE("the picture of readiness has a panel for each field and tells it in figures", "[identity]") {
  const Made& m = made();
  std::vector<plan::Look> looks;
  const Date day = m.problem.as_of;
  for (const int k : {0, 14, 28})
    looks.push_back({day + k,
                     {{.field = "1", .method = "leave", .chance = 0.5 + 0.01 * k, .wanted = 0.8},
                      {.field = "2", .method = "leave", .chance = 0.95, .wanted = 0.8}}});
  const std::string svg = report::readiness_svg(m.problem.farm, looks);
  const auto count = [&](const std::string& part) {
    int n = 0;
    for (std::size_t at = svg.find(part); at != std::string::npos; at = svg.find(part, at + 1)) ++n;
    return n;
  };
  CHECK(count("<g transform") == 2);
  CHECK(count("class=\"short\"") == 3);
  CHECK(count("class=\"sure\"") == 3);
  CHECK(svg.find("7 years in 10") != std::string::npos);
  CHECK(svg.find("9 years in 10") != std::string::npos);
}
