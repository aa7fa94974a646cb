#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "aftercut/dispatch/table.hpp"
#include "aftercut/geo/shape.hpp"

namespace aftercut::dispatch {
namespace {

using Reasons = std::vector<std::string>;

void check_lay(Reasons& why, const farm::Field& field, const method::Recipe& r) {
  if (field.cut && std::count(r.takes.begin(), r.takes.end(), field.lay) == 0)
    why.push_back(field.lay == straw::Lay::chopped ? "the straw is chopped already"
                                                   : "the straw was not laid for it");
  if (r.bales && field.straw_load.value() <= 0.0) why.push_back("there is no straw to bale");
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

void check_machines(Reasons& why, const Table& t, std::size_t field, const method::Recipe& r) {
  const farm::Farm& farm = t.problem->farm;
  const bool fallow = farm.fields[field].next.kind == farm::NextUseKind::fallow;
  for (const auto& step : r.steps) {
    if (fallow && step.season == method::Season::spring) continue;
    const auto o = static_cast<std::size_t>(step.operation);
    const method::Operation& op = farm.book.operations[o];
    if (op.water == method::Water::fill) continue;
    const auto& outfits = t.outfits[field][o];
    if (outfits.empty()) {
      const bool have = std::any_of(farm.implements.begin(), farm.implements.end(),
                                    [&](const auto& i) { return i.kind == op.implement; });
      why.push_back(have ? fmt::format("no tractor is strong enough to {}", op.name)
                         : fmt::format("no machine to {} ({})", op.name, op.implement));
      continue;
    }
    const auto skilled = std::count(t.has_skill[o].begin(), t.has_skill[o].end(), 1);
    const bool brings =
        std::any_of(outfits.begin(), outfits.end(), [](const Outfit& x) { return !x.own_crew; });
    if (!brings && skilled < op.crew)
      why.push_back(fmt::format("{} people who can {} are needed, {} there", op.crew, op.name, skilled));
  }
}

double nearest(const farm::Farm& farm, const farm::Field& field, farm::PlaceKind kind) {
  double least = std::numeric_limits<double>::infinity();
  for (const auto& p : farm.places)
    if (p.kind == kind) least = std::min(least, geo::distance(field.shape, p.shape).value());
  return least;
}

void check_burning(Reasons& why, const Table& t, const farm::Field& field, const method::Recipe& r) {
  if (!r.burns) return;
  const farm::Farm& farm = t.problem->farm;
  if (!farm.burning) {
    why.push_back("unknown: no burn rules are entered for this place");
    return;
  }
  const burn::Limits& l = t.burn_limits;
  if (l.disease_finding_needed.value_or(true) && !field.disease_finding.value_or(false))
    why.push_back(fmt::format("unknown: no written disease finding; ask {}", farm.burning->authority));
  const auto too_near = [&](farm::PlaceKind kind, const std::optional<double>& limit, const char* what) {
    if (!limit) return;
    const double m = nearest(farm, field, kind);
    if (m < *limit)
      why.push_back(fmt::format("blocked: {:.0f} m from {}, the rules ask for {:.0f} m", m, what, *limit));
  };
  too_near(farm::PlaceKind::home, l.setback_home_m, "a home");
  too_near(farm::PlaceKind::school, l.setback_school_m, "a school");
  too_near(farm::PlaceKind::road, l.setback_road_m, "a road");
  const double area = field.area.value();
  if (l.daily_area_ha && area > *l.daily_area_ha) why.push_back("blocked: larger than the area of one day");
  if (l.season_share && area > *l.season_share * t.farm_area_ha)
    why.push_back("blocked: larger than the season's share");
}

}  // namespace

std::vector<std::string> why_not(const Table& table, std::size_t field, std::size_t recipe) {
  const farm::Farm& farm = table.problem->farm;
  const farm::Field& f = farm.fields[field];
  const method::Recipe& r = farm.book.recipes[recipe];
  Reasons why;
  check_word(why, f, r);
  check_lay(why, f, r);
  check_water(why, farm, f, r);
  check_burning(why, table, f, r);
  check_machines(why, table, field, r);
  Reasons unique;
  for (const auto& w : why)
    if (std::find(unique.begin(), unique.end(), w) == unique.end()) unique.push_back(w);
  return unique;
}

}  // namespace aftercut::dispatch
