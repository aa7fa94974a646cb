// What one more hour or unit would save, for plan.json and the terminal.

#include <algorithm>

#include "one_more.hpp"

namespace aftercut::report {
namespace {

double per_unit(double worth, double more) { return more > 0.0 ? worth / more : 0.0; }

json week_json(const farm::Farm& farm, const plan::MoreInWeek& w) {
  return {{"start", iso(farm.season.date(w.first_day))},
          {"more", rounded(w.more, 3)},
          {"worth", rounded(w.worth, 2)},
          {"standard_error", rounded(w.error, 2)},
          {"per_unit", rounded(per_unit(w.worth, w.more), 2)}};
}

json thing_json(const farm::Farm& farm, const plan::MoreOf& of) {
  json weeks = json::array();
  for (const plan::MoreInWeek& w : of.weeks) weeks.push_back(week_json(farm, w));
  return {{"kind", of.kind},
          {"id", of.id.empty() ? json(nullptr) : json(of.id)},
          {"unit", of.unit},
          {"more", rounded(of.more, 4)},
          {"worth", rounded(of.worth, 2)},
          {"standard_error", rounded(of.error, 2)},
          {"per_unit", of.told() ? rounded(per_unit(of.worth, of.more), 2) : 0.0},
          {"told", of.told()},
          {"weeks", weeks}};
}

std::string thing_words(const farm::Farm& farm, const plan::MoreOf& of) {
  if (of.kind == "burn_day_area") return "burn area of a day";
  if (of.kind == "burn_season_area") return "burn area of the season";
  if (of.kind == "canal_flow") return "canal flow";
  for (const farm::Operator& o : farm.operators)
    if (of.kind == "operator" && o.id.value == of.id) return o.name;
  return of.kind == "hired_days" ? of.id + ", days" : of.id;
}

std::string best_week_words(const farm::Farm& farm, const plan::MoreOf& of) {
  const plan::MoreInWeek* best = nullptr;
  for (const plan::MoreInWeek& w : of.weeks)
    if (w.worth > 2.0 * w.error &&
        (best == nullptr || per_unit(w.worth, w.more) > per_unit(best->worth, best->more)))
      best = &w;
  if (best == nullptr) return "";
  return fmt::format(", most in the week of {}: {:.1f}", short_date(farm.season.date(best->first_day)),
                     per_unit(best->worth, best->more));
}

}  // namespace

json one_more_json(const farm::Farm& farm, const plan::Plan& p) {
  if (!p.one_more) return nullptr;
  json things = json::array();
  for (const plan::MoreOf& of : p.one_more->things) things.push_back(thing_json(farm, of));
  return {{"indicative", true}, {"plans", p.one_more->plans}, {"things", things}};
}

json hour_worth_json(const plan::Plan& p, const plan::ResourceUse& r) {
  if (!p.one_more) return nullptr;
  for (const plan::MoreOf& of : p.one_more->things)
    if (of.kind == r.kind && of.id == r.id) return of.told() ? rounded(per_unit(of.worth, of.more), 2) : 0.0;
  return nullptr;
}

std::string one_more_text(const farm::Farm& farm, const plan::Plan& p) {
  constexpr std::size_t lines = 5;
  if (!p.one_more) return "";
  std::vector<const plan::MoreOf*> told;
  for (const plan::MoreOf& of : p.one_more->things)
    if (of.told()) told.push_back(&of);
  std::stable_sort(told.begin(), told.end(),
                   [](const auto* a, const auto* b) { return a->worth > b->worth; });
  if (told.empty())
    return wrapped(
               "A tenth more hours of any machine or person, burn area, canal flow or hired days: "
               "nothing that can be told from chance.",
               terminal_width, 2) +
           "\n";
  std::string out = "What a tenth more would save, methods and orders kept (indicative)\n";
  for (std::size_t k = 0; k < std::min(lines, told.size()); ++k) {
    const plan::MoreOf& of = *told[k];
    const Units& u = units_of(farm);
    const bool land = of.unit == "ha";
    const double more = land ? of.more * u.area_per_ha : of.more;
    const std::string unit = land ? u.area : of.unit;
    out += wrapped(fmt::format("  {}: {} {} a year (± {}) for {:.{}f} {}; {:.1f} {}/{}{}",
                               thing_words(farm, of), with_thousands(of.worth), farm.currency,
                               with_thousands(of.error), more, unit == "m3/s" ? 2 : 0, unit,
                               per_unit(of.worth, more), farm.currency, unit, best_week_words(farm, of)),
                   terminal_width, 4) +
           "\n";
  }
  return out;
}

}  // namespace aftercut::report
