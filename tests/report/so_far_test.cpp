// The season so far and the plan made again, in plan.json, on the terminal and as a picture.

#include <nlohmann/json.hpp>
#include <regex>

#include "aftercut/journal/doubts.hpp"
#include "aftercut/journal/state.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/report/season_review.hpp"
#include "aftercut/report/watch.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "departures.hpp"
#include "gone_on.hpp"
#include "random_decisions.hpp"
#include "terminal.hpp"

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

std::string on_one_line(const std::string& text) { return std::regex_replace(text, std::regex{"\\s+"}, " "); }

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

TEST_CASE("odd entries are told in plan.json and among what was done", "[identity]") {
  farm::Problem p = made().problem;
  int chop = 0;
  while (p.farm.book.operations[static_cast<std::size_t>(chop)].id.value != "chop") ++chop;
  for (const int seq : {901, 902})
    p.so_far.events.push_back(
        {seq, p.as_of - 1, farm::WorkDone{.field = 3, .operation = chop, .area_ha = 5.5}});
  plan::PlannedYears planned = made().planned;
  planned.plan.doubts = journal::doubts_of(p);
  const std::string words =
      "4: 11 ha of chop written down on 9 ha (entries 901, 902): the pass counts as done; correct an entry "
      "if a "
      "figure is wrong";
  const std::string text = report::summary_text(p, planned, {});
  CHECK(on_one_line(text).find(words) != std::string::npos);
  CHECK(test::longest_line(text) <= 100);
  const json plan = json::parse(report::plan_json(p, planned, {}));
  CHECK(test::departures_from("plan.schema.json", plan) == std::vector<std::string>{});
  CHECK(plan["so_far"]["doubts"] == json::parse(R"([{"field": "4", "what": "area_beyond", "operation": "chop",
    "entries": [901, 902], "written_ha": 11.0, "methods": [], "words": ")" +
                                                words + "\"}]"));
  CHECK(json::parse(report::plan_json(made().problem, made().planned, {}))["so_far"]["doubts"].empty());
}

TEST_CASE("days that move are told in plan.json and on the terminal, with the reason where one is known",
          "[identity]") {
  struct Row {
    plan::DayMove move;
    const char* line;
  };
  using plan::OrderMoved;
  const std::vector<Row> rows{
      {{0, {42, 45}, {220, 220}, OrderMoved::autumn, {1, 3}},
       "1: next work 16 Oct instead of 13 Oct, ready 9 Apr as before: it comes later in the order of autumn; "
       "2, "
       "4 now go before it"},
      {{1, {45, 42}, {220, 221}, OrderMoved::neither, {0}},
       "2: next work 13 Oct instead of 16 Oct, ready 10 Apr instead of 9 Apr: 1 no longer goes before it"},
      {{2, {42, 42}, {225, 220}, OrderMoved::spring, {}},
       "3: next work 13 Oct as before, ready 9 Apr instead of 14 Apr: it comes earlier in the order of "
       "spring"},
      {{3, {42, std::nullopt}, {}, OrderMoved::neither, {}},
       "4: next work not in most years instead of 13 Oct"}};
  plan::PlannedYears planned = made().planned;
  planned.plan.again->days.clear();
  for (const Row& row : rows) planned.plan.again->days.push_back(row.move);
  std::string text = report::summary_text(made().problem, planned, {});
  CHECK(test::longest_line(text) <= 100);
  text = on_one_line(text);
  for (const Row& row : rows) {
    INFO(text);
    CHECK(text.find(row.line) != std::string::npos);
  }
  const json plan = json::parse(report::plan_json(made().problem, planned, {}));
  CHECK(test::departures_from("plan.schema.json", plan) == std::vector<std::string>{});
  const json& days = plan["again"]["days"];
  REQUIRE(days.size() == rows.size());
  CHECK(days[0] == json::parse(R"({"field": "1", "first": {"stood": "2026-10-13", "now": "2026-10-16"},
    "ready": {"stood": "2027-04-09", "now": "2027-04-09"}, "order": "autumn", "before": ["2", "4"]})"));
  CHECK(days[3]["first"]["now"].is_null());
  CHECK(days[3]["order"].is_null());
  CHECK(plan["again"]["stood_plan"]["methods"].size() == made().problem.farm.fields.size());
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
