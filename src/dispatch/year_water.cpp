// Water of a year: what the canal gives, drawdown, storm rounds.

#include <algorithm>

#include "aftercut/dispatch/money.hpp"
#include "year_play.hpp"

namespace aftercut::dispatch {

void YearPlay::note_water(int day) {
  for (std::size_t f = 0; f < fields_.size(); ++f) {
    const bool there = awake(f, day) && fields_[f].out.ready_day == plan::none;
    morning_.pond_mm[f] = there ? fields_[f].sim.water().ponded_mm : 0.0;
    morning_.boards_in[f] = there && fields_[f].sim.boards_are_in() ? 1 : 0;
  }
}

bool YearPlay::let_in(std::size_t f, int day, double need_mm) {
  FieldState& s = fields_[f];
  if (!water_reaches(t_, f, morning_)) return false;
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

void YearPlay::fill(std::size_t f, int day) {
  FieldState& s = fields_[f];
  if (flow_of(t_, day) <= 0.0) return;
  const double before = s.out.water_m3;
  s.pass_ends = let_in(f, day, s.sim.fill_need_mm(s.p.recipe->water->target_mm));
  s.p.started = s.p.started || s.out.water_m3 > before;
}

void YearPlay::go_round(std::size_t f, int day) {
  const Round round = storm_round(farm_, f, t_.drivers[year_].rain_mm[static_cast<std::size_t>(day)]);
  fields_[f].out.labour_min += round.minutes;
  fields_[f].out.cost = fields_[f].out.cost + round.cost;
}

}  // namespace aftercut::dispatch
