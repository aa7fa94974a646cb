#include <algorithm>

#include "burning.hpp"
#include "so_far.hpp"

namespace aftercut::audit {
namespace {

using Reasons = std::vector<std::string>;

Reasons by_word(const farm::Field& field, const method::Recipe& recipe) {
  Reasons r;
  for (const auto& n : field.not_allowed)
    if (n.method == recipe.id) r.push_back("not wanted here: " + n.why);
  if (field.locked && *field.locked != recipe.id)
    r.push_back("the field is locked to " + field.locked->value);
  return r;
}

/// Work that is still to come on the field.
struct Ahead {
  std::vector<method::Step> steps;
  bool from_the_first = true, bales = false, burns = false;
};
Ahead ahead_of(const Facts& facts, int field, int recipe) {
  Ahead a{.steps = steps_ahead(facts, field, recipe)};
  a.from_the_first = taken_up(facts, field, recipe).standing.step == 0;
  for (const auto& step : a.steps) {
    const auto& op = facts.farm().book.operations.at(static_cast<std::size_t>(step.operation));
    a.bales = a.bales || op.effect.bale_share > 0.0;
    a.burns = a.burns || op.burning;
  }
  return a;
}

Reasons by_straw(const farm::Field& field, const method::Recipe& recipe, straw::Lay lay, const Ahead& ahead) {
  Reasons r;
  if (field.cut && ahead.from_the_first &&
      std::find(recipe.takes.begin(), recipe.takes.end(), lay) == recipe.takes.end())
    r.push_back("the straw was laid otherwise");
  if (ahead.bales && !(field.straw_load.value() > 0.0)) r.push_back("nothing to bale");
  const bool rutted = field.ground.state == farm::GroundState::rutted;
  if (rutted && (ahead.burns || ahead.bales)) r.push_back("ruts");
  return r;
}

Reasons by_water(const farm::Farm& farm, const farm::Field& field, const method::Recipe& recipe) {
  Reasons r;
  const bool canal = recipe.water && recipe.water->from_canal;
  if (field.lease && !canal) r.push_back("the lease asks for canal water");
  if (recipe.water && !field.holds_water) r.push_back("the field holds no water");
  if (canal && !farm.supply) r.push_back("no supply");
  if (canal && !field.can_flood) r.push_back("the canal does not reach it");
  return r;
}

/// Whoever could bale the field takes the bales off as well.
bool bales_go_with_the_baler(const farm::Farm& farm, int field, const method::Recipe& recipe) {
  bool bales = false;
  for (const auto& step : recipe.steps) {
    const auto& op = farm.book.operations.at(static_cast<std::size_t>(step.operation));
    if (!(op.effect.bale_share > 0.0)) continue;
    bales = true;
    for (int i = 0; i < static_cast<int>(farm.implements.size()); ++i) {
      const auto& hire = farm.implements[static_cast<std::size_t>(i)].hire;
      bool could = false;
      for (int t = plan::none; t < static_cast<int>(farm.tractors.size()); ++t)
        could = could || outfit_fault(farm, field, op, t, i).empty();
      if (could && !(hire && hire->bales_off_by)) return false;
    }
  }
  return bales;
}

Reasons by_outfit(const Facts& facts, int index, const method::Recipe& recipe, const Ahead& ahead) {
  Reasons r;
  const farm::Farm& farm = facts.farm();
  const bool fallow = farm.fields[static_cast<std::size_t>(index)].next.kind == farm::NextUseKind::fallow;
  for (const auto& step : ahead.steps) {
    const auto& op = farm.book.operations.at(static_cast<std::size_t>(step.operation));
    if (op.water == method::Water::fill || (fallow && step.season == method::Season::spring)) continue;
    if (op.implement == "bale_wagon" && bales_go_with_the_baler(farm, index, recipe)) continue;
    const std::string fault = nobody_can(farm, index, op);
    if (!fault.empty()) r.push_back(fault);
  }
  return r;
}

}  // namespace

std::vector<std::string> barred(const Facts& facts, int field, int recipe) {
  const farm::Farm& farm = facts.farm();
  const auto& f = farm.fields.at(static_cast<std::size_t>(field));
  const auto& r = farm.book.recipes.at(static_cast<std::size_t>(recipe));
  const Ahead ahead = ahead_of(facts, field, recipe);
  const journal::FieldState* so_far = state_of(facts, field);
  const straw::Lay lay = so_far != nullptr ? so_far->now.lay : f.lay;
  Reasons all;
  for (const Reasons& some : {by_word(f, r), by_straw(f, r, lay, ahead), by_water(farm, f, r),
                              ahead.burns ? barred_by_fire(facts, field, r) : Reasons{},
                              by_outfit(facts, field, r, ahead), barred_by_work(facts, field, recipe)})
    all.insert(all.end(), some.begin(), some.end());
  return all;
}

}  // namespace aftercut::audit
