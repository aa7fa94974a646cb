#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <span>

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/burn_day.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/dispatch/table.hpp"
#include "aftercut/farm/burn_evidence.hpp"
#include "aftercut/farm/power.hpp"
#include "aftercut/geo/shape.hpp"
#include "aftercut/weather/sun.hpp"
#include "take_up.hpp"

namespace aftercut::dispatch {
namespace {

using Reasons = std::vector<std::string>;

/// Steps of the recipe that are still to come on the field.
std::span<const method::Step> to_come(const Table& t, std::size_t f, std::size_t recipe) {
  const auto& steps = t.problem->farm.book.recipes[recipe].steps;
  const auto from = static_cast<std::size_t>(t.starts[f][recipe].step);
  return std::span{steps}.subspan(std::min(from, steps.size()));
}

bool any_to_come(const Table& t, std::size_t f, std::size_t recipe, const auto& is) {
  return std::ranges::any_of(to_come(t, f, recipe), [&](const method::Step& s) {
    return is(t.problem->farm.book.operations[static_cast<std::size_t>(s.operation)]);
  });
}

bool burns(const method::Operation& op) { return op.burning; }
bool bales(const method::Operation& op) { return op.effect.bale_share > 0.0; }

void check_lay(Reasons& why, const Table& t, std::size_t f, std::size_t recipe) {
  const farm::Field& field = t.problem->farm.fields[f];
  const method::Recipe& r = t.problem->farm.book.recipes[recipe];
  const straw::Lay lay = t.so_far ? t.so_far->fields[f].now.lay : field.lay;
  if (field.cut && t.starts[f][recipe].step == 0 && std::count(r.takes.begin(), r.takes.end(), lay) == 0)
    why.push_back(lay == straw::Lay::chopped ? "the straw is chopped already"
                                             : "the straw was not laid for it");
  const bool to_bale = any_to_come(t, f, recipe, bales);
  if (to_bale && field.straw_load.value() <= 0.0) why.push_back("there is no straw to bale");
  if ((to_bale || any_to_come(t, f, recipe, burns)) && field.ground.state == farm::GroundState::rutted)
    why.push_back(fmt::format("{:.0f} % of the ground is rutted", 100.0 * field.ground.share));
}

void check_word(Reasons& why, const farm::Field& field, const method::Recipe& r) {
  for (const auto& n : field.not_allowed)
    if (n.method == r.id) why.push_back(fmt::format("ruled out for this field: {}", n.why));
  if (field.locked && *field.locked != r.id) why.push_back("another method is locked");
}

void check_water(Reasons& why, const farm::Farm& farm, const farm::Field& field, const method::Recipe& r) {
  if (!r.water) {
    if (field.lease)
      why.push_back(fmt::format("the water lease asks for water until {}", iso(field.lease->until)));
    return;
  }
  if (!field.holds_water) why.push_back("the levees do not hold water");
  if (!r.water->from_canal) {
    if (field.lease) why.push_back("caught rain alone cannot promise the water that the lease asks for");
    return;
  }
  if (!farm.supply) why.push_back("the farm has no canal water");
  if (!field.can_flood) why.push_back("the canal does not reach the field");
}

/// Why nothing that the farm has can do the operation, with the figures of what comes nearest.
std::string no_outfit(const Table& t, std::size_t field, std::size_t operation) {
  const farm::Farm& farm = t.problem->farm;
  const method::Operation& op = farm.book.operations[operation];
  for (std::size_t i = 0; i < farm.implements.size(); ++i)
    if (farm.implements[i].kind == op.implement)
      return fmt::format("no tractor is strong enough to {}: {}", op.name,
                         farm::power_words(farm, {i, operation, field}));
  return fmt::format("no machine to {} ({})", op.name, op.implement);
}

/// Every outfit that could bale here takes the bales off too.
bool hauled_by_others(const Table& t, std::size_t field, const method::Recipe& r) {
  const farm::Farm& farm = t.problem->farm;
  bool bales = false;
  for (const auto& step : r.steps) {
    const auto o = static_cast<std::size_t>(step.operation);
    if (farm.book.operations[o].effect.bale_share <= 0.0) continue;
    bales = true;
    for (const Outfit& x : t.outfits[field][o]) {
      const auto& hire = farm.implements[static_cast<std::size_t>(x.implement)].hire;
      if (!hire || !hire->bales_off_by) return false;
    }
  }
  return bales;
}

void check_machines(Reasons& why, const Table& t, std::size_t field, const method::Recipe& r,
                    std::span<const method::Step> steps) {
  const farm::Farm& farm = t.problem->farm;
  const bool fallow = farm.fields[field].next.kind == farm::NextUseKind::fallow;
  for (const auto& step : steps) {
    if (fallow && step.season == method::Season::spring) continue;
    const auto o = static_cast<std::size_t>(step.operation);
    const method::Operation& op = farm.book.operations[o];
    if (op.water == method::Water::fill) continue;
    if (hauls_bales(op) && hauled_by_others(t, field, r)) continue;
    const auto& outfits = t.outfits[field][o];
    if (outfits.empty()) {
      why.push_back(no_outfit(t, field, o));
      continue;
    }
    const auto skilled = std::count(t.has_skill[o].begin(), t.has_skill[o].end(), 1);
    const bool brings =
        std::any_of(outfits.begin(), outfits.end(), [](const Outfit& x) { return !x.own_crew; });
    if (!brings && skilled < op.crew)
      why.push_back(fmt::format("{} people who can {} are needed, {} there", op.crew, op.name, skilled));
  }
}

/// Days between which the recipe would burn: from its burning step's date to its fall-back.
struct Span {
  int from = 0, until = 0;
};
Span burning_days(const Table& t, const farm::Field& field, const method::Recipe& r) {
  const farm::Calendar& season = t.problem->farm.season;
  Span span{std::max(t.as_of_day, season.day(field.harvest) + 1), season.days};
  if (r.fall_back) span.until = std::min(span.until, season.day(r.fall_back->start_by));
  for (const auto& step : r.steps) {
    const bool burns = t.problem->farm.book.operations[static_cast<std::size_t>(step.operation)].burning;
    if (burns && step.earliest) span.from = std::max(span.from, season.day(*step.earliest));
  }
  return span;
}

/// The first such day that no row of the calendar closes; the first one when all are closed, or the season's
/// last where it ends before.
Date best_date(const Table& t, const farm::Field& field, const method::Recipe& r) {
  const farm::Calendar& season = t.problem->farm.season;
  const Span span = burning_days(t, field, r);
  for (int d = span.from; d < span.until; ++d)
    if (date_is_open(t.burn_limits, season.date(d)) &&
        !closed_for_early_harvest(t.burn_limits, field, season.date(d)))
      return season.date(d);
  return season.date(std::min(span.from, season.days - 1));
}

double middle(std::optional<double> least, std::optional<double> most, double usual) {
  if (least && most) return 0.5 * (*least + *most);
  return least.value_or(most.value_or(usual));
}

/// The field on its best day: what still blocks it or leaves it unknown then, no weather mends.
burn::Facts best_day(const Table& t, const farm::Field& field, const method::Recipe& r) {
  const burn::Limits& l = t.burn_limits;
  const Date day = best_date(t, field, r);
  burn::Facts f = farm::burn_evidence(t.problem->farm, field, day);
  f.straw_in_windrow = (field.cut ? field.lay : r.harvest.lay) == straw::Lay::windrow;
  f.days_since_cut = f.days_since_rain_reset = long_ago;
  f.wind_m_s = middle(l.least_wind_m_s, l.most_wind_m_s, 0.0);
  f.humidity = middle(l.least_humidity, l.most_humidity, 0.5);
  f.temperature_c = middle(l.least_temperature_c, l.most_temperature_c, 20.0);
  f.start_hour = t.burn_clock.at(static_cast<std::size_t>(t.problem->farm.season.day(day))).from_min / 60.0;
  return f;
}

/// Minutes of a day that the outfit's people have: of a crew with the skill the one who goes home first.
int minutes_of_people(const Table& t, int operation, const Outfit& o, int day) {
  const auto d = static_cast<std::size_t>(day), op = static_cast<std::size_t>(operation);
  if (!o.own_crew) return t.longest_min[d];
  std::vector<int> minutes;
  for (std::size_t who = 0; who < t.operator_min.size(); ++who)
    if (t.has_skill[op][who]) minutes.push_back(t.operator_min[who][d]);
  std::sort(minutes.rbegin(), minutes.rend());
  const auto crew = static_cast<std::size_t>(t.problem->farm.book.operations[op].crew);
  return minutes.size() < crew ? 0 : minutes[crew - 1];
}

/// The whole field has to burn on one day: the hours that the best outfit takes, against the most that any
/// day of the method leaves. Nothing to say where no day is left or no outfit is there.
void check_burn_hours(Reasons& why, const Table& t, std::size_t f, const method::Recipe& r) {
  const farm::Field& field = t.problem->farm.fields[f];
  const Span span = burning_days(t, field, r);
  double least_h = std::numeric_limits<double>::infinity(), most_h = 0.0;
  for (const auto& step : r.steps) {
    if (!t.problem->farm.book.operations[static_cast<std::size_t>(step.operation)].burning) continue;
    for (const Outfit& o : t.outfits[f][static_cast<std::size_t>(step.operation)]) {
      const std::int64_t need = ceil_minutes(field.area.value() / o.ha_per_hour);
      least_h = std::min(least_h, static_cast<double>(need) / 60.0);
      for (int d = span.from; d < span.until; ++d) {
        const Date date = t.problem->farm.season.date(d);
        if (!date_is_open(t.burn_limits, date) || closed_for_early_harvest(t.burn_limits, field, date))
          continue;
        const BurnClock& clock = t.burn_clock[static_cast<std::size_t>(d)];
        const int until =
            std::min(clock.until_min, t.shift_start_min + minutes_of_people(t, step.operation, o, d));
        const int left = until - std::max(clock.from_min, t.shift_start_min);
        if (left >= need) return;
        most_h = std::max(most_h, left / 60.0);
      }
    }
  }
  if (most_h > 0.0)
    why.push_back(
        fmt::format("too large to burn whole within the hours of one day: it takes {:.1f} h, the longest "
                    "day leaves {:.1f} h",
                    least_h, most_h));
}

void check_burning(Reasons& why, const Table& t, std::size_t f, std::size_t recipe) {
  if (!any_to_come(t, f, recipe, burns)) return;
  const method::Recipe& r = t.problem->farm.book.recipes[recipe];
  const farm::Field& field = t.problem->farm.fields[f];
  const farm::Farm& farm = t.problem->farm;
  if (!farm.burning) {
    why.push_back("unknown: no burn rules are entered for this place");
    return;
  }
  const burn::Finding finding = burn::evaluate(*farm.burning, best_day(t, field, r));
  check_burn_hours(why, t, f, r);
  if (finding.standing != burn::Standing::blocked && finding.standing != burn::Standing::unknown) return;
  const bool blocked = finding.standing == burn::Standing::blocked;
  for (const auto& row : finding.rows)
    why.push_back(blocked ? "blocked by " + burn::to_text(row)
                          : fmt::format("unknown, ask {}: {}", farm.burning->authority, burn::to_text(row)));
}

}  // namespace

std::vector<std::string> why_not(const Table& table, std::size_t field, std::size_t recipe) {
  const farm::Farm& farm = table.problem->farm;
  const farm::Field& f = farm.fields[field];
  const method::Recipe& r = farm.book.recipes[recipe];
  Reasons why;
  check_word(why, f, r);
  for (const std::string& reason : barred_by_work_done(table, field, recipe)) why.push_back(reason);
  check_lay(why, table, field, recipe);
  check_water(why, farm, f, r);
  check_burning(why, table, field, recipe);
  check_machines(why, table, field, r, to_come(table, field, recipe));
  if (r.fall_back)
    for (const auto& other : farm.book.recipes)
      if (other.id == r.fall_back->method) check_machines(why, table, field, other, other.steps);
  Reasons unique;
  for (const auto& w : why)
    if (std::find(unique.begin(), unique.end(), w) == unique.end()) unique.push_back(w);
  return unique;
}

std::vector<std::vector<int>> possible_recipes(const Table& table) {
  std::vector<std::vector<int>> all;
  for (const auto& reasons : table.why_not) {
    auto& possible = all.emplace_back();
    for (std::size_t r = 0; r < reasons.size(); ++r)
      if (reasons[r].empty()) possible.push_back(static_cast<int>(r));
  }
  return all;
}

}  // namespace aftercut::dispatch
