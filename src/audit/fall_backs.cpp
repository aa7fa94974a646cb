#include "fall_backs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "replay.hpp"
#include "triggers.hpp"

namespace aftercut::audit {
namespace {

using plan::Trigger;
using Kinds = std::set<Trigger>;
constexpr double share_tolerance = 5e-5;

/// Fields that are tested together, and all that they hang on.
struct Tested {
  Kinds kinds;
  std::vector<int> fields;
};

struct OwnPlan {
  std::vector<std::vector<OwnTrigger>> triggers;  // [field]
  std::vector<Tested> tests;
};

std::string kinds_text(const Kinds& kinds) {
  std::string text;
  for (const Trigger t : kinds)
    text += (text.empty() ? "" : ", ") + std::string{plan::trigger_keys[static_cast<std::size_t>(t)]};
  return text;
}

OwnPlan own_plan(const farm::Farm& farm, const plan::Plan& p) {
  OwnPlan own;
  std::map<std::pair<bool, Trigger>, std::vector<int>> by_kind;
  Tested together;
  for (int f = 0; f < static_cast<int>(farm.fields.size()); ++f) {
    own.triggers.push_back(triggers_of(farm, f, p.decision.method[static_cast<std::size_t>(f)]));
    bool with_others = false;
    for (const OwnTrigger& t : own.triggers.back()) {
      by_kind[{t.spring, t.trigger}].push_back(f);
      if (t.spring) continue;
      together.kinds.insert(t.trigger);
      with_others = true;
    }
    if (with_others) together.fields.push_back(f);
  }
  for (const auto& [kind, fields] : by_kind) own.tests.push_back({{kind.second}, fields});
  if (together.kinds.size() > 1) own.tests.push_back(together);
  return own;
}

/// A farm and its years in which nothing of the kinds comes and the storm does.
struct Without {
  farm::Problem problem;
  Facts facts;
};

plan::Instead instead_of(const std::vector<OwnTrigger>& triggers, const Kinds& kinds, int day) {
  plan::Instead instead;
  instead.from_day = day;
  for (const OwnTrigger& t : triggers) {
    if (!kinds.contains(t.trigger)) continue;
    if (t.method != plan::none) instead.method = t.method;
    for (const int o : t.brings) instead.without.push_back(o);
  }
  return instead;
}

void change(Without& w, const OwnPlan& own, const Tested& test, const plan::FallBackTest& said) {
  farm::Farm& farm = w.problem.farm;
  w.facts.instead.resize(farm.fields.size());
  for (const int f : test.fields) {
    const auto& triggers = own.triggers[static_cast<std::size_t>(f)];
    w.facts.instead[static_cast<std::size_t>(f)] = instead_of(triggers, test.kinds, said.day);
    for (const OwnTrigger& t : triggers)
      if (test.kinds.contains(t.trigger))
        for (const int i : t.implements)
          farm.implements[static_cast<std::size_t>(i)].away = {
              {farm.season.first, farm.season.date(farm.season.days), ""}};
  }
  w.facts.no_calls = test.kinds.contains(Trigger::burn_call);
  if (test.kinds.contains(Trigger::canal_water) && farm.supply)
    farm.supply->most_flow = CubicMetrePerDay{0.0};
}

struct Counted {
  int years = 0, in_time = 0, ready = 0;
};

/// One run lived again in its changed year.
Findings live_one(const Without& w, const OwnPlan& own, const Tested& test, const plan::Plan& p,
                  const plan::YearRun& run, std::size_t year, Counted& counted) {
  const farm::Farm& farm = w.problem.farm;
  Replayed lived = lived_again(w.facts, p.decision, run, year, "fall-backs");
  Findings f = std::move(lived.findings);
  bool in_time = true, ready = true;
  for (const int k : test.fields) {
    const auto i = static_cast<std::size_t>(k);
    const plan::FieldRun& now = lived.fields[i];
    const Owed owed = owed_by(farm, k, p.decision.method[i],
                              instead_of(own.triggers[i], test.kinds, w.facts.instead[i].from_day));
    const bool seedbed = now.status == plan::Status::ready || now.status == plan::Status::nothing_due;
    const bool over = now.straw_over_day != plan::none &&
                      (owed.over_by == plan::none || now.straw_over_day <= owed.over_by);
    in_time = in_time && over && now.steps_passed_over == 0 && (seedbed || !owed.seedbed);
    ready = ready && seedbed;
  }
  ++counted.years;
  counted.in_time += in_time ? 1 : 0;
  counted.ready += ready ? 1 : 0;
  return f;
}

Findings check_storm(const farm::Problem& problem, const Place& place, const plan::FallBackTest& said) {
  Findings f;
  const plan::Storm own = storm_on(problem.years, problem.farm.target.storm, said.day);
  const bool same = said.storm.year == own.year && said.storm.day == own.day && said.storm.days == own.days;
  f.expect(same, "wrong storm", place, [&] {
    return Texts{fmt::format("{} days from {} of {}", said.storm.days, said.storm.day, said.storm.year),
                 fmt::format("{} days from {} of {}", own.days, own.day, own.year)};
  });
  f.expect_near(said.storm.rain_mm, own.rain_mm, 0.005, "wrong storm", place);
  return f;
}

/// The start-by day against the shares, and the recipes' own days.
Findings check_days(const farm::Farm& farm, const Place& place, const plan::Plan& p, const OwnPlan& own,
                    const Tested& test, const plan::FallBackTest& said) {
  Findings f;
  const auto text = [&](std::optional<int> d) { return d ? iso(farm.season.date(*d)) : std::string{"none"}; };
  int first = farm.season.days;
  std::optional<int> rule;
  for (const int k : test.fields) {
    first = std::min(first, farm.season.day(farm.fields[static_cast<std::size_t>(k)].harvest) + 1);
    for (const OwnTrigger& t : own.triggers[static_cast<std::size_t>(k)])
      if (test.kinds.contains(t.trigger) && t.rule_day) rule = std::max(rule.value_or(0), *t.rule_day);
  }
  first = std::max(first, farm.season.day(p.as_of));
  if (rule) rule = std::max(*rule, first);
  f.expect(said.rule_day == rule, "wrong day of the recipe's own fall-back", place, [&] {
    return Texts{text(said.rule_day), text(rule)};
  });
  f.expect(
      said.day >= first && (!said.start_by || *said.start_by == said.day), "wrong start-by day", place, [&] {
        return Texts{text(said.start_by), "not before " + iso(farm.season.date(first)) + ", as in the runs"};
      });
  const bool enough = said.chance + share_tolerance >= p.wanted_chance;
  f.expect(said.start_by.has_value() == enough, "wrong start-by day", place, [&] {
    return Texts{text(said.start_by),
                 fmt::format("a share of {:.4f} where {:.4f} is wanted", said.chance, p.wanted_chance)};
  });
  const bool told = std::any_of(p.troubles.begin(), p.troubles.end(), [&](const plan::Trouble& t) {
    return t.name == "fall-backs start too late" && t.fields == said.fields;
  });
  const bool late = !said.start_by || (rule && *rule > *said.start_by);
  f.expect(!late || told, "late fall-back not told", place, [] {
    return Texts{"no such trouble in the plan", "a trouble that names the fields"};
  });
  return f;
}

Findings check_test(const Facts& facts, const plan::PlannedYears& planned, const OwnPlan& own,
                    std::size_t n) {
  Findings f;
  const plan::Plan& p = planned.plan;
  const plan::FallBackTest& said = p.fall_back_tests[n];
  const Tested& test = own.tests[n];
  const farm::Farm& farm = facts.farm();
  const Place place{&farm, -1, said.day, -1, "fall-backs: " + kinds_text(test.kinds)};
  const bool same =
      Kinds(said.triggers.begin(), said.triggers.end()) == test.kinds && said.fields == test.fields;
  f.expect(same, "wrong fields of a fall-back", place, [&] {
    return Texts{fmt::format("{} fields", said.fields.size()), fmt::format("{} fields", test.fields.size())};
  });
  if (!same) return f;
  f += check_storm(*facts.problem, place, said);
  Without w{*facts.problem, facts};
  w.problem.years.years.clear();
  std::vector<int> years;
  for (const weather::Year& y : facts.problem->years.years)
    if (std::find(p.shown_years.begin(), p.shown_years.end(), y.year) != p.shown_years.end()) {
      years.push_back(y.year);
      w.problem.years.years.push_back(stormy(
          y, facts.problem->years, storm_on(facts.problem->years, farm.target.storm, said.day), said.day));
    }
  change(w, own, test, said);
  w.facts.problem = &w.problem;
  Counted counted;
  const auto& runs = planned.fall_back_runs[n];
  std::vector<int> played;
  for (const plan::YearRun& run : runs) played.push_back(run.year);
  f.expect(played == years, "missing year", place, [&] {
    return Texts{fmt::format("{} runs", played.size()), "a run of every shown year, in order"};
  });
  if (played != years) return f;
  for (std::size_t y = 0; y < runs.size(); ++y) f += live_one(w, own, test, p, runs[y], y, counted);
  const double all = std::max(1, counted.years);
  f.expect_near(said.chance, counted.in_time / all, share_tolerance, "wrong share of fall-backs in time",
                place);
  f.expect_near(said.chance_ready, counted.ready / all, share_tolerance, "wrong share of fall-backs in time",
                place);
  return f += check_days(farm, place, p, own, test, said);
}

/// Triggers of every field, and how often each does not come.
Findings check_triggers(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays,
                        const OwnPlan& own) {
  Findings f;
  const plan::Plan& p = planned.plan;
  for (std::size_t k = 0; k < own.triggers.size(); ++k) {
    const auto& said = p.fields[k].chosen.hangs_on;
    const Place place{&facts.farm(), -1, -1, static_cast<int>(k), "fall-back"};
    bool same = said.size() == own.triggers[k].size();
    for (std::size_t t = 0; same && t < said.size(); ++t)
      same = said[t].trigger == own.triggers[k][t].trigger && said[t].method == own.triggers[k][t].method &&
             said[t].rule_day == own.triggers[k][t].rule_day;
    f.expect(same, "wrong trigger of a fall-back", place, [&] {
      return Texts{fmt::format("{} triggers", said.size()),
                   fmt::format("{} of its method", own.triggers[k].size())};
    });
    for (std::size_t t = 0; same && t < said.size(); ++t) {
      double missed = 0.0, years = 0.0;
      for (std::size_t y = 0; y < replays.years.size(); ++y) {
        if (std::find(p.shown_years.begin(), p.shown_years.end(), replays.years[y]) == p.shown_years.end())
          continue;
        const auto run = std::find_if(planned.runs.begin(), planned.runs.end(),
                                      [&](const plan::YearRun& r) { return r.year == replays.years[y]; });
        missed += missed_in(own.triggers[k][t], static_cast<int>(k), *run, replays.fields[y][k]) ? 1.0 : 0.0;
        years += 1.0;
      }
      if (years > 0.0)
        f.expect_near(said[t].chance_taken, missed / years, share_tolerance, "wrong chance of a fall-back",
                      place);
    }
  }
  return f;
}

}  // namespace

Findings check_fall_backs(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays) {
  const plan::Plan& p = planned.plan;
  const OwnPlan own = own_plan(facts.farm(), p);
  Findings f = check_triggers(facts, planned, replays, own);
  const bool all =
      p.fall_back_tests.size() == own.tests.size() && planned.fall_back_runs.size() == own.tests.size();
  f.expect(all, "fall-backs left out", Place{nullptr, -1, -1, -1, "plan"}, [&] {
    return Texts{
        fmt::format("{} tests, {} with runs", p.fall_back_tests.size(), planned.fall_back_runs.size()),
        fmt::format("{}", own.tests.size())};
  });
  for (std::size_t n = 0; all && n < own.tests.size(); ++n) f += check_test(facts, planned, own, n);
  return f;
}

}  // namespace aftercut::audit
