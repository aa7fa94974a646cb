#include <algorithm>

#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

std::vector<std::string> why_not(const farm::Problem& p, std::size_t field, const char* method) {
  const dispatch::Table t = dispatch::make_table(p, 7);
  return t.why_not[field][static_cast<std::size_t>(test::recipe_named(p.farm, method))];
}

bool mentions(const std::vector<std::string>& reasons, const std::string& words) {
  return std::any_of(reasons.begin(), reasons.end(),
                     [&](const std::string& r) { return r.find(words) != std::string::npos; });
}

}  // namespace

TEST_CASE("an entered area per day replaces the computed rate", "[derived]") {
  farm::Problem p = test::small_problem(1);
  const auto rate_of = [](const farm::Problem& problem) {
    const dispatch::Table t = dispatch::make_table(problem, 7);
    for (std::size_t o = 0; o < problem.farm.book.operations.size(); ++o)
      if (problem.farm.book.operations[o].id.value == "chop") return t.outfits[0][o].front().ha_per_hour;
    return 0.0;
  };
  CHECK(rate_of(p) == Approx(8.0 * 4.5 * 0.8 / 10.0).epsilon(1e-12));
  for (auto& i : p.farm.implements)
    if (i.kind == "chopper") i.entered_ha_per_day = 18.0;
  CHECK(rate_of(p) == Approx(18.0 / 9.0).epsilon(1e-12));
}

TEST_CASE("a tractor that cannot pull the implement is not offered", "[identity]") {
  farm::Problem p = test::small_problem(1);
  CHECK(why_not(p, 0, "chop_disk").empty());
  for (auto& t : p.farm.tractors) t.pto_power = KiloWatt{15.0};
  CHECK(mentions(why_not(p, 0, "chop_disk"), "strong enough"));
}

TEST_CASE("reasons against a method are said in words", "[identity]") {
  farm::Problem p = test::small_problem(1);
  p.farm.fields[0].not_allowed = {{MethodId{"leave"}, "the landlord's lease"}};
  CHECK(mentions(why_not(p, 0, "leave"), "landlord"));
  CHECK(mentions(why_not(p, 2, "leave"), "locked"));
  p.farm.fields[1].lay = straw::Lay::chopped;
  CHECK(mentions(why_not(p, 1, "bale"), "chopped"));
  p.farm.supply.reset();
  CHECK(mentions(why_not(p, 0, "flood"), "no canal water"));
  CHECK(why_not(p, 0, "roll_rain").empty());
  p.farm.implements.erase(p.farm.implements.begin());  // the bale wagon
  CHECK(mentions(why_not(p, 0, "bale"), "no machine"));
}

TEST_CASE("burning stays unknown without evidence, and is blocked by a near home", "[identity]") {
  farm::Problem p = test::small_problem(1);
  CHECK(why_not(p, 4, "burn").empty());
  CHECK(mentions(why_not(p, 3, "burn"), "unknown"));
  for (auto& rule : p.farm.burning->rules)
    if (rule.name == "setback_home") rule.value = "500";
  p.farm.places.push_back(
      {"house",
       farm::PlaceKind::home,
       {.polygons = {}, .lines = {}, .points = {p.farm.fields[4].shape.polygons[0].outer[0]}}});
  CHECK(mentions(why_not(p, 4, "burn"), "blocked"));
  p.farm.burning.reset();
  CHECK(mentions(why_not(p, 4, "burn"), "unknown"));
}

TEST_CASE("a water lease rules out methods that hold no water", "[identity]") {
  farm::Problem p = test::small_problem(1);
  p.farm.fields[0].lease = farm::WaterLease{make_date(2026, 12, 1), make_date(2027, 2, 10), Money{60.0}};
  CHECK(mentions(why_not(p, 0, "chop_disk"), "lease"));
  CHECK(mentions(why_not(p, 0, "roll_rain"), "lease"));
  CHECK(why_not(p, 0, "roll_flood").empty());
}

TEST_CASE("burn calls follow the stated frequency inside the window only", "[identity]") {
  const farm::Problem p = test::small_problem(8);
  const dispatch::Table t = dispatch::make_table(p, 7);
  int called = 0, days = 0;
  for (const auto& year : t.burn_days)
    for (int d = 0; d < p.farm.season.days; ++d) {
      const bool open = d <= p.farm.season.day(MonthDay{11, 30});
      if (!open) CHECK(year.called[static_cast<std::size_t>(d)] == 0);
      if (open) ++days;
      called += year.called[static_cast<std::size_t>(d)];
    }
  CHECK(called > 0.25 * days);  // 0.4 of the days, some of them too windy
  CHECK(called < 0.45 * days);
}

TEST_CASE("a method that burns after the season's end is judged on its last day", "[regression]") {
  farm::Problem p = test::small_problem(1);
  const auto burn = static_cast<std::size_t>(test::recipe_named(p.farm, "burn"));
  for (method::Step& step : p.farm.book.recipes[burn].steps) step.earliest = MonthDay{8, 25};
  p.farm.book.recipes[burn].fall_back.reset();
  REQUIRE(p.farm.season.day(MonthDay{8, 25}) > p.farm.season.days + 50);
  const dispatch::Table t = dispatch::make_table(p, 7);  // asked for the hours of a day beyond the last
  CHECK(t.burn_clock.size() == static_cast<std::size_t>(p.farm.season.days));
  CHECK(t.why_not.size() == p.farm.fields.size());
}
