#include "aftercut/review/rush.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/parallel.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/dispatch/progress.hpp"

namespace aftercut::review {
namespace {

/// Mean over the years, cents.
std::int64_t mean_cents(const dispatch::Table& t, const plan::Decision& d, const dispatch::RunOptions& o,
                        int threads) {
  std::vector<std::int64_t> cents(t.drivers.size());
  for_each_index(cents.size(), threads,
                 [&](std::size_t y) { cents[y] = dispatch::cost_of(dispatch::run(t, d, y, o)); });
  std::int64_t sum = 0;
  for (const std::int64_t c : cents) sum += c;
  return std::llround(static_cast<double>(sum) / static_cast<double>(cents.size()));
}

/// Served first whatever the season of its step.
plan::Decision rushed(plan::Decision d, int field) {
  for (auto* order : {&d.autumn_order, &d.spring_order}) {
    const auto at = std::ranges::find(*order, field);
    std::rotate(order->begin(), at, at + 1);
  }
  return d;
}

/// The field's work before the storm when it is rushed, by the first year: until then all years are alike.
std::optional<int> works_before(const dispatch::Table& t, const plan::Decision& d, int field, int day) {
  const plan::YearRun run = dispatch::run(t, rushed(d, field), 0);
  for (const plan::Work& w : run.work)
    if (w.field == field && w.day < day && w.implement != plan::none && !w.stands_by) return w.operation;
  return std::nullopt;
}

double hours_of(const dispatch::Table& t, std::size_t f, int recipe, int operation) {
  const dispatch::Start& start = t.starts[f][static_cast<std::size_t>(recipe)];
  const double left = t.problem->farm.fields[f].area.value() - start.area_done_ha;
  double least = 0.0;
  for (const auto& o : t.outfits[f][static_cast<std::size_t>(operation)]) {
    const double hours = left / o.ha_per_hour;
    if (least <= 0.0 || hours < least) least = hours;
  }
  return least;
}

bool wants_dry(const method::Operation& op) {
  return op.when.workable || op.when.most_straw_moisture_percent || op.water == method::Water::boards_out;
}

/// What comes next on the field this morning wants dry ground or straw, and may begin by that day. All years
/// are alike until then: the first one tells.
bool wants_dry_ground(const dispatch::Table& t, std::size_t f, int recipe, int by_day) {
  const season::FieldYear& morning = dispatch::first_morning(t, f, 0, recipe);
  const dispatch::Progress p =
      dispatch::settle(t, f, dispatch::begin_on(t, f, recipe), morning.day(), morning).progress;
  return !dispatch::finished(p) && wants_dry(dispatch::current_operation(t, p)) &&
         dispatch::first_day_of(t, f, *p.recipe, dispatch::current_step(p)) <= by_day;
}

void add_to_see_to(plan::StormList& list, const dispatch::Table& t, const plan::Decision& d) {
  const int soon = list.storm.last_day + storm_list_days;
  if (!t.so_far) return;
  const farm::Farm& farm = t.problem->farm;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const journal::FieldState& s = t.so_far->fields[f];
    const int field = static_cast<int>(f);
    const bool bales = journal::bales_lying(farm, s, farm.fields[f].area.value()) > 0.0;
    if (bales) list.bales.push_back(field);
    if (bales && !farm.travel.access.empty() && farm.travel.access[f] != farm::Access::hard)
      list.soft_ways.push_back(field);
    if (s.now.life.board_mm > 0.0 && d.method[f] != plan::none && wants_dry_ground(t, f, d.method[f], soon))
      list.boards.push_back(field);
  }
}

}  // namespace

std::optional<plan::StormAhead> storm_ahead(const farm::Problem& p) {
  if (!p.forecast) return std::nullopt;
  const farm::Calendar& season = p.farm.season;
  const auto rain_on = [&](Date date) {
    const int at = date - p.forecast->first;
    const bool there = at >= 0 && at < static_cast<int>(p.forecast->days.size());
    return there ? p.forecast->days[static_cast<std::size_t>(at)].rain_mm : 0.0;
  };
  const Date end = p.forecast->first + static_cast<int>(p.forecast->days.size());
  for (Date from = p.as_of; from < end; from = from + 1) {
    plan::StormAhead storm{-1, -1, 0.0};
    for (int k = 0; k < storm_list_days; ++k) {
      const double mm = rain_on(from + k);
      storm.rain_mm += mm;
      if (mm <= 0.0) continue;
      if (storm.first_day < 0) storm.first_day = season.day(from + k);
      storm.last_day = season.day(from + k);
    }
    if (storm.rain_mm >= storm_list_mm) return storm;
  }
  return std::nullopt;
}

std::optional<plan::StormList> storm_list(const dispatch::Table& t, const plan::Decision& d, int threads) {
  const auto storm = storm_ahead(*t.problem);
  if (!storm) return std::nullopt;
  plan::StormList list{.storm = *storm, .rush = {}, .bales = {}, .boards = {}, .soft_ways = {}};
  for (std::size_t f = 0; f < d.method.size(); ++f) {
    const int field = static_cast<int>(f);
    if (d.method[f] == plan::none) continue;
    const auto operation = works_before(t, d, field, storm->first_day);
    if (!operation) continue;
    const std::int64_t first = mean_cents(t, rushed(d, field), {}, threads);
    const std::int64_t later =
        mean_cents(t, d, {.start_after_field = field, .start_after_day = storm->last_day}, threads);
    if (later > first)
      list.rush.push_back({field, *operation, hours_of(t, f, d.method[f], *operation), later - first});
  }
  std::ranges::stable_sort(list.rush, [](const plan::Rush& a, const plan::Rush& b) {
    return a.cents_per_hour() > b.cents_per_hour();
  });
  add_to_see_to(list, t, d);
  return list;
}

}  // namespace aftercut::review
