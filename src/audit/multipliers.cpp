// The multipliers of the bound: what they may be, and what they charge for the work of the plan.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "bound_proof.hpp"

namespace aftercut::audit {
namespace {

// The replay's cost of a field and year is that of the dispatch to a cent in each of the eleven parts that
// leave the pocket: hectares and litres are written with 6 decimals. Floating sums add next to nothing.
constexpr double replay_slack_cents = 11.0;

using Key = std::tuple<plan::Resource, int, int>;  // machine or person, its index, season day

std::size_t how_many(const farm::Farm& farm, plan::Resource resource) {
  if (resource == plan::Resource::tractor) return farm.tractors.size();
  if (resource == plan::Resource::implement) return farm.implements.size();
  return farm.operators.size();
}

Findings check_years_of_bound(const plan::Plan& plan, const plan::BoundProof& proof) {
  Findings f;
  std::vector<int> years;
  for (const plan::BoundYear& year : proof.years) years.push_back(year.year);
  const auto words = [](const std::vector<int>& some) {
    std::string text = fmt::format("{} years:", some.size());
    for (const int year : some) text += fmt::format(" {}", year);
    return text;
  };
  f.expect(years == plan.years, "years of the bound", Place{nullptr, -1, -1, -1, bound_file}, [&] {
    return Texts{words(years), words(plan.years)};
  });
  return f;
}

Findings check_price(const farm::Farm& farm, int year, const plan::MinutePrice& p, bool fresh) {
  Findings f;
  const bool known_thing = p.index >= 0 && p.index < static_cast<int>(how_many(farm, p.resource));
  const bool known_day = p.day >= 0 && p.day < farm.season.days;
  const Place place{&farm, year, known_day ? p.day : -1, -1, name_of(farm, p.resource, p.index)};
  f.expect(known_thing && known_day, "unknown multiplier", place, [&] {
    return Texts{known_thing ? iso(farm.season.date(p.day)) : "nothing of the farm",
                 "a machine or person of the farm on a day of the season"};
  });
  f.expect(std::isfinite(p.cents) && p.cents >= 0.0, "multiplier below zero", place, [&] {
    return Texts{fmt::format("{} cents a minute", p.cents), "0 or more"};
  });
  f.expect(fresh, "multiplier twice", place, [] { return Texts{"a second one", "one a day"}; });
  return f;
}

/// What a stretch of work is charged by the multipliers of its year.
double charged(const plan::Work& w, const std::map<Key, double>& prices) {
  double cents_a_minute = 0.0;
  const auto add = [&](plan::Resource resource, int index) {
    const auto price = prices.find({resource, index, w.day});
    if (price != prices.end()) cents_a_minute += price->second;
  };
  add(plan::Resource::tractor, w.tractor);
  add(plan::Resource::implement, w.implement);
  for (const int person : w.crew) add(plan::Resource::person, person);
  return cents_a_minute * (w.end_min - w.start_min);
}

/// [field] minutes of the year's work at the multipliers; a crew that only waits does nothing that the bound
/// charges for.
std::vector<double> charged_by_field(const plan::BoundYear& year, const plan::YearRun& run,
                                     std::size_t fields) {
  std::map<Key, double> prices;
  for (const plan::MinutePrice& p : year.prices) prices[{p.resource, p.index, p.day}] = p.cents;
  std::vector<double> cents(fields, 0.0);
  for (const plan::Work& w : run.work)
    if (!w.stands_by && w.field >= 0 && w.field < static_cast<int>(fields))
      cents[static_cast<std::size_t>(w.field)] += charged(w, prices);
  return cents;
}

const plan::MethodFloor* floor_of(const plan::FieldFloor& field, int method) {
  const auto found = std::find_if(field.methods.begin(), field.methods.end(),
                                  [&](const plan::MethodFloor& m) { return m.method == method; });
  return found == field.methods.end() ? nullptr : &*found;
}

}  // namespace

std::string name_of(const farm::Farm& farm, plan::Resource resource, int index) {
  const auto named = [&](const auto& all, const char* kind) {
    const bool known = index >= 0 && index < static_cast<int>(all.size());
    return fmt::format("{} {}", kind,
                       known ? all[static_cast<std::size_t>(index)].id.value : fmt::format("{}", index));
  };
  if (resource == plan::Resource::tractor) return named(farm.tractors, "tractor");
  if (resource == plan::Resource::implement) return named(farm.implements, "implement");
  return named(farm.operators, "operator");
}

Findings check_multipliers(const farm::Farm& farm, const plan::Plan& plan, const plan::BoundProof& proof) {
  Findings f = check_years_of_bound(plan, proof);
  for (const plan::BoundYear& year : proof.years) {
    std::set<Key> seen;
    for (const plan::MinutePrice& p : year.prices)
      f += check_price(farm, year.year, p, seen.insert({p.resource, p.index, p.day}).second);
  }
  return f;
}

Findings check_against_work(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays) {
  Findings f;
  const plan::BoundProof& proof = *planned.bound;
  for (std::size_t y = 0; y < proof.years.size(); ++y) {
    const plan::BoundYear& year = proof.years[y];
    const auto run = std::find_if(planned.runs.begin(), planned.runs.end(),
                                  [&](const plan::YearRun& r) { return r.year == year.year; });
    const auto lived = std::find(replays.years.begin(), replays.years.end(), year.year);
    if (run == planned.runs.end() || lived == replays.years.end()) continue;
    const auto& fields = replays.fields[static_cast<std::size_t>(lived - replays.years.begin())];
    const std::vector<double> minutes = charged_by_field(year, *run, fields.size());
    for (std::size_t k = 0; k < std::min(fields.size(), proof.fields.size()); ++k) {
      const plan::MethodFloor* floor = floor_of(proof.fields[k], planned.plan.decision.method[k]);
      if (floor == nullptr || y >= floor->by_year.size()) continue;
      const double paid = static_cast<double>(fields[k].cost.out_of_pocket()) + minutes[k];
      f.expect(floor->by_year[y] <= paid + replay_slack_cents, "bound above a field's own work",
               Place{&facts.farm(), year.year, -1, static_cast<int>(k), bound_file}, [&] {
                 return Texts{fmt::format("at least {:.2f} cents", floor->by_year[y]),
                              fmt::format("at most {:.2f} cents, which the plan's own work comes to", paid)};
               });
    }
  }
  return f;
}

}  // namespace aftercut::audit
