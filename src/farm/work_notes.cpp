// What the grower should know of the farm's people and machines before planning.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "aftercut/core/customary.hpp"
#include "aftercut/machinery/capacity.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

/// What the grower should know of skills that nobody has.
std::vector<std::string> skill_notes(const Farm& farm) {
  std::set<std::string> missing;
  for (const method::Operation& op : farm.book.operations) {
    const bool held =
        op.skill.empty() || std::any_of(farm.operators.begin(), farm.operators.end(), [&](const Operator& o) {
          return std::find(o.skills.begin(), o.skills.end(), op.skill) != o.skills.end();
        });
    if (!held) missing.insert(op.skill);
  }
  std::vector<std::string> notes;
  for (const std::string& s : missing)
    notes.push_back("No operator has the skill " + s + ": methods that ask for it need a hired outfit");
  return notes;
}

/// A machine whose area per day was entered, beside what its width and speed would give.
std::vector<std::string> rate_notes(const Farm& farm) {
  const bool acres = farm.units == UnitSystem::us;
  std::vector<std::string> notes;
  for (const machinery::Implement& i : farm.implements) {
    if (!i.entered_ha_per_day) continue;
    const double computed = machinery::field_capacity(i.speed, i.width, i.field_efficiency).value() *
                            farm.work_day.hours_for_area_per_day.value();
    const double unit = acres ? ha_per_acre : 1.0;
    notes.push_back(
        fmt::format("{}: {:.1f} {}/day as entered, {:.1f} from width, speed and efficiency ({:+.0f} %)",
                    i.name.empty() ? i.id.value : i.name, *i.entered_ha_per_day / unit, acres ? "acre" : "ha",
                    computed / unit, 100.0 * (*i.entered_ha_per_day / computed - 1.0)));
  }
  return notes;
}

}  // namespace

std::vector<std::string> work_notes(const Farm& farm) {
  std::vector<std::string> notes = skill_notes(farm);
  const std::vector<std::string> rates = rate_notes(farm);
  notes.insert(notes.end(), rates.begin(), rates.end());
  return notes;
}

}  // namespace aftercut::farm
