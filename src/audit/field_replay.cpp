#include "field_replay.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "hired.hpp"
#include "money.hpp"
#include "outfits.hpp"
#include "so_far.hpp"

namespace aftercut::audit {
namespace {

constexpr double standing_water_mm = 20.0;  // that a lease counts. Source: RulesOfWork (assumed)
constexpr double area_tolerance_ha = 2e-6;  // plan-years.jsonl rounds to 6 decimals
constexpr double fuel_tolerance_l = 2e-6;

const farm::Field& at(const Facts& facts, int field) {
  return facts.farm().fields[static_cast<std::size_t>(field)];
}

straw::Tool tool(const farm::Farm& farm, int implement) {
  if (implement == plan::none) return {};
  const auto& used = farm.implements[static_cast<std::size_t>(implement)];
  return {.depth_cm = used.depth_cm, .chop_length_mm = used.chop_length_mm};
}

FieldReplay take_effect(const Facts& facts, int field, FieldReplay f, const Cut& cut) {
  const double baled = f.life.straw_ledger().baled;
  const method::Operation& op = facts.farm().book.operations[static_cast<std::size_t>(cut.operation)];
  const season::FieldYear before = f.life;
  f.life.apply(op, cut.share, tool(facts.farm(), cut.implement));
  f.seen = see_change(facts, std::move(f.seen), op, before, f.life);
  const double area = at(facts, field).area.value();
  const double kg = (f.life.straw_ledger().baled - baled) * area;
  if (!(kg > 0.0)) return f;
  const plan::CostParts cost = cost_of_straw(facts.farm(), cut.implement, kg, cut.share * area);
  f.run.cost = f.run.cost + cost;
  f.hired[cut.implement].cents += cost.hire;
  return f;
}

FieldReplay note_ready(const Facts& facts, int field, FieldReplay f) {
  const bool due = at(facts, field).next.kind != farm::NextUseKind::fallow && f.standing.recipe != plan::none;
  if (due && f.run.ready_day == plan::none && step_of(facts.farm(), f.standing) == nullptr) {
    f.run.ready_day = f.standing.pass_ended;
    f.straw_when_ready = f.life.straw_ledger();
  }
  return f;
}

FieldReplay weighed(FieldReplay f) {
  f.weighed = true;
  f.run.straw_left_kg_per_ha = f.life.pools().total();
  f.seen = see_spring(std::move(f.seen), f.life);
  return f;
}

/// After a stretch that was not due, the replay goes on from where the plan says that it is.
Standing follow(const farm::Farm& farm, Standing s, const plan::Work& w) {
  const auto& steps = farm.book.recipes[static_cast<std::size_t>(s.recipe)].steps;
  if (w.step < 0 || w.step >= static_cast<int>(steps.size()) || w.pass < 0) return s;
  if (w.step != s.step) {
    s.step = w.step;
    s.done_ha = 0.0;
    s.passes = 0;
  }
  if (w.pass != s.pass) s.done_ha = 0.0;
  s.pass = w.pass;
  s.passes = std::max(s.passes, w.pass + 1);
  return s;
}

struct Covered {
  double area_ha = 0.0, fuel_l = 0.0;
  bool finishes = false;
  Findings findings;
};

/// Minutes, area, fuel and the end of the pass, from the outfit's own pace.
Covered cover(const Facts& facts, const Place& place, const FieldReplay& f, const plan::Work& w) {
  Covered c;
  const auto& op = facts.farm().book.operations[static_cast<std::size_t>(w.operation)];
  const bool paced = outfit_fault(facts.farm(), w.field, op, w.tractor, w.implement).empty();
  const auto& soil = facts.farm().soils.at(at(facts, w.field).soil);
  const Pace pace = paced ? pace_of(facts.farm(), w, draft_factor_of(soil, op, f.mask)) : Pace{};
  if (!(pace.ha_per_hour > 0.0))
    return {w.area_ha, w.fuel_l, w.finishes, {}};  // an unfit outfit has been named already
  const int minutes = w.end_min - w.start_min;
  const double left = asked_ha(facts.farm(), w.field, f.standing) - f.standing.done_ha;
  const std::int64_t need = ceil_minutes(left / pace.ha_per_hour);
  c.finishes = minutes >= need;
  c.area_ha = c.finishes ? left : minutes / 60.0 * pace.ha_per_hour;
  c.fuel_l = pace.fuel_l_per_hour * minutes / 60.0;
  c.findings.expect(minutes <= need, "wrong hours", place, [&] {
    return Texts{fmt::format("{} min", minutes), fmt::format("at most {} min", need)};
  });
  c.findings.expect(w.finishes == c.finishes, "wrong end of a pass", place, [&] {
    return Texts{w.finishes ? "ends" : "goes on",
                 fmt::format("{} min of {} min still needed", minutes, need)};
  });
  c.findings.expect_near(w.area_ha, c.area_ha, area_tolerance_ha, "wrong area", place);
  c.findings.expect_near(w.fuel_l, c.fuel_l, fuel_tolerance_l, "wrong fuel", place);
  c.finishes = w.finishes;
  return c;
}

}  // namespace

FieldReplay start(const Facts& facts, int field, int recipe, const season::YearDrivers& drivers) {
  const method::HarvestSetting setting =
      recipe == plan::none ? method::HarvestSetting{}
                           : facts.farm().book.recipes[static_cast<std::size_t>(recipe)].harvest;
  TakenUp up = taken_up(facts, field, recipe);
  if (!facts.instead.empty()) up.standing.instead = facts.instead[static_cast<std::size_t>(field)];
  const season::FieldYear life{facts.farm(), static_cast<std::size_t>(field), drivers, setting};
  const journal::FieldState* so_far = state_of(facts, field);
  const auto& lease = at(facts, field).lease;
  const bool lease_runs = lease && lease->until >= facts.problem->as_of;
  return {.life = life_so_far(facts, field, life, up.drops_the_pass),
          .standing = up.standing,
          .run = {},
          .mask = {},
          .filled = so_far != nullptr && so_far->filled,
          .watered = so_far != nullptr && so_far->watered,
          .spring_begun = up.spring_begun,
          .lease_days = lease_runs && so_far != nullptr ? so_far->lease_days : 0,
          .seen = {}};
}

FieldReplay wake(const Facts& facts, int field, FieldReplay f, int day) {
  const farm::Farm& farm = facts.farm();
  f.pass_ends = false;
  f.water_mm = 0.0;
  const bool begun =
      day > farm.season.day(at(facts, field).harvest) && day >= farm.season.day(facts.problem->as_of);
  if (f.standing.recipe != plan::none && begun) {
    const Morning m = morning(farm, field, f.standing, day, f.life);
    if (m.standing.fell_back != f.standing.fell_back) f.filled = false;
    f.standing = m.standing;
    if (m.cut) f = take_effect(facts, field, std::move(f), *m.cut);
    f = note_ready(facts, field, std::move(f));
    if (f.run.straw_over_day == plan::none && only_spring_left(farm, f.standing))
      f.run.straw_over_day = day - 1;
  }
  f.mask = f.life.mask();
  if (begun && f.spring_begun && !f.weighed) f = weighed(std::move(f));
  f.begun = begun;
  f.boards_this_morning = begun && f.life.boards_are_in();
  if (begun) {
    f.seen = see_morning(std::move(f.seen), f.life);
    f.winter = winter_morning(facts, field, std::move(f.winter), f.life);
  }
  const auto& lease = at(facts, field).lease;
  const Date date = farm.season.date(day);
  if (lease && lease->from <= date && date <= lease->until && f.mask.ponded_mm >= standing_water_mm)
    ++f.lease_days;
  return f;
}

Worked work(const Facts& facts, const Place& place, FieldReplay f, const plan::Work& w, bool first_call) {
  Worked out{std::move(f), {}};
  FieldReplay& r = out.field;
  const farm::Farm& farm = facts.farm();
  out.findings = check_order(farm, place, r.standing, w);
  if (step_of(farm, r.standing) == nullptr || w.fell_back != r.standing.fell_back) return out;
  r.standing = follow(farm, r.standing, w);
  out.findings += check_dates(facts, place, r.standing);
  out.findings.expect(!bales_gone(farm, r.standing), "bales that the outfit takes off", place, [] {
    return Texts{"hauled by the farm", "taken off by the outfit that baled"};
  });
  out.findings.expect(!never_done(r.standing, w.operation), "done though it does not come", place, [] {
    return Texts{"work on it", "none in a year in which it does not come"};
  });
  const auto& op = farm.book.operations[static_cast<std::size_t>(w.operation)];
  out.findings += check_conditions(farm, place, op, r.mask);
  out.findings += check_ruts(place, op, r.life.rutted());
  out.findings += check_owner(facts, place, op);
  out.findings += check_dry_wait(farm, place, r.standing, r.mask);
  Covered c = cover(facts, place, r, w);
  out.findings += c.findings;
  const plan::CostParts cost = cost_of_stretch(facts, w, c.fuel_l, c.area_ha);
  r.run.cost = r.run.cost + cost;
  r.hired[w.implement].cents += cost.hire;
  r.hired[w.implement].ha += c.area_ha;
  if (first_call) r.run.cost = r.run.cost + call_out(farm, w.implement);
  const int minutes = w.end_min - w.start_min;
  r.run.fuel_l += c.fuel_l;
  if (w.implement != plan::none) r.run.machine_min += minutes;
  r.run.labour_min += minutes * static_cast<int>(people_of(w).size());
  if (op.tillage && step_of(farm, r.standing)->season == method::Season::spring && !r.weighed)
    r = weighed(std::move(r));
  r.standing.begun = true;
  r.standing.done_ha += c.area_ha;
  r.standing.last_implement = w.implement;
  if (op.effect.bale_share > 0.0) r.standing.baled_by = w.implement;
  r.pass_ends = c.finishes;
  return out;
}

FieldReplay let_in(const Facts& facts, int field, FieldReplay f, double m3) {
  const double area = at(facts, field).area.value();
  f.water_mm += m3 / (area * m3_per_mm_ha);
  f.run.water_m3 += m3;
  f.run.cost = f.run.cost + cost_of_water(facts.farm(), m3, !f.watered, area);
  f.watered = true;
  return f;
}

FieldReplay rest(const Facts& facts, int field, FieldReplay f, int day) {
  const farm::Farm& farm = facts.farm();
  const method::Step* step = step_of(farm, f.standing);
  if (f.pass_ends && step != nullptr) {
    const method::Operation& op = *operation_of(farm, f.standing);
    const auto& recipe = farm.book.recipes[static_cast<std::size_t>(f.standing.recipe)];
    f = take_effect(facts, field, std::move(f), {step->operation, f.standing.last_implement, 1.0});
    if (op.water == method::Water::boards_in && recipe.water) f.life.set_boards(recipe.water->board_mm);
    if (op.water == method::Water::boards_out) f.life.set_boards(0.0);
    if (op.water != method::Water::none) f.filled = op.water == method::Water::fill;
    if (step->season == method::Season::autumn) f.run.straw_done_day = day;
    if (op.when.not_too_dry && f.mask.too_dry) ++f.run.finished_dry;
    f.standing = pass_over(farm, f.standing, day);
  }
  f.life.end_day(f.water_mm);
  f = note_ready(facts, field, std::move(f));
  f.seen = see_evening(facts, field, std::move(f.seen), f.life, f.run.ready_day);
  if (f.run.ready_day == plan::none) return f;
  f.living = false;
  f.seen = see_to_the_end(facts, field, std::move(f.seen), f.life, f.run.ready_day);
  f.winter = winter_to_planting(facts, field, std::move(f.winter), f.life);
  return f;
}

plan::FieldRun close(const Facts& facts, int field, const FieldReplay& f) {
  plan::FieldRun run = f.run;
  const farm::Field& place = at(facts, field);
  run.status = status_of(facts.farm(), place, f.standing.recipe != plan::none, run.ready_day);
  run.fell_back = f.standing.fell_back;
  run.steps_passed_over = f.standing.passed_over;
  if (!f.weighed) run.straw_left_kg_per_ha = f.life.pools().total();
  const season::StrawLedger& straw = f.straw_when_ready ? *f.straw_when_ready : f.life.straw_ledger();
  run.baled_kg_per_ha = straw.baled;
  run.burned_kg_per_ha = straw.burned;
  run.decayed_kg_per_ha = straw.decayed;
  run.next_crop = f.seen.found;
  run.cost = run.cost + cost_of_outcome(facts.farm(), place, run.status, run.ready_day);
  if (place.lease && f.lease_days == place.lease->until - place.lease->from + 1)
    run.cost = run.cost + lease_income(place);
  return run;
}

}  // namespace aftercut::audit
