#include "aftercut/scenario/stay.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "aftercut/planner/search.hpp"

namespace aftercut::scenario {
namespace {

/// One difference between the two decisions, and how to go back on it.
struct Difference {
  plan::Move move;
  double ha = 0.0;
  std::function<void(plan::Decision&)> go_back;
};

std::vector<Difference> differences(const StayInput& in) {
  const farm::Farm& farm = in.table->problem->farm;
  std::vector<Difference> out;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const int from = in.stood->method[f], to = in.found->method[f];
    if (from == to) continue;
    out.push_back({{.field = static_cast<int>(f), .from = from, .to = to, .made = true},
                   farm.fields[f].area.value(),
                   [f, from](plan::Decision& d) { d.method[f] = from; }});
  }
  const double mean_ha =
      in.table->farm_area_ha / static_cast<double>(std::max<std::size_t>(1, farm.fields.size()));
  if (in.stood->autumn_order != in.found->autumn_order)
    out.push_back({{.field = plan::none, .made = true},
                   mean_ha,
                   [order = in.stood->autumn_order](plan::Decision& d) { d.autumn_order = order; }});
  if (in.stood->spring_order != in.found->spring_order)
    out.push_back({{.field = plan::none, .made = true},
                   mean_ha,
                   [order = in.stood->spring_order](plan::Decision& d) { d.spring_order = order; }});
  return out;
}

/// The differences that are still made, each with what going back on it would cost; the one to go back on
/// first, if any gains too little.
std::optional<std::size_t> least_worth(const StayInput& in, const plan::Decision& now,
                                       std::vector<Difference>& all) {
  const farm::Farm& farm = in.table->problem->farm;
  std::vector<std::size_t> open;
  std::vector<plan::Decision> trials{now};
  for (std::size_t k = 0; k < all.size(); ++k) {
    if (!all[k].move.made) continue;
    open.push_back(k);
    trials.push_back(now);
    all[k].go_back(trials.back());
  }
  if (open.empty()) return std::nullopt;
  const auto merits = planner::merits_of(*in.table, trials, in.years, in.threads,
                                         planner::least_ready(farm, in.years.size()));
  const double asked_cents_per_ha = 100.0 * farm.target.change_gain_per_ha.value();
  const auto worth = [&](std::size_t k) { return static_cast<double>(all[k].move.gain_cents) / all[k].ha; };
  std::optional<std::size_t> smallest;
  for (std::size_t i = 0; i < open.size(); ++i) {
    plan::Move& m = all[open[i]].move;
    const double years = static_cast<double>(in.years.size());
    m.gain_cents = std::llround((merits[i + 1].cents - merits[0].cents) / years);
    m.needed = merits[i + 1].short_ha_years > merits[0].short_ha_years + 1e-9;
    if (m.needed || worth(open[i]) >= asked_cents_per_ha) continue;
    if (!smallest || worth(open[i]) < worth(*smallest)) smallest = open[i];
  }
  return smallest;
}

}  // namespace

Stayed stay(const StayInput& in) {
  std::vector<Difference> all = differences(in);
  plan::Decision now = *in.found;
  while (const auto k = least_worth(in, now, all)) {
    all[*k].go_back(now);
    all[*k].move.made = false;
  }
  Stayed out{.decision = now};
  const bool autumn = in.stood->autumn_order != in.found->autumn_order;
  std::size_t order = 0;
  for (const Difference& d : all) {
    if (d.move.field != plan::none)
      out.moves.push_back(d.move);
    else
      (autumn && order++ == 0 ? out.autumn_order : out.spring_order) = d.move;
  }
  for (plan::Move* m : {&out.autumn_order, &out.spring_order}) m->field = plan::none;
  return out;
}

}  // namespace aftercut::scenario
