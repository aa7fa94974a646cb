// What many farms share, shared out: against every choice of offers, and the bound beneath.

#include "aftercut/planner/share_out.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/core/random.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using plan::Shares;
using planner::Offer;

namespace {

using Limits = std::array<std::optional<double>, plan::shared_kinds>;

/// Each farm: much for little money, less for more, and in the end nothing needed.
std::vector<std::vector<Offer>> farms_drawn(Draws& d, std::size_t farms) {
  std::vector<std::vector<Offer>> all(farms);
  for (auto& of_farm : all) {
    Offer o{1000.0 * d.uniform(), {40.0 * d.uniform(), 200.0 * d.uniform(), d.uniform()}};
    const std::size_t n = 2 + d.below(3);
    for (std::size_t k = 0; k < n; ++k) {
      of_farm.push_back(o);
      o.cents += 300.0 * d.uniform();
      for (double& need : o.needs) need *= d.uniform();
    }
    of_farm.push_back({o.cents + 300.0 * d.uniform(), {}});
  }
  return all;
}

bool within(const plan::Shares& needs, const Limits& limits) {
  for (std::size_t k = 0; k < needs.size(); ++k)
    if (limits[k] && needs[k] > *limits[k] * (1.0 + 1e-9)) return false;
  return true;
}

plan::Shares sum_of(const std::vector<std::vector<Offer>>& offers, const std::vector<std::size_t>& taken) {
  plan::Shares sum{};
  for (std::size_t f = 0; f < taken.size(); ++f)
    for (std::size_t k = 0; k < sum.size(); ++k) sum[k] += offers[f][taken[f]].needs[k];
  return sum;
}

/// The least cost over every choice that fits.
double by_trying_all(const std::vector<std::vector<Offer>>& offers, const Limits& limits) {
  double best = std::numeric_limits<double>::infinity();
  std::vector<std::size_t> taken(offers.size(), 0);
  for (;;) {
    double cents = 0.0;
    for (std::size_t f = 0; f < taken.size(); ++f) cents += offers[f][taken[f]].cents;
    if (cents < best && within(sum_of(offers, taken), limits)) best = cents;
    std::size_t f = 0;
    while (f < taken.size() && ++taken[f] == offers[f].size()) taken[f++] = 0;
    if (f == taken.size()) return best;
  }
}

}  // namespace

TEST_CASE("shares fit, the bound lies beneath every choice, and little is lost", "[oracle]") {
  double over = 0.0, most_over = 0.0;
  constexpr int cases = 300;
  for (std::uint64_t c = 0; c < cases; ++c) {
    Draws d{5, stream_of("share out"), c};
    const auto offers = farms_drawn(d, 6);
    Limits limits{60.0 * d.uniform(), 400.0 * d.uniform(), 3.0 * d.uniform()};
    if (c % 3 == 0) limits[c % 2] = std::nullopt;
    const planner::SharedOut out = planner::share_out(offers, limits);
    const double least = by_trying_all(offers, limits);
    INFO("case " << c);
    CHECK(out.fits);
    CHECK(within(sum_of(offers, out.taken), limits));
    CHECK(out.bound_cents <= least + 1e-6);
    CHECK(out.cents >= least - 1e-6);
    over += out.cents / least - 1.0;
    most_over = std::max(most_over, out.cents / least - 1.0);
  }
  CHECK(over / cases < 0.01);
  CHECK(most_over < 0.10);
}

TEST_CASE("what is not scarce has no price, and farms keep their cheapest offer", "[identity]") {
  Draws d{6, stream_of("share out"), 1};
  const auto offers = farms_drawn(d, 9);
  const planner::SharedOut out = planner::share_out(offers, {1e6, 1e6, std::nullopt});
  CHECK(out.taken == std::vector<std::size_t>(9, 0));
  CHECK(out.prices == plan::Shares{});
  CHECK(out.bound_cents == Approx(out.cents));
}

TEST_CASE("a farm that offers nothing small enough is told, and what can be saved is", "[identity]") {
  const std::vector<std::vector<Offer>> offers{{{10.0, {50.0, 0.0, 0.0}}},
                                               {{5.0, {30.0, 0.0, 0.0}}, {9.0, {}}}};
  const planner::SharedOut out = planner::share_out(offers, {40.0, std::nullopt, std::nullopt});
  CHECK_FALSE(out.fits);
  CHECK(out.taken == std::vector<std::size_t>{0, 1});
}
