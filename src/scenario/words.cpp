#include "aftercut/scenario/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>

#include "aftercut/farm/wishes.hpp"

namespace aftercut::scenario {
namespace {

using plan::Trouble;

void add(std::vector<Trouble>& all, const char* name, std::string text, std::vector<int> fields) {
  if (!fields.empty()) all.push_back({name, std::move(text), std::move(fields)});
}

std::vector<int> fields_where(const farm::Farm& farm, const std::function<bool(std::size_t)>& test) {
  std::vector<int> found;
  for (std::size_t f = 0; f < farm.fields.size(); ++f)
    if (test(f)) found.push_back(static_cast<int>(f));
  return found;
}

bool machine_missing(const std::vector<std::vector<std::string>>& why_not) {
  return std::all_of(why_not.begin(), why_not.end(), [](const auto& reasons) {
    return std::any_of(reasons.begin(), reasons.end(), [](const std::string& r) {
      return r.rfind("no machine", 0) == 0 || r.rfind("no tractor", 0) == 0;
    });
  });
}

/// Fields whose chance in the shown years is below their wish.
void add_below_wish(std::vector<Trouble>& all, const farm::Farm& farm, const plan::Plan& plan) {
  std::vector<int> below;
  int met_in_search = 0;
  bool same = true;
  for (const plan::Wish& w : plan.risk.wishes) {
    same = same && w.chance == plan.wanted_chance;
    if (w.shown >= farm::years_wanted(w.chance, static_cast<std::size_t>(plan.risk.shown_years))) continue;
    below.push_back(w.field);
    met_in_search +=
        w.searched >= farm::years_wanted(w.chance, static_cast<std::size_t>(plan.risk.search_years)) ? 1 : 0;
  }
  std::string text = "the chance of a ready seedbed stays below " +
                     (same ? fmt::format("{:.0f} in 100", 100.0 * plan.wanted_chance) : "what was wanted");
  if (farm::chance_binds(farm.target) && !plan.chances_in_sample && !below.empty())
    text += met_in_search == static_cast<int>(below.size())
                ? "; in the years searched it does not"
                : fmt::format("; {} of {} reach it in the years searched", met_in_search, below.size());
  add(all, "wanted chance not reached", std::move(text), std::move(below));
}

}  // namespace

std::vector<Trouble> troubles(const dispatch::Table& table, const plan::Plan& plan) {
  const farm::Farm& farm = table.problem->farm;
  std::vector<Trouble> all;
  const auto barred = [&](std::size_t f) { return plan.decision.method[f] == plan::none; };
  add(all, "no machine for a needed pass",
      "a pass that every method needs has no machine, tractor or crew: see the reasons for each method",
      fields_where(farm, [&](std::size_t f) { return barred(f) && machine_missing(table.why_not[f]); }));
  add(all, "every method is barred",
      "nothing can be done with the straw under the rules entered; the plan leaves these fields as they are",
      fields_where(farm, barred));
  add(all, "no straw", "no straw to handle: only the spring passes are planned",
      fields_where(farm, [&](std::size_t f) { return farm.fields[f].straw_load.value() <= 0.0; }));
  add(all, "harvest after the planting date",
      "the field is cut after the day on which its next seedbed is due",
      fields_where(farm, [&](std::size_t f) {
        return farm::seedbed_due(farm.fields[f]) && farm.fields[f].harvest >= farm.fields[f].next.planting;
      }));
  add_below_wish(all, farm, plan);
  if (plan.years.size() == 1)
    all.push_back({"one weather year only",
                   "chances come from the one year that the plan was made on: they show what that year would "
                   "bring, not how sure it is",
                   {}});
  return all;
}

}  // namespace aftercut::scenario
