#include <algorithm>

#include "read_parts.hpp"

namespace aftercut::method {
namespace {

const std::vector<std::string> lays{"windrow", "spread", "chopped"};
constexpr Range days{0.0, 365.0};

std::vector<PassRow> read_passes(const ObjectReader& step) {
  std::vector<PassRow> rows;
  for (const ObjectReader& at : step.objects("passes")) {
    at.only({"above_kg_per_ha", "passes"});
    PassRow row;
    row.above_kg_per_ha = at.number("above_kg_per_ha", {0.0, 100000.0}).value_or(0.0);
    row.passes = at.whole("passes", {1.0, 10.0}).value_or(1);
    if (!rows.empty() && row.above_kg_per_ha <= rows.back().above_kg_per_ha)
      at.fault("above_kg_per_ha", "more than in the row before", "put the rows in rising order");
    if (!rows.empty() && row.passes < rows.back().passes)
      at.fault("passes", "no fewer than in the row before", "more straw never asks for fewer passes");
    rows.push_back(row);
  }
  return rows;
}

Step read_step(const ObjectReader& at, const std::vector<Operation>& operations, Season usual) {
  at.only({"operation", "season", "earliest", "give_up", "least_lag_days", "most_lag_days", "passes",
           "only_if_windrow", "only_if_rutted"});
  Step step;
  const std::string id = at.required_text("operation");
  const auto op = std::find_if(operations.begin(), operations.end(),
                               [&](const Operation& o) { return o.id.value == id; });
  if (op == operations.end()) {
    if (!id.empty())
      at.fault("operation", "the id of an operation of the book", "mend the id or add the operation");
  } else {
    step.operation = static_cast<int>(op - operations.begin());
  }
  step.season = static_cast<Season>(
      at.choice("season", {"autumn", "winter", "spring"}, static_cast<std::size_t>(usual)));
  step.earliest = at.month_day("earliest");
  step.give_up = at.month_day("give_up");
  step.least_lag_days = at.whole("least_lag_days", days).value_or(0);
  step.most_lag_days = at.whole("most_lag_days", days);
  step.passes = read_passes(at);
  step.only_if_windrow = at.flag("only_if_windrow", false);
  step.only_if_rutted = at.flag("only_if_rutted", false);
  if (step.most_lag_days && *step.most_lag_days < step.least_lag_days)
    at.fault("most_lag_days", "at least least_lag_days", "raise it");
  return step;
}

HarvestSetting read_harvest(const ObjectReader& at) {
  at.only({"lay", "cut_height_cm"});
  HarvestSetting harvest;
  harvest.lay = static_cast<straw::Lay>(at.choice("lay", lays, static_cast<std::size_t>(harvest.lay)));
  harvest.cut_height_cm = at.number("cut_height_cm", {2.0, 90.0}).value_or(harvest.cut_height_cm);
  return harvest;
}

WaterWanted read_water(const ObjectReader& at) {
  at.only({"from_canal", "target_mm", "board_mm", "keep_up", "draw_down"});
  WaterWanted water;
  water.from_canal = at.flag("from_canal", false);
  water.target_mm = at.number("target_mm", {0.0, 1000.0}).value_or(0.0);
  water.board_mm = at.number("board_mm", {0.0, 1000.0}).value_or(0.0);
  water.keep_up = at.flag("keep_up", false);
  water.draw_down = at.month_day("draw_down").value_or(water.draw_down);
  if (water.board_mm <= 0.0) at.fault("board_mm", "more than 0", "say how high the boards stand");
  if (water.target_mm > water.board_mm)
    at.fault("target_mm", "at most board_mm", "lower it or raise the boards");
  if (water.from_canal && water.target_mm <= 0.0) at.fault("target_mm", "more than 0", "say how deep");
  if (water.keep_up && !water.from_canal)
    at.fault("keep_up", "false without canal water", "mend one of the two");
  return water;
}

FallBack read_fall_back(const ObjectReader& at) {
  at.only({"trigger", "method", "start_by"});
  FallBack back;
  back.trigger = at.required_text("trigger");
  back.method.value = at.required_text("method");
  if (!at.has("start_by")) at.fault("start_by", "a month and day such as \"11-01\"", "add it");
  back.start_by = at.month_day("start_by").value_or(back.start_by);
  return back;
}

void read_takes(const ObjectReader& at, Recipe& recipe) {
  for (const std::size_t i : at.choices("takes", lays)) recipe.takes.push_back(static_cast<straw::Lay>(i));
  const bool own =
      std::find(recipe.takes.begin(), recipe.takes.end(), recipe.harvest.lay) != recipe.takes.end();
  if (!own && !recipe.takes.empty())
    at.fault("takes", "the lay of \"harvest\" among them", "add it, or change the harvest setting");
}

}  // namespace

std::vector<Step> read_steps(const std::vector<ObjectReader>& list, const std::vector<Operation>& operations,
                             Season usual) {
  std::vector<Step> steps;
  for (const ObjectReader& at : list) steps.push_back(read_step(at, operations, usual));
  return steps;
}

Recipe read_recipe(const ObjectReader& at, const std::vector<Operation>& operations,
                   const std::vector<Step>& chain) {
  at.only({"id", "name", "summary", "harvest", "takes", "steps", "spring", "water", "fall_back"});
  Recipe recipe;
  recipe.id.value = at.required_text("id");
  recipe.name = at.text("name", recipe.id.value);
  recipe.summary = at.required_text("summary");
  if (const auto harvest = at.object("harvest")) recipe.harvest = read_harvest(*harvest);
  read_takes(at, recipe);
  recipe.steps = read_steps(at.objects("steps"), operations, Season::autumn);
  const std::vector<Step> spring =
      at.has("spring") ? read_steps(at.objects("spring"), operations, Season::spring) : chain;
  recipe.steps.insert(recipe.steps.end(), spring.begin(), spring.end());
  if (const auto water = at.object("water")) recipe.water = read_water(*water);
  if (const auto back = at.object("fall_back")) recipe.fall_back = read_fall_back(*back);
  return recipe;
}

}  // namespace aftercut::method
