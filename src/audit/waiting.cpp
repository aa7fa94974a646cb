// The crew that stands by for a burn call that does not come.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/core/numbers.hpp"
#include "burning.hpp"
#include "money.hpp"
#include "outfits.hpp"

namespace aftercut::audit {
namespace {

bool holds_all(const Findings& f) { return f.audit.ok(); }

/// A torch or its like that the farm owns and that is there, needs no tractor and is not in use: the pace at
/// which it burns the field; 0 when there is none.
double pace_of_idle(const Facts& facts, const plan::Work& wanted, const std::vector<plan::Work>& work) {
  const farm::Farm& farm = facts.farm();
  const auto& op = farm.book.operations[static_cast<std::size_t>(wanted.operation)];
  double best = 0.0;
  for (int i = 0; i < static_cast<int>(farm.implements.size()); ++i) {
    const auto& implement = farm.implements[static_cast<std::size_t>(i)];
    const bool used =
        std::any_of(work.begin(), work.end(), [i](const plan::Work& w) { return w.implement == i; });
    plan::Work w = wanted;
    w.implement = i;
    if (implement.hire || used || !implement.away.empty() ||
        !outfit_fault(farm, w.field, op, plan::none, i).empty())
      continue;
    best = std::max(best, pace_of(farm, w, 1.0).ha_per_hour);
  }
  return best;
}

/// Enough people with the skill had no work at all, and all who are there work long enough to finish a burn.
bool crew_was_idle(const Facts& facts, const plan::Work& wanted, const std::vector<plan::Work>& work,
                   int end_min) {
  const farm::Farm& farm = facts.farm();
  const auto& op = farm.book.operations[static_cast<std::size_t>(wanted.operation)];
  int idle = 0;
  for (int p = 0; p < static_cast<int>(farm.operators.size()); ++p) {
    const int minutes = minutes_at_work(facts, p, wanted.day);
    const auto& skills = farm.operators[static_cast<std::size_t>(p)].skills;
    const bool skilled =
        op.skill.empty() || std::find(skills.begin(), skills.end(), op.skill) != skills.end();
    if (minutes == 0 || !skilled) continue;
    if (facts.shift_start_min + minutes < end_min) return false;
    const bool busy = std::any_of(work.begin(), work.end(), [&](const plan::Work& w) {
      return std::find(w.crew.begin(), w.crew.end(), p) != w.crew.end();
    });
    idle += busy ? 0 : 1;
  }
  return idle >= op.crew;
}

/// The field was open to a burn but for the call: step, dates, conditions, calendar, areas, drying, weather.
bool wanted_to_burn(const Facts& facts, const Place& place, const FieldReplay& field, const BurnDay& day) {
  const farm::Farm& farm = facts.farm();
  const method::Operation* op = field.living ? operation_of(farm, field.standing) : nullptr;
  if (op == nullptr || !op->burning || op->tractor) return false;
  plan::Work burn{
      .field = place.field, .operation = step_of(farm, field.standing)->operation, .day = place.day};
  burn.area_ha = farm.fields[static_cast<std::size_t>(place.field)].area.value();
  burn.finishes = true;
  const BurnHours hours = burn_hours(facts, farm.season.date(place.day));
  burn.start_min = hours.from_min;
  burn.end_min = hours.until_min;
  BurnDay if_called = day;
  if_called.called = true;
  return holds_all(check_dates(facts, place, field.standing)) &&
         holds_all(check_conditions(farm, place, *op, field.mask)) &&
         holds_all(check_ruts(place, *op, field.life.rutted())) &&
         holds_all(check_burn(facts, place, field, burn, if_called));
}

}  // namespace

FieldReplay waited(const Facts& facts, FieldReplay field, const plan::Work& w) {
  field.run.cost = field.run.cost + cost_of_stretch(facts, w, 0.0, 0.0);
  field.run.labour_min += (w.end_min - w.start_min) * static_cast<int>(people_of(w).size());
  return field;
}

Findings check_waits_of_day(const Facts& facts, int year, int day, const std::vector<FieldReplay>& fields,
                            const std::vector<plan::Work>& work, const BurnDay& burn_day) {
  Findings f;
  const auto waits = std::count_if(work.begin(), work.end(), [](const plan::Work& w) { return w.stands_by; });
  f.expect(waits <= 1, "waited twice", Place{&facts.farm(), year, day, -1, ""}, [&] {
    return Texts{fmt::format("{} crews waited", waits), "one morning call a day"};
  });
  if (burn_day.called || waits > 0) return f;
  for (int k = 0; k < static_cast<int>(fields.size()); ++k) {
    const FieldReplay& field = fields[static_cast<std::size_t>(k)];
    const Place place{&facts.farm(), year, day, k, ""};
    if (!wanted_to_burn(facts, place, field, burn_day)) continue;
    const plan::Work wanted{
        .field = k, .operation = step_of(facts.farm(), field.standing)->operation, .day = day};
    const double pace = pace_of_idle(facts, wanted, work);
    if (!(pace > 0.0)) continue;
    const double area = facts.farm().fields[static_cast<std::size_t>(k)].area.value();
    const BurnHours hours = burn_hours(facts, facts.farm().season.date(day));
    const std::int64_t end = std::max(facts.shift_start_min, hours.from_min) + ceil_minutes(area / pace);
    if (end > hours.until_min) continue;
    f.expect(!crew_was_idle(facts, wanted, work, static_cast<int>(end)), "wait left out", place, [] {
      return Texts{"an idle crew and a field open to a burn", "half a day lost to waiting for the call"};
    });
  }
  return f;
}

}  // namespace aftercut::audit
