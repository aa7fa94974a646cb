#include "aftercut/dispatch/table.hpp"
#include "aftercut/dispatch/money.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "aftercut/dispatch/burn_day.hpp"
#include "aftercut/dispatch/hired.hpp"
#include "aftercut/farm/power.hpp"
#include "aftercut/machinery/capacity.hpp"
#include "aftercut/machinery/cost.hpp"
#include "aftercut/weather/sun.hpp"
#include "mornings.hpp"
#include "ways.hpp"

namespace aftercut::dispatch {
namespace {

using machinery::DateRange;

bool inside(const std::vector<DateRange>& ranges, Date d) {
  return std::any_of(ranges.begin(), ranges.end(),
                     [d](const DateRange& r) { return r.from <= d && d <= r.to; });
}

double usual_rate(const farm::Farm& farm, const machinery::Implement& i, Fraction efficiency, KgPerHa straw) {
  if (i.entered_ha_per_day) return *i.entered_ha_per_day / farm.work_day.hours_for_area_per_day.value();
  const HaPerHour by_area = machinery::field_capacity(i.speed, i.width, efficiency);
  return machinery::capped_by_throughput(by_area, i.throughput, straw).value();
}

struct Setting {
  const farm::Farm& farm;
  std::size_t index;
  const farm::Field& field;
  const method::Operation& op;
};

Outfit with_machine_costs(Outfit o, const machinery::Owning& owning) {
  const machinery::HourlyCost c = machinery::hourly_cost(owning);
  o.repair_per_hour += c.repair.value();
  o.ownership_per_hour += c.ownership.value();
  return o;
}

void add_outfits(std::vector<Outfit>& list, const Setting& s, int index) {
  const machinery::Implement& i = s.farm.implements[static_cast<std::size_t>(index)];
  const KgPerHa straw = loose_straw(s.field);
  Outfit base{.implement = index,
              .own_crew = !(i.hire && i.hire->brings_operator),
              .ha_per_hour = usual_rate(
                  s.farm, i, farm::efficiency_on(s.farm, s.index, static_cast<std::size_t>(index)), straw)};
  if (!i.hire) base = with_machine_costs(base, i.owning);
  if (!s.op.tractor || (i.hire && i.hire->brings_tractor)) {
    list.push_back(base);
    return;
  }
  const machinery::SoilGroup group = farm::group_of(s.farm.soils[s.field.soil]);
  for (std::size_t t = 0; t < s.farm.tractors.size(); ++t) {
    const machinery::Tractor& tractor = s.farm.tractors[t];
    const machinery::PowerParts parts =
        machinery::power_parts(i, tractor.drive, farm::ground_of(s.op), group, straw);
    const KiloWatt need = parts.pulled + parts.rotary;
    if (need > tractor.pto_power) continue;
    Outfit o = with_machine_costs(base, tractor.owning);
    o.tractor = static_cast<int>(t);
    o.pulled_kw = parts.pulled.value();
    o.rotary_kw = parts.rotary.value();
    o.tractor_kw = tractor.pto_power.value();
    o.fuel_l_per_hour = machinery::fuel_rate(need, tractor.pto_power).value();
    list.push_back(o);
  }
}

/// Minutes a hectare of hand work: boards as the farm's water says, other work as its operation does.
double hand_minutes(const farm::Farm& farm, const method::Operation& op) {
  if (farm.supply && op.water == method::Water::boards_in) return farm.supply->labour_min_per_ha_fill;
  if (farm.supply && op.water == method::Water::boards_out) return farm.supply->labour_min_per_ha_drawdown;
  return op.labour_min_per_ha;
}

/// Out of pocket in ground of least draft: fuel, repair and the crew at the lowest wage of the farm.
double money_per_ha(const Setting& s, const Outfit& o) {
  double money = fuel_money(s.farm, {o.ha_per_hour, o.fuel_l_per_hour}, 1.0) + o.repair_per_hour;
  const auto& people = s.farm.operators;
  if (o.own_crew && !people.empty())
    money += s.op.crew * wage_paid(*std::ranges::min_element(people, {}, wage_paid));
  return money / o.ha_per_hour;
}

std::vector<Outfit> outfits_of(const Setting& s) {
  if (s.op.implement.empty()) {
    const double labour = hand_minutes(s.farm, s.op);
    if (labour <= 0.0) return {};
    return {Outfit{.ha_per_hour = 60.0 / labour}};
  }
  std::vector<Outfit> list;
  for (std::size_t i = 0; i < s.farm.implements.size(); ++i)
    if (s.farm.implements[i].kind == s.op.implement) add_outfits(list, s, static_cast<int>(i));
  list = under_contract(s.farm, s.op, std::move(list));
  const auto power = [&](const Outfit& o) {
    return o.tractor == plan::none ? 0.0
                                   : s.farm.tractors[static_cast<std::size_t>(o.tractor)].pto_power.value();
  };
  const auto hired = [&](const Outfit& o) {
    return s.farm.implements[static_cast<std::size_t>(o.implement)].hire.has_value();
  };
  std::stable_sort(list.begin(), list.end(), [&](const Outfit& a, const Outfit& b) {
    return std::tuple{hired(a), power(a), money_per_ha(s, a)} <
           std::tuple{hired(b), power(b), money_per_ha(s, b)};
  });
  return list;
}

void add_calendars(Table& t) {
  const farm::Farm& farm = t.problem->farm;
  const int n = farm.season.days;
  const auto present = [&](int d, const std::vector<DateRange>& away) {
    return !inside(away, farm.season.date(d));
  };
  for (const auto& tractor : farm.tractors) {
    auto& here = t.tractor_here.emplace_back();
    for (int d = 0; d < n; ++d) here.push_back(present(d, tractor.away) ? 1 : 0);
  }
  for (const auto& i : farm.implements) {
    auto& here = t.implement_here.emplace_back();
    for (int d = 0; d < n; ++d) {
      const bool open = !i.hire || i.hire->windows.empty() || inside(i.hire->windows, farm.season.date(d));
      here.push_back(open && present(d, i.away) ? 1 : 0);
    }
  }
  for (int d = 0; d < n; ++d)
    t.longest_min.push_back(
        static_cast<int>(weather::sun_times(farm.site, farm.season.date(d)).length_h * 60.0));
  std::vector<int> longest(static_cast<std::size_t>(n), 0);
  for (const auto& o : farm.operators) {
    auto& minutes = t.operator_min.emplace_back();
    for (int d = 0; d < n; ++d) {
      const auto day = static_cast<std::size_t>(d);
      const bool off =
          std::count(o.weekdays_off.begin(), o.weekdays_off.end(), weekday(farm.season.date(d))) > 0;
      const int full =
          std::min(static_cast<int>(std::lround(o.hours_per_day.value() * 60.0)), t.longest_min[day]);
      minutes.push_back(off || !present(d, o.away) ? 0 : full);
      longest[day] = std::max(longest[day], full);
    }
  }
  t.longest_min = longest;
}

}  // namespace

double rate_of(const Outfit& o, double draft_factor) {
  if (draft_factor == 1.0 || o.pulled_kw <= 0.0) return o.ha_per_hour;
  const double asked = draft_factor * o.pulled_kw + o.rotary_kw;
  return o.ha_per_hour * std::min(asked, o.tractor_kw) / asked;
}

Pace pace_of(const Outfit& o, double draft_factor) {
  if (draft_factor == 1.0 || o.pulled_kw <= 0.0) return {o.ha_per_hour, o.fuel_l_per_hour};
  const double asked = draft_factor * o.pulled_kw + o.rotary_kw;
  const double used = std::min(asked, o.tractor_kw);
  return {rate_of(o, draft_factor), machinery::fuel_rate(KiloWatt{used}, KiloWatt{o.tractor_kw}).value()};
}

double typical_hours_share(const farm::Farm& farm, std::size_t field, std::size_t implement) {
  const machinery::Implement& i = farm.implements[implement];
  const KgPerHa straw = loose_straw(farm.fields[field]);
  return usual_rate(farm, i, farm::efficiency_on(farm, field, implement), straw) /
         usual_rate(farm, i, i.field_efficiency, straw);
}

KgPerHa loose_straw(const farm::Field& field) { return farm::loose_straw_of(field); }

int drawdown_day(const Table& t, const farm::Field& field, const method::Recipe& recipe) {
  int day = recipe.water ? day_of(t, recipe.water->draw_down) : 0;
  if (field.lease) day = std::max(day, t.problem->farm.season.day(field.lease->until) + 1);
  return day;
}

bool in_window(Date date, const std::optional<MonthDay>& from, const std::optional<MonthDay>& to) {
  if (!from || !to) return false;
  const MonthDay today{month_of(date), day_of_month(date)};
  return *from <= *to ? *from <= today && today <= *to : *from <= today || today <= *to;
}

Table make_table(const farm::Problem& problem, std::uint64_t seed) {
  Table t;
  t.problem = &problem;
  t.seed = seed;
  t.so_far = journal::state_of(problem);
  const farm::Farm& farm = problem.farm;
  for (const auto& year : problem.years.years) t.drivers.push_back(season::drivers_of(year, problem.farm));
  if (farm.burning) t.burn_limits = burn::limits_of(*farm.burning);
  for (std::size_t y = 0; y < t.drivers.size(); ++y) {
    t.burn_days.push_back(burn_days_of(t, y));
    t.hired_from.push_back(arrivals(t, t.drivers[y].year));
    t.soft_roads.push_back(soft_road_days(farm, t.drivers[y]));
  }
  t.burn_clock = burn_clocks_of(t);
  for (const auto& op : farm.book.operations) {
    auto& skilled = t.has_skill.emplace_back();
    for (const auto& o : farm.operators)
      skilled.push_back(op.skill.empty() || std::count(o.skills.begin(), o.skills.end(), op.skill) > 0 ? 1
                                                                                                       : 0);
  }
  add_calendars(t);
  t.place_in_order = places_in_order(farm);
  t.shift_start_min = static_cast<int>(std::lround(farm.work_day.shift_start_h * 60.0));
  t.move_min = move_minutes(farm);
  t.as_of_day = farm.season.day(problem.as_of);
  t.day_of_year_day = season_days(farm.season);
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    t.farm_area_ha += farm.fields[f].area.value();
    auto& by_operation = t.outfits.emplace_back();
    for (const auto& op : farm.book.operations)
      by_operation.push_back(outfits_of({farm, f, farm.fields[f], op}));
  }
  for (int d = 0; d < farm.season.days; ++d)
    t.water_on.push_back(
        farm.supply && in_window(farm.season.date(d), farm.supply->on, farm.supply->off) ? 1 : 0);
  t.fills_from = linked(farm, farm::LinkKind::fills_from);
  t.drains_to = linked(farm, farm::LinkKind::drains_to);
  t.seeps_from = linked(farm, farm::LinkKind::seeps_from);
  add_shut_days(t);
  add_mornings(t);
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    auto& reasons = t.why_not.emplace_back();
    for (std::size_t r = 0; r < farm.book.recipes.size(); ++r) reasons.push_back(why_not(t, f, r));
  }
  return t;
}

}  // namespace aftercut::dispatch
