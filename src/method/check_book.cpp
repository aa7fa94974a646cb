#include <fmt/format.h>

#include <algorithm>

#include "read_parts.hpp"

namespace aftercut::method {
namespace {

const Recipe* find_recipe(const Book& book, const MethodId& id) {
  const auto at =
      std::find_if(book.recipes.begin(), book.recipes.end(), [&](const Recipe& r) { return r.id == id; });
  return at == book.recipes.end() ? nullptr : &*at;
}

/// Position of the first step with this water work; the number of steps when there is none.
std::size_t first_with(const Book& book, const Recipe& recipe, Water water) {
  std::size_t i = 0;
  while (i < recipe.steps.size() &&
         book.operations[static_cast<std::size_t>(recipe.steps[i].operation)].water != water)
    ++i;
  return i;
}

void check_order(const Recipe& recipe, const std::string& place, IssueLog& log) {
  const std::vector<Step>& steps = recipe.steps;
  if (steps.empty() || steps.back().season != Season::spring)
    log.add(place, "no spring step at the end", "steps that end with a ready seedbed",
            "leave \"spring\" out to use the book's spring chain, or list its steps");
  const bool rising = std::is_sorted(steps.begin(), steps.end(),
                                     [](const Step& a, const Step& b) { return a.season < b.season; });
  if (!rising)
    log.add(place + ".steps", "an earlier season after a later one", "autumn, then winter, then spring",
            "put the steps in order or change their season");
  if (!steps.empty() && steps.front().most_lag_days)
    log.add(place + ".steps[0].most_lag_days", "given", "nothing", "the first step has no step before it");
}

void check_water(const Book& book, const Recipe& recipe, const std::string& place, IssueLog& log) {
  const std::size_t none = recipe.steps.size();
  const std::size_t in = first_with(book, recipe, Water::boards_in);
  const std::size_t fill = first_with(book, recipe, Water::fill);
  const std::size_t out = first_with(book, recipe, Water::boards_out);
  if (!recipe.water) {
    if (in != none || fill != none || out != none)
      log.add(place + ".water", "nothing", "what water is wanted, as boards or filling stand among the steps",
              "add it");
    return;
  }
  if (in == none || out == none || in > out)
    log.add(place + ".steps", "water without boards", "a boards_in step and a later boards_out step",
            "add them");
  if (recipe.water->from_canal != (fill != none))
    log.add(place + ".water.from_canal", recipe.water->from_canal ? "true" : "false",
            "true exactly when a fill step is there", "mend one of the two");
  if (fill != none && (fill < in || fill > out))
    log.add(place + ".steps", "fill outside the boards", "fill after boards_in and before boards_out",
            "move it");
}

/// Bales must be off a field before water comes onto it.
void check_bales_off(const Book& book, const Recipe& recipe, const std::string& place, IssueLog& log) {
  if (!recipe.bales || !recipe.water) return;
  bool on_field = false;
  for (std::size_t i = 0; i < recipe.steps.size(); ++i) {
    const Operation& op = book.operations[static_cast<std::size_t>(recipe.steps[i].operation)];
    if (op.effect.bale_share > 0.0) on_field = true;
    if (op.implement == "bale_wagon") on_field = false;
    if (on_field && (op.water == Water::boards_in || op.water == Water::fill)) {
      log.add(fmt::format("{}.steps[{}]", place, i), "water while the bales lie on the field",
              "a step with a bale_wagon between baling and water", "haul the bales first");
      return;
    }
  }
}

void check_fall_back(const Book& book, const Recipe& recipe, const std::string& place, IssueLog& log) {
  if (!recipe.fall_back) {
    if (recipe.burns)
      log.add(place + ".fall_back", "nothing", "a fall-back, as burn days are never sure",
              "name a method and a date");
    return;
  }
  if (!recipe.burns && !recipe.bales)
    log.add(place + ".fall_back", recipe.fall_back->method.value, "none: nothing here is baled or burned",
            "take it out");
  const Recipe* other = find_recipe(book, recipe.fall_back->method);
  if (other == nullptr)
    log.add(place + ".fall_back.method", recipe.fall_back->method.value, "the id of a method of the book",
            "mend the id");
  else if (other->fall_back)
    log.add(place + ".fall_back.method", other->id.value, "a method without a fall-back of its own",
            "choose another method");
}

void check_lays(const Recipe& recipe, const std::string& place, IssueLog& log) {
  const bool chopped =
      std::find(recipe.takes.begin(), recipe.takes.end(), straw::Lay::chopped) != recipe.takes.end();
  if (recipe.bales && chopped)
    log.add(place + ".takes", "chopped", "windrow or spread", "chopped straw cannot be baled: take it out");
}

}  // namespace

void check_book(const Book& book, IssueLog& log) {
  for (const Recipe& recipe : book.recipes) {
    const std::string place = fmt::format("methods[{}]", recipe.id.value);
    check_order(recipe, place, log);
    check_water(book, recipe, place, log);
    check_bales_off(book, recipe, place, log);
    check_fall_back(book, recipe, place, log);
    check_lays(recipe, place, log);
  }
}

}  // namespace aftercut::method
