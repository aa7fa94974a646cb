// Questions on the desk: answered, refused, given up, replaced; plans kept and found again.

#include "aftercut/server/desk.hpp"

#include <nlohmann/json.hpp>
#include <thread>

#include "aftercut/core/save_file.hpp"
#include "aftercut/server/scenario_files.hpp"
#include "catch2/catch.hpp"
#include "served_farm.hpp"

using namespace aftercut;
using test::Scratch;
using json = nlohmann::json;

namespace {

farm::Scenario ruling_out(const std::string& method) {
  farm::Scenario s{"without " + method, {}};
  for (const char* field : {"A1", "B1", "C1", "D1"})
    s.changes.push_back(farm::BarMethod{{field}, {method}, "test"});
  return s;
}

std::string bytes(const std::filesystem::path& file) {
  const auto text = read_file(file);
  return text.ok() ? text.value() : "";
}

}  // namespace

TEST_CASE("the plan that stands is made once, then found in its folder", "[identity]") {
  const Scratch s{"base"};
  std::string made;
  {
    server::Desk desk{test::served_farm(s, test::Base::to_be_made)};
    desk.open();
    REQUIRE(test::ended(desk, "base").stage == "planned");
    REQUIRE(desk.plan("base"));
    made = desk.plan("base")->plan_json;
    CHECK(made == bytes(s.path / "out/plan.json"));
  }
  server::Setup again = test::served_farm(s, test::Base::to_be_made);
  again.changes = 81;  // would be another plan
  server::Desk desk{again};
  desk.open();
  REQUIRE(test::ended(desk, "base").stage == "planned");
  CHECK(desk.plan("base")->plan_json == made);
  again.seed = 2;  // another question: the plan found does not answer it
  server::Desk other{again};
  other.open();
  REQUIRE(test::ended(other, "base").stage == "planned");
  CHECK(json::parse(other.plan("base")->plan_json)["seed"] == 2);
}

namespace {

/// The plan in the folder and what stands there once a server has started on a farm with one more input.
struct Started {
  std::string before, after;
};
Started started_with(const Scratch& s, const farm::Farm::Input& input, Date day) {
  server::Setup setup = test::served_farm(s);
  setup.read = [read = setup.read, input, day](const server::ToRead&) {
    auto farm = read({.stands_on = day});
    farm::Problem problem = farm.value().problem;
    problem.farm.inputs.push_back(input);
    return Result<server::ReadFarm>{server::ReadFarm{std::move(problem), {}}};
  };
  Started out{bytes(s.path / "out/plan.json"), ""};
  server::Desk desk{setup};
  desk.open();
  const server::Job base = test::ended(desk, "base");
  INFO(base.fault);
  REQUIRE(base.stage == "planned");
  out.after = bytes(s.path / "out/plan.json");
  return out;
}

}  // namespace

TEST_CASE("a newer forecast takes nobody's plan away; another farm or day does, and the day's is kept",
          "[identity]") {
  const Date day = make_date(2026, 10, 12);
  const Scratch grown{"grown"}, changed{"changed"}, later{"later"};
  const Started same = started_with(grown, {"forecast.csv", std::string(64, 'a'), true}, day);
  CHECK(same.after == same.before);
  const Started other = started_with(changed, {"more.geojson", std::string(64, 'a')}, day);
  CHECK(other.after != other.before);
  CHECK_FALSE(std::filesystem::exists(changed.path / "out/stood"));
  const Started next = started_with(later, {"forecast.csv", std::string(64, 'a'), true}, day + 7);
  CHECK(next.after != next.before);
  CHECK(bytes(later.path / "out/stood/2026-10-12/plan.json") == next.before);
}

TEST_CASE("changes are answered at once, then planned whole; the folder of the plan stays as it is",
          "[identity]") {
  const Scratch s{"answer"};
  server::Desk desk{test::served_farm(s)};
  desk.open();
  REQUIRE(test::ended(desk, "base").stage == "planned");
  const std::string stands = bytes(s.path / "out/plan.json");
  const std::string method = json::parse(stands)["fields"][0]["chosen"]["method"];
  const std::string job = desk.ask(ruling_out(method), "");
  const server::Job answered = test::at_stage(desk, job, "planning");
  REQUIRE_FALSE(answered.answer.empty());
  const json answer = json::parse(answered.answer);
  CHECK(answer["words"].size() >= 3);
  bool changed = false;
  for (const auto& c : answer["changes"]) changed = changed || (c["field"] == "A1" && c["to"] != method);
  CHECK(changed);
  CHECK(answer["after"]["cost"].get<double>() > 0.0);
  const server::Job done = test::ended(desk, job);
  REQUIRE(done.stage == "planned");
  const json plan = json::parse(desk.plan(job)->plan_json);
  CHECK(plan["fields"][0]["chosen"]["method"] != method);
  CHECK(plan["audit"]["ok"] == true);
  CHECK(desk.plan(job)->title == "without " + method);
  CHECK(bytes(s.path / "out/plan.json") == stands);
  CHECK_FALSE(std::filesystem::exists(s.path / "out/scenarios"));
}

TEST_CASE("a kept scenario's plan is written beside the plan that stands", "[identity]") {
  const Scratch s{"kept"};
  server::Desk desk{test::served_farm(s)};
  desk.open();
  REQUIRE(server::write_scenario(s.path, "no-burn", ruling_out("burn"), "").ok());
  const std::string job = desk.ask(ruling_out("burn"), "no-burn");  // before the plan that stands is there
  REQUIRE(test::ended(desk, job).stage == "planned");
  CHECK(desk.plan("base"));
  CHECK(bytes(s.path / "out/scenarios/no-burn/plan.json") == desk.plan(job)->plan_json);
}

TEST_CASE("the same question has the same answer", "[identity]") {
  const Scratch s{"same"};
  server::Desk desk{test::served_farm(s)};
  desk.open();
  const std::string first = desk.ask(ruling_out("burn"), "");
  REQUIRE(test::ended(desk, first).stage == "planned");
  const std::string second = desk.ask(ruling_out("burn"), "");
  REQUIRE(test::ended(desk, second).stage == "planned");
  CHECK(desk.job(first)->answer == desk.job(second)->answer);
  CHECK(desk.plan(first)->plan_json == desk.plan(second)->plan_json);
}

TEST_CASE("how implements fit is taken over, or worked out again where a setting may change it",
          "[identity]") {
  const Scratch s{"fits"};
  const server::Setup setup = test::served_farm(s);
  const auto farm = setup.read({});
  REQUIRE(farm.ok());
  const server::Kept stands{"base", "", std::make_shared<const farm::Problem>(farm.value().problem), {}, ""};
  const auto fits_of = [&](const farm::Change& change) {
    const auto changed = server::changed_farm(setup, stands, {"", {change}}, "x");
    REQUIRE(changed.ok());
    return changed.value().problem.farm.fits;
  };
  const auto& fits = stands.problem->farm.fits;
  const auto same = [](const auto& a, const auto& b) {
    if (a.size() != b.size()) return false;
    for (std::size_t f = 0; f < a.size(); ++f)
      for (std::size_t i = 0; i < a[f].size(); ++i)
        if (a[f][i].efficiency != b[f][i].efficiency) return false;
    return true;
  };
  CHECK(same(fits_of(farm::WantChance{std::nullopt, 0.5}), fits));
  CHECK_FALSE(same(fits_of(farm::Setting{"implements.plane.width_m", "9"}), fits));
}

TEST_CASE("faulty changes are refused with their issues, and the desk goes on", "[identity]") {
  const Scratch s{"refused"};
  server::Desk desk{test::served_farm(s)};
  desk.open();
  const std::string job =
      desk.ask({"", {farm::FixMethod{{"Z9"}, {"burn"}}, farm::SetPrice{"straw", "9 apples"}}}, "");
  const server::Job refused = test::ended(desk, job);
  REQUIRE(refused.stage == "refused");
  REQUIRE_FALSE(refused.issues.empty());
  CHECK(refused.issues.front().place == "changes[0]");
  CHECK(test::ended(desk, desk.ask({"", {}}, "")).stage == "planned");
}

TEST_CASE("a question is given up, or gives way to a newer one", "[identity]") {
  const Scratch s{"given_up"};
  server::Setup setup = test::served_farm(s);
  server::Desk desk{setup};
  desk.open();
  REQUIRE(test::ended(desk, "base").stage == "planned");
  const std::string first = desk.ask(ruling_out("burn"), "");
  const std::string second = desk.ask(ruling_out("bale"), "");
  const std::string third = desk.ask(ruling_out("chop_disk"), "");
  CHECK(test::ended(desk, first).stage == "given_up");
  CHECK(test::ended(desk, second).stage == "given_up");
  CHECK(test::at_stage(desk, third, "planning").stage != "given_up");
  CHECK(desk.give_up(third));
  CHECK(test::ended(desk, third).stage == "given_up");
  CHECK_FALSE(desk.plan(third));
  CHECK_FALSE(desk.give_up(third));
  CHECK_FALSE(desk.give_up("nobody"));
  CHECK_FALSE(desk.give_up("base"));
  CHECK(test::ended(desk, desk.ask({"", {}}, "")).stage == "planned");
}

TEST_CASE("what is seen to be over cannot be given up any more", "[identity]") {
  const Scratch s{"over"};
  server::Desk desk{test::served_farm(s)};
  desk.open();
  REQUIRE(test::ended(desk, "base").stage == "planned");
  for (int i = 0; i < 200; ++i) {
    const std::string job = desk.ask({"", {farm::FixMethod{{"Z9"}, {"burn"}}}}, "");
    while (desk.job(job)->stage != "refused") std::this_thread::yield();
    REQUIRE_FALSE(desk.give_up(job));
  }
}

TEST_CASE("older plans make room; the plan that stands stays", "[identity]") {
  const Scratch s{"room"};
  server::Setup setup = test::served_farm(s);
  setup.plans_kept = 3;
  server::Desk desk{setup};
  desk.open();
  std::vector<std::string> jobs;
  for (const double chance : {0.1, 0.2, 0.3}) {
    jobs.push_back(desk.ask({"", {farm::WantChance{std::nullopt, chance}}}, ""));
    REQUIRE(test::ended(desk, jobs.back()).stage == "planned");
  }
  CHECK(desk.plan("base"));
  CHECK_FALSE(desk.plan(jobs[0]));
  CHECK(desk.plan(jobs[1]));
  CHECK(desk.plan(jobs[2]));
  CHECK(desk.plans().size() == 3);
}
