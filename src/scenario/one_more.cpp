#include "aftercut/scenario/one_more.hpp"

#include <algorithm>
#include <mutex>
#include <set>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"
#include "aftercut/core/random.hpp"

namespace aftercut::scenario {
namespace {

constexpr int days_in_week = 7;
constexpr std::uint32_t swaps_in_list = 4;  // a neighbour swaps one place in so many

/// The weeks of one year in which each machine and person works, there is a burn or canal water comes.
using WeeksOfUse = std::set<std::pair<std::string, int>>;  ///< id or `key_of` a limit, week of the season

/// Under which a thing's weeks of use are kept; no id begins with a space.
std::string key_of(const plan::MoreOf& of) { return of.id.empty() ? " " + of.kind : of.id; }

bool works_with(const WeeksOfUse& weeks, const std::string& id) {
  const auto at = weeks.lower_bound({id, 0});
  return at != weeks.end() && at->first == id;
}

WeeksOfUse weeks_of_use(const farm::Farm& farm, const plan::YearRun& run) {
  WeeksOfUse weeks;
  for (const plan::Work& w : run.work) {
    const int of_season = w.day / days_in_week;
    if (w.tractor != plan::none)
      weeks.insert({farm.tractors[static_cast<std::size_t>(w.tractor)].id.value, of_season});
    if (w.implement != plan::none)
      weeks.insert({farm.implements[static_cast<std::size_t>(w.implement)].id.value, of_season});
    for (const int who : w.crew)
      if (who != plan::none)
        weeks.insert({farm.operators[static_cast<std::size_t>(who)].id.value, of_season});
    if (farm.book.operations[static_cast<std::size_t>(w.operation)].burning)
      weeks.insert({" burn_day_area", of_season});
  }
  for (const plan::WaterIn& w : run.water) weeks.insert({" canal_flow", w.day / days_in_week});
  return weeks;
}

/// A plan as it stands: what each year costs [money] and works with.
struct Played {
  plan::Decision decision;
  std::vector<double> cost;      // [year]
  std::vector<WeeksOfUse> used;  // [year]
};

Played played_as_it_is(const dispatch::Table& t, const plan::Decision& d) {
  Played p{d, {}, {}};
  for (std::size_t y = 0; y < t.drivers.size(); ++y) {
    const plan::YearRun run = dispatch::run(t, d, y);
    p.cost.push_back(static_cast<double>(dispatch::cost_of(run)) / 100.0);
    p.used.push_back(weeks_of_use(t.problem->farm, run));
  }
  return p;
}

/// Whether a chosen method, or what it falls back to, has such an operation.
bool any_step(const farm::Farm& farm, const plan::Decision& d, bool (*is)(const method::Operation&)) {
  const method::Book& book = farm.book;
  const auto has = [&](const method::Recipe& r) {
    return std::ranges::any_of(r.steps, [&](const method::Step& s) {
      return is(book.operations[static_cast<std::size_t>(s.operation)]);
    });
  };
  std::set<std::string> asked;
  for (int m : d.method)
    for (; m != plan::none && asked.insert(book.recipes[static_cast<std::size_t>(m)].id.value).second;) {
      const method::Recipe& r = book.recipes[static_cast<std::size_t>(m)];
      if (has(r)) return true;
      const auto back = std::ranges::find_if(
          book.recipes, [&](const auto& x) { return r.fall_back && x.id == r.fall_back->method; });
      m = back == book.recipes.end() ? plan::none : static_cast<int>(back - book.recipes.begin());
    }
  return false;
}

bool may_matter(const farm::Farm& farm, const Played& plan, const plan::MoreOf& of) {
  const plan::Decision& d = plan.decision;
  if (of.kind == "burn_day_area" || of.kind == "burn_season_area")
    return any_step(farm, d, [](const method::Operation& o) { return o.burning; });
  if (of.kind == "canal_flow")
    return any_step(farm, d, [](const method::Operation& o) { return o.water == method::Water::fill; });
  if (of.kind == "hired_days")
    return any_step(farm, d, [](const method::Operation& o) { return !o.implement.empty(); });
  return std::ranges::any_of(plan.used, [&](const WeeksOfUse& weeks) { return works_with(weeks, of.id); });
}

/// What a plan saves a year on average with more of a thing. Years that `tells` leaves out are as they were.
double saving_of(const dispatch::Table& with_more, const Played& plan,
                 const std::function<bool(const WeeksOfUse&)>& tells) {
  double saved = 0.0;
  for (std::size_t y = 0; y < plan.cost.size(); ++y)
    if (tells(plan.used[y]))
      saved += plan.cost[y] -
               static_cast<double>(dispatch::cost_of(dispatch::run(with_more, plan.decision, y))) / 100.0;
  return saved / static_cast<double>(plan.cost.size());
}

/// One thing's farm, with the days on which there is more of it set again and again.
class MoreTable {
 public:
  MoreTable(const dispatch::Table& base, const WithMore& with)
      : base_{base}, kind_{with.of.kind}, t_{dispatch::make_table(with.problem, base.seed)} {
    const farm::Farm& farm = with.problem.farm;
    longest_ = t_.longest_min;
    if (kind_ == "operator") at_ = index_in(farm.operators, with.of.id);
    if (kind_ == "tractor") at_ = index_in(farm.tractors, with.of.id);
    if (kind_ == "implement") at_ = index_in(farm.implements, with.of.id);
    if (kind_ == "operator") longer_ = t_.operator_min[at_];
    if (kind_ == "canal_flow")
      times_ = farm.supply->most_flow.value() / base.problem->farm.supply->most_flow.value();
    if (kind_ == "burn_day_area") times_ = *t_.burn_limits.daily_area_ha / *base.burn_limits.daily_area_ha;
    more_ = with.of.more;
  }

  [[nodiscard]] const dispatch::Table& table() const { return t_; }
  [[nodiscard]] bool by_days() const {
    return kind_ == "operator" || kind_ == "tractor" || kind_ == "implement";
  }

  /// What there is more of can be more in a week alone; a season's burn area has no weeks.
  [[nodiscard]] bool has_weeks() const {
    return by_days() || kind_ == "canal_flow" || kind_ == "burn_day_area";
  }

  /// More on the days of `on` alone; how much that is, a day's limit not summed.
  double set_week(const std::vector<char>& on) {
    if (by_days()) return set_days(on);
    if (!weekly_) t_ = base_;  // the farm's own limit on all other days
    weekly_ = true;
    auto& times = kind_ == "canal_flow" ? t_.flow_times : t_.burn_area_times;
    times.clear();
    for (const char more : on) times.push_back(more != 0 ? times_ : 1.0);
    return more_;
  }

  /// More on the days of `on` alone; the hours that this is.
  double set_days(const std::vector<char>& on) {
    double minutes = 0.0;
    for (std::size_t d = 0; d < on.size(); ++d)
      minutes += kind_ == "operator" ? person(d, on[d]) : machine(d, on[d]);
    return minutes / 60.0;
  }

 private:
  template <class T>
  static std::size_t index_in(const std::vector<T>& all, const std::string& id) {
    return static_cast<std::size_t>(std::ranges::find_if(all, [&](const T& x) { return x.id.value == id; }) -
                                    all.begin());
  }

  double person(std::size_t d, bool on) {
    t_.operator_min[at_][d] = on ? longer_[d] : base_.operator_min[at_][d];
    t_.longest_min[d] = on ? longest_[d] : base_.longest_min[d];
    return t_.operator_min[at_][d] - base_.operator_min[at_][d];
  }

  double machine(std::size_t d, bool on) {
    const bool tractor = kind_ == "tractor";
    const bool there = on && (tractor ? base_.tractor_here[at_][d] : base_.implement_here[at_][d]);
    (tractor ? t_.tractor_here : t_.implement_here).back()[d] = there ? 1 : 0;
    return there ? t_.longest_min[d] : 0.0;
  }

  const dispatch::Table& base_;
  std::string kind_;
  dispatch::Table t_;
  std::size_t at_ = 0;  // of the person or machine
  bool weekly_ = false;
  double times_ = 1.0, more_ = 0.0;    // of a limit
  std::vector<int> longer_, longest_;  // [day] of the person, of the farm, with longer days
};

std::vector<char> days_on(const WithMore& w, std::size_t plan) {
  if (w.of.kind == "operator") return w.days;
  // Each plan has the second machine on other days.
  return every_tenth_day(static_cast<int>(w.days.size()), static_cast<int>(plan));
}

/// Weeks in which one of the plans works with the thing, in some year.
std::vector<plan::MoreInWeek> by_week(MoreTable& more, const WithMore& w, const std::vector<Played>& plans) {
  std::vector<plan::MoreInWeek> weeks;
  const int days = more.table().problem->farm.season.days;
  for (int first = 0; first < days; first += days_in_week) {
    const std::pair this_week{key_of(w.of), first / days_in_week};
    const auto tells = [&](const WeeksOfUse& used) { return used.contains(this_week); };
    if (std::ranges::none_of(plans.front().used, tells)) continue;
    std::vector<char> on(static_cast<std::size_t>(days), 0);
    for (int d = first; d < std::min(first + days_in_week, days); ++d) on[static_cast<std::size_t>(d)] = 1;
    plan::MoreInWeek found{.first_day = first, .more = more.set_week(on)};
    if (found.more <= 0.0) continue;
    std::vector<double> saves;
    for (const Played& p : plans) saves.push_back(saving_of(more.table(), p, tells));
    found.worth = mean(saves);
    found.error = standard_error(saves);
    weeks.push_back(found);
  }
  return weeks;
}

plan::MoreOf worth_of(const dispatch::Table& base_table, const WithMore& w,
                      const std::vector<Played>& plans) {
  plan::MoreOf of = w.of;
  MoreTable more{base_table, w};
  std::vector<double> saves;
  double hours = 0.0;
  const bool machine = of.kind == "tractor" || of.kind == "implement";
  const auto tells = [&](const WeeksOfUse& used) { return !machine || works_with(used, of.id); };
  for (std::size_t k = 0; k < plans.size(); ++k) {
    if (more.by_days()) hours += more.set_days(days_on(w, k)) / static_cast<double>(plans.size());
    saves.push_back(saving_of(more.table(), plans[k], tells));
  }
  if (more.by_days()) of.more = hours;
  of.worth = mean(saves);
  of.error = standard_error(saves);
  if (more.has_weeks() && of.told()) of.weeks = by_week(more, w, plans);
  return of;
}

/// Hours that a thing which is not played again would be more.
double more_hours(const dispatch::Table& t, const WithMore& w, std::size_t plans) {
  MoreTable more{t, w};
  double hours = 0.0;
  for (std::size_t k = 0; k < plans; ++k) hours += more.set_days(days_on(w, k)) / static_cast<double>(plans);
  return hours;
}

}  // namespace

std::vector<plan::Decision> neighbours_of(const plan::Decision& decision, int count, std::uint64_t seed) {
  std::vector<plan::Decision> plans{decision};
  for (int k = 1; k < count; ++k) {
    plan::Decision d = decision;
    Draws draws{seed, stream_of("one more"), static_cast<std::uint64_t>(k)};
    for (auto* list : {&d.autumn_order, &d.spring_order})
      for (std::size_t at = 0; at + 1 < list->size(); ++at)
        if (draws.below(swaps_in_list) == 0) std::swap((*list)[at], (*list)[at + 1]);
    plans.push_back(std::move(d));
  }
  return plans;
}

plan::OneMore one_more(const OneMoreInput& in) {
  const dispatch::Table& table = *in.table;
  const auto decisions = neighbours_of(*in.decision, std::max(in.plans, 1), table.seed);
  std::vector<Played> plans(decisions.size());
  for_each_index(plans.size(), in.threads,
                 [&](std::size_t k) { plans[k] = played_as_it_is(table, decisions[k]); });
  std::vector<WithMore> things = with_a_tenth_more(*table.problem);
  std::erase_if(things, [&](const WithMore& w) {
    return (in.only_kind && w.of.kind != *in.only_kind) || (in.only_id && w.of.id != *in.only_id);
  });
  plan::OneMore out{.plans = static_cast<int>(plans.size()), .things = {}};
  for (const WithMore& w : things) out.things.push_back(w.of);
  std::mutex telling;
  std::size_t done = 0;
  for_each_index(things.size(), in.threads, [&](std::size_t k) {
    if (may_matter(table.problem->farm, plans.front(), things[k].of))
      out.things[k] = worth_of(table, things[k], plans);
    else if (!things[k].days.empty())
      out.things[k].more = more_hours(table, things[k], plans.size());
    const std::scoped_lock lock{telling};
    if (in.progress) in.progress(static_cast<double>(++done) / static_cast<double>(things.size()));
  });
  return out;
}

}  // namespace aftercut::scenario
