// Why a method that burns is barred on a field: rows of the jurisdiction that are missing, old or unchecked,
// and what the field lacks or is too near to. Own reading of docs/burn-rules.md.

#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/core/numbers.hpp"
#include "aftercut/geo/shape.hpp"
#include "aftercut/weather/sun.hpp"
#include "burning.hpp"
#include "outfits.hpp"

namespace aftercut::audit {
namespace {

using Reasons = std::vector<std::string>;

double to_nearest(const farm::Farm& farm, const farm::Field& field, farm::PlaceKind kind) {
  double metres = std::numeric_limits<double>::infinity();
  for (const auto& place : farm.places)
    if (place.kind == kind) metres = std::min(metres, geo::distance(field.shape, place.shape).value());
  return metres;
}

/// Days on which the recipe would burn, the last one out.
struct Span {
  Date from, until;
};
Span burning_span(const Facts& facts, const farm::Field& field, const method::Recipe& recipe) {
  const farm::Farm& farm = facts.farm();
  Date from = std::max(facts.problem->as_of, field.harvest + 1);
  Date until = farm.season.date(farm.season.days);
  if (recipe.fall_back) until = std::min(until, next_on(recipe.fall_back->start_by, farm.season.first));
  for (const auto& step : recipe.steps)
    if (step.earliest && farm.book.operations.at(static_cast<std::size_t>(step.operation)).burning)
      from = std::max(from, next_on(*step.earliest, farm.season.first));
  return {from, until};
}

/// The first of them that the calendar leaves open; the first of all when none is.
Date first_open_date(const Facts& facts, const farm::Field& field, const method::Recipe& recipe) {
  const Span span = burning_span(facts, field, recipe);
  for (Date day = span.from; day < span.until; day = day + 1)
    if (calendar_open(facts, field, day)) return day;
  return span.from;
}

bool about_other_field(const std::string& row, const farm::Field& field, straw::Lay lay) {
  const bool even = year_of(field.harvest) % 2 == 0;
  return (row == "dry_days_spread" && lay == straw::Lay::windrow) ||
         (row == "dry_days_windrow" && lay != straw::Lay::windrow) || (row == "zones_even_years" && !even) ||
         (row == "zones_odd_years" && even);
}

/// Every row is there, fresh and checked; nothing stands in the file that is not known.
Reasons by_file(const burn::Jurisdiction& rules, const farm::Field& field, straw::Lay lay, Date day) {
  Reasons r;
  for (const burn::RowKind& kind : burn::row_kinds()) {
    if (kind.role == burn::Role::shown || about_other_field(kind.name, field, lay)) continue;
    int found = 0;
    for (const burn::Rule& row : rules.rules) {
      if (row.name != kind.name) continue;
      ++found;
      const bool fresh = row.as_of && day - *row.as_of <= burn::rule_lasts_days;
      if (!row.checked || !fresh) r.push_back("row not to be relied on: " + row.name);
    }
    if (found == 0) r.push_back("no row " + kind.name);
  }
  const std::vector<std::string> known = burn::known_rule_names();
  for (const burn::Rule& row : rules.rules)
    if (std::find(known.begin(), known.end(), row.name) == known.end())
      r.push_back("strange row " + row.name);
  return r;
}

Reasons by_dates(const Facts& facts, const farm::Field& field, Date day) {
  Reasons r;
  const burn::Limits& l = facts.burn_limits;
  const bool half = l.autumn_from.has_value() != l.autumn_to.has_value() ||
                    l.spring_from.has_value() != l.spring_to.has_value();
  if (half) r.push_back("half a season window");
  if (!calendar_open(facts, field, day)) r.push_back("no open day");
  if (l.early_before && (!l.early_closed_from || !l.early_closed_to))
    r.push_back("half a rule of early harvests");
  const auto& zones = year_of(field.harvest) % 2 == 0 ? l.zones_even_years : l.zones_odd_years;
  const auto& own = field.burn.zone;
  if (zones && (!own || std::find(zones->begin(), zones->end(), *own) == zones->end()))
    r.push_back("not a zone of this year");
  const double start = burn_hours(facts, day).from_min / 60.0;
  const double sunset = weather::sun_times(facts.farm().site, day).sunset_min / 60.0;
  if (l.end_hour && start > *l.end_hour) r.push_back("no hour to light in");
  if (l.before_sunset_h && sunset - start < *l.before_sunset_h) r.push_back("too near to sunset");
  return r;
}

/// One sample that reaches its threshold is enough; without one, or with none that does, it is barred.
bool sampled_enough(const burn::Limits& l, const farm::Field& field) {
  if (l.sample_shares.empty()) return true;
  return std::any_of(field.burn.samples.begin(), field.burn.samples.end(), [&](const burn::Sample& s) {
    const auto threshold = l.sample_shares.find(s.disease);
    return threshold != l.sample_shares.end() && s.share >= threshold->second - 1e-9;
  });
}

Reasons by_evidence(const burn::Limits& l, const farm::Field& field) {
  Reasons r;
  const farm::BurnFacts& b = field.burn;
  if (l.banned && !b.leave) r.push_back("banned without leave");
  if (l.disease_finding_needed.value_or(false) && field.disease_finding != true)
    r.push_back("no disease finding");
  if (!sampled_enough(l, field)) r.push_back("no sample that reaches a threshold");
  if (l.clean_years && b.clean_years.value_or(-1) < *l.clean_years) r.push_back("no clean record");
  if (l.least_people && b.people.value_or(-1) < *l.least_people) r.push_back("too few people");
  if (l.least_water_l && b.water_l.value_or(-1.0) < *l.least_water_l - 1e-9) r.push_back("too little water");
  if (l.firebreak_m && b.firebreak_m.value_or(-1.0) < *l.firebreak_m - 1e-9)
    r.push_back("too narrow a firebreak");
  return r;
}

Reasons by_land(const Facts& facts, const farm::Field& field) {
  Reasons r;
  const burn::Limits& l = facts.burn_limits;
  for (std::size_t k = 0; k < burn::setback_kinds.size(); ++k)
    if (l.setback_m[k] &&
        to_nearest(facts.farm(), field, static_cast<farm::PlaceKind>(k)) < *l.setback_m[k] - 1e-9)
      r.push_back(std::string{"inside a setback from "} + burn::setback_kinds[k]);
  const double area = field.area.value();
  const auto most = [&](std::optional<double> limit, const char* what) {
    if (limit && area > *limit + 1e-9) r.push_back(std::string{"over the area of "} + what);
  };
  most(l.burn_area_ha, "one burn");
  most(l.daily_area_ha, "a day");
  most(l.season_area_ha, "the season");
  if (l.season_share && area / facts.farm_area_ha > *l.season_share + 1e-9)
    r.push_back("over the season's share");
  return r;
}

/// Where lighting in the entered manner is not among those of the row.
Reasons by_manner(const burn::Jurisdiction& rules, const farm::Field& field) {
  if (!field.burn.ignition) return {};
  for (const burn::Rule& row : rules.rules) {
    if (row.name != "ignition" || row.value == "none") continue;
    const std::string listed = ", " + row.value + ",", wanted = ", " + *field.burn.ignition + ",";
    if (listed.find(wanted) == std::string::npos) return {"lighting in another manner"};
  }
  return {};
}

/// Minutes at work of the last but `crew` - 1 of those with the skill who stay longest that day; of an outfit
/// that brings its people the longest day of all.
int people_minutes(const Facts& facts, const method::Operation& op, int implement, int day) {
  const farm::Farm& farm = facts.farm();
  std::vector<int> skilled;
  int longest = 0;
  for (int p = 0; p < static_cast<int>(farm.operators.size()); ++p) {
    const auto& person = farm.operators[static_cast<std::size_t>(p)];
    const int own = static_cast<int>(std::lround(person.hours_per_day.value() * 60.0));
    longest = std::max(longest, std::min(own, facts.daylight_min[static_cast<std::size_t>(day)]));
    if (op.skill.empty() || std::count(person.skills.begin(), person.skills.end(), op.skill) > 0)
      skilled.push_back(minutes_at_work(facts, p, day));
  }
  if (brings_people(farm, implement)) return longest;
  std::sort(skilled.begin(), skilled.end(), [](int a, int b) { return a > b; });
  return static_cast<int>(skilled.size()) < op.crew ? 0 : skilled[static_cast<std::size_t>(op.crew - 1)];
}

/// The fastest that this implement, behind any tractor that can pull it, burns the field [ha/h]; 0: it
/// cannot.
double fastest(const Facts& facts, int field, int operation, int implement) {
  const farm::Farm& farm = facts.farm();
  const auto& op = farm.book.operations[static_cast<std::size_t>(operation)];
  double best = 0.0;
  for (int t = plan::none; t < static_cast<int>(farm.tractors.size()); ++t) {
    if (!outfit_fault(farm, field, op, t, implement).empty()) continue;
    const plan::Work w{.field = field, .operation = operation, .tractor = t, .implement = implement};
    best = std::max(best, pace_of(farm, w, 1.0).ha_per_hour);
  }
  return best;
}

/// Some open day has the hours for the whole field; or no day is open, or nothing is there to burn with.
bool one_day_is_enough(const Facts& facts, int index, const method::Recipe& recipe) {
  const farm::Farm& farm = facts.farm();
  const farm::Field& field = farm.fields[static_cast<std::size_t>(index)];
  const Span span = burning_span(facts, field, recipe);
  bool some = false;
  for (const auto& step : recipe.steps) {
    const auto& op = farm.book.operations[static_cast<std::size_t>(step.operation)];
    if (!op.burning) continue;
    for (int i = 0; i < static_cast<int>(farm.implements.size()); ++i) {
      const double rate = fastest(facts, index, step.operation, i);
      if (!(rate > 0.0)) continue;
      const std::int64_t need = ceil_minutes(field.area.value() / rate);
      for (Date day = span.from; day < span.until; day = day + 1) {
        if (!calendar_open(facts, field, day)) continue;
        const BurnHours hours = burn_hours(facts, day);
        const int home = facts.shift_start_min + people_minutes(facts, op, i, farm.season.day(day));
        const int left = std::min(hours.until_min, home) - std::max(hours.from_min, facts.shift_start_min);
        if (left >= need) return true;
        some = some || left > 0;
      }
    }
  }
  return !some;
}

}  // namespace

std::vector<std::string> barred_by_fire(const Facts& facts, int index, const method::Recipe& recipe) {
  if (!recipe.burns) return {};
  const farm::Farm& farm = facts.farm();
  const farm::Field& field = farm.fields[static_cast<std::size_t>(index)];
  if (!farm.burning) return {"no burn rules"};
  const Date day = first_open_date(facts, field, recipe);
  const straw::Lay lay = field.cut ? field.lay : recipe.harvest.lay;
  Reasons all;
  if (!one_day_is_enough(facts, index, recipe)) all.push_back("no day has the hours for the whole field");
  for (const Reasons& some :
       {by_file(*farm.burning, field, lay, day), by_dates(facts, field, day),
        by_evidence(facts.burn_limits, field), by_land(facts, field), by_manner(*farm.burning, field)})
    all.insert(all.end(), some.begin(), some.end());
  return all;
}

}  // namespace aftercut::audit
