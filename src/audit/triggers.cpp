#include "triggers.hpp"

#include <algorithm>
#include <cmath>

#include "steps.hpp"

namespace aftercut::audit {
namespace {

constexpr int weeks_around = 2;  // in which a storm of that part of the season begins

const method::Recipe& book_recipe(const farm::Farm& farm, int recipe) {
  return farm.book.recipes[static_cast<std::size_t>(recipe)];
}
const method::Operation& book_operation(const farm::Farm& farm, int operation) {
  return farm.book.operations[static_cast<std::size_t>(operation)];
}

/// Implements that can do the operation on the field, behind some tractor.
std::vector<int> able(const farm::Farm& farm, int field, const method::Operation& op) {
  std::vector<int> list;
  if (op.implement.empty()) return list;
  for (int i = 0; i < static_cast<int>(farm.implements.size()); ++i)
    for (int t = plan::none; t < static_cast<int>(farm.tractors.size()); ++t)
      if (outfit_fault(farm, field, op, t, i).empty()) {
        list.push_back(i);
        break;
      }
  return list;
}

const std::optional<machinery::Hire>& hire_terms(const farm::Farm& farm, int implement) {
  return farm.implements[static_cast<std::size_t>(implement)].hire;
}

OwnTrigger of_fall_back(const farm::Farm& farm, int field, const method::Recipe& r) {
  OwnTrigger own;
  const auto key = std::find_if(r.steps.begin(), r.steps.end(), [&](const method::Step& s) {
    const auto& op = book_operation(farm, s.operation);
    return op.burning || op.effect.bale_share > 0.0;
  });
  for (int k = 0; k < static_cast<int>(farm.book.recipes.size()); ++k)
    if (book_recipe(farm, k).id == r.fall_back->method) own.method = k;
  own.rule_day = farm.season.day(r.fall_back->start_by);
  if (r.burns) {
    own.spring = key->season != method::Season::autumn;
    return own;
  }
  own.implements = able(farm, field, book_operation(farm, key->operation));
  const bool all_hired = std::all_of(own.implements.begin(), own.implements.end(),
                                     [&](int i) { return hire_terms(farm, i).has_value(); });
  own.trigger = all_hired ? plan::Trigger::hired_outfit : plan::Trigger::dry_days;
  const std::vector<int> balers = own.implements;
  for (int i = 0; i < static_cast<int>(farm.implements.size()); ++i)  // an outfit's rake stays away with it
    for (const int baler : balers)
      if (const auto& hire = hire_terms(farm, i);
          hire && hire->with && *hire->with == farm.implements[static_cast<std::size_t>(baler)].id)
        own.implements.push_back(i);
  return own;
}

bool only_uncertain_outfits(const farm::Farm& farm, int field, const method::Operation& op) {
  const auto list = able(farm, field, op);
  return !list.empty() && std::all_of(list.begin(), list.end(), [&](int i) {
    return hire_terms(farm, i) && !hire_terms(farm, i)->comes.empty();
  });
}

double rain_from(const weather::Year& year, int day, int days) {
  double mm = 0.0;
  for (int d = day; d < day + days && d < static_cast<int>(year.days.size()); ++d)
    mm += year.days[static_cast<std::size_t>(d)].rain_mm;
  return mm;
}

}  // namespace

std::vector<OwnTrigger> triggers_of(const farm::Farm& farm, int field, int recipe) {
  std::vector<OwnTrigger> all;
  if (recipe == plan::none) return all;
  const method::Recipe& r = book_recipe(farm, recipe);
  if (r.fall_back) all.push_back(of_fall_back(farm, field, r));
  OwnTrigger canal{.trigger = plan::Trigger::canal_water}, rain{.trigger = plan::Trigger::caught_rain},
      outfit{.trigger = plan::Trigger::hired_outfit};
  for (const method::Step& s : r.steps) {
    const method::Operation& op = book_operation(farm, s.operation);
    if (op.water == method::Water::fill) canal.brings.push_back(s.operation);
    if (r.water && !r.water->from_canal && op.when.least_ponded_mm) rain.brings.push_back(s.operation);
    if (!r.bales && s.season != method::Season::spring && only_uncertain_outfits(farm, field, op))
      outfit.brings.push_back(s.operation);
  }
  for (OwnTrigger* t : {&canal, &rain, &outfit})
    if (!t->brings.empty()) all.push_back(*t);
  return all;
}

Owed owed_by(const farm::Farm& farm, int field, int recipe, const plan::Instead& instead) {
  const int active = instead.method == plan::none ? recipe : instead.method;
  const method::Recipe& r = book_recipe(farm, active);
  Owed owed{.seedbed = true};
  for (const method::Step& s : r.steps) {
    const method::Operation& op = book_operation(farm, s.operation);
    const bool dropped =
        std::find(instead.without.begin(), instead.without.end(), s.operation) != instead.without.end();
    const bool counts = s.season != method::Season::spring && !s.only_if_windrow && !s.only_if_rutted &&
                        op.water != method::Water::boards_out && !dropped;
    if (!counts) continue;
    if (!op.implement.empty()) owed.seedbed = false;
    if (s.give_up)
      owed.over_by = std::max(owed.over_by, farm.season.day(*s.give_up));
    else if (owed.over_by == plan::none && r.water)
      owed.over_by = boards_out_from(farm, field, active);
  }
  return owed;
}

bool missed_in(const OwnTrigger& trigger, int field, const plan::YearRun& run, const plan::FieldRun& lived) {
  if (trigger.brings.empty()) return lived.fell_back;
  if (lived.fell_back) return false;
  if (trigger.trigger == plan::Trigger::canal_water)
    return std::none_of(run.water.begin(), run.water.end(),
                        [&](const plan::WaterIn& w) { return w.field == field; });
  return std::none_of(run.work.begin(), run.work.end(), [&](const plan::Work& w) {
    return w.field == field && w.finishes &&
           std::find(trigger.brings.begin(), trigger.brings.end(), w.operation) != trigger.brings.end();
  });
}

plan::Storm storm_on(const weather::Years& record, const farm::StormSettings& settings, int day) {
  std::vector<plan::Storm> list;
  for (const weather::Year& year : record.years) {
    const int last = static_cast<int>(year.days.size()) - settings.days;
    plan::Storm best{year.year, std::min(std::max(day, 0), last), settings.days, 0.0};
    for (int d = day - 7 * weeks_around; d < day + 7 * weeks_around; ++d) {
      if (d < 0 || d > last) continue;
      const double mm = rain_from(year, d, settings.days);
      if (mm > best.rain_mm) best = {year.year, d, settings.days, mm};
    }
    list.push_back(best);
  }
  std::sort(list.begin(), list.end(), [](const plan::Storm& a, const plan::Storm& b) {
    return a.rain_mm != b.rain_mm ? a.rain_mm > b.rain_mm : a.year > b.year;
  });
  // So many years have a wetter one.
  const auto wetter =
      static_cast<std::size_t>(std::floor(static_cast<double>(list.size()) / settings.one_year_in + 1e-9));
  return list[std::min(wetter, list.size() - 1)];
}

weather::Year stormy(weather::Year year, const weather::Years& record, const plan::Storm& storm, int day) {
  if (rain_from(year, day, storm.days) >= storm.rain_mm) return year;
  for (const weather::Year& other : record.years) {
    if (other.year != storm.year) continue;
    for (int k = 0; k < storm.days && day + k < static_cast<int>(year.days.size()); ++k) {
      year.days[static_cast<std::size_t>(day + k)] = other.days[static_cast<std::size_t>(storm.day + k)];
      year.et0_mm[static_cast<std::size_t>(day + k)] = other.et0_mm[static_cast<std::size_t>(storm.day + k)];
    }
  }
  return year;
}

}  // namespace aftercut::audit
