// Days that a plan made again moves, from years written by hand.

#include "aftercut/scenario/days_moved.hpp"

#include "catch2/catch.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

constexpr int no_day = -1;
constexpr int disk = 5, chopper = 4;  // places among the small farm's implements

struct Days {
  int first = 60, ready = 220;
};

/// Four years in which every field has one stretch of work, on field 1 (index 0) as the row says.
struct Years {
  farm::Problem problem = test::open_problem(4);
  plan::Plan plan;
  std::vector<plan::YearRun> stood, now;
  std::vector<std::size_t> shown{0, 1, 2, 3};

  Years() {
    const std::size_t n = problem.farm.fields.size();
    plan.as_of = problem.farm.season.date(30);
    plan.again.emplace();
    plan.decision.method.assign(n, recipe("chop_disk"));
    for (int f = 0; f < static_cast<int>(n); ++f) {
      plan.decision.autumn_order.push_back(f);
      plan.decision.spring_order.push_back(f);
    }
    plan.again->stood = plan.decision;
    for (auto* runs : {&stood, &now}) {
      runs->resize(4);
      for (auto& run : *runs) run.fields.resize(n);
    }
    for (int f = 0; f < static_cast<int>(n); ++f)
      for (std::size_t y = 0; y < 4; ++y) {
        work(stood, y, f, {});
        work(now, y, f, {});
      }
  }

  [[nodiscard]] int recipe(const std::string& id) const {
    for (std::size_t r = 0; r < problem.farm.book.recipes.size(); ++r)
      if (problem.farm.book.recipes[r].id.value == id) return static_cast<int>(r);
    throw std::runtime_error("no method " + id);
  }

  /// The field's only stretch in a year, and its ready day; -1: none.
  static void work(std::vector<plan::YearRun>& runs, std::size_t y, int field, Days days,
                   int implement = chopper) {
    std::erase_if(runs[y].work, [&](const plan::Work& w) { return w.field == field; });
    if (days.first != no_day)
      runs[y].work.push_back({.field = field, .day = days.first, .implement = implement});
    runs[y] = plan::in_day_order(std::move(runs[y]));
    plan::FieldRun& end = runs[y].fields[static_cast<std::size_t>(field)];
    end.ready_day = days.ready;
    end.status = days.ready == no_day ? plan::Status::unplanted : plan::Status::ready;
  }

  /// Field 1 on the same days in every year.
  void set(Days was, Days is) {
    for (std::size_t y = 0; y < 4; ++y) {
      work(stood, y, 0, was);
      work(now, y, 0, is);
    }
  }

  [[nodiscard]] std::vector<plan::DayMove> moved() const {
    return scenario::days_moved({&problem.farm, &plan, &now, &stood, &shown});
  }
};

}  // namespace

TEST_CASE("a day that moves by three days or more is told, with both dates", "[identity]") {
  struct Row {
    const char* what;
    Days stood, now;
    bool told;
  };
  const std::vector<Row> rows{{"nothing moves", {60, 220}, {60, 220}, false},
                              {"two days", {60, 220}, {62, 218}, false},
                              {"the work, three days later", {60, 220}, {63, 220}, true},
                              {"the work, three days earlier", {60, 220}, {57, 220}, true},
                              {"the ready day alone", {60, 220}, {60, 223}, true},
                              {"no work any more", {60, 220}, {no_day, 220}, true},
                              {"ready at last", {60, no_day}, {60, 220}, true},
                              {"never ready, no work", {no_day, no_day}, {no_day, no_day}, false},
                              {"ready before this morning", {60, 20}, {70, 20}, false}};
  for (const Row& row : rows) {
    INFO(row.what);
    Years y;
    y.set(row.stood, row.now);
    const auto days = y.moved();
    REQUIRE(days.size() == (row.told ? 1U : 0U));
    if (!row.told) continue;
    const auto day = [](int d) { return d == no_day ? std::nullopt : std::optional<int>{d}; };
    CHECK(days[0].field == 0);
    CHECK(days[0].first == plan::StoodAndNow{day(row.stood.first), day(row.now.first)});
    CHECK(days[0].ready == plan::StoodAndNow{day(row.stood.ready), day(row.now.ready)});
    CHECK(days[0].order == plan::OrderMoved::neither);  // it did not move: no reason is made up
    CHECK(days[0].before.empty());
  }
}

TEST_CASE("the typical day is the middle of the shown years, years without a day last", "[identity]") {
  Years y;
  const std::array<int, 4> first{50, 90, no_day, no_day};
  for (std::size_t k = 0; k < 4; ++k) Years::work(y.now, k, 0, {first[k], 220});
  REQUIRE(y.moved().size() == 1);
  CHECK(y.moved()[0].first.now == 90);  // two of the four years have come by then
  Years::work(y.now, 1, 0, {no_day, 220});
  CHECK_FALSE(y.moved()[0].first.now.has_value());
  y.shown = {0};
  CHECK(y.moved()[0].first.now == 50);
  y.now[0].work.push_back({.field = 0, .day = 40, .stands_by = true});  // nothing was done
  CHECK(y.moved()[0].first.now == 50);
}

TEST_CASE("only fields that keep their method are told", "[identity]") {
  Years y;
  y.set({60, 220}, {70, 220});
  REQUIRE(y.moved().size() == 1);
  Years other = y;
  other.plan.again->stood.method[0] = y.recipe("leave");
  CHECK(other.moved().empty());
  Years barred = y;
  barred.plan.again->barred.push_back(
      {.field = 0, .from = y.recipe("leave"), .to = y.recipe("chop_disk"), .made = true});
  CHECK(barred.moved().empty());
}

TEST_CASE("an order is the reason only where the field's place moved the same way", "[identity]") {
  Years y;
  y.set({60, 220}, {70, 220});
  std::ranges::rotate(y.plan.decision.autumn_order,
                      y.plan.decision.autumn_order.begin() + 1);  // 1 comes last
  CHECK(y.moved()[0].order == plan::OrderMoved::autumn);
  y.set({70, 220}, {60, 220});
  CHECK(y.moved()[0].order == plan::OrderMoved::neither);
  y.set({60, 220}, {60, 230});
  CHECK(y.moved()[0].order ==
        plan::OrderMoved::neither);  // what ends in spring is served by the spring order
  y.plan.decision.spring_order = y.plan.decision.autumn_order;
  CHECK(y.moved()[0].order == plan::OrderMoved::spring);
}

TEST_CASE("work that went before is told where the same machine did it in most years, and did not",
          "[identity]") {
  Years y;
  y.set({60, 220}, {70, 220});
  for (std::size_t k = 0; k < 4; ++k) Years::work(y.now, k, 1, {65, 220});
  for (std::size_t k = 0; k < 4; ++k) Years::work(y.stood, k, 1, {72, 220});
  REQUIRE_FALSE(y.moved().empty());
  CHECK(y.moved()[0].before == std::vector<int>{1});
  Years turned = y;
  std::swap(turned.stood, turned.now);
  CHECK(turned.moved()[0].before == std::vector<int>{1});
  Years both = y;
  for (std::size_t k = 0; k < 2; ++k) Years::work(both.stood, k, 1, {65, 220});
  CHECK(both.moved()[0].before.empty());  // in two of four years it had gone before already
  Years another = y;
  for (std::size_t k = 0; k < 4; ++k) Years::work(another.now, k, 1, {65, 220}, disk);
  CHECK(another.moved()[0].before.empty());
}
