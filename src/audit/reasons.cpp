#include "reasons.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "paid_for.hpp"

namespace aftercut::audit {
namespace {

// plan.json prints money by area with 2 decimals, amounts with 3, prices with 6.
constexpr double per_ha_tolerance = 0.501;     // cents a hectare
constexpr double amount_tolerance = 0.000501;  // and the share below
constexpr double amount_share = 1e-6;
constexpr double price_tolerance = 5.1e-7;
constexpr double money_share = 2e-3;         // of what prices add up to: cents are rounded stretch by stretch
constexpr std::int64_t untold_cents = 100;   // a part that differs by less needs no break-even
constexpr std::int64_t parts_rounding = 14;  // cents: a mean rounded for each part

/// One field's reasons under the glass.
struct Told {
  const Facts& facts;
  const plan::PlannedYears& planned;
  const Replays& replays;
  std::size_t field;
  const plan::FieldPlan& said;
  Place place;

  [[nodiscard]] const farm::Farm& farm() const { return facts.farm(); }
  [[nodiscard]] const plan::MethodOutcome& method(int m) const {
    return said.methods[static_cast<std::size_t>(m)];
  }
  [[nodiscard]] Place at(const char* what) const {
    Place p = place;
    p.what = what;
    return p;
  }
};

void same_cents(Findings& f, const Place& place, const char* rule, std::int64_t found, std::int64_t expected,
                std::int64_t tolerance) {
  f.expect(std::llabs(found - expected) <= tolerance, rule, place, [&] {
    return Texts{fmt::format("{} cents", found), fmt::format("{} cents", expected)};
  });
}

/// The possible method that costs the farm least beside the chosen one.
Findings check_which(const Told& t) {
  Findings f;
  const int chosen = t.said.chosen.method;
  const auto& next = t.said.chosen.next_best;
  const bool named = next && next->method >= 0 && next->method < static_cast<int>(t.said.methods.size());
  f.expect(!next || (named && next->method != chosen && t.method(next->method).possible), "wrong next best",
           t.place, [] {
             return Texts{"no such method, the chosen one or a barred one", "a possible method"};
           });
  for (const plan::MethodOutcome& m : t.said.methods) {
    if (!m.possible || m.method == chosen) continue;
    f.expect(named && t.method(next->method).farm_cost <= m.farm_cost, "wrong next best", t.place, [&] {
      return Texts{next ? "a dearer one" : "none",
                   t.farm().book.recipes[static_cast<std::size_t>(m.method)].id.value};
    });
  }
  return f;
}

/// The saving against the farm costs told, year by year, and in its parts.
Findings check_saving(const Told& t, const plan::NextBest& n) {
  Findings f;
  const char* rule = "wrong saving";
  const std::size_t years = t.replays.years.size();
  f.expect(n.saves_by_year.size() == years, rule, t.at("by year"), [&] {
    return Texts{fmt::format("{} years", n.saves_by_year.size()), fmt::format("{}", years)};
  });
  if (n.saves_by_year.size() != years) return f;
  std::int64_t saves = 0, mine = 0;
  for (std::size_t y = 0; y < years; ++y) {
    saves += n.saves_by_year[y];
    for (const plan::CostParts& cost : t.replays.stated[y]) mine += cost.out_of_pocket();
  }
  const auto mean = [&](std::int64_t sum) {
    return std::llround(static_cast<double>(sum) / static_cast<double>(years));
  };
  const plan::MethodOutcome& next = t.method(n.method);
  const plan::MethodOutcome& own = t.method(t.said.chosen.method);
  same_cents(f, t.at("mean of the years"), rule, n.saves, mean(saves), 1);
  same_cents(f, t.at("farm cost of the next best"), rule, next.farm_cost, mean(mine + saves), 1);
  same_cents(f, t.at("farm cost of the chosen one"), rule, own.farm_cost, mean(mine), 1);
  same_cents(f, t.at("parts"), rule, n.parts.out_of_pocket(), n.saves, parts_rounding);
  same_cents(f, t.at("on other fields"), rule, n.on_other_fields,
             n.saves - next.mean_cost.out_of_pocket() + own.mean_cost.out_of_pocket(), parts_rounding);
  return f;
}

double scatter(const std::vector<std::int64_t>& by_year) {
  const auto n = static_cast<double>(by_year.size());
  if (by_year.size() < 2) return 0.0;
  double sum = 0.0, squares = 0.0;
  for (const std::int64_t c : by_year) sum += static_cast<double>(c);
  for (const std::int64_t c : by_year)
    squares += (static_cast<double>(c) - sum / n) * (static_cast<double>(c) - sum / n);
  return std::sqrt(squares / ((n - 1.0) * n));
}

/// Money of the next best's whole farm in one part: replayed, and what the plan says of the difference.
double next_money(const Told& t, const plan::NextBest& n, std::int64_t plan::CostParts::*part) {
  double sum = 0.0;
  for (const auto& year : t.replays.fields)
    for (const plan::FieldRun& run : year) sum += static_cast<double>(run.cost.*part);
  return (sum / static_cast<double>(t.replays.years.size()) + static_cast<double>(n.parts.*part)) / 100.0;
}

/// Where one price alone makes up a part of the cost, the next best's amount is that part over the price.
std::optional<double> next_units(const Told& t, const plan::NextBest& n, const plan::BreakEven& b) {
  const farm::Prices& prices = t.farm().prices;
  if (b.of == plan::PriceOf::diesel && b.now > 0.0)
    return next_money(t, n, &plan::CostParts::fuel) / (b.now * (1.0 + prices.lubricant_share));
  const bool by_tonne_alone = prices.straw_per_ha.value() <= 0.0 && prices.straw_per_bale.value() <= 0.0;
  if (b.of == plan::PriceOf::straw && b.now > 0.0 && by_tonne_alone)
    return -next_money(t, n, &plan::CostParts::straw_income) / b.now;
  if (b.of == plan::PriceOf::water && b.now > 0.0 && t.farm().supply->per_ha_once.value() <= 0.0)
    return next_money(t, n, &plan::CostParts::water) / b.now;
  return std::nullopt;
}

Findings check_break_even(const Told& t, const plan::NextBest& n, const plan::BreakEven& b) {
  Findings f;
  const char* rule = "wrong break-even price";
  const Place place = t.at(plan::price_words[static_cast<std::size_t>(b.of)].key);
  const auto price = entered_price(t.farm(), b.of, b.implement);
  f.expect(price.has_value(), rule, place, [] {
    return Texts{"a price", "none: the farm has no such price"};
  });
  if (!price) return f;
  f.expect_near(b.now, *price, price_tolerance, rule, place);
  const double own = paid_units(t.facts, t.planned, t.replays, b.of, b.implement);
  f.expect_near(b.chosen_amount, own, amount_tolerance + amount_share * own, rule, place);
  if (const auto other = next_units(t, n, b))
    f.expect_near(b.next_amount, *other, 1.0 + money_share * *other, rule, place);
  const double weight = weight_of_price(t.farm(), b.of), change = weight * (b.next_amount - b.chosen_amount);
  if (change == 0.0) {
    f.add({rule, to_text(place), "the same amount on both sides", "no break-even"});
    return f;
  }
  const double even = *price - static_cast<double>(n.saves) / 100.0 / change;
  // Printed amounts move the price by no more than this.
  const double slack = price_tolerance + std::abs((even - *price) / change * weight) * 2.0 * amount_tolerance;
  const double least = is_straw_price(b.of) ? 0.0 : *price / plan::break_even_reach;
  const double most = *price > 0.0 ? plan::break_even_reach * *price : even + 1.0;
  const bool near_an_end = std::abs(even - least) <= slack || std::abs(even - most) <= slack;
  const bool reached = even >= least && even <= most;
  f.expect(near_an_end || reached == b.even.has_value(), rule, place, [&] {
    return Texts{b.even ? "within reach" : "out of reach", fmt::format("{:.4f}", even)};
  });
  if (b.even) f.expect_near(*b.even, even, slack, rule, place);
  return f;
}

/// A part that differs has a price behind it that is told.
Findings check_told_prices(const Told& t, const plan::NextBest& n) {
  Findings f;
  const auto told = [&](auto is_of) {
    return std::any_of(n.break_even.begin(), n.break_even.end(),
                       [&](const plan::BreakEven& b) { return is_of(b.of); });
  };
  f.expect(std::llabs(n.parts.fuel) <= untold_cents ||
               told([](plan::PriceOf of) { return of == plan::PriceOf::diesel; }),
           "wrong break-even price", t.at("diesel"), [] {
             return Texts{"not told", "told: fuel differs"};
           });
  f.expect(std::llabs(n.parts.straw_income) <= untold_cents || told(is_straw_price), "wrong break-even price",
           t.at("straw"), [] {
             return Texts{"not told", "told: straw income differs"};
           });
  for (const plan::BreakEven& b : n.break_even) f += check_break_even(t, n, b);
  return f;
}

Findings check_toss_up(const Told& t, const plan::NextBest& n) {
  Findings f;
  const farm::Target& target = t.farm().target;
  const double area = t.farm().fields[t.field].area.value();
  const double saves = std::abs(static_cast<double>(n.saves)), scattered = scatter(n.saves_by_year);
  const plan::TossUp& said = t.said.chosen.toss_up;
  f.expect_near(n.spread, scattered, per_ha_tolerance * area, "wrong toss-up", t.at("standard error"));
  const auto same = [&](bool found, bool expected, const char* name) {
    f.expect(found == expected, "wrong toss-up", t.at(name), [&] {
      return Texts{found ? "a toss-up" : "none", expected ? "a toss-up" : "none"};
    });
  };
  const auto turns = [&](bool straw, double share) {
    return std::any_of(n.break_even.begin(), n.break_even.end(), [&](const plan::BreakEven& b) {
      const bool asked = straw ? is_straw_price(b.of) : b.of == plan::PriceOf::diesel;
      return asked && b.even && b.now > 0.0 && *b.even >= (1.0 - share) * b.now - price_tolerance &&
             *b.even <= (1.0 + share) * b.now + price_tolerance;
    });
  };
  same(said.margin, saves <= 100.0 * area * target.toss_up_per_ha.value(), "margin");
  same(said.years, n.saves_by_year.size() > 1 && saves <= scattered, "years");
  same(said.straw_price, turns(true, target.straw_price_spread), "straw price");
  same(said.diesel_price, turns(false, target.diesel_price_spread), "diesel price");
  return f;
}

/// A field on which nothing happens in the first week of any year loses nothing by waiting for it.
Findings check_waiting(const Told& t) {
  Findings f;
  const farm::Field& field = t.farm().fields[t.field];
  const farm::Calendar& season = t.farm().season;
  const int first = std::max(season.day(t.planned.plan.as_of), season.day(field.harvest) + 1);
  const auto early = [&](const auto& row) {
    return row.field == static_cast<int>(t.field) && row.day < first + 7;
  };
  bool begun = false;
  for (const plan::YearRun& run : t.planned.runs)
    begun = begun || std::any_of(run.work.begin(), run.work.end(), early) ||
            std::any_of(run.water.begin(), run.water.end(), early);
  const auto& wait = t.said.chosen.wait_a_week;
  const char* rule = "wrong waiting cost";
  f.expect(wait.has_value() && (begun || *wait == 0), rule, t.place, [&] {
    return Texts{wait ? fmt::format("{} cents", *wait) : "none",
                 begun ? "a cost" : "0 cents: nothing is done in that week"};
  });
  const double wanted = field.next.wanted_chance.value_or(t.farm().target.wanted_chance);
  for (const plan::MethodOutcome& m : t.said.methods) {
    if (!m.last_safe_start) continue;
    const auto& back = t.farm().book.recipes[static_cast<std::size_t>(m.method)].fall_back;
    const int last = back ? season.day(back->start_by) - 1 : season.days - 1;
    f.expect(m.possible && m.chance_ready + 1e-9 >= wanted - 5e-5 && *m.last_safe_start >= first &&
                 *m.last_safe_start <= last,
             "wrong last safe start", t.place, [&] {
               return Texts{iso(season.date(*m.last_safe_start)),
                            "between the first day and the fall-back, with the wanted chance"};
             });
  }
  return f;
}

}  // namespace

Findings check_reasons(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays) {
  Findings f;
  const plan::Plan& p = planned.plan;
  for (std::size_t k = 0; k < p.fields.size(); ++k) {
    const plan::FieldPlan& said = p.fields[k];
    const int chosen = said.chosen.method;
    const auto methods = static_cast<int>(said.methods.size());
    if (chosen == plan::none || chosen >= methods || chosen != p.decision.method[k]) continue;
    const Told t{facts, planned, replays, k, said, {&facts.farm(), -1, -1, static_cast<int>(k), ""}};
    f += check_which(t);
    f += check_waiting(t);
    const auto& next = said.chosen.next_best;
    if (!next || next->method < 0 || next->method >= methods) continue;
    f += check_saving(t, *next);
    f += check_told_prices(t, *next);
    f += check_toss_up(t, *next);
    f.expect(!next->saves_cut_earlier ||
                 (!facts.farm().fields[k].cut && next->earlier_days >= 1 && next->earlier_days <= 7),
             "wrong earlier harvest", t.place, [] {
               return Texts{"cut earlier", "nothing: the field is cut already"};
             });
  }
  return f;
}

}  // namespace aftercut::audit
