// Looks at readiness: what needs a decision, what changed, and the file of looks.

#include "aftercut/review/watch.hpp"

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/review/rush.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"
#include "gone_on.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

const Date today = make_date(2026, 11, 2);

plan::FieldLook seen(const char* field, double chance, std::optional<Date> safe, bool begun = false) {
  return {.field = field,
          .method = "chop_disk",
          .chance = chance,
          .wanted = 0.8,
          .last_safe_start = safe,
          .begun = begun};
}

}  // namespace

TEST_CASE("what needs a decision", "[identity]") {
  struct Row {
    const char* what;
    plan::FieldLook field;
    std::vector<plan::Calls> calls;
  };
  plan::FieldLook none{.field = "a", .wanted = 0.8}, done = seen("a", 0.1, today - 3);
  done.ready = today - 10;
  const std::vector<Row> rows{{"sure and early", seen("a", 0.9, today + 30), {}},
                              {"as sure as wanted", seen("a", 0.8, today + 8), {}},
                              {"a little less sure", seen("a", 0.79, today + 8), {plan::Calls::below_wanted}},
                              {"a week left", seen("a", 0.9, today + 7), {plan::Calls::start_soon}},
                              {"today is the last day", seen("a", 0.9, today), {plan::Calls::start_soon}},
                              {"the day has passed",
                               seen("a", 0.5, today - 1),
                               {plan::Calls::below_wanted, plan::Calls::start_passed}},
                              {"begun, so no start to warn of", seen("a", 0.9, today + 2, true), {}},
                              {"no method", none, {plan::Calls::no_method}},
                              {"ready already", done, {}}};
  for (const Row& row : rows) {
    INFO(row.what);
    std::vector<plan::Calls> found;
    for (const plan::Call& c : review::calls_of({today, {row.field}})) found.push_back(c.what);
    CHECK(found == row.calls);
  }
}

TEST_CASE("looks are kept one a day and read back as they were", "[identity]") {
  std::vector<plan::Look> looks;
  for (const int day : {5, 1, 9, 5})
    looks = review::with(looks, {today + day, {seen("a", 0.1 * day, today + day), seen("b", 0.5, {})}});
  REQUIRE(looks.size() == 3);
  CHECK(looks[1].day == today + 5);
  const std::string text = review::looks_text(looks);
  const auto read = review::read_looks(text, "readiness.jsonl");
  REQUIRE(read.ok());
  CHECK(read.value() == looks);
  CHECK(review::before(looks, today + 1) == nullptr);
  CHECK(review::before(looks, today + 9)->day == today + 5);
  const auto changes = review::changes_between(looks[0], looks[2]);
  REQUIRE(changes.size() == 1);
  CHECK(changes[0].now.field == "a");
  const auto broken =
      review::read_looks(text + "{\"day\": \"2026-13-01\", \"fields\": []}\nxx\n", "readiness.jsonl");
  REQUIRE_FALSE(broken.ok());
  CHECK(broken.issues().size() == 2);
  CHECK(broken.issues()[1].place == "line 5");
}

TEST_CASE("a storm in the forecast: the fields worth rushing", "[cross]") {
  farm::Problem p = test::open_problem(4);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  p = test::with_weather_so_far(p, 1, 40);
  CHECK_FALSE(review::storm_ahead(p));
  weather::Series forecast{
      p.as_of, {p.years.years[0].days.begin() + 40, p.years.years[0].days.begin() + 50}, {}};
  for (weather::Day& day : forecast.days) day.rain_mm = 0.0;
  const auto with_forecast = [&](farm::Problem problem) {
    problem.forecast = forecast;
    weather::put_forecast_in_front(problem.years, forecast, problem.farm.site);
    return problem;
  };
  CHECK_FALSE(review::storm_ahead(with_forecast(p)));
  for (const int day : {3, 4, 5}) forecast.days[static_cast<std::size_t>(day)].rain_mm = 3.0;
  CHECK_FALSE(review::storm_ahead(with_forecast(p)));  // 9 mm
  forecast.days[4].rain_mm = 34.0;
  const farm::Problem now = with_forecast(p);
  const auto storm = review::storm_ahead(now);
  REQUIRE(storm);
  CHECK(storm->first_day == 43);
  CHECK(storm->last_day >= 44);
  CHECK(storm->rain_mm >= 37.0);
  const dispatch::Table t = dispatch::make_table(now, 1);
  plan::Decision d =
      test::decide(now.farm, {"chop_disk", "bale_disk", "chop_disk", "chop_disk", "chop_disk"});
  const auto list = review::storm_list(t, d, 1);
  REQUIRE(list);
  for (std::size_t k = 0; k < list->rush.size(); ++k) {
    const plan::Rush& r = list->rush[k];
    CHECK(r.hours > 0.0);
    CHECK(r.avoided_cents > 0);
    if (k > 0) CHECK(list->rush[k - 1].cents_per_hour() >= r.cents_per_hour());
    plan::Decision first = d;
    for (auto* order : {&first.autumn_order, &first.spring_order}) {
      std::erase(*order, r.field);
      order->insert(order->begin(), r.field);
    }
    std::int64_t rushed = 0, left = 0;
    for (std::size_t y = 0; y < 4; ++y) {
      rushed += dispatch::cost_of(dispatch::run(t, first, y));
      left += dispatch::cost_of(
          dispatch::run(t, d, y, {.start_after_field = r.field, .start_after_day = storm->last_day}));
    }
    CHECK(std::abs((left - rushed) / 4 - r.avoided_cents) <= 2);
  }
  CHECK(!list->rush.empty());
}

TEST_CASE("boards are opened before a storm where dry ground is wanted soon, not where water is to stay",
          "[cross]") {
  farm::Problem p = test::open_problem(4);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  const auto& operations = p.farm.book.operations;
  const auto boards_in = std::ranges::find(operations, "boards_in", [](const auto& o) { return o.id.value; });
  REQUIRE(boards_in != operations.end());
  const int day = 40;
  const auto listed = [&](int today, const std::string& method) {
    farm::Problem now = test::with_weather_so_far(p, 1, today);
    now.so_far.events = {{1, now.farm.season.date(day - 1),
                          farm::WorkDone{.field = 2,
                                         .operation = static_cast<int>(boards_in - operations.begin()),
                                         .area_ha = now.farm.fields[2].area.value(),
                                         .finishes = true}}};
    now.forecast =
        weather::Series{now.as_of, {p.years.years[0].days.begin(), p.years.years[0].days.begin() + 7}, {}};
    for (weather::Day& d : now.forecast->days) d.rain_mm = 9.0;
    weather::put_forecast_in_front(now.years, *now.forecast, now.farm.site);
    const dispatch::Table t = dispatch::make_table(now, 1);
    const auto list = review::storm_list(t, test::decide(now.farm, std::vector<std::string>(5, method)), 1);
    REQUIRE(list);
    return std::ranges::count(list->boards, 2) == 1;
  };
  const int february = p.farm.season.day(make_date(year_of(p.farm.season.first) + 1, 2, 1));
  CHECK_FALSE(listed(day, "roll_flood"));
  CHECK_FALSE(listed(february - 30, "roll_flood"));
  CHECK(listed(february - 3, "roll_flood"));
  CHECK(listed(day, "chop_disk"));
}
