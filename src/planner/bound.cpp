#include "aftercut/planner/bound.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/core/parallel.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/dispatch/money.hpp"

namespace aftercut::planner {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double half_cents_a_stretch = 3.5;  // seven items of money, each rounded to a cent
constexpr double least_cents = 1.0;           // the published sum is a whole cent lower than the floating one
constexpr double first_step = 0.05, smallest_step = 0.0005, kept_direction = 0.3;
constexpr int rounds_without_rise = 4;

Outcome outcome_of(const dispatch::Table& t, const farm::Field& field) {
  const farm::Farm& farm = t.problem->farm;
  const auto cost = [&](int ready) {
    return static_cast<double>(
        dispatch::outcome_cost(farm, field, dispatch::status_of(farm, field, ready), ready).out_of_pocket());
  };
  Outcome o{{}, cost(plan::none)};
  for (int d = 0; d < farm.season.days; ++d) o.cents.push_back(cost(d));
  return o;
}

/// One field in one weather year: passes priced as they are asked for.
class FieldPrices {
 public:
  FieldPrices(const BoundModel& m, std::size_t field, const DayPrices& prices)
      : m_{m}, field_{field}, prices_{prices}, ways_(m.most_ha_a_day[field].size()) {}

  Way way(const Opening& o, std::size_t open_day) {
    const double draft = o.draft_on(open_day);
    const int day = o.days[open_day];
    const auto cheapest = [&] {
      return cheapest_way(*m_.table, m_.resources, prices_, field_, o.operation, day, draft);
    };
    if (draft != 1.0) return cheapest();
    auto& ways = ways_[static_cast<std::size_t>(o.operation)];
    ways.resize(m_.resources.days);
    auto& known = ways[static_cast<std::size_t>(day)];
    if (!known) known = cheapest();
    return *known;
  }

  std::vector<PricedPass> priced(const Chain& chain) {
    std::vector<PricedPass> out;
    for (const Opening& o : chain.passes) {
      PricedPass p;
      const auto& op = m_.table->problem->farm.book.operations[static_cast<std::size_t>(o.operation)];
      if (op.water != method::Water::fill) {
        p.area_ha = o.share * m_.table->problem->farm.fields[field_].area.value();
        p.most_ha_a_day = m_.most_ha_a_day[field_][static_cast<std::size_t>(o.operation)];
        for (std::size_t k = 0; k < o.days.size(); ++k) {
          const Way w = way(o, k);
          p.cents_per_ha.push_back(w.possible ? w.cents_per_ha : infinite);
        }
      }
      out.push_back(std::move(p));
    }
    return out;
  }

 private:
  const BoundModel& m_;
  std::size_t field_;
  const DayPrices& prices_;
  std::vector<std::vector<std::optional<Way>>> ways_;  // [operation][day], in ground of least draft
};

/// What rounding to cents can take off the passes of a chain.
double rounding(const BoundModel& m, std::size_t field, const Chain& chain) {
  double cents = 0.0;
  for (const Opening& o : chain.passes) {
    double fastest = 0.0;
    for (const auto& outfit : m.table->outfits[field][static_cast<std::size_t>(o.operation)])
      fastest = std::max(fastest, outfit.ha_per_hour);
    const double hours = fastest > 0.0 ? m.table->problem->farm.fields[field].area.value() / fastest : 0.0;
    const double least_stay_h = std::max(m.table->problem->farm.work_day.least_stay_min, 1) / 60.0;
    cents += half_cents_a_stretch * (hours / least_stay_h + 2.0);
  }
  return cents;
}

struct Least {
  double cents = infinite;
  const Chain* chain = nullptr;
};

/// A method in one year: by its own steps, or by its fall-back's after a part of its own.
Least least_of(const BoundModel& m, FieldPrices& prices, std::size_t field, const Openings& o) {
  const Outcome& outcome = m.outcomes[field];
  Least least;
  double part = 0.0, own_rounding = 0.0;
  for (const Chain& chain : o.own) {
    const auto priced = prices.priced(chain);
    const double off = rounding(m, field, chain);
    own_rounding = std::max(own_rounding, off);
    const double cents = least_cost(chain, priced, outcome, false).cents - off - chain.income_cents;
    if (cents < least.cents) least = {cents, &chain};
    if (&chain == &o.own.front() && !o.fall_backs.empty())
      part = least_cost_of_part(chain, priced, o.key_passes);
  }
  for (const FallBack& f : o.fall_backs) {
    const double before = part < 0.0 ? part : part < infinite ? f.done_share * part : 0.0;
    const double after = least_cost(f.chain, prices.priced(f.chain), outcome, false).cents;
    const double cents = before + after - own_rounding - rounding(m, field, f.chain) - f.chain.income_cents;
    if (cents < least.cents) least = {cents, &f.chain};
  }
  return least;
}

double paid_back(const Resources& r, const DayPrices& prices) {
  double cents = 0.0;
  for (std::size_t i = 0; i < prices.size(); ++i) cents += prices[i] * r.minutes[i];
  return cents;
}

void add_use(const BoundModel& m, FieldPrices& prices, const Chain& chain, const Outcome& outcome,
             DayPrices& used) {
  const Resources& r = m.resources;
  for (const Piece& piece : least_cost(chain, prices.priced(chain), outcome, true).pieces) {
    const Opening& o = chain.passes[piece.pass];
    const int day = o.days[piece.open_day];
    const Way w = prices.way(o, piece.open_day);
    const double minutes = piece.hectares * w.minutes_per_ha;
    const auto add = [&](std::size_t resource) {
      used[resource * r.days + static_cast<std::size_t>(day)] += minutes;
    };
    if (w.tractor != plan::none) add(r.tractor(w.tractor));
    if (w.implement != plan::none) add(r.implement(w.implement));
    for (const int who : w.crew)
      if (who != plan::none) add(r.person(who));
  }
}

/// The cheapest method of each field on the sum over the years; a field without one costs what an unplanted
/// field does.
void choose(const BoundModel& m, Evaluated& e) {
  for (std::size_t f = 0; f < e.by_method.size(); ++f) {
    const auto& costs = e.by_method[f];
    const auto best = std::min_element(costs.begin(), costs.end());
    const bool any = best != costs.end() && *best < infinite;
    e.method.push_back(any ? static_cast<int>(best - costs.begin()) : plan::none);
    e.cents += any ? *best : m.outcomes[f].never_cents * static_cast<double>(m.years.size());
  }
}

}  // namespace

BoundModel make_bound_model(const dispatch::Table& t, std::vector<std::size_t> years, int threads) {
  BoundModel m{&t, resources_of(t), std::move(years), {}, {}, {}};
  const farm::Farm& farm = t.problem->farm;
  const std::size_t n = farm.fields.size(), recipes = farm.book.recipes.size();
  m.openings.assign(n, std::vector(m.years.size(), std::vector<std::optional<Openings>>(recipes)));
  for_each_index(n * m.years.size(), threads, [&](std::size_t i) {
    const std::size_t f = i / m.years.size(), y = i % m.years.size();
    m.openings[f][y] = openings_of_all(t, f, m.years[y]);
  });
  for (std::size_t f = 0; f < n; ++f) {
    auto& most = m.most_ha_a_day.emplace_back();
    for (std::size_t o = 0; o < farm.book.operations.size(); ++o)
      most.push_back(most_ha_a_day(t, m.resources, f, static_cast<int>(o)));
    m.outcomes.push_back(outcome_of(t, farm.fields[f]));
  }
  return m;
}

Evaluated evaluate(const BoundModel& m, const std::vector<DayPrices>& prices, int threads, bool with_use) {
  const std::size_t n = m.openings.size(), years = m.years.size();
  const std::size_t recipes = m.table->problem->farm.book.recipes.size();
  require(prices.size() == years, "every weather year of the bound has its prices");
  for (const DayPrices& year : prices)
    require(std::all_of(year.begin(), year.end(), [](double price) { return price >= 0.0; }),
            "a price of the bound is not negative");
  std::vector<std::vector<Least>> costs(n * years, std::vector<Least>(recipes));
  for_each_index(n * years, threads, [&](std::size_t i) {
    const std::size_t f = i / years, y = i % years;
    FieldPrices field{m, f, prices[y]};
    for (std::size_t r = 0; r < recipes; ++r)
      if (const auto& o = m.openings[f][y][r]) costs[i][r] = least_of(m, field, f, *o);
  });
  Evaluated e;
  e.by_method.assign(n, std::vector<double>(recipes, 0.0));
  for (std::size_t i = 0; i < costs.size(); ++i)
    for (std::size_t r = 0; r < recipes; ++r) e.by_method[i / years][r] += costs[i][r].cents;
  choose(m, e);
  for (const DayPrices& p : prices) e.cents -= paid_back(m.resources, p);
  if (!with_use) return e;
  e.minutes_used.assign(years, DayPrices(m.resources.minutes.size(), 0.0));
  for_each_index(years, threads, [&](std::size_t y) {
    for (std::size_t f = 0; f < n; ++f) {
      if (e.method[f] == plan::none) continue;
      FieldPrices field{m, f, prices[y]};
      const Least& least = costs[f * years + y][static_cast<std::size_t>(e.method[f])];
      add_use(m, field, *least.chain, m.outcomes[f], e.minutes_used[y]);
    }
  });
  return e;
}

namespace {

/// A smoothed subgradient: what is asked for beyond what is there.
class Climb {
 public:
  explicit Climb(const BoundInput& in) : in_{in}, m_{*in.model} {
    prices_.assign(m_.years.size(), DayPrices(m_.resources.minutes.size(), 0.0));
    direction_ = prices_;
  }

  Bound run() {
    Bound best;
    for (int round = 0; round <= in_.rounds; ++round) {
      const Evaluated e = evaluate(m_, prices_, in_.threads, round < in_.rounds);
      if (round == 0) best = {e.cents, e.cents, prices_, e.method};
      if (e.cents > best.cents) {
        best = {e.cents, best.without_prices, prices_, e.method};
        flat_rounds_ = 0;
        step_ = std::min(first_step, 1.5 * step_);
      } else if (++flat_rounds_ >= rounds_without_rise) {
        step_ = std::max(smallest_step, 0.5 * step_);
        flat_rounds_ = 0;
        prices_ = best.prices;
      }
      if (in_.progress) in_.progress(static_cast<double>(round) / std::max(in_.rounds, 1));
      if (round < in_.rounds) move(e, std::max(in_.plan_cents - e.cents, 1.0));
    }
    best.cents = std::floor(best.cents - least_cents);
    return best;
  }

 private:
  void move(const Evaluated& e, double to_go) {
    double length = 0.0;
    for (std::size_t y = 0; y < prices_.size(); ++y)
      for (std::size_t i = 0; i < prices_[y].size(); ++i) {
        const double over = e.minutes_used[y][i] - m_.resources.minutes[i];
        double& along = direction_[y][i];
        along = kept_direction * along + (1.0 - kept_direction) * over;
        if (prices_[y][i] <= 0.0 && along < 0.0) along = 0.0;
        length += along * along;
      }
    if (length <= 0.0) return;
    const double t = step_ * to_go / length;
    for (std::size_t y = 0; y < prices_.size(); ++y)
      for (std::size_t i = 0; i < prices_[y].size(); ++i)
        prices_[y][i] = std::max(0.0, prices_[y][i] + t * direction_[y][i]);
  }

  const BoundInput& in_;
  const BoundModel& m_;
  std::vector<DayPrices> prices_, direction_;
  double step_ = first_step;
  int flat_rounds_ = 0;
};

}  // namespace

Bound lower_bound(const BoundInput& input) { return Climb{input}.run(); }

}  // namespace aftercut::planner
