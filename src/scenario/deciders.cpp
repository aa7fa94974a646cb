// What makes most of the difference between two methods, named after the machine, the days, the burn, the
// water or the price behind it.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/scenario/money_words.hpp"
#include "aftercut/scenario/next_best.hpp"
#include "aftercut/scenario/not_burned.hpp"

namespace aftercut::scenario {
namespace {

/// A candidate with what it adds to the saving, cents; above zero it speaks for the chosen method.
struct Candidate {
  std::int64_t cents = 0;
  plan::Decider decider;
};

struct Sides {
  const farm::Farm& farm;
  const plan::MethodOutcome& mine;
  const plan::MethodOutcome& other;
  const FarmOutcome& my_farm;
  const FarmOutcome& other_farm;
};

double hours_of(const plan::MethodOutcome& m, const std::string& id) {
  const auto at = m.machine_hours.find(id);
  return at == m.machine_hours.end() ? 0.0 : at->second;
}

/// Two sums of money a year, the chosen method's first.
std::string money_against(const Sides& s, std::int64_t mine, std::int64_t other) {
  return fmt::format("{} a year against {}", money_words(s.farm, mine), money_words(s.farm, other));
}

std::int64_t late_of(const FarmOutcome& o) { return o.parts.late + o.parts.unplanted; }
std::int64_t work_of(const FarmOutcome& o) { return o.parts.fuel + o.parts.wages + o.parts.repair; }

/// The implement, own or hired, whose hours on the field differ most between the two; where none differs by
/// an hour, the money alone.
std::string machine_words(const Sides& s, bool hired) {
  const machinery::Implement* most = nullptr;
  double mine = 0.0, other = 0.0;
  for (const machinery::Implement& i : s.farm.implements) {
    if (i.hire.has_value() != hired) continue;
    const double a = hours_of(s.mine, i.id.value), b = hours_of(s.other, i.id.value);
    if (std::abs(a - b) < 1.0 || std::abs(a - b) <= std::abs(mine - other)) continue;
    most = &i;
    mine = a;
    other = b;
  }
  if (most == nullptr)
    return hired ? "hire: " + money_against(s, s.my_farm.parts.hire, s.other_farm.parts.hire)
                 : "fuel, wages and repair: " + money_against(s, work_of(s.my_farm), work_of(s.other_farm));
  return fmt::format("{}: {:.0f} h on this field against {:.0f} h",
                     most->name.empty() ? most->id.value : most->name, mine, other);
}

std::string days_words(const Sides& s) {
  return "days: seedbeds that come late or not at all cost " +
         money_against(s, late_of(s.my_farm), late_of(s.other_farm));
}

std::string burn_words(const method::Recipe& recipe, const FarmOutcome& of) {
  return fmt::format("burn days: {} is not burned in {} of {} years; {}", recipe.name, of.fell_back,
                     of.cost_by_year.size(), not_burned_words(of.not_burned, of.fell_back));
}

const method::Recipe& recipe_of(const Sides& s, const plan::MethodOutcome& m) {
  return s.farm.book.recipes[static_cast<std::size_t>(m.method)];
}

/// A burn that often does not come, on whichever side.
void add_burns(std::vector<Candidate>& all, const Sides& s, std::int64_t saves) {
  constexpr int often = 5;  // one year in so many
  for (const bool chosen : {true, false}) {
    const method::Recipe& recipe = recipe_of(s, chosen ? s.mine : s.other);
    const FarmOutcome& of = chosen ? s.my_farm : s.other_farm;
    if (recipe.burns && of.fell_back * often >= static_cast<int>(of.cost_by_year.size()) && of.fell_back > 0)
      all.push_back({saves, {"burn", burn_words(recipe, of)}});
  }
}

std::vector<Candidate> candidates(const Sides& s, const plan::NextBest& next) {
  const plan::CostParts& p = next.parts;
  const auto tonnes = [](const FarmOutcome& o) { return o.amounts.straw_t; };
  std::vector<Candidate> all{
      {p.straw_income + p.twine,
       {"price",
        fmt::format("straw: the farm sells {} a year against {}", straw_mass_words(s.farm, tonnes(s.my_farm)),
                    straw_mass_words(s.farm, tonnes(s.other_farm)))}},
      {p.hire, {"machine", machine_words(s, true)}},
      {p.fuel + p.wages + p.repair, {"machine", machine_words(s, false)}},
      {p.water,
       {"water",
        fmt::format("canal water: {} a year against {}", water_words(s.farm, s.my_farm.amounts.water_m3),
                    water_words(s.farm, s.other_farm.amounts.water_m3))}},
      {p.lease_income, {"lease", "what the water lease pays"}},
      {p.fees, {"burn", "the burn fee"}},
      {p.late + p.unplanted, {"days", days_words(s)}},
      {next.on_other_fields,
       {"sharing", fmt::format("sharing: machines, water and days left to other fields are worth {} a year",
                               money_words(s.farm, std::abs(next.on_other_fields)))}}};
  add_burns(all, s, next.saves);
  return all;
}

}  // namespace

std::vector<plan::Decider> deciders(const farm::Farm& farm, const Outcomes& outcomes, std::size_t field,
                                    int chosen, const plan::NextBest& next) {
  constexpr std::size_t most = 3;
  constexpr double least_share = 0.2;  // of the strongest
  const auto mine = static_cast<std::size_t>(chosen), other = static_cast<std::size_t>(next.method);
  const Sides s{farm, outcomes.methods[field][mine], outcomes.methods[field][other],
                outcomes.farm[field][mine], outcomes.farm[field][other]};
  std::vector<Candidate> all = candidates(s, next);
  const std::int64_t sign = next.saves >= 0 ? 1 : -1;
  std::erase_if(all, [&](const Candidate& c) { return c.cents * sign <= 0; });
  std::stable_sort(all.begin(), all.end(),
                   [&](const Candidate& a, const Candidate& b) { return a.cents * sign > b.cents * sign; });
  std::vector<plan::Decider> decides;
  for (const Candidate& c : all)
    if (decides.size() < most && std::abs(static_cast<double>(c.cents)) >=
                                     least_share * std::abs(static_cast<double>(all.front().cents)))
      decides.push_back(c.decider);
  return decides;
}

}  // namespace aftercut::scenario
