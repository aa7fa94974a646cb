#include "replay.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/require.hpp"
#include "put_right.hpp"
#include "work_done.hpp"

namespace aftercut::journal {
namespace {

constexpr double standing_water_mm =
    20.0;  // that a lease and neighbours count. Source: RulesOfWork (assumed)
constexpr double met_slack_mm = 1e-6;

template <class What>
void each(std::span<const farm::Happened> today, const auto& act) {
  for (const farm::Happened& h : today)
    if (const auto* what = std::get_if<What>(&h.what)) act(*what);
}

/// The deepest water that a method of the book wants.
double usual_depth_mm(const farm::Farm& farm) {
  double mm = 0.0;
  for (const method::Recipe& r : farm.book.recipes)
    if (r.water) mm = std::max(mm, r.water->target_mm);
  return mm;
}

std::optional<int> filling(const method::Book& book) {
  for (std::size_t o = 0; o < book.operations.size(); ++o)
    if (book.operations[o].water == method::Water::fill) return static_cast<int>(o);
  return std::nullopt;
}

double first_spread(const farm::Field& field) { return field.load_given ? given_load_spread : load_spread; }

bool takes_seepage(const farm::Farm& farm, std::size_t f, const std::vector<char>& standing) {
  return std::ranges::any_of(farm.fields[f].links, [&](const farm::Link& link) {
    if (link.kind != farm::LinkKind::seeps_from) return false;
    for (std::size_t o = 0; o < farm.fields.size(); ++o)
      if (farm.fields[o].id == link.other) return standing[o] != 0;
    return false;
  });
}

}  // namespace

Replay::Replay(const farm::Problem& problem) : problem_{&problem} {
  require(!problem.years.years.empty(), "a season so far has its weather");
  const season::YearDrivers drivers = season::drivers_of(problem.years.years.front(), problem.farm);
  drivers_.assign(problem.farm.fields.size(), drivers);
  for (std::size_t f = 0; f < drivers_.size(); ++f)
    lives_.emplace_back(problem.farm, f, drivers_[f], method::HarvestSetting{});
}

State Replay::begin() const {
  State s;
  for (const season::FieldYear& life : lives_) {
    const auto f = s.fields.size();
    const double spread = first_spread(problem_->farm.fields[f]);
    s.fields.push_back({.now = life.moment(), .straw_spread = spread, .straw_spread_then = spread});
  }
  s.implements.resize(problem_->farm.implements.size());
  return s;
}

void Replay::catch_rain(int day, const farm::RainCaught& rain) {
  const auto d = static_cast<std::size_t>(day);
  const double dew = straw::dew_of(problem_->years.years.front().days[d], problem_->farm.moisture.dew_mm);
  for (std::size_t f = 0; f < drivers_.size(); ++f) {
    if (rain.field && *rain.field != f) continue;
    drivers_[f].rain_mm[d] = rain.mm;
    drivers_[f].straw_wetting_mm[d] = rain.mm + dew;
  }
}

void Replay::forget_rain(int day) {
  catch_rain(day, {std::nullopt, problem_->years.years.front().days[static_cast<std::size_t>(day)].rain_mm});
}

season::FieldYear& Replay::at(const State& state, std::size_t field) {
  season::FieldYear& life = lives_[field];
  life.go_on_from(state.fields[field].now);
  return life;
}

State Replay::look(State state, std::span<const farm::Happened> today) {
  each<farm::FieldSeen>(today, [&](const farm::FieldSeen& seen) {
    season::FieldYear& life = at(state, seen.field);
    FieldState& f = state.fields[seen.field];
    const int slow_days = problem_->farm.fields[seen.field].ground.slow_days;
    for (const auto& found :
         {put_straw_right(f, life, seen, state.day), put_water_right(f, life, seen, slow_days, state.day)})
      state.differences.insert(state.differences.end(), found.begin(), found.end());
    f.now = life.moment();
  });
  return state;
}

std::vector<char> Replay::standing(const State& state) const {
  std::vector<char> out;
  for (std::size_t f = 0; f < state.fields.size(); ++f) {
    const bool cut = state.day > problem_->farm.season.day(problem_->farm.fields[f].harvest);
    out.push_back(cut && state.fields[f].now.life.water.ponded_mm >= standing_water_mm ? 1 : 0);
  }
  return out;
}

void Replay::turn_water(State& state, std::span<const farm::Happened> today) const {
  each<farm::WaterTurned>(today, [&](const farm::WaterTurned& w) {
    auto& wanted = state.fields[w.field].water_wanted_mm;
    wanted.reset();
    if (w.on) wanted = w.depth_mm.value_or(usual_depth_mm(problem_->farm));
  });
}

void Replay::count_lease(State& state) const {
  const Date date = problem_->farm.season.date(state.day);
  for (std::size_t f = 0; f < state.fields.size(); ++f) {
    const auto& lease = problem_->farm.fields[f].lease;
    if (lease && lease->from <= date && date <= lease->until &&
        state.fields[f].now.life.water.ponded_mm >= standing_water_mm)
      ++state.fields[f].lease_days;
  }
}

void Replay::note_fill(FieldState& s, int day) const {
  const auto fill = filling(problem_->farm.book);
  if (s.filled || !fill || s.now.life.board_mm <= 0.0) return;
  s.filled = true;
  s.last_end = s.rough_end = day;
  s.done.push_back({.operation = *fill, .passes = 1, .first_day = day, .last_day = day});
}

std::vector<double> Replay::let_in(State& state, std::span<const farm::Happened> today) {
  const farm::Farm& farm = problem_->farm;
  std::vector<std::optional<double>> metered_m3(state.fields.size());
  each<farm::WaterMetered>(today, [&](const farm::WaterMetered& w) {
    metered_m3[w.field] = metered_m3[w.field].value_or(0.0) + w.m3;
  });
  std::vector<double> mm(state.fields.size(), 0.0);
  double flow_left_m3 = farm.supply ? farm.supply->most_flow.value() : 0.0;
  for (std::size_t f = 0; f < mm.size(); ++f) {
    FieldState& s = state.fields[f];
    if (!s.water_wanted_mm && !metered_m3[f]) continue;
    const double m3_per_mm = farm.fields[f].area.value() * m3_per_mm_ha;
    const double need = at(state, f).fill_need_mm(s.water_wanted_mm.value_or(usual_depth_mm(farm)));
    mm[f] = metered_m3[f] ? *metered_m3[f] / m3_per_mm : std::min(need, flow_left_m3 / m3_per_mm);
    flow_left_m3 = std::max(0.0, flow_left_m3 - mm[f] * m3_per_mm);
    s.water_m3 += mm[f] * m3_per_mm;
    s.watered = s.watered || mm[f] > 0.0;
    if (mm[f] >= need - met_slack_mm) note_fill(s, state.day);
  }
  return mm;
}

void Replay::live(State& state, std::size_t field, double water_in_mm) {
  FieldState& f = state.fields[field];
  season::FieldYear& life = at(state, field);
  const double before = life.pools().on_top();
  life.end_day(water_in_mm);
  const double after = life.pools().on_top();
  if (before > 0.0 && after > 0.0 && after < before) f.straw_loss_since += std::log(before / after);
  f.straw_spread = std::hypot(f.straw_spread_then, decay_spread * f.straw_loss_since);
  const soil::Profile& profile = problem_->farm.soils[problem_->farm.fields[field].soil];
  const double most = seedbed_content_spread * life.ground().seedbed_full /
                      soil::seedbed_content(profile, soil::saturated_state(profile, 0.0));
  f.seedbed_spread_mm = life.water().ponded_mm > season::pond_stops_drying_mm
                            ? 0.0
                            : most - (most - f.seedbed_spread_mm) * std::exp(-1.0 / seedbed_forgets_days);
  f.now = life.moment();
}

State Replay::next(State state, std::span<const farm::Happened> today) {
  state = look(std::move(state), today);
  count_lease(state);
  const std::vector<char> wet = standing(state);
  each<farm::OutfitHere>(today, [&](const farm::OutfitHere& o) {
    state.implements[static_cast<std::size_t>(o.implement)].here = true;
  });
  turn_water(state, today);
  std::vector<double> water_mm = let_in(state, today);
  each<farm::WorkDone>(today, [&](const farm::WorkDone& work) {
    season::FieldYear& life = at(state, work.field);
    note_work(problem_->farm, state, life, work);
    state.fields[work.field].now = life.moment();
  });
  for (std::size_t f = 0; f < water_mm.size(); ++f) {
    if (problem_->farm.supply && takes_seepage(problem_->farm, f, wet))
      water_mm[f] += problem_->farm.supply->seepage_mm_per_day;
    live(state, f, water_mm[f]);
  }
  each<farm::RainCaught>(today, [&](const farm::RainCaught& rain) {
    state.differences.push_back({rain.field, state.day, Seen::rain, rain.record_mm, rain.mm, rain.mm});
  });
  ++state.day;
  return state;
}

}  // namespace aftercut::journal
