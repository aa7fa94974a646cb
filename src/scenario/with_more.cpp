// Farms with a tenth more of one thing, or with it twice.

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

#include "aftercut/burn/rules.hpp"
#include "aftercut/scenario/one_more.hpp"

namespace aftercut::scenario {
namespace {

constexpr double a_tenth = 0.1, as_much_again = 1.0;
constexpr int tenth_day = 10;

/// How much more, as a share; a second machine for a tenth of the days is there on every tenth.
struct Amount {
  double share = a_tenth;
  int round = 0;
  [[nodiscard]] bool twice() const { return share >= as_much_again; }
  [[nodiscard]] std::vector<char> days_of(const farm::Calendar& season) const {
    return twice() ? std::vector<char>(static_cast<std::size_t>(season.days), 1)
                   : every_tenth_day(season.days, round);
  }
};

using machinery::DateRange;

/// Away on all other days too.
std::vector<DateRange> only_on(const farm::Calendar& season, const std::vector<char>& days,
                               std::vector<DateRange> away) {
  for (int d = 0; d < season.days; ++d)
    if (!days[static_cast<std::size_t>(d)]) away.push_back({season.date(d), season.date(d), "not there"});
  return away;
}

/// Longer days of a person; a second one for twice.
WithMore more_of_person(const farm::Problem& p, std::size_t who, const Amount& more) {
  WithMore w{{.kind = "operator", .id = p.farm.operators[who].id.value, .unit = "h"}, p, {}};
  farm::Operator& person = w.problem.farm.operators[who];
  if (more.twice()) {
    farm::Operator second = person;
    second.id.value += " (second)";
    w.problem.farm.operators.push_back(std::move(second));
  } else {
    person.hours_per_day = Hours{(1.0 + more.share) * person.hours_per_day.value()};
  }
  w.days.assign(static_cast<std::size_t>(p.farm.season.days), 1);
  return w;
}

/// A second one of these machines, there on every tenth day, or on all.
template <class Machine>
WithMore second_machine(const farm::Problem& p, std::vector<Machine> farm::Farm::*machines, std::size_t i,
                        const char* kind, const Amount& more) {
  const Machine& first = (p.farm.*machines)[i];
  WithMore w{{.kind = kind, .id = first.id.value, .unit = "h"}, p, more.days_of(p.farm.season)};
  Machine second = first;
  second.id.value += " (second)";
  second.away = only_on(p.farm.season, w.days, std::move(second.away));
  (w.problem.farm.*machines).push_back(std::move(second));
  return w;
}

WithMore second_implement(const farm::Problem& p, std::size_t i, const Amount& more) {
  WithMore w = second_machine(p, &farm::Farm::implements, i, "implement", more);
  for (auto& fits : w.problem.farm.fits) {
    const farm::FieldFit fit = fits[i];
    fits.push_back(fit);
  }
  return w;
}

/// The hired outfit's last window, longer by a share of the days of all its windows, at least by one.
std::optional<WithMore> more_hired_days(const farm::Problem& p, std::size_t i, const Amount& amount) {
  const auto& hire = p.farm.implements[i].hire;
  if (!hire || hire->windows.empty()) return std::nullopt;
  int days = 0;
  for (const DateRange& r : hire->windows) days += r.to - r.from + 1;
  const int more = std::max(1, static_cast<int>(std::lround(amount.share * days)));
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

/// Rows of these names higher by the share, as the farm's rules write them.
std::optional<WithMore> more_burn_area(const farm::Problem& p, const char* kind,
                                       const std::vector<std::string>& names, double limit_ha, double share) {
  WithMore w{{.kind = kind, .id = "", .unit = "ha", .more = share * limit_ha}, p, {}};
  bool any = false;
  for (burn::Rule& rule : w.problem.farm.burning->rules) {
    if (std::count(names.begin(), names.end(), rule.name) == 0) continue;
    double value = 0.0;
    const auto [end, fault] =
        std::from_chars(rule.value.data(), rule.value.data() + rule.value.size(), value);
    if (fault != std::errc{}) continue;  // no limit
    rule.value = fmt::format("{}", (1.0 + share) * value);
    any = true;
  }
  if (!any) return std::nullopt;
  return w;
}

void add_limits(std::vector<WithMore>& out, const farm::Problem& p, double share) {
  const auto add = [&](std::optional<WithMore> w) {
    if (w) out.push_back(std::move(*w));
  };
  if (p.farm.burning) {
    const burn::Limits l = burn::limits_of(*p.farm.burning);
    double farm_ha = 0.0;
    for (const farm::Field& f : p.farm.fields) farm_ha += f.area.value();
    const double by_share = l.season_share ? *l.season_share * farm_ha : farm_ha;
    const double season = std::min(l.season_area_ha.value_or(farm_ha), by_share);
    if (l.daily_area_ha) add(more_burn_area(p, "burn_day_area", {"daily_area"}, *l.daily_area_ha, share));
    if (l.season_area_ha || l.season_share)
      add(more_burn_area(p, "burn_season_area", {"season_area", "season_share"}, season, share));
  }
  if (p.farm.supply) {
    constexpr double day_s = 86400.0;
    WithMore w{{.kind = "canal_flow", .id = "", .unit = "m3/s"}, p, {}};
    const double flow = p.farm.supply->most_flow.value();
    w.of.more = share * flow / day_s;
    w.problem.farm.supply->most_flow = CubicMetrePerDay{(1.0 + share) * flow};
    out.push_back(std::move(w));
  }
}

}  // namespace

std::vector<char> every_tenth_day(int season_days, int round) {
  std::vector<char> days(static_cast<std::size_t>(season_days), 0);
  for (int d = round % tenth_day; d < season_days; d += tenth_day) days[static_cast<std::size_t>(d)] = 1;
  return days;
}

namespace {

std::vector<WithMore> with_more_of_each(const farm::Problem& p, const Amount& more) {
  std::vector<WithMore> out;
  for (std::size_t i = 0; i < p.farm.operators.size(); ++i) out.push_back(more_of_person(p, i, more));
  for (std::size_t i = 0; i < p.farm.tractors.size(); ++i)
    out.push_back(second_machine(p, &farm::Farm::tractors, i, "tractor", more));
  for (std::size_t i = 0; i < p.farm.implements.size(); ++i)
    if (!p.farm.implements[i].hire) out.push_back(second_implement(p, i, more));
  for (std::size_t i = 0; i < p.farm.implements.size(); ++i)
    if (auto w = more_hired_days(p, i, more)) out.push_back(std::move(*w));
  add_limits(out, p, more.share);
  return out;
}

}  // namespace

std::vector<WithMore> with_a_tenth_more(const farm::Problem& p, int round) {
  return with_more_of_each(p, {a_tenth, round});
}

std::vector<WithMore> with_each_twice(const farm::Problem& p) {
  return with_more_of_each(p, {as_much_again, 0});
}

farm::Problem with_all_twice(const farm::Problem& p) {
  const Amount twice{as_much_again, 0};
  const farm::Farm& had = p.farm;
  farm::Problem all = p;
  for (std::size_t i = 0; i < had.operators.size(); ++i) all = more_of_person(all, i, twice).problem;
  for (std::size_t i = 0; i < had.tractors.size(); ++i)
    all = second_machine(all, &farm::Farm::tractors, i, "tractor", twice).problem;
  for (std::size_t i = 0; i < had.implements.size(); ++i) {
    if (!had.implements[i].hire) all = second_implement(all, i, twice).problem;
    if (auto w = more_hired_days(all, i, twice)) all = std::move(w->problem);
  }
  std::vector<WithMore> limits;
  add_limits(limits, all, twice.share);
  for (std::size_t k = 0; k < limits.size(); ++k) {  // each on top of those before
    std::vector<WithMore> next;
    add_limits(next, all, twice.share);
    all = std::move(next[k].problem);
  }
  return all;
}

}  // namespace aftercut::scenario
