#include "aftercut/scenario/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>

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
        return farm.fields[f].next.kind != farm::NextUseKind::fallow &&
               farm.fields[f].harvest >= farm.fields[f].next.planting;
      }));
  add(all, "wanted chance not reached",
      fmt::format("the chance of a ready seedbed stays below {:.0f} in 100", 100.0 * plan.wanted_chance),
      fields_where(farm, [&](std::size_t f) {
        if (barred(f)) return farm.fields[f].next.kind != farm::NextUseKind::fallow;
        const auto& mine = plan.fields[f].methods[static_cast<std::size_t>(plan.decision.method[f])];
        return mine.chance_ready + 1e-9 < plan.wanted_chance;
      }));
  if (plan.years.size() == 1)
    all.push_back({"one weather year only",
                   "chances come from the one year that the plan was made on: they show what that year would "
                   "bring, not how sure it is",
                   {}});
  return all;
}

}  // namespace aftercut::scenario
