#include "aftercut/planner/chain_cost.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/core/random.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::planner;

namespace {

constexpr int days = 9;
constexpr double never = std::numeric_limits<double>::infinity();

struct Case {
  Chain chain;
  std::vector<PricedPass> priced;
  Outcome outcome;
};

/// A chain of one to three passes over nine days, with lags, drying, passes that may be left out, days on
/// which nobody can come.
Case invented(Draws& draws) {
  Case c;
  c.chain.begins = 1;
  c.chain.evaporated_mm.push_back(0.0);
  for (int d = 0; d < days; ++d) {
    c.chain.evaporated_mm.push_back(c.chain.evaporated_mm.back() + 4.0 * draws.uniform());
    c.outcome.cents.push_back(d < 5 ? 0.0 : 30.0 * (d - 4));
  }
  c.outcome.never_cents = 200.0;
  const auto n = 1 + draws.below(3);
  for (std::uint32_t i = 0; i < n; ++i) {
    Opening o{.operation = static_cast<int>(i), .lag = static_cast<int>(draws.below(2))};
    PricedPass p{.area_ha = 2.0 + 9.0 * draws.uniform(), .most_ha_a_day = 5.0};
    if (draws.below(6) == 0) p = {};
    const bool some_ends = draws.below(4) == 0;
    if (draws.below(3) == 0) o.drying_mm = 5.0;
    if (draws.below(4) == 0) o.free_from = static_cast<int>(draws.below(days));
    if (draws.below(4) == 0) o.begins_before = 3 + static_cast<int>(draws.below(4));
    for (int d = 0; d < days; ++d) {
      if (draws.below(4) == 0) continue;
      o.days.push_back(static_cast<std::uint16_t>(d));
      o.dry_already.push_back(draws.below(5) == 0 ? 1 : 0);
      if (some_ends) o.may_end.push_back(draws.below(2) == 0 ? 1 : 0);
      if (p.area_ha > 0.0)
        p.cents_per_ha.push_back(draws.below(8) == 0 ? never : 1.0 + 9.0 * draws.uniform());
      if (i == 0) o.cost_cents.push_back(-40.0 * draws.uniform());
    }
    c.chain.passes.push_back(o);
    c.priced.push_back(p);
  }
  return c;
}

/// Every way to work pass `i` and those behind it by hand: the days of its whole days and its remainder, in
/// all orders. `end`: the last day of the pass before.
class ByHand {
 public:
  explicit ByHand(const Case& c) : c_{c} {}
  double least() {
    least_ = c_.outcome.never_cents;
    go(0, c_.chain.begins - 1, 0.0);
    return least_;
  }

 private:
  void go(std::size_t i, int end, double cost) {
    least_ = std::min(least_, cost + c_.outcome.never_cents);
    if (i == c_.chain.passes.size()) {
      least_ = std::min(least_, cost + c_.outcome.cents[static_cast<std::size_t>(std::max(end, 0))]);
      return;
    }
    const Opening& o = c_.chain.passes[i];
    if (o.free_from) {
      const int lag = i + 1 < c_.chain.passes.size() ? c_.chain.passes[i + 1].lag : 0;
      go(i + 1, std::max(end, std::max(0, *o.free_from - 1 - lag)), cost);
    }
    const PricedPass& p = c_.priced[i];
    const int whole = p.area_ha > 0.0 ? static_cast<int>(p.area_ha / p.most_ha_a_day) : 0;
    const double rest = p.area_ha - whole * p.most_ha_a_day;
    work(i, end, cost, whole, rest > 1e-6 ? rest : 0.0, -1, p.area_ha <= 0.0);
  }

  static bool may_end(const Opening& o, std::size_t k) { return o.may_end.empty() || o.may_end[k] != 0; }

  [[nodiscard]] bool may_begin(const Opening& o, std::size_t k, int end) const {
    const int day = o.days[k];
    if (day < end + 1 + o.lag || (o.begins_before > 0 && day >= o.begins_before)) return false;
    const auto& sum = c_.chain.evaporated_mm;
    return o.drying_mm <= 0.0 || o.dry_already[k] != 0 ||
           sum[static_cast<std::size_t>(day)] - sum[static_cast<std::size_t>(end)] >= o.drying_mm;
  }

  void work(std::size_t i, int end, double cost, int whole, double rest, int last, bool at_once) {
    const Opening& o = c_.chain.passes[i];
    const PricedPass& p = c_.priced[i];
    bool begun = last >= 0;
    for (std::size_t k = 0; k < o.days.size(); ++k) {
      const int day = o.days[k];
      begun = begun || may_begin(o, k, end);
      if (day <= last || !begun) continue;  // a first stretch may have been as short as one likes
      const double extra = o.cost_cents.empty() ? 0.0 : o.cost_cents[k];
      if (at_once) {
        if (may_end(o, k)) go(i + 1, day, cost + extra);
        continue;
      }
      const double per_ha = p.cents_per_ha[k];
      const auto on = [&](int w, double r, double done) {
        if (w == 0 && r == 0.0) {
          if (may_end(o, k)) go(i + 1, day, cost + done * per_ha + extra);
          for (std::size_t last_k = k + 1; last_k < o.days.size(); ++last_k)  // and so the last one
            if (may_end(o, last_k))
              go(i + 1, o.days[last_k],
                 cost + done * per_ha + (o.cost_cents.empty() ? 0.0 : o.cost_cents[last_k]));
        } else {
          work(i, end, cost + done * per_ha, w, r, day, false);
        }
      };
      if (whole > 0) on(whole - 1, rest, p.most_ha_a_day);
      if (rest > 0.0) on(whole, 0.0, rest);
    }
  }

  const Case& c_;
  double least_ = 0.0;
};

}  // namespace

TEST_CASE("the least cost of a chain is that of every choice of days tried by hand", "[cross]") {
  int finished = 0;
  for (std::uint64_t k = 0; k < 400; ++k) {
    Draws draws{7, stream_of("chain"), k};
    const Case c = invented(draws);
    CAPTURE(k);
    const double found = least_cost(c.chain, c.priced, c.outcome, false).cents;
    CHECK(found == Catch::Detail::Approx(ByHand{c}.least()).margin(1e-6));
    if (found < c.outcome.never_cents - 50.0) ++finished;
  }
  CHECK(finished > 50);
}

TEST_CASE("the pieces of a chain add up to its areas and to its cost", "[identity]") {
  int with_pieces = 0;
  for (std::uint64_t k = 0; k < 400; ++k) {
    Draws draws{8, stream_of("chain"), k};
    Case c = invented(draws);
    for (Opening& o : c.chain.passes) o.cost_cents.clear();
    const ChainCost found = least_cost(c.chain, c.priced, c.outcome, true);
    CHECK(found.cents == least_cost(c.chain, c.priced, c.outcome, false).cents);
    if (found.pieces.empty()) continue;
    ++with_pieces;
    std::vector<double> hectares(c.priced.size(), 0.0);
    double cost = 0.0;
    int last = 0;
    for (const Piece& p : found.pieces) {
      hectares[p.pass] += p.hectares;
      cost += p.hectares * c.priced[p.pass].cents_per_ha[p.open_day];
      last = std::max(last, static_cast<int>(c.chain.passes[p.pass].days[p.open_day]));
    }
    CAPTURE(k);
    for (std::size_t i = 0; i < hectares.size(); ++i)
      CHECK((hectares[i] == Catch::Detail::Approx(c.priced[i].area_ha) || hectares[i] == 0.0));
    CHECK(found.cents >= cost - 1e-6);
    CHECK(found.cents <= cost + c.outcome.cents.back() + 1e-6);
  }
  CHECK(with_pieces > 100);
}

TEST_CASE("a pass may begin and end with a stretch as short as one likes", "[regression]") {
  Case c;
  c.chain.begins = 1;
  c.chain.evaporated_mm.assign(days + 1, 0.0);
  c.outcome = {std::vector<double>(days, 0.0), 200.0};
  c.chain.passes.push_back({.operation = 0,
                            .days = {2, 5, 8},
                            .dry_already = {0, 0, 0},
                            .cost_cents = {0.0, 0.0, -30.0},
                            .begins_before = 3});
  c.priced.push_back({.area_ha = 4.0, .most_ha_a_day = 5.0, .cents_per_ha = {100.0, 1.0, 50.0}});
  CHECK(least_cost(c.chain, c.priced, c.outcome, false).cents == Catch::Detail::Approx(4.0 * 1.0 - 30.0));
  const ChainCost found = least_cost(c.chain, c.priced, c.outcome, true);
  REQUIRE(found.pieces.size() == 1);
  CHECK(found.pieces.front().open_day == 1);
}
