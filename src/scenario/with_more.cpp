// Farms with a tenth more of one thing.

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

#include "aftercut/burn/rules.hpp"
#include "aftercut/scenario/one_more.hpp"

namespace aftercut::scenario {
namespace {

constexpr double a_tenth = 0.1;
constexpr int tenth_day = 10;

using machinery::DateRange;

/// Away on all other days too.
std::vector<DateRange> only_on(const farm::Calendar& season, const std::vector<char>& days,
                               std::vector<DateRange> away) {
  for (int d = 0; d < season.days; ++d)
    if (!days[static_cast<std::size_t>(d)]) away.push_back({season.date(d), season.date(d), "not there"});
  return away;
}

WithMore longer_days(const farm::Problem& p, std::size_t who) {
  WithMore w{{.kind = "operator", .id = p.farm.operators[who].id.value, .unit = "h"}, p, {}};
  farm::Operator& person = w.problem.farm.operators[who];
  person.hours_per_day = Hours{(1.0 + a_tenth) * person.hours_per_day.value()};
  w.days.assign(static_cast<std::size_t>(p.farm.season.days), 1);
  return w;
}

/// A second one of these machines, there on every tenth day.
template <class Machine>
WithMore second_machine(const farm::Problem& p, std::vector<Machine> farm::Farm::*machines, std::size_t i,
                        const char* kind, int round) {
  const Machine& first = (p.farm.*machines)[i];
  WithMore w{
      {.kind = kind, .id = first.id.value, .unit = "h"}, p, every_tenth_day(p.farm.season.days, round)};
  Machine second = first;
  second.id.value += " (second)";
  second.away = only_on(p.farm.season, w.days, std::move(second.away));
  (w.problem.farm.*machines).push_back(std::move(second));
  return w;
}

WithMore second_implement(const farm::Problem& p, std::size_t i, int round) {
  WithMore w = second_machine(p, &farm::Farm::implements, i, "implement", round);
  for (auto& fits : w.problem.farm.fits) {
    const farm::FieldFit fit = fits[i];
    fits.push_back(fit);
  }
  return w;
}

/// The hired outfit's last window, longer by a tenth of the days of all its windows, at least by one.
std::optional<WithMore> more_hired_days(const farm::Problem& p, std::size_t i) {
  const auto& hire = p.farm.implements[i].hire;
  if (!hire || hire->windows.empty()) return std::nullopt;
  int days = 0;
  for (const DateRange& r : hire->windows) days += r.to - r.from + 1;
  const int more = std::max(1, static_cast<int>(std::lround(a_tenth * days)));
  WithMore w{{.kind = "hired_days",
              .id = p.farm.implements[i].id.value,
              .unit = "day",
              .more = static_cast<double>(more)},
             p,
             {}};
  DateRange& last = w.problem.farm.implements[i].hire->windows.back();
  last.to = last.to + more;
  return w;
}

/// Rows of these names a tenth higher, as the farm's rules write them.
std::optional<WithMore> more_burn_area(const farm::Problem& p, const char* kind,
                                       const std::vector<std::string>& names, double limit_ha) {
  WithMore w{{.kind = kind, .id = "", .unit = "ha", .more = a_tenth * limit_ha}, p, {}};
  bool any = false;
  for (burn::Rule& rule : w.problem.farm.burning->rules) {
    if (std::count(names.begin(), names.end(), rule.name) == 0) continue;
    double value = 0.0;
    const auto [end, fault] =
        std::from_chars(rule.value.data(), rule.value.data() + rule.value.size(), value);
    if (fault != std::errc{}) continue;  // no limit
    rule.value = fmt::format("{}", (1.0 + a_tenth) * value);
    any = true;
  }
  if (!any) return std::nullopt;
  return w;
}

void add_limits(std::vector<WithMore>& out, const farm::Problem& p) {
  const auto add = [&](std::optional<WithMore> w) {
    if (w) out.push_back(std::move(*w));
  };
  if (p.farm.burning) {
    const burn::Limits l = burn::limits_of(*p.farm.burning);
    double farm_ha = 0.0;
    for (const farm::Field& f : p.farm.fields) farm_ha += f.area.value();
    const double by_share = l.season_share ? *l.season_share * farm_ha : farm_ha;
    const double season = std::min(l.season_area_ha.value_or(farm_ha), by_share);
    if (l.daily_area_ha) add(more_burn_area(p, "burn_day_area", {"daily_area"}, *l.daily_area_ha));
    if (l.season_area_ha || l.season_share)
      add(more_burn_area(p, "burn_season_area", {"season_area", "season_share"}, season));
  }
  if (p.farm.supply) {
    constexpr double day_s = 86400.0;
    WithMore w{{.kind = "canal_flow", .id = "", .unit = "m3/s"}, p, {}};
    const double flow = p.farm.supply->most_flow.value();
    w.of.more = a_tenth * flow / day_s;
    w.problem.farm.supply->most_flow = CubicMetrePerDay{(1.0 + a_tenth) * flow};
    out.push_back(std::move(w));
  }
}

}  // namespace

std::vector<char> every_tenth_day(int season_days, int round) {
  std::vector<char> days(static_cast<std::size_t>(season_days), 0);
  for (int d = round % tenth_day; d < season_days; d += tenth_day) days[static_cast<std::size_t>(d)] = 1;
  return days;
}

std::vector<WithMore> with_a_tenth_more(const farm::Problem& p, int round) {
  std::vector<WithMore> out;
  for (std::size_t i = 0; i < p.farm.operators.size(); ++i) out.push_back(longer_days(p, i));
  for (std::size_t i = 0; i < p.farm.tractors.size(); ++i)
    out.push_back(second_machine(p, &farm::Farm::tractors, i, "tractor", round));
  for (std::size_t i = 0; i < p.farm.implements.size(); ++i)
    if (!p.farm.implements[i].hire) out.push_back(second_implement(p, i, round));
  for (std::size_t i = 0; i < p.farm.implements.size(); ++i)
    if (auto w = more_hired_days(p, i)) out.push_back(std::move(*w));
  add_limits(out, p);
  return out;
}

}  // namespace aftercut::scenario
