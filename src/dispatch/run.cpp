#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/dispatch/money.hpp"
#include "aftercut/dispatch/standstill.hpp"
#include "year_play.hpp"

namespace aftercut::dispatch {

YearPlay::YearPlay(const Table& table, const plan::Decision& decision, std::size_t year,
                   const RunOptions& options)
    : t_{table},
      farm_{table.problem->farm},
      decision_{decision},
      year_{year},
      options_{options},
      hired_{table, decision, year, options.only_field.has_value()},
      pool_{table, hired_.there_from()} {
  run_.year = table.drivers[year].year;
  if (t_.so_far) burned_.season_ha = t_.so_far->burned_ha;
  morning_ = {std::vector<double>(farm_.fields.size(), 0.0), std::vector<char>(farm_.fields.size(), 0)};
  fields_.reserve(farm_.fields.size());
  for (std::size_t f = 0; f < farm_.fields.size(); ++f) add_field(f);
  if (options_.keep_workable)
    run_.workable.assign(fields_.size(), std::vector<char>(static_cast<std::size_t>(farm_.season.days), 0));
}

plan::YearRun YearPlay::play() {
  for (int day = first_day_; day < farm_.season.days; ++day) live_day(day);
  for (std::size_t f = 0; f < fields_.size(); ++f) close(f);
  return plan::in_day_order(std::move(run_));
}

bool YearPlay::included(std::size_t f) const {
  return !options_.only_field || *options_.only_field == static_cast<int>(f);
}

void YearPlay::add_field(std::size_t f) {
  const int m = decision_.method[f];
  fields_.push_back({.sim = first_morning(t_, f, year_, m),
                     .p = begin_on(t_, f, m, options_.instead != nullptr ? &(*options_.instead)[f] : nullptr),
                     .watch = {farm_, farm_.fields[f], options_.keep_next_crop},
                     .winter = {farm_, farm_.fields[f], options_.keep_winter},
                     .live = included(f),
                     .watered = watered_before(t_, f),
                     .lease_days = leased_before(t_, f),
                     .implement = m == plan::none ? m : t_.starts[f][static_cast<std::size_t>(m)].implement});
  first_day_ = std::min(first_day_, fields_.back().sim.day());
  if (m != plan::none && t_.starts[f][static_cast<std::size_t>(m)].spring_begun) weigh_straw(fields_.back());
}

void YearPlay::live_day(int day) {
  pool_.start_day(day);
  flow_left_m3_ = flow_of(t_, day);
  drained_today_ha_ = 0.0;
  burned_ = {.season_ha = burned_.season_ha};
  for (std::size_t f = 0; f < fields_.size(); ++f)
    if (awake(f, day)) wake(f, day);
  note_water(day);
  for (const int f : decision_.autumn_order) serve(f, day, false);
  for (const int f : decision_.spring_order) serve(f, day, true);
  for (std::size_t f = 0; f < fields_.size(); ++f)
    if (awake(f, day)) rest(f, day);
  if (options_.keep_bills) note_bills(day);
}

void YearPlay::note_bills(int day) {
  for (std::size_t f = 0; f < fields_.size(); ++f) {
    FieldState& s = fields_[f];
    if (s.out.cost == s.billed) continue;
    run_.bills.push_back({static_cast<int>(f), day, s.out.cost - s.billed});
    s.billed = s.out.cost;
  }
}

void YearPlay::weigh_straw(FieldState& s) {
  s.straw_weighed = true;
  s.out.straw_left_kg_per_ha = s.sim.pools().total();
  s.watch.spring_begins(s.sim);
}

bool YearPlay::awake(std::size_t f, int day) const { return fields_[f].live && fields_[f].sim.day() == day; }

void YearPlay::wake(std::size_t f, int day) {
  FieldState& s = fields_[f];
  s.pass_ends = s.worked = false;
  s.water_mm = 0.0;
  if (s.p.recipe != nullptr && day >= s.p.quiet_until) {
    const Settled settled = settle(t_, f, s.p, day, s.sim);
    s.p = settled.progress;
    s.implement = settled.broken_off.implement.value_or(s.implement);
    if (settled.broken_off.operation != plan::none)
      take_effect(f, settled.broken_off.operation, settled.broken_off.share);
    note_ready(f);
    if (s.out.straw_over_day == plan::none && straw_is_over(t_, s.p)) s.out.straw_over_day = day - 1;
  }
  if (options_.keep_workable) note_workable(f, day);
  s.watch.morning(s.sim);
  s.winter.morning(s.sim);
  const auto& lease = farm_.fields[f].lease;
  if (lease && s.sim.water().ponded_mm >= standing_water_mm && day >= farm_.season.day(lease->from) &&
      day <= farm_.season.day(lease->until))
    ++s.lease_days;
}

void YearPlay::note_workable(std::size_t f, int day) {
  const season::DayMask m = fields_[f].sim.mask();
  run_.workable[f][static_cast<std::size_t>(day)] = m.workable && m.drive_light;
}

void YearPlay::serve(int field, int day, bool spring) {
  const auto f = static_cast<std::size_t>(field);
  FieldState& s = fields_[f];
  if (!awake(f, day) || finished(s.p) || (current_step(s.p).season == method::Season::spring) != spring)
    return;
  const bool begun = s.out.machine_min + s.out.labour_min > 0 || s.out.water_m3 > 0.0;
  if (options_.start_after_field == field && day <= options_.start_after_day && !begun) return;
  const method::Operation& op = current_operation(t_, s.p);
  if (can_run(t_, f, s.p, day, s.sim) && !road_too_soft(t_, f, year_, day, op)) {
    if (op.water == method::Water::fill) {
      fill(f, day);
    } else {
      work(f, day, op);
    }
  }
  if (s.p.filled && wants_top_up(*s.p.recipe->water, s.sim))
    let_in(f, day, s.sim.fill_need_mm(s.p.recipe->water->target_mm));
}

void YearPlay::rest(std::size_t f, int day) {
  FieldState& s = fields_[f];
  if (s.pass_ends) {
    const method::Step& step = current_step(s.p);
    const method::Operation& op = current_operation(t_, s.p);
    take_effect(f, step.operation, 1.0);
    move_boards(s.sim, *s.p.recipe, op);
    if (step.season == method::Season::autumn) s.out.straw_done_day = day;
    s.p = end_pass(t_, s.p, day);
  } else {
    note_not_burned(f, day);
    if (options_.keep_waits) note_wait(f, day);
  }
  if (morning_.boards_in[f]) go_round(f, day);
  s.sim.end_day(s.water_mm + seepage_mm(t_, f, morning_));
  note_ready(f);
  s.watch.evening(s.sim, s.out.ready_day);
  s.winter.evening(s.sim, s.out.ready_day);
  if (s.out.ready_day != plan::none && !options_.keep_workable) s.live = false;
}

void YearPlay::note_not_burned(std::size_t f, int day) {
  FieldState& s = fields_[f];
  if (finished(s.p) || !current_operation(t_, s.p).burning) return;
  if (const auto reason = held_up_by(t_, f, year_, day, s.p, s.sim)) ++(s.out.not_burned.**reason);
}

void YearPlay::note_wait(std::size_t f, int day) {
  const FieldState& s = fields_[f];
  if (s.worked || s.water_mm > 0.0 || finished(s.p)) return;
  run_.waits.push_back(
      {static_cast<int>(f), day, current_step(s.p).operation, waits_for_what(t_, f, year_, day, s.p, s.sim)});
}

void YearPlay::note_ready(std::size_t f) {
  FieldState& s = fields_[f];
  const bool due = farm_.fields[f].next.kind != farm::NextUseKind::fallow && s.p.recipe != nullptr;
  if (s.out.ready_day == plan::none) s.straw = s.sim.straw_ledger();
  if (due && s.out.ready_day == plan::none && finished(s.p)) s.out.ready_day = s.p.pass_end;
}

void YearPlay::close(std::size_t f) {
  FieldState& s = fields_[f];
  const farm::Field& field = farm_.fields[f];
  s.out.status = s.p.recipe == nullptr ? plan::Status::no_method : status_of(farm_, field, s.out.ready_day);
  s.out.fell_back = s.p.fell_back;
  s.out.steps_passed_over = s.p.passed_over;
  if (!s.straw_weighed) s.out.straw_left_kg_per_ha = s.sim.pools().total();
  s.out.next_crop = s.watch.seen();
  if (options_.keep_winter) run_.winter.push_back(s.winter.seen());
  s.out.baled_kg_per_ha = s.straw.baled;
  s.out.burned_kg_per_ha = s.straw.burned;
  s.out.decayed_kg_per_ha = s.straw.decayed;
  if (included(f)) {
    charge(f, last_hire_day(f), hired_.top_up(f));
    charge(f, farm_.season.day(field.next.planting),
           outcome_cost(farm_, field, s.out.status, s.out.ready_day));
    if (const auto paid = lease_paid(farm_, field, s.lease_days))
      charge(f, farm_.season.day(field.lease->until), *paid);
  }
  run_.fields.push_back(s.out);
}

int YearPlay::last_hire_day(std::size_t f) const {
  int day = first_day_;
  for (const plan::Bill& b : run_.bills)
    if (b.field == static_cast<int>(f) && b.parts.hire != 0) day = b.day;
  return day;
}

void YearPlay::charge(std::size_t f, int day, const plan::CostParts& parts) {
  fields_[f].out.cost = fields_[f].out.cost + parts;
  if (options_.keep_bills && parts != plan::CostParts{})
    run_.bills.push_back({static_cast<int>(f), day, parts});
}

plan::YearRun run(const Table& table, const plan::Decision& decision, std::size_t year,
                  const RunOptions& options) {
  require(decision.method.size() == table.problem->farm.fields.size(),
          "a decision names a method for each field");
  return YearPlay{table, decision, year, options}.play();
}

std::int64_t cost_of(const plan::YearRun& run) {
  std::int64_t sum = 0;
  for (const auto& field : run.fields) sum += field.cost.out_of_pocket();
  return sum;
}

}  // namespace aftercut::dispatch
