// Dates to keep and money by month.

#include <algorithm>
#include <regex>

#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/scenario/cash.hpp"
#include "aftercut/scenario/dates_to_keep.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

farm::Problem agenda_problem() {
  farm::Problem p = test::small_problem(6);
  const char* methods[] = {"bale", "bale_disk", "chop_disk", "roll_flood", "burn"};
  for (std::size_t f = 0; f < p.farm.fields.size(); ++f) p.farm.fields[f].locked = MethodId{methods[f]};
  p.farm.fields[3].lease = farm::WaterLease{make_date(2026, 12, 1), make_date(2027, 2, 10), Money{60.0}};
  test::put(*p.farm.burning, "permit", "yes", "yes/no");
  return p;
}

const plan::PlannedYears& agenda_plan() {
  static const farm::Problem p = agenda_problem();
  static const plan::PlannedYears made =
      scenario::make_plan(p, {.seed = 5, .threads = 1, .evaluations = 20, .progress = {}});
  return made;
}

const plan::DateToKeep* date_with(const std::string& part) {
  for (const auto& d : agenda_plan().plan.dates)
    if (d.what.find(part) != std::string::npos) return &d;
  return nullptr;
}

}  // namespace

TEST_CASE("the months add up to the plan, to the cent", "[identity]") {
  const plan::Plan& p = agenda_plan().plan;
  std::int64_t sum = 0;
  for (const auto& m : p.cash) {
    sum += m.mean.out_of_pocket();
    CHECK(m.mean.ownership == 0);
    CHECK(m.p10 <= m.p90);
  }
  CHECK(sum == p.cost_cents);
  REQUIRE_FALSE(p.cash.empty());
  for (std::size_t k = 1; k < p.cash.size(); ++k)
    CHECK(12 * p.cash[k].year + p.cash[k].month == 12 * p.cash[k - 1].year + p.cash[k - 1].month + 1);
}

TEST_CASE("the bills of a year are its costs, each on a day of the season", "[identity]") {
  for (const plan::YearRun& run : agenda_plan().runs) {
    std::vector<plan::CostParts> sum(run.fields.size());
    for (const plan::Bill& b : run.bills) {
      sum[static_cast<std::size_t>(b.field)] = sum[static_cast<std::size_t>(b.field)] + b.parts;
      CHECK(b.day >= 0);
    }
    for (std::size_t f = 0; f < sum.size(); ++f) CHECK(sum[f] == run.fields[f].cost);
  }
}

TEST_CASE("money falls in the month of its work, lease and loss in theirs", "[derived]") {
  const farm::Problem p = agenda_problem();
  plan::PlannedYears two;
  two.plan.shown_years = {2002};
  const int october = p.farm.season.day(make_date(2026, 10, 5)),
            may = p.farm.season.day(make_date(2027, 5, 1));
  two.runs.resize(2);
  two.runs[0].year = 2001;
  two.runs[0].bills = {{0, october, {.fuel = 1001}}, {1, may, {.late = 300}}};
  two.runs[1].year = 2002;
  two.runs[1].bills = {{0, october, {.fuel = 500, .straw_income = -2000}}};
  two.plan.cost_cents = -100;  // (1001 + 300 + 500 - 2000) / 2, half away from zero
  const auto cash = scenario::cash_by_month(p.farm, two);
  REQUIRE(cash.size() == 8);  // October to May, none left out
  CHECK(cash.front().month == 10);
  CHECK(cash.front().mean.straw_income == -1000);
  CHECK(cash.front().mean.fuel == 750);
  CHECK(cash.back().mean.late == 150);
  CHECK(cash.front().p10 == -1500);
  CHECK(cash.back().p90 == 0);
}

TEST_CASE("dates to keep come from the farm's data, in order and none before today", "[identity]") {
  const farm::Problem p = agenda_problem();
  const auto& dates = agenda_plan().plan.dates;
  REQUIRE_FALSE(dates.empty());
  CHECK(std::ranges::is_sorted(dates, {}, &plan::DateToKeep::day));
  for (const auto& d : dates) {
    CHECK(d.day >= p.farm.season.day(p.as_of));
    CHECK_FALSE(d.why.empty());
    CHECK_FALSE(d.fields.empty());
  }
  const auto on = [&](const char* part, Date day) {
    const plan::DateToKeep* d = date_with(part);
    INFO(part);
    REQUIRE(d != nullptr);
    CHECK(iso(p.farm.season.date(d->day)) == iso(day));
  };
  on("book the", make_date(2026, 9, 10));  // its window opens today: at once
  on("order canal water", make_date(2026, 9, 10));
  on("water lease signed", make_date(2026, 11, 30));
  on("boards out", make_date(2027, 2, 11));  // the day after the lease
  on("permit in hand", make_date(2026, 9, 10));
  on("burn window", make_date(2026, 11, 30));
  on("seedbed ready", make_date(2027, 4, 30));
  on("last day to plant", make_date(2027, 5, 25));
  on("set the combine: straw in a windrow", make_date(2026, 9, 16));
  CHECK(date_with("seedbed ready")->fields == std::vector{0, 1, 2, 4});  // 4 rests
  CHECK(date_with("fall-backs start")->worked_out);
}

TEST_CASE("no date joins a burn with a granting word", "[identity]") {
  const std::regex granting{
      R"(\b(allow(s|ed)?|permits|permitted|approved?|clear(ed)?|legal|OK|safe|may|authori[sz]ed)\b)"};
  for (const auto& d : agenda_plan().plan.dates)
    CHECK_FALSE(std::regex_search(d.what + " " + d.why, granting));
}
