#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/dispatch/day_pool.hpp"
#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/dispatch/money.hpp"
#include "aftercut/dispatch/progress.hpp"

namespace aftercut::dispatch {
namespace {

constexpr double lease_pond_mm = 20.0;  // water that counts as standing. Source: common practice
constexpr double met_slack_m3 = 1e-6;

struct FieldState {
  season::FieldYear sim;
  Progress p;
  plan::FieldRun out{};
  bool live = true;
  bool pass_ends = false;  // today
  bool watered = false;    // this year
  bool straw_weighed = false;
  season::StrawLedger straw{};  // at the ready day or the season's end
  int lease_days = 0;
  int implement = plan::none;  // of the last stretch
  double water_mm = 0.0;       // today
};

/// One weather year in the making.
class YearPlay {
 public:
  YearPlay(const Table& table, const plan::Decision& decision, std::size_t year, const RunOptions& options)
      : t_{table},
        farm_{table.problem->farm},
        decision_{decision},
        year_{year},
        options_{options},
        pool_{table},
        called_out_(farm_.implements.size(), 0) {
    run_.year = table.drivers[year].year;
    fields_.reserve(farm_.fields.size());
    for (std::size_t f = 0; f < farm_.fields.size(); ++f) add_field(f);
    if (options_.keep_workable)
      run_.workable.assign(fields_.size(), std::vector<char>(static_cast<std::size_t>(farm_.season.days), 0));
  }

  plan::YearRun play() {
    for (int day = first_day_; day < farm_.season.days; ++day) live_day(day);
    for (std::size_t f = 0; f < fields_.size(); ++f) close(f);
    return plan::in_day_order(std::move(run_));
  }

 private:
  [[nodiscard]] bool included(std::size_t f) const {
    return !options_.only_field || *options_.only_field == static_cast<int>(f);
  }

  void add_field(std::size_t f) {
    const int m = decision_.method[f];
    const method::Recipe* recipe =
        m == plan::none ? nullptr : &farm_.book.recipes[static_cast<std::size_t>(m)];
    fields_.push_back({.sim = first_morning(t_, f, year_, m),
                       .p = begin(recipe, farm_.season.day(farm_.fields[f].harvest)),
                       .live = included(f)});
    first_day_ = std::min(first_day_, fields_.back().sim.day());
  }

  void live_day(int day) {
    pool_.start_day(day);
    flow_left_m3_ = flow_of(day);
    burned_today_ha_ = 0.0;
    for (std::size_t f = 0; f < fields_.size(); ++f)
      if (awake(f, day)) wake(f, day);
    for (const int f : decision_.autumn_order) serve(f, day, false);
    for (const int f : decision_.spring_order) serve(f, day, true);
    for (std::size_t f = 0; f < fields_.size(); ++f)
      if (awake(f, day)) rest(f, day);
  }

  [[nodiscard]] bool awake(std::size_t f, int day) const {
    return fields_[f].live && fields_[f].sim.day() == day;
  }

  [[nodiscard]] double flow_of(int day) const {
    return t_.water_on[static_cast<std::size_t>(day)] ? farm_.supply->most_flow.value() : 0.0;
  }

  void wake(std::size_t f, int day) {
    FieldState& s = fields_[f];
    s.pass_ends = false;
    s.water_mm = 0.0;
    if (s.p.recipe != nullptr && day >= s.p.quiet_until) {
      const Settled settled = settle(t_, f, s.p, day, s.sim);
      s.p = settled.progress;
      if (settled.broken_off.operation != plan::none)
        take_effect(f, settled.broken_off.operation, settled.broken_off.share);
      note_ready(f);
    }
    if (options_.keep_workable) note_workable(f, day);
    const auto& lease = farm_.fields[f].lease;
    if (lease && s.sim.water().ponded_mm >= lease_pond_mm && day >= farm_.season.day(lease->from) &&
        day <= farm_.season.day(lease->until))
      ++s.lease_days;
  }

  void note_workable(std::size_t f, int day) {
    const season::DayMask m = fields_[f].sim.mask();
    run_.workable[f][static_cast<std::size_t>(day)] = m.workable && m.drive_light;
  }

  void serve(int field, int day, bool spring) {
    const auto f = static_cast<std::size_t>(field);
    FieldState& s = fields_[f];
    if (!awake(f, day) || finished(s.p) || (current_step(s.p).season == method::Season::spring) != spring)
      return;
    const bool begun = s.out.machine_min + s.out.labour_min > 0 || s.out.water_m3 > 0.0;
    if (options_.start_after_field == field && day <= options_.start_after_day && !begun) return;
    const method::Operation& op = current_operation(t_, s.p);
    if (can_run(t_, f, s.p, day, s.sim)) {
      if (op.water == method::Water::fill) {
        fill(f, day);
      } else {
        work(f, day, op);
      }
    }
    if (s.p.filled && s.p.recipe->water->keep_up &&
        s.sim.water().ponded_mm < 0.5 * s.p.recipe->water->target_mm)
      let_in(f, day, s.sim.fill_need_mm(s.p.recipe->water->target_mm));
  }

  /// Lets in what the flow still gives, at most `need_mm`; true when the need was met.
  bool let_in(std::size_t f, int day, double need_mm) {
    FieldState& s = fields_[f];
    const double area = farm_.fields[f].area.value();
    const double wanted = need_mm * area * m3_per_mm_ha;
    const double given = std::min(wanted, flow_left_m3_);
    if (given > met_slack_m3) {
      flow_left_m3_ -= given;
      s.water_mm += given / (area * m3_per_mm_ha);
      run_.water.push_back({static_cast<int>(f), day, given});
      s.out.water_m3 += given;
      s.out.cost = s.out.cost + water_cost(t_, given, !s.watered, area);
      s.watered = true;
    }
    return given >= wanted - met_slack_m3;
  }

  void fill(std::size_t f, int day) {
    FieldState& s = fields_[f];
    if (flow_of(day) <= 0.0) return;
    const double before = s.out.water_m3;
    s.pass_ends = let_in(f, day, s.sim.fill_need_mm(s.p.recipe->water->target_mm));
    s.p.started = s.p.started || s.out.water_m3 > before;
  }

  [[nodiscard]] bool burn_day(std::size_t f, int day) const {
    const burn::Limits& l = t_.burn_limits;
    const double area = farm_.fields[f].area.value();
    if (l.daily_area_ha && burned_today_ha_ + area > *l.daily_area_ha) return false;
    if (l.season_share && burned_ha_ + area > *l.season_share * t_.farm_area_ha) return false;
    return dry_and_called(t_, f, year_, day, fields_[f].sim.lay());
  }

  void work(std::size_t f, int day, const method::Operation& op) {
    FieldState& s = fields_[f];
    const season::DayMask mask = s.sim.mask();
    const int index = current_step(s.p).operation;
    Wanted wanted{f, index, farm_.fields[f].area.value() - s.p.area_done_ha, op.burning};
    wanted.draft_factor = draft_factor_of(farm_.soils[farm_.fields[f].soil], op, mask);
    if (op.burning) {
      if (!burn_day(f, day)) return;
      wanted.not_before = static_cast<int>(std::ceil(t_.burn_limits.start_hour.value_or(0.0) * 60.0 - 1e-9));
      wanted.not_after = static_cast<int>(std::floor(t_.burn_limits.end_hour.value_or(24.0) * 60.0 + 1e-9));
    }
    const auto stretch = pool_.find(wanted);
    if (!stretch) return;
    pool_.take(*stretch, f);
    if (op.when.not_too_dry && mask.too_dry && stretch->finishes) ++s.out.finished_dry;
    if (op.burning) {
      burned_today_ha_ += stretch->area_ha;
      burned_ha_ += stretch->area_ha;
    }
    book(f, day, index, *stretch);
  }

  void book(std::size_t f, int day, int operation, const Stretch& x) {
    FieldState& s = fields_[f];
    const method::Step& step = current_step(s.p);
    const plan::Work w = work_of(s.p, static_cast<int>(f), day, x);
    run_.work.push_back(w);
    s.out.cost = s.out.cost + stretch_cost(t_, x, operation) + call_out(x.outfit->implement);
    s.out.fuel_l += w.fuel_l;
    if (w.implement != plan::none) s.out.machine_min += x.end_min - x.start_min;
    for (const int who : x.crew)
      if (who != plan::none) s.out.labour_min += x.end_min - x.start_min;
    const bool tills = farm_.book.operations[static_cast<std::size_t>(operation)].tillage;
    if (tills && step.season == method::Season::spring && !s.straw_weighed) {
      s.straw_weighed = true;
      s.out.straw_left_kg_per_ha = s.sim.pools().total();
    }
    s.p.started = true;
    s.p.area_done_ha += x.area_ha;
    s.implement = x.outfit->implement;
    s.pass_ends = x.finishes;
  }

  plan::CostParts call_out(int implement) {
    if (implement == plan::none || called_out_[static_cast<std::size_t>(implement)]) return {};
    called_out_[static_cast<std::size_t>(implement)] = 1;
    return call_out_cost(farm_, implement);
  }

  void take_effect(std::size_t f, int operation, double share) {
    FieldState& s = fields_[f];
    const method::Operation& op = farm_.book.operations[static_cast<std::size_t>(operation)];
    const double baled_before = s.sim.straw_ledger().baled;
    s.sim.apply(op, share);
    const double kg = (s.sim.straw_ledger().baled - baled_before) * farm_.fields[f].area.value();
    if (kg > 0.0) s.out.cost = s.out.cost + baled_cost(t_, s.implement, kg);
  }

  void rest(std::size_t f, int day) {
    FieldState& s = fields_[f];
    if (s.pass_ends) {
      const method::Step& step = current_step(s.p);
      const method::Operation& op = current_operation(t_, s.p);
      take_effect(f, step.operation, 1.0);
      if (op.water == method::Water::boards_in) s.sim.set_boards(s.p.recipe->water->board_mm);
      if (op.water == method::Water::boards_out) s.sim.set_boards(0.0);
      if (op.water != method::Water::none) s.p.filled = op.water == method::Water::fill;
      if (step.season == method::Season::autumn) s.out.straw_done_day = day;
      if (!op.when.not_too_dry) s.p.rough_end = day;
      s.p = end_pass(s.p, day);
    }
    s.sim.end_day(s.water_mm);
    note_ready(f);
    if (s.out.ready_day != plan::none && !options_.keep_workable) s.live = false;
  }

  void note_ready(std::size_t f) {
    FieldState& s = fields_[f];
    const bool due = farm_.fields[f].next.kind != farm::NextUseKind::fallow && s.p.recipe != nullptr;
    if (s.out.ready_day == plan::none) s.straw = s.sim.straw_ledger();
    if (due && s.out.ready_day == plan::none && finished(s.p)) s.out.ready_day = s.p.pass_end;
  }

  void close(std::size_t f) {
    FieldState& s = fields_[f];
    const farm::Field& field = farm_.fields[f];
    s.out.status = s.p.recipe == nullptr ? plan::Status::no_method : status_of(farm_, field, s.out.ready_day);
    s.out.fell_back = s.p.fell_back;
    s.out.steps_passed_over = s.p.passed_over;
    if (!s.straw_weighed) s.out.straw_left_kg_per_ha = s.sim.pools().total();
    s.out.baled_kg_per_ha = s.straw.baled;
    s.out.burned_kg_per_ha = s.straw.burned;
    s.out.decayed_kg_per_ha = s.straw.decayed;
    if (included(f)) {
      s.out.cost = s.out.cost + outcome_cost(farm_, field, s.out.status, s.out.ready_day);
      if (field.lease &&
          s.lease_days == farm_.season.day(field.lease->until) - farm_.season.day(field.lease->from) + 1)
        s.out.cost.lease_income = -to_cents(field.lease->per_ha.value() * field.area.value());
    }
    run_.fields.push_back(s.out);
  }

  const Table& t_;
  const farm::Farm& farm_;
  const plan::Decision& decision_;
  std::size_t year_;
  const RunOptions& options_;
  DayPool pool_;
  std::vector<char> called_out_;
  std::vector<FieldState> fields_;
  plan::YearRun run_;
  int first_day_ = std::numeric_limits<int>::max();
  double flow_left_m3_ = 0.0, burned_today_ha_ = 0.0, burned_ha_ = 0.0;
};

}  // namespace

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
