#include "aftercut/dispatch/day_pool.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/money.hpp"

namespace aftercut::dispatch {
namespace {

/// More of the area today, or all of it sooner.
bool gets_further(const Stretch& a, const Stretch& b) {
  return a.area_ha > b.area_ha || (a.area_ha == b.area_ha && a.end_min < b.end_min);
}

bool used_up(const std::vector<Slot>& slots, int index) {
  if (index == plan::none) return false;
  const Slot& slot = slots[static_cast<std::size_t>(index)];
  return slot.from >= slot.until;
}

bool hired(const farm::Farm& farm, const Outfit& o) {
  return o.implement != plan::none && farm.implements[static_cast<std::size_t>(o.implement)].hire.has_value();
}

}  // namespace

int people_of(const Stretch& s) {
  return static_cast<int>(s.crew.size()) -
         static_cast<int>(std::count(s.crew.begin(), s.crew.end(), plan::none));
}

plan::Work work_of(const Progress& p, int field, int day, const Stretch& x) {
  return {.field = field,
          .fell_back = p.fell_back,
          .step = p.step,
          .pass = p.pass,
          .operation = current_step(p).operation,
          .day = day,
          .start_min = x.start_min,
          .end_min = x.end_min,
          .tractor = x.outfit->tractor,
          .implement = x.outfit->implement,
          .crew = x.crew,
          .area_ha = x.area_ha,
          .fuel_l = x.pace.fuel_l_per_hour * (x.end_min - x.start_min) / 60.0,
          .finishes = x.finishes};
}

DayPool::DayPool(const Table& table, std::vector<int> there_from)
    : table_{&table},
      there_from_{std::move(there_from)},
      tractors_(table.tractor_here.size()),
      implements_(table.implement_here.size()),
      operators_(table.operator_min.size()),
      by_pay_(table.operator_min.size()) {
  const auto& people = table.problem->farm.operators;
  const auto pay = [&](int who) { return wage_paid(people[static_cast<std::size_t>(who)]); };
  std::iota(by_pay_.begin(), by_pay_.end(), 0);
  std::ranges::stable_sort(by_pay_, {}, pay);
}

void DayPool::start_day(int day) {
  day_ = day;
  const auto d = static_cast<std::size_t>(day);
  const int start = table_->shift_start_min;
  const int longest = start + table_->longest_min[d];
  for (std::size_t i = 0; i < tractors_.size(); ++i)
    tractors_[i] = {start, table_->tractor_here[i][d] ? longest : 0, plan::none};
  for (std::size_t i = 0; i < implements_.size(); ++i)
    implements_[i] = {start, table_->implement_here[i][d] && day >= there_from_[i] ? longest : 0, plan::none};
  for (std::size_t i = 0; i < operators_.size(); ++i)
    operators_[i] = {start, start + table_->operator_min[i][d], plan::none};
}

int DayPool::earliest(const Slot& slot, std::size_t field) const {
  const bool moves = slot.field != plan::none && slot.field != static_cast<int>(field);
  return slot.from + (moves ? table_->move_min[static_cast<std::size_t>(slot.field)][field] : 0);
}

// The people who are free first; of equals, who costs least out of pocket, then the first by id.
std::optional<DayPool::Crew> DayPool::crew_for(int operation, std::size_t field) const {
  const auto o = static_cast<std::size_t>(operation);
  const int wanted = table_->problem->farm.book.operations[o].crew;
  Crew crew{.from = 0, .until = std::numeric_limits<int>::max()};
  for (int k = 0; k < wanted; ++k) {
    int best = plan::none;
    for (const int who : by_pay_) {
      const auto i = static_cast<std::size_t>(who);
      if (!table_->has_skill[o][i] || operators_[i].from >= operators_[i].until) continue;
      if (std::count(crew.who.begin(), crew.who.end(), who) > 0) continue;
      if (best == plan::none ||
          earliest(operators_[i], field) < earliest(operators_[static_cast<std::size_t>(best)], field))
        best = who;
    }
    if (best == plan::none) return std::nullopt;
    const Slot& slot = operators_[static_cast<std::size_t>(best)];
    crew.who[static_cast<std::size_t>(k)] = best;
    crew.from = std::max(crew.from, earliest(slot, field));
    crew.until = std::min(crew.until, slot.until);
  }
  return crew;
}

/// The crew, unless what is left of its day is neither a sensible stretch nor enough to finish.
std::optional<DayPool::Crew> DayPool::crew_with_time(const Wanted& w) const {
  const auto crew = crew_for(w.operation, w.field);
  const int left = crew ? crew->until - crew->from : 0;
  if (!crew || left >= table_->problem->farm.work_day.least_stay_min) return crew;
  const auto& outfits = table_->outfits[w.field][static_cast<std::size_t>(w.operation)];
  const bool any = std::ranges::any_of(
      outfits, [&](const Outfit& o) { return ceil_minutes(w.area_ha / o.ha_per_hour) <= left; });
  return any ? crew : std::nullopt;
}

std::optional<Stretch> DayPool::find(const Wanted& w) const {
  const auto& outfits = table_->outfits[w.field][static_cast<std::size_t>(w.operation)];
  std::optional<std::optional<Crew>> crew;
  std::optional<Stretch> best;
  bool at_full_pace = false;
  for (const Outfit& o : outfits) {
    if (std::find(w.not_with.begin(), w.not_with.end(), o.implement) != w.not_with.end()) continue;
    if (best && hired(table_->problem->farm, o)) break;
    if (best && at_full_pace && o.tractor_kw > best->outfit->tractor_kw) break;
    if (o.own_crew) {
      if (!crew) crew = crew_with_time(w);
      if (!*crew) continue;
    }
    if (used_up(tractors_, o.tractor) || used_up(implements_, o.implement)) continue;
    const double ha_per_hour = rate_of(o, w.draft_factor);
    Stretch s{.outfit = &o};
    int from = w.not_before, until = w.not_after;
    const auto narrow = [&](const Slot& slot) {
      from = std::max(from, earliest(slot, w.field));
      until = std::min(until, slot.until);
    };
    if (o.tractor != plan::none) narrow(tractors_[static_cast<std::size_t>(o.tractor)]);
    if (o.implement != plan::none) narrow(implements_[static_cast<std::size_t>(o.implement)]);
    if (from >= until) continue;
    if (o.own_crew) {
      s.crew = (*crew)->who;
      from = std::max(from, (*crew)->from);
      until = std::min(until, (*crew)->until);
    }
    const auto need =
        static_cast<int>(std::min<std::int64_t>(ceil_minutes(w.area_ha / ha_per_hour), 1'000'000));
    s.start_min = from;
    s.finishes = need <= until - from;
    s.end_min = s.finishes ? from + need : until;
    s.area_ha = s.finishes ? w.area_ha : (until - from) / 60.0 * ha_per_hour;
    if (!s.finishes && (w.whole || until - from < table_->problem->farm.work_day.least_stay_min)) continue;
    if (!best || gets_further(s, *best)) best = s;
    at_full_pace = at_full_pace || ha_per_hour >= o.ha_per_hour;
    if (at_full_pace && best->finishes) break;
  }
  if (best) best->pace = pace_of(*best->outfit, w.draft_factor);
  return best;
}

void DayPool::take(const Stretch& s, std::size_t field) {
  const auto use = [&](std::vector<Slot>& slots, int index) {
    if (index == plan::none) return;
    Slot& slot = slots[static_cast<std::size_t>(index)];
    slot.from = s.end_min;
    slot.field = static_cast<int>(field);
  };
  use(tractors_, s.outfit->tractor);
  use(implements_, s.outfit->implement);
  for (const int who : s.crew) use(operators_, who);
}

bool DayPool::all_idle(const Stretch& s) const {
  return std::all_of(s.crew.begin(), s.crew.end(), [this](int who) {
    return who == plan::none || operators_[static_cast<std::size_t>(who)].field == plan::none;
  });
}

}  // namespace aftercut::dispatch
