#include "aftercut/farm/power.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/customary.hpp"
#include "aftercut/core/require.hpp"

namespace aftercut::farm {
namespace {

constexpr double fine_from_clay_percent = 35.0;  // Source: assumed

const char* words_of(machinery::Ground ground) {
  switch (ground) {
    case machinery::Ground::firm:
      return "firm";
    case machinery::Ground::tilled:
      return "tilled";
    case machinery::Ground::soft:
      return "soft";
  }
  fail("unknown ground");
}

const char* words_of(machinery::SoilGroup group) {
  switch (group) {
    case machinery::SoilGroup::fine:
      return "fine";
    case machinery::SoilGroup::medium:
      return "medium";
    case machinery::SoilGroup::coarse:
      return "coarse";
  }
  fail("unknown soil group");
}

bool needs_own_tractor(const Farm& farm, const Job& job) {
  const auto& hire = farm.implements[job.implement].hire;
  return farm.book.operations[job.operation].tractor && !(hire && hire->brings_tractor);
}

/// The tractor whose power comes nearest to what is asked of it; none: the farm has none.
const machinery::Tractor* nearest(const Farm& farm, const Job& job) {
  const machinery::Tractor* best = nullptr;
  double share = 0.0;
  for (const auto& t : farm.tractors) {
    const double asked = power_asked(farm, job, t.drive).asked.value();
    const double mine = asked > 0.0 ? t.pto_power.value() / asked : 1e9;
    if (best == nullptr || mine > share) best = &t, share = mine;
  }
  return best;
}

}  // namespace

machinery::Ground ground_of(const method::Operation& op) {
  if (op.when.least_ponded_mm) return machinery::Ground::soft;
  return op.tillage ? machinery::Ground::tilled : machinery::Ground::firm;
}

machinery::SoilGroup group_of(const soil::Profile& soil) {
  return soil.input.clay_percent >= fine_from_clay_percent ? machinery::SoilGroup::fine
                                                           : machinery::SoilGroup::medium;
}

KgPerHa loose_straw_of(const Field& field) {
  return (1.0 - straw::stubble_share(field.cut_height_cm).value()) * field.straw_load;
}

PowerAsked power_asked(const Farm& farm, const Job& job, machinery::Drive drive) {
  const machinery::Implement& i = farm.implements[job.implement];
  const Field& field = farm.fields[job.field];
  const KiloWatt asked = machinery::power_needed(i, drive, ground_of(farm.book.operations[job.operation]),
                                                 group_of(farm.soils[field.soil]), loose_straw_of(field));
  const double band = machinery::row_of(i.kind)->band_percent / 100.0;
  return {asked, (1.0 - band) * asked, (1.0 + band) * asked};
}

bool some_tractor_pulls(const Farm& farm, const Job& job) {
  if (!needs_own_tractor(farm, job)) return true;
  return std::any_of(farm.tractors.begin(), farm.tractors.end(), [&](const machinery::Tractor& t) {
    return power_asked(farm, job, t.drive).asked <= t.pto_power;
  });
}

std::string power_words(const Farm& farm, const Job& job) {
  const machinery::Implement& i = farm.implements[job.implement];
  const machinery::Tractor* tractor = nearest(farm, job);
  if (tractor == nullptr) return fmt::format("{}: the farm has no tractor", i.id.value);
  const bool us = farm.units == UnitSystem::us;
  const PowerAsked p = power_asked(farm, job, tractor->drive);
  const double power = us ? 1.0 / kw_per_hp : 1.0;
  return fmt::format(
      "{} {:.1f} {} at {:.1f} {} asks {:.0f} {} at the PTO on {} {} soil, band {:.0f} to {:.0f}; strongest "
      "tractor {:.0f} {}",
      i.id.value, us ? i.width.value() / m_per_ft : i.width.value(), us ? "ft" : "m",
      us ? i.speed.value() / km_per_mile : i.speed.value(), us ? "mph" : "km/h", p.asked.value() * power,
      us ? "hp" : "kW", words_of(ground_of(farm.book.operations[job.operation])),
      words_of(group_of(farm.soils[farm.fields[job.field].soil])), p.low.value() * power,
      p.high.value() * power, tractor->pto_power.value() * power, us ? "hp" : "kW");
}

std::vector<std::string> power_notes(const Farm& farm) {
  std::vector<std::string> notes;
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    std::optional<Job> least;
    double least_asked = 0.0;
    bool pulled = false;
    for (std::size_t o = 0; o < farm.book.operations.size() && !pulled; ++o) {
      if (farm.book.operations[o].implement != farm.implements[i].kind) continue;
      for (std::size_t f = 0; f < farm.fields.size() && !pulled; ++f) {
        const Job job{i, o, f};
        pulled = some_tractor_pulls(farm, job);
        if (pulled || farm.tractors.empty()) continue;
        const double asked = power_asked(farm, job, nearest(farm, job)->drive).asked.value();
        if (!least || asked < least_asked) least = job, least_asked = asked;
      }
    }
    if (!pulled && least) notes.push_back("No tractor pulls " + power_words(farm, *least));
  }
  return notes;
}

}  // namespace aftercut::farm
