// The authority's calls of a weather year, drawn afresh: docs/rules-of-work.md, "Burning".

#include <algorithm>
#include <set>

#include "aftercut/core/random.hpp"
#include "facts.hpp"

namespace aftercut::audit {
namespace {

/// The day lies in a window of the year that holds both its ends; a window may run over New Year.
bool in_season_window(const std::optional<MonthDay>& from, const std::optional<MonthDay>& to, Date day) {
  if (!from || !to) return false;
  const MonthDay today{month_of(day), day_of_month(day)};
  if (*to < *from) return !(*to < today && today < *from);
  return !(today < *from) && !(*to < today);
}

/// The entered call that this weather year has on the day, if its season of calls holds one.
std::optional<bool> entered_call(const Facts& facts, int year, Date date) {
  const farm::Farm& farm = facts.farm();
  const Date first = farm.season.first;
  const MonthDay opening{month_of(first), day_of_month(first)};
  std::set<int> starts;
  for (const auto& call : farm.burn_calls) {
    const bool before = MonthDay{month_of(call.day), day_of_month(call.day)} < opening;
    starts.insert(before ? year_of(call.day) - 1 : year_of(call.day));
  }
  if (starts.empty()) return std::nullopt;
  int season = year;
  if (!starts.contains(year)) {
    Draws draw(facts.seed, stream_of("burn-season"), static_cast<std::uint64_t>(year));
    season = *std::next(starts.begin(), draw.below(static_cast<std::uint32_t>(starts.size())));
  }
  const int calendar_year = year_of(date) + season - year_of(first);
  int day = day_of_month(date);
  if (month_of(date) == 2 && day == 29 && !is_leap_year(calendar_year)) day = 28;
  const Date then = make_date(calendar_year, month_of(date), day);
  for (const auto& call : farm.burn_calls)
    if (call.day == then) return call.called;
  return std::nullopt;
}

}  // namespace

bool burn_called(const Facts& facts, int year, int day) {
  const farm::Farm& farm = facts.farm();
  if (!farm.burning || facts.no_calls) return false;
  const burn::Limits& l = facts.burn_limits;
  const Date date = farm.season.date(day);
  const bool windows = l.autumn_from || l.autumn_to || l.spring_from || l.spring_to;
  if (windows && !in_season_window(l.autumn_from, l.autumn_to, date) &&
      !in_season_window(l.spring_from, l.spring_to, date))
    return false;
  if (!l.call_needed) return true;
  if (const auto call = entered_call(facts, year, date)) return *call;
  const auto index = (static_cast<std::uint64_t>(year) << 16) + static_cast<std::uint64_t>(day);
  return Draws(facts.seed, stream_of("burn-day"), index).uniform() < farm.burning->burn_day_chance;
}

}  // namespace aftercut::audit
