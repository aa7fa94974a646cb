#include "aftercut/scenario/fall_backs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <set>

#include "aftercut/core/parallel.hpp"
#include "aftercut/core/week.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/scenario/hangs_on.hpp"
#include "aftercut/scenario/storm.hpp"

namespace aftercut::scenario {
namespace {

using plan::Trigger;
constexpr int grid_step_days = 7;

/// Fields that are tested together.
struct Group {
  std::set<Trigger> triggers;
  bool spring = false;  // their own step belongs to the end of winter
  std::vector<int> fields;
};

/// A burn that waits for the end of winter falls back in spring, not with the others.
bool waits_for_spring(const dispatch::Table& t, int recipe, Trigger trigger) {
  if (trigger != Trigger::burn_call) return false;
  const method::Recipe& r = t.problem->farm.book.recipes[static_cast<std::size_t>(recipe)];
  return r.steps[static_cast<std::size_t>(dispatch::key_step(t, r))].season != method::Season::autumn;
}

std::vector<Group> groups_of(const dispatch::Table& t, const plan::Plan& p) {
  std::map<std::pair<bool, Trigger>, Group> by_kind;
  Group all;
  for (std::size_t f = 0; f < p.fields.size(); ++f)
    for (const plan::HangsOn& h : p.fields[f].chosen.hangs_on) {
      const bool spring = waits_for_spring(t, p.decision.method[f], h.trigger);
      Group& g = by_kind[{spring, h.trigger}];
      g.triggers = {h.trigger};
      g.spring = spring;
      g.fields.push_back(static_cast<int>(f));
      if (spring) continue;
      all.triggers.insert(h.trigger);
      if (all.fields.empty() || all.fields.back() != static_cast<int>(f))
        all.fields.push_back(static_cast<int>(f));
    }
  std::vector<Group> groups;
  for (auto& [kind, group] : by_kind) groups.push_back(std::move(group));
  if (all.triggers.size() > 1) groups.push_back(std::move(all));
  return groups;
}

/// "no burn day is called and no baler comes"
std::string nothing_comes(const std::set<Trigger>& triggers, bool spring) {
  static constexpr std::array<const char*, plan::trigger_keys.size()> words{
      "no burn day is called", "no hired outfit comes", "no straw dries enough to bale",
      "the canal gives no water", "too little rain stands behind the boards"};
  std::string out;
  std::size_t left = triggers.size();
  for (const Trigger t : triggers) {
    out += std::string{out.empty() ? "" : --left > 1 ? ", " : " and "} + words[static_cast<std::size_t>(t)];
  }
  if (spring) out += " in spring";
  return out;
}

/// The shown years as they would be: the storm falls on the day, and nothing of the triggers comes.
struct World {
  farm::Problem problem;
  plan::Storm storm;
  dispatch::Table table;
  std::vector<plan::Instead> instead;  // [field]
};

class Tester {
 public:
  Tester(const FallBackInput& in, const plan::Plan& p, const Group& group) : in_{in}, p_{p}, group_{group} {
    for (const int f : group_.fields) {
      const auto i = static_cast<std::size_t>(f);
      const int m = p_.decision.method[i];
      deadlines_.push_back(deadline_of(*in_.table, i, m, without(*in_.table, i, m, group_.triggers, 0)));
    }
  }

  plan::FallBackTest run() {
    plan::FallBackTest test{.triggers = {group_.triggers.begin(), group_.triggers.end()},
                            .words = nothing_comes(group_.triggers, group_.spring),
                            .fields = group_.fields,
                            .rule_day = rule_day()};
    const std::vector<int> grid = starts(test.rule_day);
    std::size_t good = 0, bad = grid.size();
    const bool any = fits(grid.front());
    while (any && bad - good > 1) {
      const std::size_t middle = (good + bad) / 2;
      (fits(grid[middle]) ? good : bad) = middle;
    }
    test.day = grid[any ? good : 0];
    if (any) test.start_by = test.day;
    const Played& kept = play(test.day);
    test.storm = kept.storm;
    test.chance = share(kept.runs, true);
    test.chance_ready = share(kept.runs, false);
    test.chance_by_rule = test.rule_day ? share(play(*test.rule_day).runs, true) : test.chance;
    return test;
  }

  std::vector<plan::YearRun> runs_of(int day) { return play(day).runs; }

 private:
  struct Played {
    plan::Storm storm;
    std::vector<plan::YearRun> runs;
  };

  [[nodiscard]] int first_day() const {
    const farm::Farm& farm = in_.table->problem->farm;
    int first = farm.season.days - 1;
    for (const int f : group_.fields)
      first = std::min(first, farm.season.day(farm.fields[static_cast<std::size_t>(f)].harvest) + 1);
    return std::max(in_.table->as_of_day, first);
  }

  [[nodiscard]] std::optional<int> rule_day() const {
    std::optional<int> latest;
    for (const int f : group_.fields)
      for (const plan::HangsOn& h : p_.fields[static_cast<std::size_t>(f)].chosen.hangs_on)
        if (h.rule_day && group_.triggers.contains(h.trigger))
          latest = std::max(latest.value_or(first_day()), *h.rule_day);
    return latest;
  }

  /// Weekly days on which the fall-backs could start; the recipes' own day is one of them.
  [[nodiscard]] std::vector<int> starts(std::optional<int> rule) const {
    const farm::Farm& farm = in_.table->problem->farm;
    const int first = first_day();
    int last = first;
    for (std::size_t k = 0; k < deadlines_.size(); ++k) {
      const farm::Field& field = farm.fields[static_cast<std::size_t>(group_.fields[k])];
      last = std::max(last, deadlines_[k].straw_over.value_or(
                                deadlines_[k].ready ? farm.season.day(field.next.planting) : first));
    }
    const int anchor = rule.value_or(last);
    std::vector<int> days;
    for (int d = first + (anchor - first) % grid_step_days; d <= std::max(last, anchor); d += grid_step_days)
      days.push_back(d);
    return days;
  }

  [[nodiscard]] std::unique_ptr<World> world_on(int day) const {
    auto w = std::make_unique<World>();
    w->problem = *in_.table->problem;
    const weather::Years& record = in_.table->problem->years;
    w->storm = storm_at(record, w->problem.farm.target.storm, day);
    w->problem.years.years.clear();
    for (const std::size_t y : in_.shown)
      w->problem.years.years.push_back(with_storm(record.years[y], record, w->storm, day));
    w->table = dispatch::make_table(w->problem, in_.table->seed);
    w->instead.resize(p_.fields.size());
    for (const int f : group_.fields) {
      const auto i = static_cast<std::size_t>(f);
      w->instead[i] = without(*in_.table, i, p_.decision.method[i], group_.triggers, day);
      for (const int missed : implements_missed(*in_.table, i, p_.decision.method[i], group_.triggers))
        std::ranges::fill(w->table.implement_here[static_cast<std::size_t>(missed)], 0);
    }
    if (group_.triggers.contains(Trigger::burn_call))
      for (dispatch::BurnDays& days : w->table.burn_days) std::ranges::fill(days.called, 0);
    if (group_.triggers.contains(Trigger::canal_water)) std::ranges::fill(w->table.water_on, 0);
    return w;
  }

  const Played& play(int day) {
    if (const auto known = played_.find(day); known != played_.end()) return known->second;
    const auto world = world_on(day);
    Played played{world->storm, std::vector<plan::YearRun>(in_.shown.size())};
    for_each_index(played.runs.size(), in_.threads, [&](std::size_t y) {
      played.runs[y] =
          dispatch::run(world->table, p_.decision, y, {.keep_next_crop = true, .instead = &world->instead});
    });
    return played_.emplace(day, std::move(played)).first->second;
  }

  /// Of the runs, those in which every field of the group is done in time, or ready by planting.
  [[nodiscard]] double share(const std::vector<plan::YearRun>& runs, bool done) const {
    double good = 0.0;
    for (const plan::YearRun& run : runs) {
      bool all = true;
      for (std::size_t k = 0; k < group_.fields.size(); ++k) {
        const plan::FieldRun& field = run.fields[static_cast<std::size_t>(group_.fields[k])];
        const bool ready = field.status == plan::Status::ready || field.status == plan::Status::nothing_due;
        all = all && (done ? in_time(deadlines_[k], field) : ready);
      }
      good += all ? 1.0 : 0.0;
    }
    return runs.empty() ? 0.0 : good / static_cast<double>(runs.size());
  }

  bool fits(int day) { return share(play(day).runs, true) + 1e-9 >= p_.wanted_chance; }

  const FallBackInput& in_;
  const plan::Plan& p_;
  const Group& group_;
  std::vector<Deadline> deadlines_;  // [place in group]
  std::map<int, Played> played_;
};

void note_hangs_on(plan::PlannedYears& planned, const FallBackInput& in) {
  plan::Plan& p = planned.plan;
  for (std::size_t f = 0; f < p.fields.size(); ++f) {
    const int recipe = p.decision.method[f];
    auto& all = p.fields[f].chosen.hangs_on = hangs_on(*in.table, f, recipe);
    for (plan::HangsOn& h : all) {
      double years = 0.0;
      for (const std::size_t y : in.shown)
        years += went_without(*in.table, f, recipe, h.trigger, planned.runs[y]) ? 1.0 : 0.0;
      h.chance_taken = years / static_cast<double>(in.shown.size());
    }
  }
}

void link(plan::Plan& p, const Group& group, int test) {
  if (group.triggers.size() > 1) return;
  for (const int f : group.fields)
    for (plan::HangsOn& h : p.fields[static_cast<std::size_t>(f)].chosen.hangs_on)
      if (group.triggers.contains(h.trigger)) h.test = test;
}

std::string years_words(double chance, std::size_t years) {
  return fmt::format("{:.0f} of {} years", chance * static_cast<double>(years), years);
}

}  // namespace

plan::PlannedYears with_fall_backs(plan::PlannedYears planned, const FallBackInput& in) {
  note_hangs_on(planned, in);
  plan::Plan& p = planned.plan;
  for (const Group& group : groups_of(*in.table, p)) {
    Tester tester{in, p, group};
    p.fall_back_tests.push_back(tester.run());
    planned.fall_back_runs.push_back(tester.runs_of(p.fall_back_tests.back().day));
    link(p, group, static_cast<int>(p.fall_back_tests.size()) - 1);
  }
  return planned;
}

std::vector<plan::Trouble> late_fall_backs(const farm::Farm& farm, const plan::Plan& p) {
  std::vector<plan::Trouble> all;
  for (const plan::FallBackTest& test : p.fall_back_tests) {
    if (!test.late()) continue;
    const std::size_t years = p.shown_years.size();
    const std::string storm = fmt::format("after one storm ({})", storm_words(farm, test.storm));
    std::string text = fmt::format("if {} and these fields fall back together {}, ", test.words, storm);
    if (test.start_by)
      text +=
          fmt::format("they must start by the {}; their methods wait until {}, which is in time in {}",
                      week_words(farm.season.date(*test.start_by)),
                      day_words(farm.season.date(*test.rule_day)), years_words(test.chance_by_rule, years));
    else
      text += fmt::format("they are done in time in {} even if they start in the {}",
                          years_words(test.chance, years), week_words(farm.season.date(test.day)));
    all.push_back({"fall-backs start too late", text, test.fields});
  }
  return all;
}

}  // namespace aftercut::scenario
