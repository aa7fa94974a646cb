#include "aftercut/planner/share_out.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/core/require.hpp"

namespace aftercut::planner {
namespace {

using plan::Shares;

constexpr int rounds = 400;
constexpr int patience = 20;    // rounds without a better bound, after which steps are halved
constexpr double close = 1e-9;  // of a limit

class SharingOut {
 public:
  SharingOut(const std::vector<std::vector<Offer>>& offers,
             const std::array<std::optional<double>, plan::shared_kinds>& limits)
      : offers_{offers}, limits_{limits} {
    for (const auto& of_farm : offers_) require(!of_farm.empty(), "every farm offers a plan");
  }

  SharedOut run() {
    SharedOut best;
    take(best, cheapest(Shares{}));
    climb(best);
    return best;
  }

 private:
  using Taken = std::vector<std::size_t>;

  Taken cheapest(const Shares& prices) const {
    Taken taken;
    for (const auto& of_farm : offers_) {
      const auto priced = [&](const Offer& o) {
        double cents = o.cents;
        for (std::size_t k = 0; k < plan::shared_kinds; ++k) cents += prices[k] * o.needs[k];
        return cents;
      };
      const auto at = std::ranges::min_element(of_farm, {}, priced);
      taken.push_back(static_cast<std::size_t>(at - of_farm.begin()));
    }
    return taken;
  }

  double cents_of(const Taken& taken) const {
    double sum = 0.0;
    for (std::size_t f = 0; f < taken.size(); ++f) sum += offers_[f][taken[f]].cents;
    return sum;
  }

  /// What the choice needs beyond each limit; below 0: left over; without a limit far below.
  Shares beyond(const Taken& taken) const {
    Shares over{};
    for (std::size_t k = 0; k < plan::shared_kinds; ++k) {
      for (std::size_t f = 0; f < taken.size(); ++f) over[k] += offers_[f][taken[f]].needs[k];
      over[k] -= limits_[k] ? *limits_[k] * (1.0 + close) : std::numeric_limits<double>::infinity();
    }
    return over;
  }
  static bool fits(const Shares& over) {
    return std::ranges::all_of(over, [](double x) { return x <= 0.0; });
  }

  /// How much less is asked of what there is too little of, in parts of what is too much.
  static double relief(const Shares& over, const Shares& now, const Shares& then) {
    double sum = 0.0;
    for (std::size_t k = 0; k < plan::shared_kinds; ++k) {
      const double after = over[k] + then[k] - now[k];
      if (over[k] > 0.0) sum += (over[k] - std::max(after, 0.0)) / over[k];
      if (over[k] <= 0.0 && after > 0.0) return 0.0;  // it would fit no more
    }
    return sum;
  }

  /// Other offers for as little as can be until all fits.
  Taken repaired(Taken taken) const {
    for (Shares over = beyond(taken); !fits(over); over = beyond(taken)) {
      double least = std::numeric_limits<double>::infinity();
      std::size_t farm = 0, offer = 0;
      for (std::size_t f = 0; f < taken.size(); ++f)
        for (std::size_t o = 0; o < offers_[f].size(); ++o) {
          const Offer &now = offers_[f][taken[f]], &then = offers_[f][o];
          const double less = relief(over, now.needs, then.needs);
          if (less <= close) continue;
          const double worth = (then.cents - now.cents) / less;
          if (worth < least) least = worth, farm = f, offer = o;
        }
      if (least == std::numeric_limits<double>::infinity()) break;
      taken[farm] = offer;
    }
    return taken;
  }

  /// The best exchange of one farm's offer, again and again, as long as money is saved and all fits.
  Taken improved(Taken taken) const {
    for (bool again = true; again;) {
      again = false;
      const Shares over = beyond(taken);
      double most = close;
      std::size_t farm = 0, offer = 0;
      for (std::size_t f = 0; f < taken.size(); ++f)
        for (std::size_t o = 0; o < offers_[f].size(); ++o) {
          const Offer &now = offers_[f][taken[f]], &then = offers_[f][o];
          bool stays = now.cents - then.cents > most;
          for (std::size_t k = 0; stays && k < plan::shared_kinds; ++k)
            stays = over[k] + then.needs[k] - now.needs[k] <= 0.0;
          if (stays) most = now.cents - then.cents, farm = f, offer = o, again = true;
        }
      if (again) taken[farm] = offer;
    }
    return taken;
  }

  void take(SharedOut& best, const Taken& from) const {
    Taken taken = repaired(from);
    const bool all_fits = fits(beyond(taken));
    if (all_fits) taken = improved(std::move(taken));
    const double cents = cents_of(taken);
    if (best.taken.empty() || (all_fits && (!best.fits || cents < best.cents)))
      best = {std::move(taken), cents, best.bound_cents, best.prices, all_fits};
  }

  void climb(SharedOut& best) const {
    Shares prices{};
    double share = 1.0;
    int since = 0;
    best.bound_cents = -std::numeric_limits<double>::infinity();
    for (int round = 0; round < rounds; ++round) {
      const Taken taken = cheapest(prices);
      const Shares over = beyond(taken);
      double bound = cents_of(taken), square = 0.0;
      for (std::size_t k = 0; k < plan::shared_kinds; ++k) {
        if (!limits_[k]) continue;
        bound += prices[k] * over[k];
        square += step_of(over, k) * step_of(over, k);
      }
      ++since;
      if (bound > best.bound_cents) best.bound_cents = bound, best.prices = prices, since = 0;
      if (since > patience) share *= 0.5, since = 0;
      take(best, taken);
      if (square <= 0.0) return;
      const double length = share * std::max(best.cents - bound, 1.0) / square;
      for (std::size_t k = 0; k < plan::shared_kinds; ++k)
        if (limits_[k]) prices[k] = std::max(0.0, prices[k] + length * step_of(over, k) / scale(k));
    }
  }

  /// Beyond the limit in parts of it, so that hectares and cubic metres weigh alike.
  double step_of(const Shares& over, std::size_t k) const { return over[k] / scale(k); }
  double scale(std::size_t k) const { return std::max(*limits_[k], 1e-6); }

  const std::vector<std::vector<Offer>>& offers_;
  const std::array<std::optional<double>, plan::shared_kinds>& limits_;
};

}  // namespace

SharedOut share_out(const std::vector<std::vector<Offer>>& offers,
                    const std::array<std::optional<double>, plan::shared_kinds>& limits) {
  return SharingOut{offers, limits}.run();
}

}  // namespace aftercut::planner
