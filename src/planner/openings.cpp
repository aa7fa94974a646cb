#include "aftercut/planner/openings.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <tuple>

#include "aftercut/dispatch/conditions.hpp"
#include "branches.hpp"

namespace aftercut::planner {
namespace {

constexpr double finest_part = 1.0 / 64.0;  // of baling, that is told when the fall-back takes over

/// The field on the morning on which the fall-back takes over, its own baling done to this share.
History at_fall_back(History h, const method::Operation* baling, double share, int day) {
  while (h.sim.day() < day) live_history_day(h, 0.0);
  if (baling != nullptr && share > 0.0) h.sim.apply(*baling, share);
  return h;
}

/// The operation that the fall-back hangs on, when a part of it can be done: baling. A burn is whole or none.
const method::Operation* baling_of(const dispatch::Table& t, const method::Recipe& recipe) {
  const auto key = static_cast<std::size_t>(dispatch::key_step(t, recipe));
  if (key == recipe.steps.size()) return nullptr;
  const method::Operation& op = dispatch::operation_of(t, recipe.steps[key]);
  return op.burning ? nullptr : &op;
}

/// The branch before the fall-back's first step: bales that lie are hauled, except where the outfit that
/// baled takes them off.
Branch hauled(const dispatch::Table& t, std::size_t field, std::size_t year, const method::Recipe& recipe,
              std::vector<History> from, double share) {
  Branch b;
  b.histories = std::move(from);
  const auto step = dispatch::hauling_step(t, recipe);
  const bool gone = std::ranges::any_of(t.problem->farm.implements, [](const machinery::Implement& i) {
    return i.hire && i.hire->bales_off_by;
  });
  if (share <= 0.0 || !step || gone) return b;
  StepTaken taken = Histories{t, field, year, recipe}.take(recipe.steps[static_cast<std::size_t>(*step)],
                                                           std::move(b.histories));
  for (Opening& o : taken.passes) {
    o.share = share;
    o.lag = 0;
    b.passes.push_back(std::move(o));
  }
  b.histories = std::move(taken.done);
  return b;
}

/// A recipe's fall-back in one weather year of a field, for any share of its own baling.
class TakingOver {
 public:
  TakingOver(const dispatch::Table& table, std::size_t field, std::size_t year, const method::Recipe& recipe,
             History start, int day)
      : t_{table}, field_{field}, year_{year}, recipe_{recipe}, start_{std::move(start)}, day_{day} {}

  std::vector<FallBack> all() {
    baling_ = baling_of(t_, recipe_);
    if (baling_ == nullptr) return between(0.0, 0.0);
    std::vector<double> shares{0.0};
    part(shares, 0.0, fewest_passes(0.0), 1.0, fewest_passes(1.0));
    shares.push_back(1.0);
    std::vector<FallBack> out;
    for (std::size_t k = 0; k + 1 < shares.size(); ++k)
      if (shares[k] < shares[k + 1])
        for (FallBack& f : between(shares[k], shares[k + 1])) out.push_back(std::move(f));
    return out;
  }

 private:
  Lived live_with(double least_done, double most_done, bool roughly = false) const {
    std::vector<History> from{at_fall_back(start_, baling_, least_done, day_)};
    if (most_done > least_done) from.push_back(at_fall_back(start_, baling_, most_done, day_));
    const method::Recipe& other = dispatch::recipe_named(t_, recipe_.fall_back->method);
    return live(t_, field_, year_, other, hauled(t_, field_, year_, recipe_, std::move(from), least_done),
                day_, {}, roughly);
  }

  std::vector<FallBack> between(double least_done, double most_done) const {
    std::vector<FallBack> out;
    for (Chain& chain : live_with(least_done, most_done).chains)
      out.push_back({std::move(chain), least_done});
    return out;
  }

  int fewest_passes(double done) const {
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    for (const Chain& chain : live_with(done, done, true).chains) {
      const auto n = std::ranges::count_if(chain.passes, [](const Opening& o) { return !o.free_from; });
      fewest = std::min(fewest, static_cast<std::size_t>(n));
    }
    return static_cast<int>(fewest);
  }

  /// Finds the shares at which more baling saves a pass: there the parts of baling are told apart.
  void part(std::vector<double>& shares, double least, int with_least, double most, int with_most) const {
    if (with_least == with_most) return;
    if (most - least <= finest_part) {
      shares.push_back(least);
      return;
    }
    const double middle = 0.5 * (least + most);
    const int with_middle = fewest_passes(middle);
    part(shares, least, with_least, middle, with_middle);
    part(shares, middle, with_middle, most, with_most);
  }

  const dispatch::Table& t_;
  std::size_t field_, year_;
  const method::Recipe& recipe_;
  History start_;
  int day_;
  const method::Operation* baling_ = nullptr;
};

/// What makes two recipes' fall-backs the same: how the field was cut, what takes over and when, what is
/// baled and hauled by.
using Like = std::tuple<int, std::string, int, const method::Operation*, int>;
using Known = std::map<Like, std::vector<FallBack>>;

Openings openings_with(const dispatch::Table& t, std::size_t field, std::size_t year, std::size_t recipe,
                       Known& known) {
  const farm::Farm& farm = t.problem->farm;
  const method::Recipe& r = farm.book.recipes[recipe];
  const History start = begin_history(dispatch::first_morning(t, field, year, static_cast<int>(recipe)));
  Openings out;
  Branch first;
  first.histories.push_back(start);
  std::optional<int> taken_over;
  if (r.fall_back) taken_over = std::max(dispatch::day_of(t, r.fall_back->start_by), start.sim.day());
  Lived own = live(t, field, year, r, std::move(first), start.sim.day(), taken_over);
  out.key_passes = own.key_passes;
  if (taken_over) {
    const int day = *taken_over;
    const auto haul = dispatch::hauling_step(t, r);
    const Like like{t.setting_of[field][recipe + 1], r.fall_back->method.value, day, baling_of(t, r),
                    haul ? r.steps[static_cast<std::size_t>(*haul)].operation : plan::none};
    if (day < farm.season.days) {
      auto [at, is_new] = known.try_emplace(like);
      if (is_new) at->second = TakingOver{t, field, year, r, start, day}.all();
      out.fall_backs = at->second;
    }
  }
  out.own = std::move(own.chains);
  return out;
}

}  // namespace

Openings openings_of(const dispatch::Table& t, std::size_t field, std::size_t year, std::size_t recipe) {
  Known known;
  return openings_with(t, field, year, recipe, known);
}

std::vector<std::optional<Openings>> openings_of_all(const dispatch::Table& t, std::size_t field,
                                                     std::size_t year) {
  Known known;
  std::vector<std::optional<Openings>> all(t.problem->farm.book.recipes.size());
  for (std::size_t r = 0; r < all.size(); ++r)
    if (t.why_not[field][r].empty()) all[r] = openings_with(t, field, year, r, known);
  return all;
}

}  // namespace aftercut::planner
