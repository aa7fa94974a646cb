#include "oracle_chain.hpp"

#include <algorithm>

#include "aftercut/dispatch/money.hpp"

namespace aftercut::test {
namespace {

using planner::Opening;

struct Outfitted {
  const dispatch::Outfit* outfit = nullptr;
  double money_per_ha = 0.0;  ///< without wages
  double hours_per_ha = 0.0;
};

bool here(const planner::Resources& r, std::size_t resource, int day) {
  return r.minutes[resource * r.days + static_cast<std::size_t>(day)] > 0.0;
}

double money_per_ha(const farm::Farm& farm, const dispatch::Outfit& o, const dispatch::Pace& pace,
                    const method::Operation& op) {
  const double hours = 1.0 / pace.ha_per_hour;
  double money = dispatch::fuel_money(farm, pace, hours) + o.repair_per_hour * hours;
  if (o.implement != plan::none)
    if (const auto& hire = farm.implements[static_cast<std::size_t>(o.implement)].hire)
      money += dispatch::hire_money(*hire, 1.0, hours);
  return money + (op.burning ? farm.prices.burn_fee_per_ha.value() : 0.0);
}

int people_for(const dispatch::Table& t, int operation, int day) {
  int count = 0;
  for (std::size_t i = 0; i < t.operator_min.size(); ++i)
    if (t.operator_min[i][static_cast<std::size_t>(day)] > 0 &&
        t.has_skill[static_cast<std::size_t>(operation)][i] != 0)
      ++count;
  return count;
}

/// Everybody who could do a pass on a day with what is there.
std::vector<Outfitted> outfits_on(const planner::BoundModel& m, std::size_t field, const Opening& o,
                                  std::size_t open_day) {
  const dispatch::Table& t = *m.table;
  const auto& op = t.problem->farm.book.operations[static_cast<std::size_t>(o.operation)];
  const int day = o.days[open_day];
  const bool crew_there = people_for(t, o.operation, day) >= op.crew;
  std::vector<Outfitted> out;
  for (const dispatch::Outfit& x : t.outfits[field][static_cast<std::size_t>(o.operation)]) {
    if (x.tractor != plan::none && !here(m.resources, m.resources.tractor(x.tractor), day)) continue;
    if (x.implement != plan::none && !here(m.resources, m.resources.implement(x.implement), day)) continue;
    if (x.own_crew && !crew_there) continue;
    const dispatch::Pace pace = dispatch::pace_of(x, o.draft_on(open_day));
    out.push_back({&x, money_per_ha(t.problem->farm, x, pace, op), 1.0 / pace.ha_per_hour});
  }
  return out;
}

/// Hours of those alike who can do the work on the day, and how many they are.
struct Group {
  std::size_t first = 0, count = 0;
};
std::vector<Group> groups_for(const dispatch::Table& t, const Alike& alike, int operation, int day) {
  std::vector<Group> out;
  for (const auto& group : alike)
    if (t.operator_min[group.front()][static_cast<std::size_t>(day)] > 0 &&
        t.has_skill[static_cast<std::size_t>(operation)][group.front()] != 0)
      out.push_back({group.front(), group.size()});
  return out;
}

bool may_end(const Opening& o, std::size_t open_day) { return o.may_end.empty() || o.may_end[open_day] != 0; }

void append(Terms& to, const Terms& more, double times = 1.0) {
  for (const auto& [column, value] : more) to.emplace_back(column, times * value);
}

}  // namespace

Alike people_alike(const dispatch::Table& t) {
  const auto& people = t.problem->farm.operators;
  const auto alike = [&](std::size_t a, std::size_t b) {
    return people[a].paid == people[b].paid && people[a].wage_per_h == people[b].wage_per_h &&
           t.operator_min[a] == t.operator_min[b] &&
           std::all_of(t.has_skill.begin(), t.has_skill.end(),
                       [&](const std::vector<char>& skilled) { return skilled[a] == skilled[b]; });
  };
  Alike out;
  for (std::size_t i = 0; i < people.size(); ++i) {
    const auto group =
        std::find_if(out.begin(), out.end(), [&](const auto& g) { return alike(g.front(), i); });
    if (group != out.end()) {
      group->push_back(i);
    } else {
      out.push_back({i});
    }
  }
  return out;
}

ChainColumns::ChainColumns(Mip& mip, const ChainPlace& place, const planner::Chain& chain, std::size_t passes,
                           Terms on, double scale)
    : mip_{mip}, place_{place}, chain_{chain}, on_{std::move(on)}, scale_{scale} {
  for (std::size_t i = 0; i < passes; ++i) {
    passes_.emplace_back();
    add_pass(i);
  }
}

double ChainColumns::area(std::size_t pass) const {
  return chain_.passes[pass].share * place_.model->table->problem->farm.fields[place_.field].area.value();
}

Terms ChainColumns::ended_by(int day) { return ended(passes_.size(), day); }

void ChainColumns::require_end() {
  Terms row = ended_by(static_cast<int>(place_.model->resources.days) - 1);
  append(row, on_, -1.0);
  mip_.row(0.0, 0.0, row);
}

/// The first `passes` passes are over by the day.
Terms ChainColumns::ended(std::size_t passes, int day) {
  if (passes == 0) return day >= std::max(chain_.begins - 1, 0) ? on_ : Terms{};
  Pass& pass = passes_[passes - 1];
  const Opening& o = chain_.passes[passes - 1];
  Terms out;
  std::size_t open = 0;
  while (open < pass.open.size() && o.days[pass.open[open]] <= day) ++open;
  while (open > 0 && !may_end(o, pass.open[open - 1])) --open;
  if (open > 0) out.emplace_back(end_column(passes - 1, open - 1), 1.0);
  const int next_lag = passes < chain_.passes.size() ? chain_.passes[passes].lag : 0;
  if (pass.left_out < 0 || day < std::max(0, *o.free_from - 1 - next_lag)) return out;
  auto [known, is_new] = pass.skipped_by.try_emplace(day, -1);
  if (is_new) {
    const int column = known->second = mip_.column(0.0, 1.0);
    mip_.at_most(0.0, {{column, 1.0}, {pass.left_out, -1.0}});
    Terms before{{column, 1.0}};
    append(before, ended(passes - 1, day), -1.0);
    mip_.at_most(0.0, before);
  }
  out.emplace_back(known->second, 1.0);
  return out;
}

int ChainColumns::end_column(std::size_t i, std::size_t k) {
  Pass& pass = passes_[i];
  auto [known, is_new] = pass.end.try_emplace(k, -1);
  if (!is_new) return known->second;
  const int column = known->second = mip_.column(0.0, 1.0, true);
  mip_.at_most(0.0, {{column, 1.0}, {pass.done[k], -1.0}});
  return column;
}

/// The latest day on which the pass before may have ended for this one to begin; -1: none.
int ChainColumns::latest_before(const Opening& o, std::size_t open_day) const {
  const int day = o.days[open_day];
  const int by_lag = day - 1 - o.lag;
  if (o.drying_mm <= 0.0 || o.dry_already[open_day] != 0) return by_lag;
  const auto dried_since = [&](int d) {
    return chain_.evaporated_mm[static_cast<std::size_t>(day)] -
           chain_.evaporated_mm[static_cast<std::size_t>(d)];
  };
  int latest = day;
  while (latest >= 0 && dried_since(latest) < o.drying_mm) --latest;
  return std::min(by_lag, latest);
}

void ChainColumns::add_pass(std::size_t i) {
  const Opening& o = chain_.passes[i];
  Pass& pass = passes_[i];
  const auto& op = place_.model->table->problem->farm.book.operations[static_cast<std::size_t>(o.operation)];
  const bool driven = op.water != method::Water::fill;
  int latest = -1;  // of all days so far on which the pass could have begun
  for (std::size_t k = 0; k < o.days.size(); ++k) {
    if (driven && outfits_on(*place_.model, place_.field, o, k).empty()) continue;
    if (o.begins_before == 0 || o.days[k] < o.begins_before) latest = std::max(latest, latest_before(o, k));
    if (latest < 0) continue;
    const Terms may = ended(i, latest);
    if (may.empty()) continue;
    pass.open.push_back(k);
    pass.done.push_back(mip_.column(0.0, 1.0));
    Terms allowed{{pass.done.back(), 1.0}};
    append(allowed, may, -1.0);
    mip_.at_most(0.0, allowed);
    if (driven) add_work(i, k, on_);
  }
  add_end_money(i);
  if (!o.free_from) return;
  pass.left_out = mip_.column(0.0, 1.0, true);
  Terms one_of{{pass.left_out, 1.0}};
  append(one_of, on_, -1.0);
  if (!pass.open.empty()) one_of.emplace_back(pass.done.back(), 1.0);
  mip_.at_most(0.0, one_of);
}

/// What is done by the day is what was done by the open day before and what every way does today.
void ChainColumns::add_work(std::size_t i, std::size_t open_day, const Terms& on) {
  const Pass& pass = passes_[i];
  Terms today = add_ways(i, open_day);
  const double most =
      place_.model->most_ha_a_day[place_.field][static_cast<std::size_t>(chain_.passes[i].operation)] /
      area(i);
  if (most < 1.0) {
    Terms cap = today;
    append(cap, on, -most);
    mip_.at_most(0.0, cap);
  }
  today.emplace_back(pass.done.back(), -1.0);
  if (pass.done.size() > 1) today.emplace_back(pass.done[pass.done.size() - 2], 1.0);
  mip_.row(0.0, 0.0, today);
}

/// Share of the area that each outfit does on the day, its money and its minutes.
Terms ChainColumns::add_ways(std::size_t i, std::size_t open_day) {
  const planner::BoundModel& m = *place_.model;
  const planner::Resources& r = m.resources;
  const dispatch::Table& t = *m.table;
  const Opening& o = chain_.passes[i];
  const int day = o.days[open_day];
  const double hectares = scale_ * area(i);
  const auto use = [&](std::size_t resource, int column, double hours) {
    (*place_.hours)[resource * r.days + static_cast<std::size_t>(day)].emplace_back(column, hours);
  };
  Terms ways, crewed;  // crewed: hours of work by the farm's own people
  for (const Outfitted& w : outfits_on(m, place_.field, o, open_day)) {
    const int column = mip_.column(w.money_per_ha * hectares, 1.0);
    ways.emplace_back(column, 1.0);
    const double hours = w.hours_per_ha * hectares;
    if (w.outfit->tractor != plan::none) use(r.tractor(w.outfit->tractor), column, hours);
    if (w.outfit->implement != plan::none) use(r.implement(w.outfit->implement), column, hours);
    if (w.outfit->own_crew) crewed.emplace_back(column, hours);
  }
  const int crew = t.problem->farm.book.operations[static_cast<std::size_t>(o.operation)].crew;
  if (crew == 0 || crewed.empty()) return ways;
  Terms all;
  append(all, crewed, -static_cast<double>(crew));
  for (const Group& group : groups_for(t, *place_.people, o.operation, day)) {
    const farm::Operator& person = t.problem->farm.operators[group.first];
    const int column = mip_.column(person.paid ? person.wage_per_h.value() : 0.0, 100.0);
    use(r.person(static_cast<int>(group.first)), column, 1.0);
    all.emplace_back(column, 1.0);
    if (group.count >= static_cast<std::size_t>(crew)) continue;
    Terms each{{column, 1.0}};
    append(each, crewed, -static_cast<double>(group.count));
    mip_.at_most(0.0, each);
  }
  mip_.row(0.0, 0.0, all);
  return ways;
}

/// Money that comes with the end of the pass, by the day of the end.
void ChainColumns::add_end_money(std::size_t i) {
  const Opening& o = chain_.passes[i];
  Pass& pass = passes_[i];
  if (o.cost_cents.empty()) return;
  for (std::size_t k = 0; k < pass.open.size(); ++k) {
    const double money = scale_ * o.cost_cents[pass.open[k]] / 100.0;
    const int column = end_column(i, k);
    mip_.add_cost(column, money);
    if (!may_end(o, pass.open[k])) {
      Terms no_later{{column, 1.0}};
      if (k > 0) no_later.emplace_back(end_column(i, k - 1), -1.0);
      mip_.at_most(0.0, no_later);
    }
    if (k == 0) continue;
    mip_.add_cost(end_column(i, k - 1), -money);
    mip_.at_most(0.0, {{end_column(i, k - 1), 1.0}, {column, -1.0}});
  }
}

}  // namespace aftercut::test
