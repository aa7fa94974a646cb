#include "oracle.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "oracle_chain.hpp"

namespace aftercut::test {
namespace {

using planner::Chain;
using planner::Opening;
using planner::Openings;

constexpr double half_cents_a_stretch = 3.5;  // seven items of money, each rounded to a cent

/// What rounding to cents can take off: a stretch for each least stay of the fastest outfit, and two more.
double rounded_off(const planner::BoundModel& m, std::size_t field, const Chain& chain) {
  const farm::Farm& farm = m.table->problem->farm;
  double money = 0.0;
  for (const Opening& o : chain.passes) {
    double fastest = 0.0;
    for (const auto& x : m.table->outfits[field][static_cast<std::size_t>(o.operation)])
      fastest = std::max(fastest, x.ha_per_hour);
    const double hours = fastest > 0.0 ? farm.fields[field].area.value() / fastest : 0.0;
    const double stretches = 60.0 * hours / std::max(farm.work_day.least_stay_min, 1) + 2.0;
    money += half_cents_a_stretch * stretches / 100.0;
  }
  return money;
}

bool earns(const Chain& chain, std::size_t passes) {
  return std::any_of(chain.passes.begin(), chain.passes.begin() + static_cast<std::ptrdiff_t>(passes),
                     [](const Opening& o) {
                       return std::any_of(o.cost_cents.begin(), o.cost_cents.end(),
                                          [](double cents) { return cents < 0.0; });
                     });
}

/// Whether the first passes can all be done when the field is alone: told by prices of nothing.
bool can_end(const planner::BoundModel& m, std::size_t field, Chain chain, std::size_t passes) {
  constexpr double never = std::numeric_limits<double>::infinity();
  const planner::DayPrices none(m.resources.minutes.size(), 0.0);
  chain.passes.resize(passes);
  std::vector<planner::PricedPass> priced;
  for (const Opening& o : chain.passes) {
    planner::PricedPass p;
    const auto& op = m.table->problem->farm.book.operations[static_cast<std::size_t>(o.operation)];
    if (op.water != method::Water::fill) {
      p.area_ha = o.share * m.table->problem->farm.fields[field].area.value();
      p.most_ha_a_day = m.most_ha_a_day[field][static_cast<std::size_t>(o.operation)];
      for (const auto day : o.days)
        p.cents_per_ha.push_back(
            planner::cheapest_way(*m.table, m.resources, none, field, o.operation, day).possible ? 0.0
                                                                                                 : never);
    }
    priced.push_back(std::move(p));
  }
  const planner::Outcome whenever{std::vector<double>(m.resources.days, 0.0), never};
  return planner::least_cost(chain, priced, whenever, false).cents < never;
}

/// Builds the whole programme.
class Writer {
 public:
  Writer(const planner::BoundModel& m, const Kept& kept)
      : m_{m}, kept_{kept}, people_{people_alike(*m.table)} {}

  Relaxed write() {
    const std::size_t fields = m_.openings.size(), years = m_.years.size();
    hours_.assign(years, std::vector<Terms>(m_.resources.minutes.size()));
    for (std::size_t f = 0; f < fields; ++f) add_field(f);
    std::vector<double> there = m_.resources.minutes;
    for (const auto& group : people_)
      for (std::size_t k = 1; k < group.size(); ++k)
        for (std::size_t d = 0; d < m_.resources.days; ++d)
          there[m_.resources.person(static_cast<int>(group.front())) * m_.resources.days + d] +=
              m_.resources.minutes[m_.resources.person(static_cast<int>(group[k])) * m_.resources.days + d];
    for (std::size_t y = 0; y < years; ++y)
      for (std::size_t i = 0; i < there.size(); ++i)
        if (!hours_[y][i].empty()) out_.mip.at_most(there[i] / 60.0, hours_[y][i]);
    return std::move(out_);
  }

 private:
  void add_field(std::size_t f) {
    const std::size_t years = m_.years.size();
    auto& columns = out_.method.emplace_back(m_.table->why_not[f].size(), -1);
    Terms one;
    for (std::size_t r = 0; r < columns.size(); ++r) {
      if (!m_.openings[f].front()[r] || kept_[f][r] == 0) continue;
      columns[r] = out_.mip.column(0.0, 1.0, true);
      one.emplace_back(columns[r], 1.0);
      for (std::size_t y = 0; y < years; ++y) add_method(f, y, *m_.openings[f][y][r], columns[r]);
    }
    if (one.empty()) {
      out_.mip.add_constant(m_.outcomes[f].never_cents * static_cast<double>(years) / 100.0);
    } else {
      out_.mip.row(1.0, 1.0, one);
    }
  }

  void add_method(std::size_t f, std::size_t y, const Openings& o, int method) {
    const ChainPlace place{&m_, f, &hours_[y], &people_};
    Terms ways{{method, -1.0}};
    double most_off = 0.0;
    for (const Chain& chain : o.own) {
      const double off = rounded_off(m_, f, chain);
      most_off = std::max(most_off, off);
      ways.emplace_back(out_.mip.column(-off - chain.income_cents / 100.0, 1.0, true), 1.0);
      add_chain(place, chain, ways.back().first);
    }
    std::map<double, Terms> taken_over;  // columns of the fall-backs by the share of baling done before
    for (const planner::FallBack& b : o.fall_backs) {
      const double off = most_off + rounded_off(m_, f, b.chain);
      ways.emplace_back(out_.mip.column(-off - b.chain.income_cents / 100.0, 1.0, true), 1.0);
      taken_over[b.done_share].emplace_back(ways.back().first, 1.0);
      add_chain(place, b.chain, ways.back().first);
    }
    out_.mip.row(0.0, 0.0, ways);
    if (!taken_over.empty() && can_end(m_, f, o.own.front(), o.key_passes))
      for (const auto& [share, columns] : taken_over) add_part(place, o, share, columns);
  }

  void add_chain(const ChainPlace& place, const Chain& chain, int on) {
    ChainColumns columns{out_.mip, place, chain, chain.passes.size(), {{on, 1.0}}, 1.0};
    const planner::Outcome& outcome = m_.outcomes[place.field];
    out_.mip.add_cost(on, outcome.never_cents / 100.0);
    for (std::size_t d = 0; d < outcome.cents.size(); ++d) {
      const double next = d + 1 < outcome.cents.size() ? outcome.cents[d + 1] : outcome.never_cents;
      if (next <= outcome.cents[d]) continue;
      const Terms ended = columns.ended_by(static_cast<int>(d));
      if (ended.empty()) continue;
      Terms row{{out_.mip.column(-(next - outcome.cents[d]) / 100.0, 1.0), 1.0}};
      for (const auto& [column, value] : ended) row.emplace_back(column, -value);
      out_.mip.at_most(0.0, row);
    }
  }

  /// A share of the own work before a fall-back; where it earns money, all of it if that is better.
  void add_part(const ChainPlace& place, const Openings& o, double share, const Terms& columns) {
    const Chain& chain = o.own.front();
    const bool paid = earns(chain, o.key_passes);
    if (!paid && share <= 0.0) return;
    Terms either;
    for (const auto& [column, value] : columns) either.emplace_back(column, -value);
    const auto add = [&](double scale) {
      const int on = out_.mip.column(0.0, 1.0, true);
      either.emplace_back(on, 1.0);
      if (scale > 0.0) ChainColumns{out_.mip, place, chain, o.key_passes, {{on, 1.0}}, scale}.require_end();
    };
    add(share);
    if (paid) add(1.0);
    out_.mip.row(0.0, 0.0, either);
  }

  const planner::BoundModel& m_;
  const Kept& kept_;
  Alike people_;
  std::vector<std::vector<Terms>> hours_;  // [year][resource * days + day]
  Relaxed out_;
};

}  // namespace

Kept every_method(const planner::BoundModel& model) {
  Kept kept;
  for (const auto& field : model.table->why_not) kept.emplace_back(field.size(), 1);
  return kept;
}

planner::BoundModel every_way(planner::BoundModel model) {
  for (auto& field : model.ways)
    for (auto& year : field)
      for (auto& recipe : year)
        for (planner::WayThrough& way : recipe) way.least_cents = -std::numeric_limits<double>::infinity();
  return model;
}

Kept methods_in_reach(const planner::BoundModel& model, const planner::Bound& bound, double plan_cents) {
  const planner::Evaluated e = planner::evaluate(every_way(model), bound.prices, 1);
  Kept kept = every_method(model);
  for (std::size_t f = 0; f < kept.size(); ++f) {
    if (e.method[f] == plan::none) continue;
    const double least = e.by_method[f][static_cast<std::size_t>(e.method[f])];
    for (std::size_t r = 0; r < kept[f].size(); ++r)
      kept[f][r] = e.cents + e.by_method[f][r] - least <= plan_cents ? 1 : 0;
  }
  return kept;
}

Relaxed relaxed_model(const planner::BoundModel& model, const Kept& kept) {
  return Writer{model, kept}.write();
}

std::vector<int> methods_of(const Relaxed& relaxed, const MipEnd& end) {
  std::vector<int> methods(relaxed.method.size(), plan::none);
  for (std::size_t f = 0; f < methods.size(); ++f)
    for (std::size_t r = 0; r < relaxed.method[f].size(); ++r)
      if (const int c = relaxed.method[f][r]; c >= 0 && end.solution[static_cast<std::size_t>(c)] > 0.5)
        methods[f] = static_cast<int>(r);
  return methods;
}

RelaxedOptimum relaxed_optimum(const planner::BoundModel& model, const Kept& kept, double plan_cents,
                               const MipLimits& limits) {
  const Relaxed relaxed = relaxed_model(model, kept);
  MipLimits below = limits;
  below.cutoff = plan_cents / 100.0 + 0.01;
  const MipEnd end = relaxed.mip.solve(below);
  RelaxedOptimum out;
  out.cents = end.found ? 100.0 * end.cost : plan_cents;
  out.proven_cents = std::min(100.0 * end.proven, out.cents);
  out.closed = out.cents - out.proven_cents <= limits.relative_gap * std::abs(out.cents) + 2.0;
  out.columns = relaxed.mip.columns();
  out.rows = relaxed.mip.rows();
  out.whole_columns = relaxed.mip.whole_columns();
  if (end.found) out.method = methods_of(relaxed, end);
  return out;
}

}  // namespace aftercut::test
