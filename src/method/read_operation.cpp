#include "aftercut/machinery/machines.hpp"
#include "read_parts.hpp"

namespace aftercut::method {
namespace {

constexpr Range share{0.0, 1.0};
constexpr Range depth_mm{0.0, 1000.0};

Condition read_condition(const ObjectReader& at) {
  at.only({"workable", "not_too_dry", "can_drive", "most_straw_moisture_percent", "least_ponded_mm",
           "most_ponded_mm", "most_rain_mm", "least_drying_mm"});
  Condition when;
  when.workable = at.flag("workable", when.workable);
  when.not_too_dry = at.flag("not_too_dry", when.not_too_dry);
  when.can_drive = at.flag("can_drive", when.can_drive);
  when.most_straw_moisture_percent = at.number("most_straw_moisture_percent", {0.0, 100.0});
  when.least_ponded_mm = at.number("least_ponded_mm", depth_mm);
  when.most_ponded_mm = at.number("most_ponded_mm", depth_mm);
  when.most_rain_mm = at.number("most_rain_mm", depth_mm);
  when.least_drying_mm = at.number("least_drying_mm", depth_mm);
  if (when.least_ponded_mm && when.most_ponded_mm && *when.least_ponded_mm > *when.most_ponded_mm)
    at.fault("least_ponded_mm", "at most most_ponded_mm", "put the lower depth here");
  if (when.not_too_dry && when.least_ponded_mm)
    at.fault("not_too_dry", "not with least_ponded_mm: ground under water is never too dry",
             "leave one of the two out");
  return when;
}

straw::Transfer read_transfer(const ObjectReader& at) {
  at.only({"flatten", "press", "bury", "bury_depth_cm", "resurface"});
  return {at.number("flatten", share).value_or(0.0), at.number("press", share).value_or(0.0),
          at.number("bury", share).value_or(0.0), at.number("resurface", share).value_or(0.0)};
}

Effect read_effect(const ObjectReader& at) {
  at.only({"straw", "bale_share", "bale_share_spread", "burn_share_flat", "burn_share_standing", "lay_after",
           "opened", "mends_ruts"});
  Effect effect;
  if (const auto straw = at.object("straw")) {
    effect.straw = read_transfer(*straw);
    effect.usual_depth_cm = straw->number("bury_depth_cm", {1.0, 60.0}).value_or(0.0);
  }
  effect.bale_share = at.number("bale_share", share).value_or(0.0);
  effect.bale_share_spread = at.number("bale_share_spread", share);
  if (effect.bale_share_spread && effect.bale_share <= 0.0)
    at.fault("bale_share_spread", "nothing without bale_share", "give bale_share too or take it out");
  effect.burn_share_flat = at.number("burn_share_flat", share).value_or(0.0);
  effect.burn_share_standing = at.number("burn_share_standing", share).value_or(0.0);
  if (at.has("lay_after"))
    effect.lay_after = static_cast<straw::Lay>(at.choice("lay_after", {"windrow", "spread", "chopped"}, 0));
  effect.opened = at.number("opened", share);
  effect.mends_ruts = at.flag("mends_ruts", false);
  return effect;
}

void check_operation(const ObjectReader& at, const Operation& op) {
  const bool by_hand = op.implement.empty();
  if (by_hand && op.tractor && op.water == Water::none)
    at.fault("implement", "the implement kind that the tractor pulls",
             "name it, or write \"tractor\": false");
  if (!by_hand && machinery::row_of(op.implement) == nullptr)
    at.fault("implement", "an implement kind of the machine table",
             "choose a kind that docs/methods.md lists");
  if (op.crew == 0 && op.water != Water::fill)
    at.fault("crew", "at least 1", "only filling needs nobody on the field");
  const bool fire = op.effect.burn_share_flat > 0.0 || op.effect.burn_share_standing > 0.0;
  if (fire != op.burning)
    at.fault("burning", "true exactly when a burn share is given", "mend one of the two");
}

}  // namespace

Operation read_operation(const ObjectReader& at) {
  at.only({"id", "name", "implement", "tractor", "crew", "skill", "labour_min_per_ha", "load", "when",
           "effect", "water", "tillage", "burning"});
  Operation op;
  op.id.value = at.required_text("id");
  op.name = at.text("name", op.id.value);
  op.implement = at.text("implement");
  op.tractor = at.flag("tractor", true);
  op.crew = at.whole("crew", {0.0, 4.0}).value_or(1);
  op.skill = at.text("skill");
  op.labour_min_per_ha = at.number("labour_min_per_ha", {0.0, 10000.0}).value_or(0.0);
  op.load = static_cast<soil::LoadClass>(at.choice("load", {"light", "heavy", "tracked"}, 0));
  if (const auto when = at.object("when")) op.when = read_condition(*when);
  if (const auto effect = at.object("effect")) op.effect = read_effect(*effect);
  op.water = static_cast<Water>(at.choice("water", {"none", "boards_in", "fill", "boards_out"}, 0));
  op.tillage = at.flag("tillage", false);
  op.burning = at.flag("burning", false);
  check_operation(at, op);
  return op;
}

}  // namespace aftercut::method
