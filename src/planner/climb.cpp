// Better prices for the bound, step by step.

#include <algorithm>

#include "aftercut/planner/bound.hpp"

namespace aftercut::planner {
namespace {

constexpr double first_step = 0.05, smallest_step = 0.0005, kept_direction = 0.3;
constexpr int rounds_without_rise = 4;

/// A smoothed subgradient: what is asked for beyond what is there.
class Climb {
 public:
  explicit Climb(const BoundInput& in) : in_{in}, m_{*in.model} {
    prices_.assign(m_.years.size(), DayPrices(m_.resources.minutes.size(), 0.0));
    direction_ = prices_;
  }

  Bound run() {
    Bound best;
    for (int round = 0; round <= in_.rounds; ++round) {
      const Evaluated e = evaluate(m_, prices_, in_.threads, round < in_.rounds);
      if (round == 0) best = {e.cents, e.cents, prices_, e.method};
      if (e.cents > best.cents) {
        best = {e.cents, best.without_prices, prices_, e.method};
        flat_rounds_ = 0;
        step_ = std::min(first_step, 1.5 * step_);
      } else if (++flat_rounds_ >= rounds_without_rise) {
        step_ = std::max(smallest_step, 0.5 * step_);
        flat_rounds_ = 0;
        prices_ = best.prices;
      }
      if (in_.progress) in_.progress(static_cast<double>(round) / std::max(in_.rounds, 1));
      if (round < in_.rounds) move(e, std::max(in_.plan_cents - e.cents, 1.0));
    }
    best.cents = rounded_down(best.cents);
    return best;
  }

 private:
  void move(const Evaluated& e, double to_go) {
    double length = 0.0;
    for (std::size_t y = 0; y < prices_.size(); ++y)
      for (std::size_t i = 0; i < prices_[y].size(); ++i) {
        const double over = e.minutes_used[y][i] - m_.resources.minutes[i];
        double& along = direction_[y][i];
        along = kept_direction * along + (1.0 - kept_direction) * over;
        if (prices_[y][i] <= 0.0 && along < 0.0) along = 0.0;
        length += along * along;
      }
    if (length <= 0.0) return;
    const double t = step_ * to_go / length;
    for (std::size_t y = 0; y < prices_.size(); ++y)
      for (std::size_t i = 0; i < prices_[y].size(); ++i)
        prices_[y][i] = std::max(0.0, prices_[y][i] + t * direction_[y][i]);
  }

  const BoundInput& in_;
  const BoundModel& m_;
  std::vector<DayPrices> prices_, direction_;
  double step_ = first_step;
  int flat_rounds_ = 0;
};

}  // namespace

Bound lower_bound(const BoundInput& input) { return Climb{input}.run(); }

}  // namespace aftercut::planner
