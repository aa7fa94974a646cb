// A season looked back on.

#include "aftercut/review/season_review.hpp"

#include "aftercut/dispatch/dispatch.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"
#include "gone_on.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

farm::Problem cut_farm() {
  farm::Problem p = test::open_problem(4);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  return p;
}

plan::PlannedYears planned_with(const farm::Problem& p, const plan::Decision& d) {
  plan::PlannedYears out;
  out.plan.decision = d;
  out.plan.as_of = p.as_of;
  const dispatch::Table t = dispatch::make_table(p, 1);
  for (std::size_t y = 0; y < p.years.years.size(); ++y) out.runs.push_back(dispatch::run(t, d, y));
  for (std::size_t f = 0; f < p.farm.fields.size(); ++f) {
    plan::FieldPlan field;
    field.methods.resize(p.farm.book.recipes.size());
    out.plan.fields.push_back(field);
  }
  return out;
}

struct Season {
  farm::Problem expected, now;
  plan::PlannedYears planned;
  plan::SeasonReview review;
};

/// The plan carried out in its second year until a day, every machine taking `times` the hours it took there.
Season carried_out(double times, int until) {
  Season s{.expected = cut_farm(), .now = {}, .planned = {}, .review = {}};
  const plan::Decision d =
      test::decide(s.expected.farm, {"chop_disk", "bale_disk", "chop_disk", "leave", "chop_disk"});
  s.planned = planned_with(s.expected, d);
  s.now = test::gone_on(s.expected, s.planned.runs[1], 1, until);
  for (farm::Happened& h : s.now.so_far.events)
    if (auto* w = std::get_if<farm::WorkDone>(&h.what)) w->hours = times * *w->hours;
  s.review = review::season_review(
      {.expected = &s.expected, .planned = &s.planned, .now = &s.now, .seed = 1, .threads = 1});
  return s;
}

}  // namespace

TEST_CASE("work done is told beside the mean of the plan's years", "[identity]") {
  const Season s = carried_out(1.0, 110);
  REQUIRE(!s.review.work.empty());
  for (const plan::WorkReview& w : s.review.work) {
    INFO(w.operation);
    double planned_h = 0.0, done_ha = 0.0, done_h = 0.0;
    for (std::size_t y = 0; y < s.planned.runs.size(); ++y)
      for (const plan::Work& x : s.planned.runs[y].work) {
        const auto& op = s.now.farm.book.operations[static_cast<std::size_t>(x.operation)];
        if (op.id.value != w.operation || x.day >= 110 || x.stands_by) continue;
        planned_h += (x.end_min - x.start_min) / 60.0 / 4.0;
        if (y != 1) continue;
        done_ha += x.area_ha;
        done_h += (x.end_min - x.start_min) / 60.0;
      }
    CHECK(w.planned.hours == Approx(planned_h));
    CHECK(w.done.ha == Approx(done_ha).margin(1e-6));
    CHECK(w.done.hours == Approx(done_h).margin(1e-6));
    CHECK(w.hours_missing == 0);
  }
}

TEST_CASE("a machine that is a fifth slower is found, and its rate proposed; one that is not is left",
          "[identity]") {
  const Season slow = carried_out(1.25, 110), right = carried_out(1.0, 110);
  int proposed = 0;
  for (const plan::RateReview& r : slow.review.rates) {
    INFO(r.implement << " " << r.entries << " entries, " << r.times);
    CHECK(r.times > 1.2);  // dry ground may take its own time on top
    if (r.entries < review::least_rate_entries) {
      CHECK_FALSE(r.proposed);
    } else {
      REQUIRE(r.proposed);
      CHECK(*r.proposed == Approx(r.now / r.times));
      ++proposed;
    }
  }
  CHECK(proposed >= 2);
  for (const plan::RateReview& r : right.review.rates) {
    if (r.key != "speed" || r.implement == "disk") continue;  // the disk works dry ground here
    INFO(r.implement << " " << r.times);
    CHECK(r.times == Approx(1.0).margin(0.03));  // whole minutes
    CHECK_FALSE(r.proposed);
  }
}

TEST_CASE("fields: what was done on them, ready days, wet days", "[identity]") {
  const Season s = carried_out(1.0, 260);
  const auto& fields = s.review.fields;
  REQUIRE(fields.size() == 5);
  CHECK(fields[0].method == "chop_disk");
  CHECK(fields[0].planned_method == "chop_disk");
  for (std::size_t f = 0; f < 5; ++f) {
    const int day = s.planned.runs[1].fields[f].ready_day;
    if (day == plan::none || day >= 260) continue;
    REQUIRE(fields[f].ready);
    CHECK(*fields[f].ready == s.now.farm.season.date(day));
  }
  CHECK(s.review.days == 260 - s.now.farm.season.day(s.expected.as_of));
  CHECK(s.review.wet_days > 0.0);
  CHECK(s.review.planned_wet_days > 0.0);
}
