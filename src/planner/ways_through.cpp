#include "ways_through.hpp"

#include "step_money.hpp"

#include <algorithm>

namespace aftercut::planner {
namespace {

constexpr double half_cents_a_stretch = 3.5;  // seven items of money, each rounded to a cent

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

const Chain& chain_of(const Openings& o, const WayThrough& w) {
  return w.own ? o.own[w.chain] : o.fall_backs[w.chain].chain;
}

/// A method's own passes up to the one that its fall-back hangs on.
Chain key_part(const Openings& o) {
  Chain part = o.own.front();
  part.passes.resize(o.key_passes);
  return part;
}

/// They end on whatever day, or cannot all be done.
Outcome whenever(const Outcome& outcome) {
  return {std::vector<double>(outcome.cents.size(), 0.0), infinite};
}

/// What the ways of a method cost in one year.
class MethodPrices {
 public:
  MethodPrices(const BoundModel& m, FieldPrices& prices, std::size_t field, const Openings& o)
      : m_{m}, prices_{prices}, field_{field}, o_{o} {}

  double cents(const WayThrough& w) {
    const Chain& chain = chain_of(o_, w);
    double sum = least_cost(chain, prices_.priced(chain), m_.outcomes[field_], false).cents;
    if (!w.own) {
      const FallBack& back = o_.fall_backs[w.chain];
      sum += back.begun_cents ? *back.begun_cents : before(back.done_share);
    }
    return sum - w.rounding - chain.income_cents;
  }

 private:
  /// Of the method's own baling, when the fall-back takes over with this share of it done.
  double before(double share) {
    if (!part_known_) {
      const Chain part = key_part(o_);
      part_ = least_cost(part, prices_.priced(part), whenever(m_.outcomes[field_]), false).cents;
      part_known_ = true;
    }
    if (part_ < 0.0 || share <= 0.0) return std::min(part_, 0.0);
    return part_ < infinite ? share * part_ - bale_price_cents(*m_.table) : 0.0;
  }

  const BoundModel& m_;
  FieldPrices& prices_;
  std::size_t field_;
  const Openings& o_;
  double part_ = 0.0;
  bool part_known_ = false;
};

/// Adds a share of the minutes of a chain's cheapest days.
void add_use(const BoundModel& m, FieldPrices& prices, const Chain& chain, const Outcome& outcome,
             double share, DayPrices& used) {
  const Resources& r = m.resources;
  for (const Piece& piece : least_cost(chain, prices.priced(chain), outcome, true).pieces) {
    const Opening& o = chain.passes[piece.pass];
    const int day = o.days[piece.open_day];
    const Way w = prices.way(o, piece.open_day);
    const double minutes = share * piece.hectares * w.minutes_per_ha;
    const auto add = [&](std::size_t resource) {
      used[resource * r.days + static_cast<std::size_t>(day)] += minutes;
    };
    if (w.tractor != plan::none) add(r.tractor(w.tractor));
    if (w.implement != plan::none) add(r.implement(w.implement));
    for (const int who : w.crew)
      if (who != plan::none) add(r.person(who));
  }
}

}  // namespace

FieldPrices::FieldPrices(const BoundModel& m, std::size_t field, const DayPrices& prices)
    : m_{m}, field_{field}, prices_{prices}, ways_(m.most_ha_a_day[field].size()) {}

Way FieldPrices::way(const Opening& o, std::size_t open_day) {
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

std::vector<PricedPass> FieldPrices::priced(const Chain& chain) {
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

Least least_of(const BoundModel& m, FieldPrices& prices, std::size_t field, const Openings& o,
               const std::vector<WayThrough>& ways) {
  Least least{.openings = &o};
  MethodPrices method{m, prices, field, o};
  for (const WayThrough& w : ways) {
    if (w.least_cents >= least.cents) break;
    const double cents = method.cents(w);
    if (cents < least.cents) {
      least.cents = cents;
      least.way = w;
    }
  }
  return least;
}

std::vector<WayThrough> ways_of(const BoundModel& m, FieldPrices& without, std::size_t field,
                                const Openings& o) {
  std::vector<WayThrough> ways;
  double own_rounding = 0.0;
  for (std::size_t k = 0; k < o.own.size(); ++k) {
    const double off = rounding(m, field, o.own[k]);
    own_rounding = std::max(own_rounding, off);
    ways.push_back({.chain = k, .rounding = off});
  }
  for (std::size_t k = 0; k < o.fall_backs.size(); ++k)
    ways.push_back(
        {.own = false, .chain = k, .rounding = own_rounding + rounding(m, field, o.fall_backs[k].chain)});
  MethodPrices method{m, without, field, o};
  for (WayThrough& w : ways) w.least_cents = method.cents(w);
  std::ranges::stable_sort(ways, {}, &WayThrough::least_cents);
  return ways;
}

void add_use_of(const BoundModel& m, FieldPrices& prices, std::size_t field, const Least& least,
                DayPrices& used) {
  const Openings& o = *least.openings;
  add_use(m, prices, chain_of(o, least.way), m.outcomes[field], 1.0, used);
  if (!least.way.own)
    add_use(m, prices, key_part(o), whenever(m.outcomes[field]), o.fall_backs[least.way.chain].done_share,
            used);
}

}  // namespace aftercut::planner
