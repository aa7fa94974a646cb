#include "aftercut/report/trial.hpp"

#include <cmath>
#include <functional>

#include "parts.hpp"

namespace aftercut::report {
namespace {

json mean_json(const plan::MeanOfYears& m, int digits) {
  return {{"mean", rounded(m.mean, digits)},
          {"standard_error", m.error ? json(rounded(*m.error, digits)) : json(nullptr)}};
}

plan::MeanOfYears per(plan::MeanOfYears m, double divisor) {
  m.mean /= divisor;
  if (m.error) *m.error /= divisor;
  return m;
}

json set_json(const farm::Farm& farm, const plan::TrialSet& s) {
  return {{"name", s.name},
          {"count", s.years.size()},
          {"years", s.name == "invented" ? json(nullptr) : json(s.years)},
          {"season_rain_mm", mean_json(s.season_rain_mm, 1)},
          {"cost", mean_json(s.cost, 2)},
          {"cost_per_ha", mean_json(per(s.cost, total_area_ha(farm)), 2)},
          {"straw_work_done", mean_json(s.straw_done, 4)},
          {"seedbed_by_planting", mean_json(s.seedbed_ready, 4)},
          {"planted", mean_json(s.planted, 4)}};
}

std::string with_error(const plan::MeanOfYears& m, const std::function<std::string(double)>& number) {
  return number(m.mean) + (m.error ? " ± " + number(*m.error) : "");
}

std::string share_words(const plan::MeanOfYears& m) {
  const auto percent = [](double x) { return fmt::format("{:.1f}", 100.0 * x); };
  return with_error(m, percent) + " %";
}

const char* heading_of(const plan::TrialSet& s) {
  if (s.name == "searched") return "searched on";
  return s.name == "kept_apart" ? "kept apart" : "invented";
}

std::string table_row(const std::string& what, const plan::Trial& t,
                      const std::function<std::string(const plan::TrialSet&)>& cell) {
  std::string row = fit(what, 34);
  for (const plan::TrialSet& s : t.sets) row += " " + fit(cell(s), 20, true);
  return row + "\n";
}

std::string table_of(const TrialShown& s) {
  const farm::Farm& farm = s.problem->farm;
  const plan::Trial& t = *s.trial;
  const Units& u = units_of(farm);
  const bool us = farm.units == farm::UnitSystem::us;
  const auto rain = [&](double mm) {
    return us ? fmt::format("{:.1f}", mm / 25.4) : fmt::format("{:.0f}", mm);
  };
  const auto whole = [](double x) { return with_thousands(x); };
  const auto one = [](double x) { return fmt::format("{:.1f}", x); };
  const double area = total_area_ha(farm) * u.area_per_ha;
  return table_row("", t, heading_of) +
         table_row("weather years", t, [](const auto& x) { return std::to_string(x.years.size()); }) +
         table_row(us ? "rain of the season, in" : "rain of the season, mm", t,
                   [&](const auto& x) { return with_error(x.season_rain_mm, rain); }) +
         table_row(fmt::format("cost a year, {}", farm.currency), t,
                   [&](const auto& x) { return with_error(x.cost, whole); }) +
         table_row(fmt::format("cost a year, {}/{}", farm.currency, u.area), t,
                   [&](const auto& x) { return with_error(per(x.cost, area), one); }) +
         table_row("straw work done, share of area", t,
                   [](const auto& x) { return share_words(x.straw_done); }) +
         table_row("seedbed by planting, share of area", t,
                   [](const auto& x) { return share_words(x.seedbed_ready); }) +
         table_row("planted at all, share of area", t, [](const auto& x) { return share_words(x.planted); });
}

std::string apart_words(const TrialShown& s) {
  const plan::MeanOfYears& d = s.trial->apart_less_searched;
  std::string text =
      fmt::format("The years kept apart cost {} {} {} a year than those searched on",
                  with_thousands(std::abs(d.mean)), s.problem->farm.currency, d.mean < 0.0 ? "less" : "more");
  if (!d.error) return text + ".";
  text += fmt::format(" (± {}).", with_thousands(*d.error));
  return text + (std::abs(d.mean) <= 2.0 * *d.error ? " Years differ by as much by chance."
                                                    : " That is more than years differ by chance.");
}

std::string flatter_words(const TrialShown& s) {
  const plan::MeanOfYears& d = s.trial->search_flatters;
  const std::string& currency = s.problem->farm.currency;
  const std::string error = d.error ? fmt::format(" (± {})", with_thousands(*d.error)) : "";
  if (d.mean <= 0.0)
    return "Searched both ways round, a plan does no better on years that it was searched on" + error +
           ": the first column does not flatter it.";
  return fmt::format(
      "Searched both ways round and compared year by year, a plan costs {} {}{} a year less on years that it "
      "was searched on: so much the first column flatters it.",
      with_thousands(d.mean), currency, error);
}

std::string invented_words(const TrialShown& s) {
  const plan::Trial& t = *s.trial;
  if (!t.no_invented.empty()) return "No invented years: " + t.no_invented + ".";
  const bool us = s.problem->farm.units == farm::UnitSystem::us;
  const auto rain = [us](double mm) {
    return us ? fmt::format("{:.1f} in", mm / 25.4) : fmt::format("{:.0f} mm", mm);
  };
  return fmt::format(
      "Invented years are drawn by {}; the season's rain differs between them by {} (standard deviation), in "
      "the record by {}.",
      s.parameters.empty() ? "a weather generator fitted to the farm's own record" : s.parameters,
      rain(t.invented_rain_spread_mm), rain(t.record_rain_spread_mm));
}

}  // namespace

std::string trial_json(const TrialShown& s) {
  const farm::Farm& farm = s.problem->farm;
  const plan::Trial& t = *s.trial;
  json sets = json::array();
  for (const plan::TrialSet& set : t.sets) sets.push_back(set_json(farm, set));
  const bool invented = t.no_invented.empty();
  const json out{{"schema", "aftercut-trial-1"},
                 {"version", s.version},
                 {"seed", s.seed},
                 {"changes_judged", s.evaluations},
                 {"farm", farm_head_json(*s.problem)},
                 {"plan",
                  {{"methods", methods_json(farm, t.decision)},
                   {"autumn_order", ids_of(farm, t.decision.autumn_order)},
                   {"spring_order", ids_of(farm, t.decision.spring_order)}}},
                 {"sets", sets},
                 {"kept_apart_less_searched", mean_json(t.apart_less_searched, 2)},
                 {"search_flatters", mean_json(t.search_flatters, 2)},
                 {"record_rain_spread_mm", rounded(t.record_rain_spread_mm, 1)},
                 {"invented",
                  {{"drawn_by", !invented              ? json(nullptr)
                                : s.parameters.empty() ? json("fitted to the farm's record")
                                                       : json(s.parameters)},
                   {"rain_spread_mm", invented ? json(rounded(t.invented_rain_spread_mm, 1)) : json(nullptr)},
                   {"why_none", invented ? json(nullptr) : json(t.no_invented)}}}};
  return out.dump(1) + "\n";
}

std::string trial_text(const TrialShown& s) {
  std::string out =
      "One plan, its methods and orders the same in every column; ± is the standard error of the mean.\n\n";
  out += table_of(s) + "\n";
  for (const std::string& words : {apart_words(s), flatter_words(s), invented_words(s)})
    out += wrapped(words, terminal_width, 2) + "\n";
  return out;
}

}  // namespace aftercut::report
