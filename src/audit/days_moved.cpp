#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "again.hpp"

namespace aftercut::audit {
namespace {

constexpr int told_from_days = 3;
constexpr int no_such_day = 1'000'000;  // behind every season

/// The first stretch of a field's work in a year; null where there is none.
const plan::Work* earliest(const plan::YearRun& run, int field) {
  const plan::Work* found = nullptr;
  for (const plan::Work& w : run.work) {
    if (w.stands_by || w.field != field) continue;
    if (found == nullptr || w.day < found->day || (w.day == found->day && w.start_min < found->start_min))
      found = &w;
  }
  return found;
}

/// Typical days of one field under one plan, `no_such_day` where most shown years have none.
struct Typical {
  int first = no_such_day, ready = no_such_day;
};

class MovedDays {
 public:
  MovedDays(const farm::Farm& farm, const plan::PlannedYears& planned) : farm_{farm}, planned_{planned} {
    for (std::size_t y = 0; y < planned.runs.size(); ++y)
      if (std::ranges::count(planned.plan.shown_years, planned.runs[y].year) > 0) shown_.push_back(y);
  }

  [[nodiscard]] bool any_years() const { return !shown_.empty(); }

  /// What plan.json should say; none: nothing.
  [[nodiscard]] std::optional<plan::DayMove> of(int field) const {
    const auto f = static_cast<std::size_t>(field);
    const plan::Plan& p = planned_.plan;
    if (p.decision.method[f] == plan::none || p.decision.method[f] != p.again->stood.method[f]) return {};
    for (const plan::Move& m : p.again->barred)
      if (m.field == field) return {};
    const Typical was = typical(planned_.stood_runs, field), now = typical(planned_.runs, field);
    const int morning = farm_.season.day(p.as_of);
    if (was.ready < morning && now.ready < morning) return {};
    const int first = moved(was.first, now.first), ready = moved(was.ready, now.ready);
    if (first == 0 && ready == 0) return {};
    plan::DayMove m{.field = field,
                    .first = told(was.first, now.first),
                    .ready = told(was.ready, now.ready),
                    .order = plan::OrderMoved::neither,
                    .before = {}};
    m.order = order(field, first != 0 ? first : ready, first != 0);
    if (first != 0) m.before = overtaking(field, first > 0);
    return m;
  }

 private:
  static int moved(int was, int now) {
    if (std::abs(now - was) < told_from_days) return 0;
    return now > was ? 1 : -1;
  }

  static plan::StoodAndNow told(int was, int now) {
    const auto day = [](int d) { return d == no_such_day ? std::nullopt : std::optional<int>{d}; };
    return {day(was), day(now)};
  }

  [[nodiscard]] Typical typical(const std::vector<plan::YearRun>& runs, int field) const {
    const auto f = static_cast<std::size_t>(field);
    std::multiset<int> first, ready;
    for (const std::size_t y : shown_) {
      const plan::Work* w = earliest(runs[y], field);
      first.insert(w == nullptr ? no_such_day : w->day);
      const plan::FieldRun& end = runs[y].fields[f];
      const bool came = end.status == plan::Status::ready || end.status == plan::Status::late;
      ready.insert(came ? end.ready_day : no_such_day);
    }
    // The first day by which at least half of the years had come so far.
    const auto half = [](const std::multiset<int>& days) {
      std::size_t seen = 0;
      for (const int day : days)
        if (2 * ++seen >= days.size()) return day;
      return no_such_day;
    };
    const bool due = farm_.fields[f].next.kind != farm::NextUseKind::fallow;
    return {half(first), due ? half(ready) : no_such_day};
  }

  /// Work of the spring chain, which the spring order serves.
  [[nodiscard]] bool in_spring(int field, const plan::Work& w) const {
    const auto& book = farm_.book;
    const auto* recipe = &book.recipes[static_cast<std::size_t>(
        planned_.plan.decision.method[static_cast<std::size_t>(field)])];
    if (w.fell_back && recipe->fall_back)
      for (const method::Recipe& other : book.recipes)
        if (other.id == recipe->fall_back->method) {
          recipe = &other;
          break;
        }
    const auto step = static_cast<std::size_t>(std::max(0, w.step));
    return step < recipe->steps.size() && recipe->steps[step].season == method::Season::spring;
  }

  [[nodiscard]] plan::OrderMoved order(int field, int way, bool first_moved) const {
    int spring = 0, years = 0;
    for (const std::size_t y : shown_) {
      const plan::Work* w = earliest(planned_.runs[y], field);
      if (w == nullptr) w = earliest(planned_.stood_runs[y], field);
      if (w == nullptr) continue;
      ++years;
      if (in_spring(field, *w)) ++spring;
    }
    const bool of_spring = !first_moved || spring > years - spring;
    const auto& was =
        of_spring ? planned_.plan.again->stood.spring_order : planned_.plan.again->stood.autumn_order;
    const auto& now = of_spring ? planned_.plan.decision.spring_order : planned_.plan.decision.autumn_order;
    const auto at = [&](const std::vector<int>& list) {
      return std::ranges::find(list, field) - list.begin();
    };
    const bool same_way = way > 0 ? at(now) > at(was) : at(now) < at(was);
    if (!same_way) return plan::OrderMoved::neither;
    return of_spring ? plan::OrderMoved::spring : plan::OrderMoved::autumn;
  }

  [[nodiscard]] static bool uses(const plan::YearRun& run, int field, int implement, int from, int until) {
    return std::ranges::any_of(run.work, [&](const plan::Work& w) {
      return w.field == field && w.implement == implement && from <= w.day && w.day < until;
    });
  }

  /// Fields with the machine between the field's earlier and its later first day, under the plan of the later
  /// day and not under the other.
  [[nodiscard]] std::vector<int> overtaking(int field, bool later_now) const {
    std::map<int, std::size_t> years;
    for (const std::size_t y : shown_) {
      const plan::YearRun& early_run = later_now ? planned_.stood_runs[y] : planned_.runs[y];
      const plan::YearRun& late_run = later_now ? planned_.runs[y] : planned_.stood_runs[y];
      const plan::Work *early = earliest(early_run, field), *late = earliest(late_run, field);
      if (early == nullptr || early->implement == plan::none) continue;
      const int until = late == nullptr ? farm_.season.days : late->day;
      for (int g = 0; g < static_cast<int>(farm_.fields.size()); ++g)
        if (g != field && uses(late_run, g, early->implement, early->day, until) &&
            !uses(early_run, g, early->implement, early->day, until))
          ++years[g];
    }
    std::vector<int> out;
    for (const auto& [g, n] : years)
      if (n > shown_.size() - n) out.push_back(g);
    return out;
  }

  const farm::Farm& farm_;
  const plan::PlannedYears& planned_;
  std::vector<std::size_t> shown_;
};

std::string to_text(const farm::Farm& farm, const plan::DayMove& m) {
  const auto day = [&](const std::optional<int>& d) {
    return d ? iso(farm.season.date(*d)) : std::string{"not in most years"};
  };
  return fmt::format("first {} to {}, ready {} to {}", day(m.first.stood), day(m.first.now),
                     day(m.ready.stood), day(m.ready.now));
}

}  // namespace

Findings check_days_moved(const farm::Farm& farm, const plan::PlannedYears& planned) {
  Findings f;
  const MovedDays days{farm, planned};
  if (!days.any_years()) return f;
  for (int k = 0; k < static_cast<int>(farm.fields.size()); ++k) {
    const Place place{&farm, -1, -1, k, ""};
    const std::optional<plan::DayMove> wanted = days.of(k);
    const auto& said = planned.plan.again->days;
    const auto found = std::ranges::find(said, k, &plan::DayMove::field);
    const auto times = std::ranges::count(said, k, &plan::DayMove::field);
    f.expect(times == (wanted ? 1 : 0), "days that move left out or made up", place, [&] {
      return Texts{fmt::format("told {} times", times),
                   wanted ? to_text(farm, *wanted) : "no days that move"};
    });
    if (!wanted || times != 1) continue;
    f.expect(found->first == wanted->first && found->ready == wanted->ready, "wrong day that moves", place,
             [&] {
               return Texts{to_text(farm, *found), to_text(farm, *wanted)};
             });
    f.expect(found->order == wanted->order && found->before == wanted->before,
             "wrong reason of a day that moves", place, [&] {
               return Texts{fmt::format("{} fields before it", found->before.size()),
                            fmt::format("{} fields before it, or another order", wanted->before.size())};
             });
  }
  return f;
}

}  // namespace aftercut::audit
