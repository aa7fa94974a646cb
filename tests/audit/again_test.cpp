// Against the plan that stood: what a plan made again says of it and of the days that move is worked out
// again, and what was changed in it is found.

#include <unistd.h>

#include <filesystem>
#include <functional>

#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "gone_on.hpp"
#include "random_decisions.hpp"
#include "sound_plan.hpp"

using namespace aftercut;
namespace fs = std::filesystem;

namespace {

struct Made {
  farm::Problem problem;
  plan::PlannedYears planned;
};

/// On a day of one year, from a plan whose orders are turned around: every change that gains is made.
Made made_again(std::uint64_t seed, int day) {
  farm::Problem p = test::open_problem(4);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  p.farm.target.change_gain_per_ha = Money{0.0};
  const auto first = scenario::make_plan(p, {.seed = seed, .threads = 1, .evaluations = 30, .progress = {}});
  plan::Decision stands = first.plan.decision;
  std::ranges::reverse(stands.autumn_order);
  std::ranges::reverse(stands.spring_order);
  Made out{test::gone_on(p, first.runs[1], 1, day), {}};
  out.planned = scenario::make_plan(
      out.problem, {.seed = seed, .threads = 1, .evaluations = 60, .progress = {}, .stands = stands});
  return out;
}

const Made& with_days() {
  static const Made m = [] {
    for (std::uint64_t seed = 1; seed < 12; ++seed)
      for (const int day : {25, 40}) {
        Made found = made_again(seed, day);
        const auto& days = found.planned.plan.again->days;
        const bool why = std::ranges::any_of(
            days, [](const auto& d) { return d.order != plan::OrderMoved::neither || !d.before.empty(); });
        if (!days.empty() && days[0].first.stood && days[0].first.now && why &&
            days.size() < found.problem.farm.fields.size())
          return found;
      }
    throw std::runtime_error("no days move in any of the plans");
  }();
  return m;
}

struct Change {
  const char* rule;
  std::function<void(plan::PlannedYears&)> make;
};

}  // namespace

TEST_CASE("plans made again are clean, their days too", "[cross]") {
  for (const int day : {20, 60, 150, 215}) {
    const Made m = made_again(3, day);
    const audit::Audit a = audit::check(m.problem, m.planned);
    INFO("day " << day << "\n" << test::listed(a));
    CHECK(a.ok());
  }
  CHECK(audit::check(with_days().problem, with_days().planned).ok());
}

TEST_CASE("a wrong day, reason, cost or chance against the plan that stood is found", "[cross]") {
  const Made& m = with_days();
  const auto fields = static_cast<int>(m.problem.farm.fields.size());
  const std::vector<Change> changes{
      {"wrong day that moves", [](auto& p) { *p.plan.again->days[0].first.now += 1; }},
      {"wrong day that moves", [](auto& p) { *p.plan.again->days[0].first.stood -= 1; }},
      {"wrong day that moves", [](auto& p) { p.plan.again->days[0].ready.stood = 200; }},
      {"wrong day that moves", [](auto& p) { p.plan.again->days[0].ready.now = 201; }},
      {"days that move left out or made up", [](auto& p) { p.plan.again->days.pop_back(); }},
      {"days that move left out or made up",
       [](auto& p) { p.plan.again->days.push_back(p.plan.again->days.back()); }},
      {"days that move left out or made up",
       [fields](auto& p) {
         for (int f = 0; f < fields; ++f)
           if (std::ranges::count(p.plan.again->days, f, &plan::DayMove::field) == 0) {
             p.plan.again->days.push_back({.field = f, .first = {50, 60}, .ready = {200, 200}});
             return;
           }
       }},
      {"wrong reason of a day that moves", [](auto& p) { p.plan.again->days[0].before.push_back(0); }},
      {"wrong reason of a day that moves",
       [](auto& p) {
         plan::OrderMoved& o = p.plan.again->days[0].order;
         o = o == plan::OrderMoved::neither ? plan::OrderMoved::autumn : plan::OrderMoved::neither;
       }},
      {"wrong cost of the plan that stood", [](auto& p) { p.plan.again->stood_cents += 500; }},
      {"wrong chance under the plan that stood", [](auto& p) { p.plan.again->stood_chance[0] += 0.25; }},
      {"wrong move against the plan that stood",
       [](auto& p) {
         auto& a = *p.plan.again;
         a.autumn_order.made = !a.autumn_order.made;
       }},
      {"wrong move against the plan that stood",
       [](auto& p) {
         p.plan.again->moves.push_back({.field = 0,
                                        .from = p.plan.again->stood.method[0],
                                        .to = p.plan.decision.method[0],
                                        .made = true});
         p.plan.again->stood.method[0] = p.plan.decision.method[0];
         p.plan.again->moves.back().from = p.plan.again->stood.method[0];
       }},
      {"missing year", [](auto& p) { p.stood_runs.pop_back(); }},
      {"missing year", [](auto& p) { p.stood_runs.clear(); }},
      {"wrong ready day", [](auto& p) { p.stood_runs[0].fields[1].ready_day += 1; }},
      {"wrong cost", [](auto& p) { p.stood_runs[0].fields[0].cost.fuel += 5; }},
      {"plan that stood not readable", [](auto& p) { p.plan.again->stood.autumn_order.pop_back(); }}};
  for (const Change& c : changes) {
    plan::PlannedYears spoilt = m.planned;
    c.make(spoilt);
    const auto rules = test::broken_rules(m.problem, spoilt);
    INFO(c.rule << ", change " << &c - changes.data());
    CHECK(rules.contains(c.rule));
  }
}

TEST_CASE("what is written of the plan that stood is read back; without its years it is an issue",
          "[cross]") {
  const Made& m = with_days();
  const fs::path folder = fs::temp_directory_path() / ("aftercut-again-" + std::to_string(::getpid()));
  REQUIRE(report::write(m.problem, m.planned, {}, folder).ok());
  const auto back = audit::read_plan(folder / "plan.json", m.problem);
  for (const auto& issue : back.issues()) UNSCOPED_INFO(to_text(issue));
  REQUIRE(back.ok());
  const plan::Again &a = *back.value().plan.again, &was = *m.planned.plan.again;
  CHECK(a.days == was.days);
  CHECK(a.stood == was.stood);
  CHECK(a.moves == was.moves);
  CHECK(a.stood_cents == was.stood_cents);
  const audit::Audit found = audit::check(m.problem, back.value());
  INFO(test::listed(found));
  CHECK(found.ok());
  fs::remove(folder / "stood-years.jsonl");
  const auto missing = audit::read_plan(folder / "plan.json", m.problem);
  REQUIRE_FALSE(missing.ok());
  CHECK(to_text(missing.issues().front()).find("stood-years.jsonl") != std::string::npos);
  fs::remove_all(folder);
}

TEST_CASE("odd entries that are not told, or are made up, are found", "[cross]") {
  farm::Problem p = test::open_problem(2);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  p = test::with_weather_so_far(p, 0, 60);
  const int chop = test::operation_named(p.farm, "chop"), bale = test::operation_named(p.farm, "bale"),
            haul = test::operation_named(p.farm, "haul");
  const auto say = [&](const farm::WorkDone& work) {
    const int seq = static_cast<int>(p.so_far.events.size()) + 1;
    p.so_far.events.push_back({seq, p.as_of - 20 + seq, work});
  };
  say({.field = 0, .operation = chop, .area_ha = 12.0});
  say({.field = 0, .operation = chop, .area_ha = 12.5, .finishes = true});  // on 20 ha
  say({.field = 1, .operation = bale, .area_ha = 12.0, .finishes = true});
  say({.field = 1, .operation = haul, .area_ha = 12.0, .finishes = true, .bales_beyond = 30.0});
  p.so_far.events.push_back({5, p.as_of - 15, farm::BalesCounted{2, 80.0}});  // nobody baled it
  p.so_far.entries = 5;
  for (const char* method : {"bale", "bale_disk", "bale_flood", "bale_low"})
    p.farm.fields[1].not_allowed.push_back({MethodId{method}, "your word: straw stays"});
  const auto made = scenario::make_plan(p, {.seed = 1, .threads = 1, .evaluations = 10, .progress = {}});
  using enum farm::Doubt::What;
  std::vector<farm::Doubt::What> kinds;
  for (const farm::Doubt& d : made.plan.doubts) kinds.push_back(d.what);
  CHECK(kinds == std::vector{area_beyond, ruled_out, ruled_out, bales_beyond, not_baled});
  const audit::Audit a = audit::check(p, made);
  INFO(test::listed(a));
  CHECK(a.ok());
  const std::vector<Change> changes{
      {"odd entry not told", [](auto& x) { x.plan.doubts.pop_back(); }},
      {"odd entry not told", [](auto& x) { x.plan.doubts[0].written_ha -= 1.0; }},
      {"odd entry not told", [](auto& x) { x.plan.doubts[0].entries.pop_back(); }},
      {"odd entry made up", [](auto& x) { x.plan.doubts[1].field = 3; }},
      {"odd entry made up", [](auto& x) { x.plan.doubts[1].methods = {"leave"}; }}};
  for (const Change& c : changes) {
    plan::PlannedYears spoilt = made;
    c.make(spoilt);
    INFO(c.rule << ", change " << &c - changes.data());
    CHECK(test::broken_rules(p, spoilt).contains(c.rule));
  }
}
