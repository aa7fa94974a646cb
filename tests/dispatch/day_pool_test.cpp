#include "aftercut/dispatch/day_pool.hpp"

#include "catch2/catch.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

/// The first operation of one person that the farm's people do on the first field.
int one_person_work(const dispatch::Table& t) {
  for (std::size_t o = 0; o < t.outfits[0].size(); ++o) {
    const auto& op = t.problem->farm.book.operations[o];
    if (op.crew == 1 && op.skill.empty() && !t.outfits[0][o].empty() && t.outfits[0][o].front().own_crew)
      return static_cast<int>(o);
  }
  return plan::none;
}

}  // namespace

TEST_CASE("of people who are free alike, who costs least out of pocket is taken first", "[identity]") {
  farm::Problem p = test::open_problem(1);
  auto& people = p.farm.operators;
  REQUIRE(people.size() >= 2);
  for (std::size_t cheap = 0; cheap < people.size(); ++cheap) {
    for (std::size_t i = 0; i < people.size(); ++i) {
      people[i].paid = true;
      people[i].wage_per_h = Money{i == cheap ? 12.0 : 30.0};
    }
    const dispatch::Table t = dispatch::make_table(p, 1);
    const int work = one_person_work(t);
    REQUIRE(work != plan::none);
    dispatch::DayPool pool{t, std::vector<int>(t.implement_here.size(), 0)};
    int day = t.as_of_day;
    while (t.operator_min[cheap][static_cast<std::size_t>(day)] == 0) ++day;
    pool.start_day(day);
    const auto stretch = pool.find({.field = 0, .operation = work, .area_ha = 1.0});
    REQUIRE(stretch);
    CHECK(stretch->crew[0] == static_cast<int>(cheap));
    people[cheap].paid = false;  // the owner's own time costs nothing out of pocket
    people[cheap].wage_per_h = Money{99.0};
    const dispatch::Table again = dispatch::make_table(p, 1);
    dispatch::DayPool owner{again, std::vector<int>(t.implement_here.size(), 0)};
    owner.start_day(day);
    CHECK(owner.find({.field = 0, .operation = work, .area_ha = 1.0})->crew[0] == static_cast<int>(cheap));
  }
}
