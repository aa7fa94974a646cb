#include "beside.hpp"

#include <algorithm>

namespace aftercut::report {
namespace {

std::string method_name(const farm::Farm& farm, int method) {
  return method == plan::none ? "nothing" : farm.book.recipes[static_cast<std::size_t>(method)].name;
}

}  // namespace

json figures_json(const plan::WholeFarm& w, const plan::WholeFarm& base) {
  return {{"cost", money(w.cost_cents)},
          {"cost_per_ha", rounded(w.cost_per_ha, 2)},
          {"change_per_ha", rounded(w.cost_per_ha - base.cost_per_ha, 2)},
          {"chance", rounded(w.chance, 4)},
          {"fields_below_wanted", w.below_wanted},
          {"baled_t", rounded(w.baled_t, 2)},
          {"burned_ha", rounded(w.burned_ha, 3)},
          {"canal_m3", rounded(w.canal_m3, 1)}};
}

json changes_json(const farm::Farm& farm, const std::vector<plan::MethodChange>& changes) {
  json out = json::array();
  for (const plan::MethodChange& c : changes)
    out.push_back({{"field", farm.fields.at(static_cast<std::size_t>(c.field)).id.value},
                   {"from", id_or_null(farm.book.recipes, c.from)},
                   {"to", id_or_null(farm.book.recipes, c.to)}});
  return out;
}

std::string change_words(const farm::Farm& farm, const std::vector<plan::MethodChange>& changes) {
  std::vector<std::pair<std::pair<int, int>, std::string>> groups;
  for (const plan::MethodChange& c : changes) {
    const std::string& id = farm.fields[static_cast<std::size_t>(c.field)].id.value;
    const auto at = std::find_if(groups.begin(), groups.end(), [&](const auto& g) {
      return g.first == std::pair{c.from, c.to};
    });
    if (at == groups.end())
      groups.push_back({{c.from, c.to}, id});
    else
      at->second += ", " + id;
  }
  std::string out;
  for (const auto& [methods, ids] : groups)
    out += fmt::format("{}{} from “{}” to “{}”", out.empty() ? "" : "; ", ids,
                       method_name(farm, methods.first), method_name(farm, methods.second));
  return out;
}

}  // namespace aftercut::report
