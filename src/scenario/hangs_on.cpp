#include "aftercut/scenario/hangs_on.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/scenario/storm.hpp"

namespace aftercut::scenario {
namespace {

using plan::Trigger;

const method::Recipe& recipe_of(const dispatch::Table& t, int recipe) {
  return t.problem->farm.book.recipes[static_cast<std::size_t>(recipe)];
}

const machinery::Implement& implement_of(const dispatch::Table& t, const dispatch::Outfit& o) {
  return t.problem->farm.implements[static_cast<std::size_t>(o.implement)];
}

/// Only hired outfits whose coming is not sure can do it.
bool hangs_on_hire(const dispatch::Table& t, std::size_t field, int operation) {
  const auto& outfits = t.outfits[field][static_cast<std::size_t>(operation)];
  return !outfits.empty() && std::ranges::all_of(outfits, [&](const dispatch::Outfit& o) {
    return o.implement != plan::none && implement_of(t, o).hire && !implement_of(t, o).hire->comes.empty();
  });
}

Trigger baling_trigger(const dispatch::Table& t, std::size_t field, const method::Recipe& r) {
  const auto& key = r.steps[static_cast<std::size_t>(dispatch::key_step(t, r))];
  const auto& balers = t.outfits[field][static_cast<std::size_t>(key.operation)];
  const bool own = std::ranges::any_of(
      balers, [&](const dispatch::Outfit& o) { return !implement_of(t, o).hire.has_value(); });
  return own ? Trigger::dry_days : Trigger::hired_outfit;
}

/// Operations of the recipe's steps before spring that a trigger brings.
std::vector<int> brought_by(const dispatch::Table& t, std::size_t field, const method::Recipe& r,
                            Trigger trigger) {
  std::vector<int> found;
  for (const method::Step& s : r.steps) {
    const method::Operation& op = dispatch::operation_of(t, s);
    const bool rain = r.water && !r.water->from_canal && op.when.least_ponded_mm;
    const bool hired = !r.bales && s.season != method::Season::spring && hangs_on_hire(t, field, s.operation);
    if ((trigger == Trigger::canal_water && op.water == method::Water::fill) ||
        (trigger == Trigger::caught_rain && rain) || (trigger == Trigger::hired_outfit && hired))
      found.push_back(s.operation);
  }
  return found;
}

/// Operations before spring, fills left out.
std::vector<int> without_fills(const dispatch::Table& t, const method::Recipe& r) {
  std::vector<int> operations;
  for (const method::Step& s : r.steps)
    if (s.season != method::Season::spring && dispatch::operation_of(t, s).water != method::Water::fill)
      operations.push_back(s.operation);
  return operations;
}

/// "catch rain, roll: the boards hold rain alone, cage roll once 20 mm stand": the method of the book that is
/// the same but for its fill, and the steps that are left.
std::string on_rain_alone(const dispatch::Table& t, const method::Recipe& r) {
  std::string words = "the boards hold rain alone";
  for (const method::Recipe& other : t.problem->farm.book.recipes)
    if (other.water && !other.water->from_canal && without_fills(t, other) == without_fills(t, r))
      words = other.name + ": " + words;
  for (const method::Step& s : r.steps)
    if (const method::Operation& op = dispatch::operation_of(t, s); op.when.least_ponded_mm)
      words +=
          fmt::format(", {} once {} stand", op.name, depth_words(t.problem->farm, *op.when.least_ponded_mm));
  return words;
}

plan::HangsOn goes_on(Trigger trigger, std::string words, std::string instead) {
  return {.trigger = trigger, .words = std::move(words), .instead = std::move(instead)};
}

}  // namespace

std::vector<plan::HangsOn> hangs_on(const dispatch::Table& t, std::size_t field, int recipe) {
  std::vector<plan::HangsOn> all;
  if (recipe == plan::none) return all;
  const farm::Farm& farm = t.problem->farm;
  const method::Recipe& r = recipe_of(t, recipe);
  if (r.fall_back) {
    const method::Recipe& other = dispatch::recipe_named(t, r.fall_back->method);
    all.push_back({.trigger = r.burns ? Trigger::burn_call : baling_trigger(t, field, r),
                   .words = r.fall_back->trigger,
                   .method = static_cast<int>(&other - farm.book.recipes.data()),
                   .instead = other.name,
                   .rule_day = dispatch::day_of(t, r.fall_back->start_by)});
  }
  if (!brought_by(t, field, r, Trigger::canal_water).empty())
    all.push_back(goes_on(Trigger::canal_water, "the canal gives no water", on_rain_alone(t, r)));
  if (!brought_by(t, field, r, Trigger::caught_rain).empty())
    all.push_back(goes_on(Trigger::caught_rain, "too little rain stands behind the boards",
                          "not rolled: the straw stays on top until spring"));
  if (const auto ops = brought_by(t, field, r, Trigger::hired_outfit); !ops.empty()) {
    const method::Operation& op = farm.book.operations[static_cast<std::size_t>(ops.front())];
    all.push_back(goes_on(Trigger::hired_outfit, fmt::format("the outfit to {} has not come", op.name),
                          fmt::format("goes on without: {} is passed over", op.name)));
  }
  return all;
}

plan::Instead without(const dispatch::Table& t, std::size_t field, int recipe,
                      const std::set<Trigger>& triggers, int day) {
  plan::Instead instead{.from_day = day};
  for (const plan::HangsOn& h : hangs_on(t, field, recipe)) {
    if (!triggers.contains(h.trigger)) continue;
    if (h.method != plan::none) instead.method = h.method;
    const auto ops = brought_by(t, field, recipe_of(t, recipe), h.trigger);
    instead.without.insert(instead.without.end(), ops.begin(), ops.end());
  }
  return instead;
}

std::vector<int> implements_missed(const dispatch::Table& t, std::size_t field, int recipe,
                                   const std::set<Trigger>& triggers) {
  const method::Recipe& r = recipe_of(t, recipe);
  std::vector<int> missed;
  const bool balers = triggers.contains(Trigger::hired_outfit) || triggers.contains(Trigger::dry_days);
  if (!r.bales || !balers) return missed;
  const auto& key = r.steps[static_cast<std::size_t>(dispatch::key_step(t, r))];
  for (const auto& o : t.outfits[field][static_cast<std::size_t>(key.operation)])
    missed.push_back(o.implement);
  const auto& all = t.problem->farm.implements;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto is_lead = [&](int baler) {
      return all[i].hire && all[i].hire->with == all[static_cast<std::size_t>(baler)].id;
    };
    if (std::ranges::any_of(std::vector<int>(missed), is_lead)) missed.push_back(static_cast<int>(i));
  }
  return missed;
}

Deadline deadline_of(const dispatch::Table& t, std::size_t field, int recipe, const plan::Instead& instead) {
  const method::Recipe& r = recipe_of(t, instead.method == plan::none ? recipe : instead.method);
  Deadline out{.ready = true};
  for (const method::Step& s : r.steps) {
    const method::Operation& op = dispatch::operation_of(t, s);
    const bool never = std::ranges::count(instead.without, s.operation) > 0;
    if (never || s.season == method::Season::spring || s.only_if_windrow || s.only_if_rutted ||
        op.water == method::Water::boards_out)
      continue;
    if (!op.implement.empty()) out.ready = false;
    if (s.give_up) out.straw_over = std::max(out.straw_over.value_or(0), dispatch::day_of(t, *s.give_up));
    if (!s.give_up && !out.straw_over && r.water)
      out.straw_over = dispatch::drawdown_day(t, t.problem->farm.fields[field], r);
  }
  return out;
}

bool in_time(const Deadline& deadline, const plan::FieldRun& run) {
  const bool straw = run.steps_passed_over == 0 && run.straw_over_day != plan::none &&
                     (!deadline.straw_over || run.straw_over_day <= *deadline.straw_over);
  return straw &&
         (!deadline.ready || run.status == plan::Status::ready || run.status == plan::Status::nothing_due);
}

bool went_without(const dispatch::Table& t, std::size_t field, int recipe, Trigger trigger,
                  const plan::YearRun& run) {
  const method::Recipe& r = recipe_of(t, recipe);
  const int f = static_cast<int>(field);
  const auto ops = brought_by(t, field, r, trigger);
  if (ops.empty()) return run.fields[field].fell_back;
  if (run.fields[field].fell_back) return false;  // it went over before it came to that
  if (trigger == Trigger::canal_water)
    return std::ranges::none_of(run.water, [&](const plan::WaterIn& w) { return w.field == f; });
  return std::ranges::none_of(run.work, [&](const plan::Work& w) {
    return w.field == f && w.finishes && std::ranges::count(ops, w.operation) > 0;
  });
}

}  // namespace aftercut::scenario
