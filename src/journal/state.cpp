#include "aftercut/journal/state.hpp"

#include <fmt/format.h>

#include <array>
#include <cstring>

#include "aftercut/journal/follow.hpp"

namespace aftercut::journal {
namespace {

/// Every number of a life, in its order.
std::string numbers_of(const season::Life& life) {
  static_assert(sizeof(season::Life) % sizeof(double) == 0);
  std::array<double, sizeof(season::Life) / sizeof(double)> numbers{};
  std::memcpy(numbers.data(), &life, sizeof life);
  return fmt::format("{:a}", fmt::join(numbers, " "));
}

std::string text_of(const FieldState& f) {
  const season::Moment& m = f.now;
  std::string out = fmt::format("day {} lay {} length {:a} ruts {:a} {}\n", m.day, static_cast<int>(m.lay),
                                m.straw_length_mm, m.rut_depth_mm, numbers_of(m.life));
  for (const Stage& s : f.done)
    out += fmt::format("  done {} x{} {} {} {}..{} by {} {:a}\n", s.operation, s.passes, s.no_more, s.unsaid,
                       s.first_day, s.last_day, s.implement, s.straw_for_passes);
  for (const auto& r : {f.running, f.baling_waits, f.behind_baler})
    if (r)
      out += fmt::format("  running {} {:a} ha {}..{} by {} {:a}\n", r->operation, r->area_ha, r->first_day,
                         r->last_day, r->implement, r->straw_for_passes);
  out += fmt::format("  bales {:a} by {} ends {} {} filled {} watered {} {:a} m3 lease {} wanted {:a}\n",
                     f.bales_lie, f.baled_by, f.last_end, f.rough_end, f.filled, f.watered, f.water_m3,
                     f.lease_days, f.water_wanted_mm.value_or(-1.0));
  return out + fmt::format("  spread {:a} {:a} {:a} {:a}\n", f.straw_spread, f.straw_spread_then,
                           f.straw_loss_since, f.seedbed_spread_mm);
}

}  // namespace

std::string text_of(const State& state) {
  std::string out = fmt::format("morning {}\n", state.day);
  for (const FieldState& f : state.fields) out += text_of(f);
  for (const HiredSoFar& h : state.implements)
    out += fmt::format("hired {} {} {:a}\n", h.here, h.called_out, h.area_ha);
  out += fmt::format("burned {:a}\n", state.burned_ha);
  for (const Difference& d : state.differences)
    out += fmt::format("off {} {} {} {:a} {:a} {:a}\n", d.field ? static_cast<int>(*d.field) : -1, d.day,
                       static_cast<int>(d.what), d.model, d.seen, d.used);
  return out;
}

std::optional<State> state_of(const farm::Problem& problem) {
  if (problem.so_far.empty()) return std::nullopt;
  Follow follow{problem};
  for (const farm::Happened& h : problem.so_far.events) follow.add(h);
  return follow.on(problem.farm.season.day(problem.as_of));
}

}  // namespace aftercut::journal
