#include "aftercut/planner/openings.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "aftercut/dispatch/conditions.hpp"
#include "branches.hpp"
#include "leased_water.hpp"
#include "step_money.hpp"

namespace aftercut::planner {
namespace {

constexpr int parts_of_baling = 4;  // that are told apart when the fall-back takes over

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
             History start, int day, double hauled_share)
      : t_{table},
        field_{field},
        year_{year},
        recipe_{recipe},
        morning_{std::move(start)},
        day_{day},
        hauled_share_{hauled_share},
        baling_{baling_of(table, recipe)} {
    while (morning_.sim.day() < day_) live_history_day(morning_, 0.0);
  }

  std::vector<FallBack> all() const {
    if (baling_ == nullptr) return between(0.0, 0.0);
    std::vector<FallBack> out;
    for (int k = 0; k < parts_of_baling; ++k)
      for (FallBack& f : between(static_cast<double>(k) / parts_of_baling, (k + 1.0) / parts_of_baling))
        out.push_back(std::move(f));
    return out;
  }

 private:
  /// With so much baled: its money is that of the least, the straw left that of the most.
  [[nodiscard]] std::vector<FallBack> between(double least_done, double most_done) const {
    History h = morning_;
    if (baling_ != nullptr) h.sim.apply(*baling_, most_done);
    const method::Recipe& other = dispatch::recipe_named(t_, recipe_.fall_back->method);
    Branch before = hauled(t_, field_, year_, recipe_, {std::move(h)}, least_done - hauled_share_);
    std::vector<FallBack> out;
    for (Chain& chain : live(t_, field_, year_, other, std::move(before), day_).chains)
      out.push_back({std::move(chain), least_done});
    return out;
  }

  const dispatch::Table& t_;
  std::size_t field_, year_;
  const method::Recipe& recipe_;
  History morning_;  // on which it takes over
  int day_;
  double hauled_share_;  // by now, behind the baler
  const method::Operation* baling_;
};

/// What makes two recipes' fall-backs the same: how the field was cut, what takes over and when, what is
/// baled and hauled by.
using Like = std::tuple<int, std::string, int, const method::Operation*, int>;
using Known = std::map<Like, std::vector<FallBack>>;

/// The field on its first morning; boards that are in may have been filled.
History start_of(const dispatch::Table& t, std::size_t field, std::size_t year, std::size_t recipe) {
  History h = begin_history(dispatch::first_morning(t, field, year, static_cast<int>(recipe)));
  h.filled = t.starts[field][recipe].filled && t.problem->farm.book.recipes[recipe].water.has_value();
  return h;
}

/// [step] share of the field that is done of its first pass as the plan begins.
std::vector<double> done_of(const dispatch::Table& t, std::size_t field, const method::Recipe& r,
                            const dispatch::Start& at) {
  const double area_ha = t.problem->farm.fields[field].area.value();
  std::vector<double> done(r.steps.size(), 0.0);
  for (std::size_t k = 0; k < done.size(); ++k) {
    const int step = static_cast<int>(k);
    if (step == at.step)
      done[k] = at.area_done_ha / area_ha;
    else if (step == at.waits.step)
      done[k] = at.waits.area_ha / area_ha;
    else if (step > at.step && dispatch::hauls_bales(dispatch::operation_of(t, r.steps[k])))
      done[k] = at.hauled_ha / area_ha;
  }
  return done;
}

/// Work is under way as the plan begins: of what was done by then only the money to come counts.
void count_begun(const dispatch::Table& t, std::size_t field, std::size_t year, const method::Recipe& r,
                 const season::FieldYear& sim, const dispatch::Start& at, std::vector<FallBack>& all) {
  const int key = dispatch::key_step(t, r);
  const bool baled = baling_of(t, r) != nullptr && (at.waits.area_ha > 0.0 || at.step == key);
  for (FallBack& f : all) {
    f.done_share = 0.0;
    if (baled)
      f.begun_cents = begun_baling_cents({&t, field, year, &r, &r.steps[static_cast<std::size_t>(key)], {}},
                                         sim, at.baled_by);
  }
}

Openings openings_with(const dispatch::Table& t, std::size_t field, std::size_t year, std::size_t recipe,
                       Known& known) {
  const farm::Farm& farm = t.problem->farm;
  const method::Recipe& r = farm.book.recipes[recipe];
  const History start = start_of(t, field, year, recipe);
  const dispatch::Start& at = t.starts[field][recipe];
  Openings out;
  Branch first;
  first.histories.push_back(start);
  if (start.sim.boards_are_in()) first.income_cents = most_lease_cents(t, field, r, first.histories);
  WhereFrom where{.first_step = std::min(static_cast<std::size_t>(at.step), r.steps.size()),
                  .begun = at.started,
                  .passes_left = at.passes - at.pass,
                  .done = done_of(t, field, r, at)};
  std::optional<int>& taken_over = where.taken_over;
  if (r.fall_back && at.step <= dispatch::key_step(t, r))
    taken_over = std::max(dispatch::day_of(t, r.fall_back->start_by), start.sim.day());
  Lived own = live(t, field, year, r, std::move(first), start.sim.day(), where);
  out.key_passes = own.key_passes;
  if (taken_over) {
    const int day = *taken_over;
    const auto haul = dispatch::hauling_step(t, r);
    const Like like{t.setting_of[field][recipe + 1], r.fall_back->method.value, day, baling_of(t, r),
                    haul ? r.steps[static_cast<std::size_t>(*haul)].operation : plan::none};
    if (day < farm.season.days) {
      auto [known_at, is_new] = known.try_emplace(like);
      if (is_new)
        known_at->second =
            TakingOver{t, field, year, r, start, day, at.hauled_ha / farm.fields[field].area.value()}.all();
      out.fall_backs = known_at->second;
      if (at.area_done_ha > 0.0) count_begun(t, field, year, r, start.sim, at, out.fall_backs);
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
