// What stands in the way of a field's wanted chance, in plain words.

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "aftercut/scenario/risk.hpp"

namespace aftercut::scenario {
namespace {

constexpr std::size_t steps_named = 2, causes_named = 3;

std::string recipe_name(const farm::Farm& farm, int method) {
  return farm.book.recipes[static_cast<std::size_t>(method)].name;
}

std::string listed_ids(const farm::Farm& farm, const std::vector<int>& fields) {
  std::string out;
  for (const int f : fields)
    out += (out.empty() ? "" : ", ") + farm.fields[static_cast<std::size_t>(f)].id.value;
  return out;
}

/// "wet ground 22, rain 6" of days summed over so many years.
std::string cause_words(const plan::WaitDays& days, int years) {
  std::vector<std::size_t> order = first_numbers(days.size());
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return days[a] > days[b]; });
  std::string out;
  for (std::size_t k = 0; k < causes_named && days[order[k]] > 0; ++k)
    out += fmt::format("{}{} {:.0f}", out.empty() ? "" : ", ", plan::wait_words[order[k]].words,
                       static_cast<double>(days[order[k]]) / years);
  return out;
}

std::string waits_words(const farm::Farm& farm, const plan::AloneOnFarm& a) {
  if (a.failed == 0 || a.days_looked_at == 0) return "";
  std::string steps;
  for (std::size_t k = 0; k < std::min(steps_named, a.waits.size()); ++k) {
    const plan::StepWaited& s = a.waits[k];
    steps += fmt::format("{}{} {:.0f} ({})", steps.empty() ? "" : "; ",
                         farm.book.operations[static_cast<std::size_t>(s.operation)].name,
                         static_cast<double>(s.all()) / a.failed, cause_words(s.days, a.failed));
  }
  if (a.days_standing > 0)
    steps = fmt::format("the crop stands on {}{}{}", a.days_standing, steps.empty() ? "" : "; ", steps);
  if (steps.empty()) return "";
  return fmt::format("In the {} of those that {}, of the {} days before planting without work: {}",
                     a.failed == 1 ? "year" : fmt::format("{} years", a.failed),
                     a.failed == 1 ? "fails" : "fail", a.days_looked_at, steps);
}

std::string thing_words(const farm::Farm& farm, const plan::MoreThing& t) {
  std::string name = t.id;
  for (const farm::Operator& o : farm.operators)
    if (t.kind == "operator" && o.id.value == t.id && !o.name.empty()) name = o.name;
  if (t.kind == "operator")
    return t.twice ? fmt::format("a second person like {}", name)
                   : fmt::format("{}'s days a tenth longer", name);
  if (t.kind == "tractor" || t.kind == "implement")
    return fmt::format("a second {}{}", name, t.twice ? "" : " on one day in ten");
  const std::string of = t.kind == "burn_day_area"      ? "burn area a day"
                         : t.kind == "burn_season_area" ? "burn area of the season"
                         : t.kind == "canal_flow"       ? "canal flow"
                                                        : "days of " + name;
  return t.twice ? "twice the " + of : "a tenth more " + of;
}

std::string fallen_words(const farm::Farm& farm, const std::vector<int>& fields) {
  if (fields.empty()) return "no other field falls below its wish";
  return fmt::format("{} {} below {} then", listed_ids(farm, fields), fields.size() == 1 ? "falls" : "fall",
                     fields.size() == 1 ? "its wish" : "their wishes");
}

/// Of a field that could be ready alone: which shared thing, whose claims.
void add_shared_words(std::vector<std::string>& out, const farm::Farm& farm, const plan::InTheWay& way) {
  out.push_back(fmt::format("Alone on the farm it is ready in {}: other fields' work stands in the way",
                            way.own_method_alone));
  if (way.more) {
    const int others = way.more->brings - 1;
    out.push_back(fmt::format("It takes {}: then {}{}", thing_words(farm, *way.more), way.more->ready,
                              others == 0   ? ""
                              : others == 1 ? ", and one more field gets there"
                                            : fmt::format(", and {} more fields get there", others)));
  } else {
    out.push_back(fmt::format(
        "Twice as much of any one machine, person or limit is not enough{}; twice as much of all: {}",
        way.most ? fmt::format(" (most: {}, {})", thing_words(farm, *way.most), way.most->ready) : "",
        way.all_twice.value_or(0)));
  }
  if (way.first)
    out.push_back(fmt::format("First in both lists: {}; {}", way.first->ready,
                              fallen_words(farm, way.first->falls_below)));
}

}  // namespace

std::vector<std::string> way_words(const farm::Farm& farm, const plan::RiskTold& risk,
                                   const plan::InTheWay& way) {
  std::vector<std::string> out;
  const auto wish = std::ranges::find(risk.wishes, way.field, &plan::Wish::field);
  out.push_back(fmt::format("Ready in {} of {} years where {} are wanted; in the years searched in {} of {}",
                            way.ready, risk.shown_years, way.wanted, wish->searched, risk.search_years));
  if (way.alone.method == plan::none) {
    out.push_back("Every method is barred");
    return out;
  }
  if (way.alone.ready < way.wanted) {
    out.push_back(
        fmt::format("Alone on the farm, with every method tried, {} at the most ({}): its ground, its "
                    "harvest day and the weather stand in the way",
                    way.alone.ready, recipe_name(farm, way.alone.method)));
    if (auto waits = waits_words(farm, way.alone); !waits.empty()) out.push_back(std::move(waits));
  } else if (way.other_method) {
    out.push_back(
        fmt::format("Its method stands in the way: alone on the farm {} with it, {} with “{}”; that one in "
                    "this plan: {}; {}",
                    way.own_method_alone, way.alone.ready, recipe_name(farm, way.alone.method),
                    way.other_method->ready, fallen_words(farm, way.other_method->falls_below)));
  } else {
    add_shared_words(out, farm, way);
  }
  return out;
}

}  // namespace aftercut::scenario
