// The chosen method against the next best: savings, break-even prices, toss-ups, an earlier harvest.

#include <cmath>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;
using Catch::Detail::Approx;

namespace {

constexpr std::uint64_t seed = 3;

const farm::Problem& problem() {
  static const farm::Problem p = test::small_problem(6);
  return p;
}

plan::PlannedYears plan_of(const farm::Problem& p) {
  return scenario::make_plan(p, {.seed = seed, .threads = 2, .evaluations = 600, .progress = {}});
}

const plan::PlannedYears& planned() {
  static const plan::PlannedYears made = plan_of(problem());
  return made;
}

/// Mean out-of-pocket cost of the whole farm, money.
double cost(const farm::Problem& p, const plan::Decision& d) {
  const dispatch::Table table = dispatch::make_table(p, seed);
  double sum = 0.0;
  for (std::size_t y = 0; y < p.years.years.size(); ++y)
    sum += static_cast<double>(dispatch::cost_of(dispatch::run(table, d, y)));
  return sum / 100.0 / static_cast<double>(p.years.years.size());
}

/// What the next best costs more when the plan is played in this problem.
double saving(const farm::Problem& p, std::size_t field) {
  plan::Decision other = planned().plan.decision;
  other.method[field] = planned().plan.fields[field].chosen.next_best->method;
  return cost(p, other) - cost(p, planned().plan.decision);
}

void set_price(farm::Farm& farm, const plan::BreakEven& b) {
  const Money price{*b.even};
  const auto hire = [&]() -> machinery::Hire& {
    return *farm.implements[static_cast<std::size_t>(b.implement)].hire;
  };
  switch (b.of) {
    case plan::PriceOf::straw:
      farm.prices.straw_per_tonne = price;
      return;
    case plan::PriceOf::straw_area:
      farm.prices.straw_per_ha = price;
      return;
    case plan::PriceOf::straw_bale:
      farm.prices.straw_per_bale = price;
      return;
    case plan::PriceOf::diesel:
      farm.prices.diesel_per_l = price;
      return;
    case plan::PriceOf::water:
      farm.supply->per_m3 = price;
      return;
    case plan::PriceOf::hire_area:
      hire().per_ha = price;
      return;
    case plan::PriceOf::hire_hour:
      hire().per_hour = price;
      return;
    case plan::PriceOf::hire_mass:
      hire().per_tonne = price;
      return;
    case plan::PriceOf::hire_bale:
      hire().per_bale = price;
      return;
  }
}

/// Every break-even price within reach, put into the problem: the two methods cost the same.
int even_prices_hold(const farm::Problem& p, const plan::PlannedYears& made) {
  int looked_at = 0;
  for (std::size_t f = 0; f < made.plan.fields.size(); ++f) {
    const auto& next = made.plan.fields[f].chosen.next_best;
    if (!next) continue;
    for (const plan::BreakEven& b : next->break_even) {
      if (!b.even) continue;
      farm::Problem even = p;
      set_price(even.farm, b);
      plan::Decision other = made.plan.decision;
      other.method[f] = next->method;
      INFO(p.farm.fields[f].id.value << " " << plan::price_words[static_cast<std::size_t>(b.of)].key << " "
                                     << *b.even);
      const double per_ha =
          (cost(even, other) - cost(even, made.plan.decision)) / p.farm.fields[f].area.value();
      CHECK(std::abs(per_ha) < 0.01);
      ++looked_at;
    }
  }
  return looked_at;
}

}  // namespace

TEST_CASE("the saving, its years and its parts are those of the plan played with the method switched",
          "[cross]") {
  int with_next = 0;
  for (std::size_t f = 0; f < planned().plan.fields.size(); ++f) {
    const plan::FieldPlan& field = planned().plan.fields[f];
    const auto& next = field.chosen.next_best;
    if (!next) continue;
    ++with_next;
    CHECK(static_cast<double>(next->saves) / 100.0 == Approx(saving(problem(), f)).margin(0.006));
    for (const auto& m : field.methods)
      if (m.possible && m.method != field.chosen.method)
        CHECK(m.farm_cost >= field.methods[static_cast<std::size_t>(next->method)].farm_cost);
    std::int64_t sum = 0;
    for (const std::int64_t y : next->saves_by_year) sum += y;
    CHECK(next->saves_by_year.size() == 6);
    CHECK(std::llabs(sum - 6 * next->saves) <= 3);
    CHECK(std::llabs(next->parts.out_of_pocket() - next->saves) <= 14);
    CHECK_FALSE(next->decides.empty());
  }
  CHECK(with_next >= 3);
  CHECK_FALSE(planned().plan.fields[2].chosen.next_best);  // locked: no other is possible
}

TEST_CASE("with the price at its break-even the two methods cost the same to a cent a hectare", "[cross]") {
  CHECK(even_prices_hold(problem(), planned()) >= 3);
}

TEST_CASE("break-even prices by the bale, by area and of an outfit that charges for its least area hold too",
          "[cross]") {
  farm::Problem p = problem();
  p.farm.prices.straw_per_tonne = Money{0.0};
  p.farm.prices.straw_per_bale = Money{16.0};
  machinery::Hire& hire = *p.farm.implements[1].hire;
  hire.per_tonne = Money{0.0};
  hire.per_ha = Money{30.0};
  hire.least_area = Hectare{40.0};
  hire.below_least = machinery::BelowLeast::charges_least;
  for (farm::Field& field : p.farm.fields)
    for (const method::Recipe& r : p.farm.book.recipes)
      if (r.id.value != "bale" && r.id.value != "chop_disk") field.not_allowed.push_back({r.id, "test"});
  p.farm.fields[2].locked.reset();
  const plan::PlannedYears made = plan_of(p);
  std::string told;
  for (const auto& field : made.plan.fields)
    for (const auto& text : field.chosen.because) told += text + "\n";
  INFO(told);
  CHECK(even_prices_hold(p, made) >= 2);
}

TEST_CASE("a toss-up is told by the margin, and by a price spread that reaches the break-even",
          "[identity]") {
  farm::Problem wide = problem(), narrow = problem();
  wide.farm.target.toss_up_per_ha = Money{1e5};
  wide.farm.target.straw_price_spread = wide.farm.target.diesel_price_spread = 0.999;
  narrow.farm.target.toss_up_per_ha = Money{0.0};
  narrow.farm.target.straw_price_spread = narrow.farm.target.diesel_price_spread = 0.0;
  const auto loose = plan_of(wide), tight = plan_of(narrow);
  bool by_straw = false;
  for (std::size_t f = 0; f < loose.plan.fields.size(); ++f) {
    const plan::Chosen &a = loose.plan.fields[f].chosen, &b = tight.plan.fields[f].chosen;
    if (!a.next_best) continue;
    CHECK(a.toss_up.margin);
    CHECK_FALSE(b.toss_up.margin);
    CHECK_FALSE(b.toss_up.straw_price);
    CHECK_FALSE(b.toss_up.diesel_price);
    CHECK(a.toss_up.years == b.toss_up.years);
    for (const plan::BreakEven& e : a.next_best->break_even)
      if (e.of == plan::PriceOf::straw && e.even && *e.even<1.99 * e.now&& * e.even> 0.01 * e.now)
        by_straw = by_straw || a.toss_up.straw_price;
    const bool within = std::abs(static_cast<double>(a.next_best->saves)) <= a.next_best->spread;
    CHECK(a.toss_up.years == within);
  }
  CHECK(by_straw);
}

TEST_CASE("a week earlier is the plan played on the farm with that one harvest moved", "[cross]") {
  int standing = 0;
  for (std::size_t f = 0; f < planned().plan.fields.size(); ++f) {
    const plan::Chosen& c = planned().plan.fields[f].chosen;
    const farm::Field& field = problem().farm.fields[f];
    if (!c.next_best) continue;
    CHECK(c.next_best->saves_cut_earlier.has_value() == !field.cut);
    if (field.cut) continue;
    ++standing;
    CHECK(c.next_best->earlier_days == std::min(7, field.harvest - problem().as_of));
    farm::Problem moved = problem();
    moved.farm.fields[f].harvest = field.harvest - c.next_best->earlier_days;
    CHECK(static_cast<double>(*c.next_best->saves_cut_earlier) / 100.0 ==
          Approx(saving(moved, f)).margin(0.006));
  }
  CHECK(standing >= 2);
}

TEST_CASE("reasons are told in words with numbers", "[identity]") {
  const plan::FieldPlan& field = planned().plan.fields[0];
  std::string all;
  for (const std::string& text : field.chosen.because) all += text + "\n";
  INFO(all);
  CHECK(all.find("USD/ha") != std::string::npos);
  CHECK(all.find("what decides: ") != std::string::npos);
  CHECK(all.find("waiting a week") != std::string::npos);
  CHECK(all.find(" of 6 years") != std::string::npos);
  farm::Problem us = problem();
  us.farm.units = farm::UnitSystem::us;
  const plan::PlannedYears shown = plan_of(us);
  for (const std::string& text : shown.plan.fields[0].chosen.because) {
    CHECK(text.find("/ha") == std::string::npos);
    CHECK(text.find("/L") == std::string::npos);
    CHECK(text.find("m3") == std::string::npos);
  }
}
