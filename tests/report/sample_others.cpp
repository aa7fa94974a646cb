// What the invented farm's methods hang on, its dates to keep and its money by month.

#include "sample_farm.hpp"

namespace aftercut::test {
namespace {

int index_of(const method::Book& book, const char* id) {
  for (std::size_t r = 0; r < book.recipes.size(); ++r)
    if (book.recipes[r].id.value == id) return static_cast<int>(r);
  fail("no such recipe");
}

plan::FallBackTest test_of(std::vector<plan::Trigger> kinds, const char* words, std::vector<int> fields,
                           std::optional<int> start_by) {
  return {.triggers = std::move(kinds),
          .words = words,
          .fields = std::move(fields),
          .start_by = start_by,
          .day = start_by.value_or(20),
          .storm = {1998, 44, 3, 37.5},
          .chance = start_by ? 12.0 / 15.0 : 3.0 / 15.0,
          .chance_ready = 0.6,
          .rule_day = {},
          .chance_by_rule = 0.4};
}

void add_hangs_on(const farm::Farm& farm, plan::Plan& p) {
  const int chop = index_of(farm.book, "chop_disk");
  p.fields[0].chosen.hangs_on = {{plan::Trigger::burn_call, "not burned", chop, "chop, disk", 70, 0.4, 0}};
  p.fields[1].chosen.hangs_on = {
      {plan::Trigger::hired_outfit, "baler has not come or straw stays wet", chop, "chop, disk", 61, 0.2, 1}};
  p.fields[3].chosen.hangs_on = {{plan::Trigger::canal_water,
                                  "the canal gives no water",
                                  plan::none,
                                  "the boards hold rain alone, cage roll once 20 mm stand",
                                  {},
                                  0.0,
                                  2}};
  p.fall_back_tests = {
      test_of({plan::Trigger::burn_call}, "no burn day is called", {0}, 63),
      test_of({plan::Trigger::hired_outfit}, "no hired outfit comes", {1}, 47),
      test_of({plan::Trigger::canal_water}, "the canal gives no water", {3}, 120),
      test_of({plan::Trigger::burn_call, plan::Trigger::hired_outfit, plan::Trigger::canal_water},
              "no burn day is called, no hired outfit comes and the canal gives no water", {0, 1, 3}, {})};
  p.fall_back_tests[0].rule_day = 70;
  p.fall_back_tests[1].rule_day = 47;
}

void add_dates(plan::Plan& p) {
  p.dates = {{13,
              "book the Hired baler, date in writing",
              "it can come from 2026-09-20 to 2026-10-10",
              "hire terms of baler",
              {1},
              false},
             {47,
              "fall-backs start, if no hired outfit comes",
              "after one storm they are then done in time",
              "",
              {1},
              true},
             {240,
              "seedbed ready to plant",
              "later days cost yield",
              "planting date",
              {0, 1, 2, 3, 4, 5, 8},
              false}};
}

/// Three months that add up to the plan's cost.
void add_cash(plan::Plan& p) {
  plan::MonthCash autumn{.year = 2026, .month = 10, .mean = {}, .p10 = 2000000, .p90 = 6000000};
  autumn.mean.fuel = 1500000;
  autumn.mean.hire = 2600000;
  autumn.mean.straw_income = -250000;
  plan::MonthCash winter{.year = 2027, .month = 2, .mean = {}, .p10 = -900000, .p90 = 0};
  winter.mean.lease_income = -800000;
  plan::MonthCash spring{.year = 2027, .month = 4, .mean = {}, .p10 = 5000000, .p90 = 9000000};
  spring.mean.wages = p.cost_cents - 1500000 - 2600000 + 250000 + 800000;
  p.cash = {autumn, winter, spring};
}

/// A person whose hours are worth something, by week, a machine whose hours are not, and a limit.
void add_one_more(const farm::Farm& farm, plan::Plan& p) {
  plan::OneMore all{.plans = 8, .things = {}};
  all.things.push_back({.kind = "operator",
                        .id = farm.operators.front().id.value,
                        .unit = "h",
                        .more = 240.0,
                        .worth = 1830.0,
                        .error = 210.0,
                        .weeks = {{.first_day = 210, .more = 6.6, .worth = 190.0, .error = 30.0},
                                  {.first_day = 217, .more = 6.6, .worth = 20.0, .error = 25.0},
                                  {.first_day = 224, .more = 6.6, .worth = 330.0, .error = 50.0}}});
  all.things.push_back({.kind = "tractor",
                        .id = farm.tractors.front().id.value,
                        .unit = "h",
                        .more = 300.0,
                        .worth = -12.0,
                        .error = 30.0,
                        .weeks = {}});
  all.things.push_back({.kind = "burn_season_area",
                        .id = "",
                        .unit = "ha",
                        .more = 12.5,
                        .worth = 610.0,
                        .error = 40.0,
                        .weeks = {}});
  p.one_more = std::move(all);
}

/// Every field with its wish; one that its ground holds back, one that other fields hold back.
void add_risk(const farm::Farm& farm, plan::Plan& p) {
  plan::RiskTold& r = p.risk;
  r.search_years = r.shown_years = 15;
  r.late_per_ha_day = 7.25;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    if (farm.fields[f].next.kind == farm::NextUseKind::fallow) continue;
    const int m = p.decision.method[f];
    const double chance =
        m == plan::none ? 0.0 : p.fields[f].methods[static_cast<std::size_t>(m)].chance_ready;
    r.wishes.push_back({static_cast<int>(f), p.wanted_chance, 12, static_cast<int>(15.0 * chance)});
  }
  plan::InTheWay ground{.field = 0, .wanted = 12, .ready = 9, .own_method_alone = 9, .alone = {}};
  ground.alone = {.method = 0, .ready = 10, .failed = 5, .days_looked_at = 56};
  plan::StepWaited waited{.operation = 0};
  waited.days[static_cast<std::size_t>(plan::WaitsFor::wet_ground)] = 90;
  ground.alone.waits = {waited};
  ground.words = {"Ready in 9 of 15 years where 12 are wanted",
                  "Alone on the farm, with every method tried, 10"};
  plan::InTheWay shared{.field = 1, .wanted = 12, .ready = 11, .own_method_alone = 14, .alone = {}};
  shared.alone = {.method = 0, .ready = 14, .failed = 1, .days_looked_at = 56};
  shared.more = plan::MoreThing{"tractor", farm.tractors.front().id.value, true, 13, 2};
  shared.all_twice = 14;
  shared.first = plan::OtherWay{0, 12, {2}};
  shared.words = {"Ready in 11 of 15 years where 12 are wanted", "It takes a second tractor"};
  r.in_the_way = {ground, shared};
}

}  // namespace

void add_others(const farm::Farm& farm, plan::PlannedYears& planned) {
  add_hangs_on(farm, planned.plan);
  add_dates(planned.plan);
  add_cash(planned.plan);
  add_one_more(farm, planned.plan);
  add_risk(farm, planned.plan);
}

}  // namespace aftercut::test
