#include "trade_off_words.hpp"

#include <algorithm>
#include <cmath>

#include "parts.hpp"

namespace aftercut::report {
namespace {

/// Of the plan that goes furthest: what it brings and what it costs beside the cheapest.
std::string furthest_words(const TradeOffsShown& s, const char* what, const plan::WeighedPlan& best,
                           const plan::WeighedPlan& cheapest, const std::string& from,
                           const std::string& to) {
  if (&best == &cheapest) return fmt::format("{}: the cheapest plan already ({}).", what, to);
  const double dearer = static_cast<double>(best.figures.cost_cents - cheapest.figures.cost_cents) / 100.0;
  return fmt::format("{}: {}, {} instead of {} for {} {} more a year than {}.", what, best.name, to, from,
                     with_thousands(dearer), s.problem->farm.currency, cheapest.name);
}

double chance_of(const plan::PlannedYears& p, std::size_t field) {
  const plan::FieldPlan& f = p.plan.fields[field];
  return f.chosen.method == plan::none ? 0.0
                                       : f.methods[static_cast<std::size_t>(f.chosen.method)].chance_ready;
}

/// Fields that no plan of the set brings to the wanted chance, with the best that one of them does.
std::string never_sure_words(const TradeOffsShown& s) {
  const farm::Farm& farm = s.problem->farm;
  std::string fields;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    if (!farm::seedbed_due(farm.fields[f])) continue;
    double best = 0.0;
    for (const plan::WeighedPlan& p : s.trade_offs->plans) best = std::max(best, chance_of(p.planned, f));
    if (best + 1e-9 >= farm::wanted_chance(farm, farm.fields[f])) continue;
    fields += fmt::format("{}{} ({:.0f} %)", fields.empty() ? "" : ", ", farm.fields[f].id.value,
                          std::floor(100.0 * best + 1e-9));
  }
  const bool same = std::ranges::none_of(farm.fields, [&](const farm::Field& f) {
    return farm::seedbed_due(f) && farm::wanted_chance(farm, f) != farm.target.wanted_chance;
  });
  const std::string of =
      same ? fmt::format(" of {} %", static_cast<int>(std::lround(100.0 * farm.target.wanted_chance))) : "";
  return fields.empty()
             ? fmt::format("Each field reaches the wanted chance{} in one of these plans.", of)
             : fmt::format(
                   "No plan here brings these fields to the wanted chance{}, in brackets the most: {}.", of,
                   fields);
}

}  // namespace

std::vector<std::string> trade_off_words(const TradeOffsShown& s) {
  const auto& plans = s.trade_offs->plans;
  const auto least = [&](auto key) { return &*std::ranges::min_element(plans, {}, key); };
  const auto* cheapest = least([](const auto& p) { return p.figures.cost_cents; });
  const auto* surest = least([](const auto& p) { return -p.figures.chance; });
  const auto* cleanest = least([](const auto& p) { return p.co2e_t; });
  const auto* barest = least([](const auto& p) { return -p.figures.baled_t; });
  const auto percent = [](const auto& p) { return fmt::format("{:.1f} %", 100.0 * p.figures.chance); };
  const auto tonnes = [](double t) { return fmt::format("{:.0f} t", t); };
  std::vector<std::string> out{
      fmt::format(
          "{} searches with different weights; {} found a plan again, {} plans were dominated and left out. "
          "All stand at the farm's own prices.",
          s.trade_offs->searched, s.trade_offs->same, s.trade_offs->dropped),
      furthest_words(s, "Surest seedbeds", *surest, *cheapest, percent(*cheapest), percent(*surest)),
      furthest_words(s, "Least CO2e", *cleanest, *cheapest, tonnes(cheapest->co2e_t),
                     tonnes(cleanest->co2e_t)),
      furthest_words(s, "Most straw baled", *barest, *cheapest, tonnes(cheapest->figures.baled_t),
                     tonnes(barest->figures.baled_t)),
      never_sure_words(s)};
  if (plans.front().dominated)
    out.push_back("The base plan itself is dominated: another is as good in all four.");
  for (std::size_t k = 0; k < plans.size(); ++k)
    if (!s.audits[k].ok())
      out.push_back(fmt::format("Audit of {}: {} faults.", plans[k].name, s.audits[k].count));
  return out;
}

}  // namespace aftercut::report
