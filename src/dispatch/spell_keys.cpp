// What tells two spells apart, and their days bit by bit.

#include <algorithm>
#include <bit>
#include <cmath>

#include "aftercut/dispatch/spells.hpp"

namespace aftercut::dispatch {
namespace {

constexpr double smallest_depth_mm = 0.001;     // that tells two fills apart
constexpr double parts_of_a_field = 1'000'000;  // that tell two broken-off passes apart

/// A hash over whole numbers, one after the other.
class Mix {
 public:
  explicit Mix(std::uint64_t start) : sum_{start} {}
  void add(std::int64_t x) {
    sum_ = (sum_ ^ static_cast<std::uint64_t>(x)) * 0x9E3779B97F4A7C15ULL;
    sum_ ^= sum_ >> 29U;
  }
  [[nodiscard]] std::uint64_t sum() const { return sum_; }

 private:
  std::uint64_t sum_;
};

}  // namespace

int DayBits::next(int day, int until) const {
  while (day < until) {
    const std::uint64_t rest =
        words_[static_cast<std::size_t>(day) / 64] >> (static_cast<unsigned>(day) % 64U);
    if (rest != 0) return std::min(until, day + std::countr_zero(rest));
    day = (day / 64 + 1) * 64;
  }
  return until;
}

int DayBits::count(int from, int until) const {
  int n = 0;
  for (int d = next(from, until); d < until; d = next(d + 1, until)) ++n;
  return n;
}

Spells::Key Spells::key_of(const SpellState& s) const {
  const Progress& p = s.progress;
  Mix a{1}, b{2};
  const auto add = [&](std::int64_t x) {
    a.add(x);
    b.add(x);
  };
  add(p.recipe == nullptr ? -1 : p.recipe - table_->problem->farm.book.recipes.data());
  for (const int x : {s.setting, p.step, p.pass, p.fell_back ? 1 : 0, s.sim.day()}) add(x);
  const bool spring = !finished(p) && current_step(p).season == method::Season::spring;
  const double depth = like_.water_mm > 0.0 ? like_.water_mm : smallest_depth_mm;
  int back = 0;
  for (const SpellState* at = &s; at->before != plan::none; at = &state(at->before), ++back) {
    const PastEvent& e = at->last;
    int days = back == 0 ? 1 : back == 1 ? like_.before_last : like_.older;
    if (spring && !e.spring) days = std::max(days, like_.before_spring);
    for (const int x : {e.step, e.pass, e.day / days, e.implement, e.fell_back ? 1 : 0, e.met ? 1 : 0})
      add(x);
    add(std::lround(e.share * parts_of_a_field));
    add(std::lround(e.water_mm / depth));
  }
  return {a.sum(), b.sum()};
}

}  // namespace aftercut::dispatch
