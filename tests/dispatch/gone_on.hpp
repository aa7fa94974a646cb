#pragma once
// A year of a plan as far as it has gone: what its run did before a day as facts, and its weather as seen.

#include <algorithm>

#include "aftercut/dispatch/dispatch.hpp"

namespace aftercut::test {

/// Every year begins with the days of this one.
inline farm::Problem with_weather_so_far(farm::Problem p, std::size_t year, int until) {
  const weather::Year seen = p.years.years[year];
  for (weather::Year& y : p.years.years) {
    std::copy_n(seen.days.begin(), until, y.days.begin());
    std::copy_n(seen.et0_mm.begin(), until, y.et0_mm.begin());
  }
  p.seen = weather::Series{p.farm.season.first, {seen.days.begin(), seen.days.begin() + until}, {}};
  p.as_of = p.farm.season.date(until);
  return p;
}

/// The stretches and the canal water of a run before a day.
inline farm::SoFar so_far_of(const farm::Farm& farm, const plan::YearRun& run, int until) {
  farm::SoFar out;
  const auto add = [&](int day, auto what) {
    out.events.push_back({static_cast<int>(out.events.size()) + 1, farm.season.date(day), std::move(what)});
  };
  for (const plan::Work& w : run.work) {
    if (w.day >= until || w.stands_by) continue;
    farm::WorkDone done{.field = static_cast<std::size_t>(w.field),
                        .operation = w.operation,
                        .area_ha = w.area_ha,
                        .finishes = w.finishes,
                        .tractor = w.tractor,
                        .implement = w.implement,
                        .hours = (w.end_min - w.start_min) / 60.0,
                        .fuel_l = w.fuel_l};
    for (const int who : w.crew)
      if (who != plan::none) done.crew.push_back(who);
    add(w.day, done);
  }
  for (const plan::WaterIn& w : run.water)
    if (w.day < until) add(w.day, farm::WaterMetered{static_cast<std::size_t>(w.field), w.m3});
  std::ranges::stable_sort(out.events, {}, &farm::Happened::day);
  return out;
}

/// The problem on the morning of a season day, the run of one of its years having gone that far.
inline farm::Problem gone_on(const farm::Problem& p, const plan::YearRun& run, std::size_t year, int until) {
  farm::Problem now = with_weather_so_far(p, year, until);
  now.so_far = so_far_of(p.farm, run, until);
  now.so_far.entries = static_cast<int>(now.so_far.events.size());
  return now;
}

/// The decision goes on: fields that have fallen back keep to the method that took over.
inline plan::Decision going_on(const farm::Farm& farm, plan::Decision decision, const plan::YearRun& run,
                               int until) {
  for (std::size_t f = 0; f < decision.method.size(); ++f) {
    if (decision.method[f] == plan::none) continue;
    const auto& back = farm.book.recipes[static_cast<std::size_t>(decision.method[f])].fall_back;
    if (!back || !run.fields[f].fell_back || farm.season.day(back->start_by) >= until) continue;
    for (std::size_t r = 0; r < farm.book.recipes.size(); ++r)
      if (farm.book.recipes[r].id == back->method) decision.method[f] = static_cast<int>(r);
  }
  return decision;
}

}  // namespace aftercut::test
