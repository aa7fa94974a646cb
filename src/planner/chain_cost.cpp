#include "aftercut/planner/chain_cost.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/core/require.hpp"

namespace aftercut::planner {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr double whole_day_slack = 1e-9;  // of a day: a remainder smaller than this is none

enum Step : unsigned char { rests = 0, whole_day = 1, remainder = 2 };

/// The work of a pass in whole days and a rest.
struct Pieces {
  std::size_t whole = 0;
  double day_ha = 0.0, rest_ha = 0.0;
  [[nodiscard]] std::size_t states() const { return 2 * (whole + 1); }
};

Pieces pieces_of(const PricedPass& p) {
  if (p.area_ha <= 0.0) return {};
  require(p.most_ha_a_day > 0.0, "someone can do a pass that has open days");
  const double days = p.area_ha / p.most_ha_a_day;
  Pieces out{static_cast<std::size_t>(std::floor(days + whole_day_slack)), p.most_ha_a_day, 0.0};
  const double rest = days - static_cast<double>(out.whole);
  if (rest > whole_day_slack) out.rest_ha = rest * p.most_ha_a_day;
  return out;
}

/// How a pass came to its least cost; for going back.
struct Trace {
  std::vector<unsigned char> step;    ///< [open day][state]
  std::vector<unsigned char> finish;  ///< [open day] the step that would end the pass here
  std::vector<char> began;            ///< [open day] the pass began here
  std::vector<int> last;       ///< [day] open day of the end behind the least cost so far; -1: left out
  std::vector<int> came_from;  ///< [open day] latest end of the pass before, when it began here
};

/// One pass: from the least costs of having ended the pass before by each day to those of this one.
class Pass {
 public:
  Pass(const Chain& chain, std::size_t index, const PricedPass& priced, int next_lag, bool traces)
      : chain_{chain},
        o_{chain.passes[index]},
        priced_{priced},
        pieces_{pieces_of(priced)},
        next_lag_{next_lag},
        traces_{traces} {}

  std::vector<double> run(const std::vector<double>& before) {
    std::vector<double> ended(before.size(), never);
    now_.assign(pieces_.states(), never);
    if (traces_) {
      trace.step.assign(o_.days.size() * pieces_.states(), rests);
      trace.finish.assign(o_.days.size(), rests);
      trace.began.assign(o_.days.size(), 0);
      trace.came_from.assign(o_.days.size(), -1);
    }
    trace.last.assign(before.size(), -1);
    std::size_t k = 0;
    for (std::size_t d = 0; d < before.size(); ++d) {
      if (d > 0) {
        ended[d] = ended[d - 1];
        trace.last[d] = trace.last[d - 1];
      }
      if (k < o_.days.size() && o_.days[k] == d) {
        const double end = live(k, static_cast<int>(d), before);
        const bool may_end = o_.may_end.empty() || o_.may_end[k] != 0;
        if (may_end && end < ended[d]) {
          ended[d] = end;
          trace.last[d] = static_cast<int>(k);
        }
        ++k;
      }
    }
    leave_out(before, ended);
    return ended;
  }

  Trace trace;
  [[nodiscard]] const Pieces& pieces() const { return pieces_; }

 private:
  /// The latest day on which the pass before may have ended for this one to begin on the day; -1: none.
  int latest_before(std::size_t k, int day) {
    int p = day - 1 - o_.lag;
    if (o_.drying_mm > 0.0 && !o_.dry_already[k]) {
      const auto dried_since = [&](int d) {
        return chain_.evaporated_mm[static_cast<std::size_t>(day)] -
               chain_.evaporated_mm[static_cast<std::size_t>(d)];
      };
      while (dried_ < day && dried_since(dried_ + 1) >= o_.drying_mm) ++dried_;
      p = std::min(p, dried_);
    }
    return p;
  }

  double live(std::size_t k, int day, const std::vector<double>& before) {
    const double per_ha = priced_.area_ha > 0.0 ? priced_.cents_per_ha[k] : 0.0;
    const double extra = o_.cost_cents.empty() ? 0.0 : o_.cost_cents[k];
    const int p = latest_before(k, day);
    const bool may_begin = p >= 0 && (o_.begins_before == 0 || day < o_.begins_before);
    const double start = may_begin ? before[static_cast<std::size_t>(p)] : never;
    // Water may come over several days, and a first stretch may be as short as one likes.
    const bool waits = now_[0] <= start;
    if (!waits) {
      now_[0] = start;
      if (traces_) {
        trace.began[k] = start < never ? 1 : 0;
        trace.came_from[k] = p;
      }
    }
    if (priced_.area_ha <= 0.0) return now_[0] + extra;
    const double all_day = pieces_.day_ha * per_ha, rest = pieces_.rest_ha * per_ha;
    const double end = finish(k, all_day, rest);
    for (std::size_t w = pieces_.whole + 1; w-- > 0;)
      for (const std::size_t b : {std::size_t{1}, std::size_t{0}}) place(k, w, b, all_day, rest);
    return end + extra;
  }

  /// The least cost of ending the pass today, from the states of yesterday.
  double finish(std::size_t k, double all_day, double rest) {
    const std::size_t whole = pieces_.whole, b = pieces_.rest_ha > 0.0 ? 1 : 0;
    double least = now_[2 * whole + b];  // all but a last stretch, as short as one likes
    unsigned char how = rests;
    if (b == 1 && now_[2 * whole] + rest < least) {
      least = now_[2 * whole] + rest;
      how = remainder;
    }
    if (whole > 0 && now_[2 * (whole - 1) + b] + all_day < least) {
      least = now_[2 * (whole - 1) + b] + all_day;
      how = whole_day;
    }
    if (traces_) trace.finish[k] = how;
    return least;
  }

  void place(std::size_t k, std::size_t w, std::size_t b, double all_day, double rest) {
    double& here = now_[2 * w + b];
    unsigned char how = rests;
    double least = here;
    if (w > 0 && now_[2 * (w - 1) + b] + all_day < least) {
      least = now_[2 * (w - 1) + b] + all_day;
      how = whole_day;
    }
    if (b == 1 && pieces_.rest_ha > 0.0 && now_[2 * w] + rest < least) {
      least = now_[2 * w] + rest;
      how = remainder;
    }
    here = least;
    if (traces_) trace.step[k * pieces_.states() + 2 * w + b] = how;
  }

  void leave_out(const std::vector<double>& before, std::vector<double>& ended) {
    if (!o_.free_from) return;
    const int from = std::max(0, *o_.free_from - 1 - next_lag_);
    for (std::size_t d = static_cast<std::size_t>(from); d < before.size(); ++d)
      if (before[d] <= ended[d]) {
        ended[d] = before[d];
        trace.last[d] = -2;
      }
  }

  const Chain& chain_;
  const Opening& o_;
  const PricedPass& priced_;
  Pieces pieces_;
  int next_lag_ = 0;
  bool traces_ = false;
  int dried_ = -1;
  std::vector<double> now_;  // [2 x whole days done + remainder done]
};

std::vector<double> at_first(const Chain& chain, std::size_t days) {
  std::vector<double> cost(days, never);
  for (std::size_t d = static_cast<std::size_t>(std::max(chain.begins - 1, 0)); d < days; ++d) cost[d] = 0.0;
  return cost;
}

int lag_after(const Chain& chain, std::size_t index) {
  return index + 1 < chain.passes.size() ? chain.passes[index + 1].lag : 0;
}

/// Goes back from the day of the chain's end and collects the pieces.
std::vector<Piece> pieces_back(const Chain& chain, std::vector<Pass>& passes, std::size_t day) {
  std::vector<Piece> out;
  for (std::size_t i = chain.passes.size(); i-- > 0;) {
    const Pass& pass = passes[i];
    const int end = pass.trace.last[day];
    if (end == -2) continue;
    require(end >= 0, "a finite cost has an end");
    const Pieces& p = pass.pieces();
    std::size_t w = p.whole, b = p.rest_ha > 0.0 ? 1 : 0;
    auto k = static_cast<std::size_t>(end);
    for (auto last = true;; last = false, --k) {
      const unsigned char how = p.day_ha <= 0.0 ? static_cast<unsigned char>(rests)
                                : last          ? pass.trace.finish[k]
                                                : pass.trace.step[k * p.states() + 2 * w + b];
      if (how == whole_day) {
        out.push_back({i, k, p.day_ha});
        --w;
      } else if (how == remainder) {
        out.push_back({i, k, p.rest_ha});
        b = 0;
      }
      if (w == 0 && b == 0 && pass.trace.began[k]) break;
      require(k > 0, "a pass has a beginning");
    }
    day = static_cast<std::size_t>(pass.trace.came_from[k]);
  }
  return out;
}

}  // namespace

ChainCost least_cost(const Chain& chain, const std::vector<PricedPass>& priced, const Outcome& outcome,
                     bool with_pieces) {
  require(priced.size() == chain.passes.size(), "every pass has its price");
  const std::size_t days = outcome.cents.size();
  std::vector<double> ended = at_first(chain, days);
  std::vector<Pass> passes;
  passes.reserve(priced.size());
  double cheapest_part = 0.0;
  for (std::size_t i = 0; i < priced.size(); ++i) {
    passes.emplace_back(chain, i, priced[i], lag_after(chain, i), with_pieces);
    ended = passes.back().run(ended);
    cheapest_part = std::min(cheapest_part, ended.back());
  }
  ChainCost out{outcome.never_cents + cheapest_part, {}};
  std::size_t best = days;
  for (std::size_t d = 0; d < days; ++d)
    if (ended[d] + outcome.cents[d] < out.cents) {
      out.cents = ended[d] + outcome.cents[d];
      best = d;
    }
  if (with_pieces && best < days) out.pieces = pieces_back(chain, passes, best);
  return out;
}

}  // namespace aftercut::planner
