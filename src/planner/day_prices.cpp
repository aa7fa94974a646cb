#include "aftercut/planner/day_prices.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/dispatch/money.hpp"

namespace aftercut::planner {
namespace {

/// What a minute of a person costs, wage and price together; nothing when away.
std::optional<double> person_cents(const dispatch::Table& t, const Resources& r, const DayPrices& prices,
                                   std::size_t person, int day) {
  const auto d = static_cast<std::size_t>(day);
  if (t.operator_min[person][d] <= 0) return std::nullopt;
  const double wage = 100.0 * dispatch::wage_paid(t.problem->farm.operators[person]) / 60.0;
  return wage + prices[r.person(static_cast<int>(person)) * r.days + d];
}

struct Crew {
  double cents_per_min = 0.0;
  std::array<int, 4> who{plan::none, plan::none, plan::none, plan::none};
};

/// The cheapest people with the skill.
std::optional<Crew> cheapest_crew(const dispatch::Table& t, const Resources& r, const DayPrices& prices,
                                  int operation, int day) {
  const auto o = static_cast<std::size_t>(operation);
  Crew crew;
  for (int k = 0; k < t.problem->farm.book.operations[o].crew; ++k) {
    std::optional<double> least;
    int best = plan::none;
    for (std::size_t i = 0; i < r.operators; ++i) {
      if (!t.has_skill[o][i] || std::count(crew.who.begin(), crew.who.end(), static_cast<int>(i)) > 0)
        continue;
      const auto cents = person_cents(t, r, prices, i, day);
      if (!cents || (least && *cents >= *least)) continue;
      least = cents;
      best = static_cast<int>(i);
    }
    if (best == plan::none) return std::nullopt;
    crew.cents_per_min += *least;
    crew.who[static_cast<std::size_t>(k)] = best;
  }
  return crew;
}

/// Money of an outfit alone: fuel, repair, hire by hectare and hour, the fee of a burn.
double outfit_cents_per_ha(const dispatch::Table& t, const dispatch::Outfit& o, const dispatch::Pace& pace,
                           const method::Operation& op) {
  const farm::Farm& farm = t.problem->farm;
  const double hours_per_ha = 1.0 / pace.ha_per_hour;
  double money = dispatch::fuel_money(farm, pace, hours_per_ha) + o.repair_per_hour * hours_per_ha;
  if (o.implement != plan::none)
    if (const auto& hire = farm.implements[static_cast<std::size_t>(o.implement)].hire)
      money += dispatch::hire_money(*hire, 1.0, hours_per_ha);
  if (op.burning) money += farm.prices.burn_fee_per_ha.value();
  return 100.0 * money;
}

bool here(const Resources& r, std::size_t resource, int day) {
  return r.minutes[resource * r.days + static_cast<std::size_t>(day)] > 0.0;
}

/// The outfit's longest day, whoever of the farm's people has the skill.
double most_minutes(const Resources& r, const dispatch::Outfit& o) {
  double most = 0.0;
  for (std::size_t d = 0; d < r.days; ++d) {
    double minutes = std::numeric_limits<double>::max();
    if (o.tractor != plan::none) minutes = std::min(minutes, r.minutes[r.tractor(o.tractor) * r.days + d]);
    if (o.implement != plan::none)
      minutes = std::min(minutes, r.minutes[r.implement(o.implement) * r.days + d]);
    if (o.own_crew) {
      double longest = 0.0;
      for (std::size_t i = 0; i < r.operators; ++i)
        longest = std::max(longest, r.minutes[r.person(static_cast<int>(i)) * r.days + d]);
      minutes = std::min(minutes, longest);
    }
    most = std::max(most, minutes);
  }
  return most;
}

}  // namespace

Resources resources_of(const dispatch::Table& t) {
  Resources r{t.tractor_here.size(), t.implement_here.size(), t.operator_min.size(), t.longest_min.size()};
  const auto add = [&](const std::vector<char>& there) {
    for (std::size_t d = 0; d < r.days; ++d) r.minutes.push_back(there[d] ? t.longest_min[d] : 0.0);
  };
  for (const auto& there : t.tractor_here) add(there);
  for (const auto& there : t.implement_here) add(there);
  for (const auto& minutes : t.operator_min)
    r.minutes.insert(r.minutes.end(), minutes.begin(), minutes.end());
  return r;
}

double paid_back(const Resources& r, const DayPrices& prices) {
  double cents = 0.0;
  for (std::size_t i = 0; i < prices.size(); ++i) cents += prices[i] * r.minutes[i];
  return cents;
}

Way cheapest_way(const dispatch::Table& t, const Resources& r, const DayPrices& prices, std::size_t field,
                 int operation, int day, double draft) {
  const method::Operation& op = t.problem->farm.book.operations[static_cast<std::size_t>(operation)];
  const auto d = static_cast<std::size_t>(day);
  Way best;
  std::optional<std::optional<Crew>> crew;
  for (const dispatch::Outfit& o : t.outfits[field][static_cast<std::size_t>(operation)]) {
    if (o.tractor != plan::none && !here(r, r.tractor(o.tractor), day)) continue;
    if (o.implement != plan::none && !here(r, r.implement(o.implement), day)) continue;
    const dispatch::Pace pace = dispatch::pace_of(o, draft);
    const double minutes_per_ha = 60.0 / pace.ha_per_hour;
    double cents = outfit_cents_per_ha(t, o, pace, op);
    if (o.tractor != plan::none) cents += minutes_per_ha * prices[r.tractor(o.tractor) * r.days + d];
    if (o.implement != plan::none) cents += minutes_per_ha * prices[r.implement(o.implement) * r.days + d];
    Way way{cents, minutes_per_ha, o.tractor, o.implement};
    if (o.own_crew) {
      if (!crew) crew = cheapest_crew(t, r, prices, operation, day);
      if (!*crew) continue;
      way.cents_per_ha += minutes_per_ha * (*crew)->cents_per_min;
      way.crew = (*crew)->who;
    }
    way.possible = true;
    if (!best.possible || way.cents_per_ha < best.cents_per_ha) best = way;
  }
  return best;
}

double most_ha_a_day(const dispatch::Table& t, const Resources& r, std::size_t field, int operation) {
  double most = 0.0;
  for (const dispatch::Outfit& o : t.outfits[field][static_cast<std::size_t>(operation)])
    most = std::max(most, o.ha_per_hour * most_minutes(r, o) / 60.0);
  return most;
}

}  // namespace aftercut::planner
