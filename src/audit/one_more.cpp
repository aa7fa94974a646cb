#include "one_more.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "outfits.hpp"

namespace aftercut::audit {
namespace {

constexpr double printed_amount = 0.01;  // hours and limits as written

plan::MoreInWeek read_week(JsonIn& in, const Json& row, const std::string& place) {
  return {.first_day = in.day(row, "start", place, false),
          .more = in.number(row, "more", place),
          .worth = in.number(row, "worth", place),
          .error = in.number(row, "standard_error", place)};
}

/// Work of the plan's own years: which machine or person, in which week.
struct Worked {
  std::set<std::string> ever;
  std::set<std::pair<std::string, int>> weeks;
};

Worked worked_in(const farm::Farm& farm, const std::vector<plan::YearRun>& runs) {
  Worked all;
  const auto note = [&](const std::string& kind_and_id, int day) {
    all.ever.insert(kind_and_id);
    all.weeks.insert({kind_and_id, day / 7});
  };
  for (const plan::YearRun& run : runs) {
    for (const plan::WaterIn& w : run.water) note("canal_flow ", w.day);
    for (const plan::Work& w : run.work) {
      if (w.tractor >= 0)
        note("tractor " + farm.tractors[static_cast<std::size_t>(w.tractor)].id.value, w.day);
      if (w.implement >= 0)
        note("implement " + farm.implements[static_cast<std::size_t>(w.implement)].id.value, w.day);
      for (const int who : w.crew)
        if (who >= 0) note("operator " + farm.operators[static_cast<std::size_t>(who)].id.value, w.day);
      if (farm.book.operations[static_cast<std::size_t>(w.operation)].burning) note("burn_day_area ", w.day);
    }
  }
  return all;
}

/// Minutes more of a person's days, a tenth longer but not past daylight; of the whole season.
double longer_minutes(const Facts& facts, int person, int day) {
  const int now = minutes_at_work(facts, person, day);
  if (now == 0) return 0.0;
  const double hours = 1.1 * facts.farm().operators[static_cast<std::size_t>(person)].hours_per_day.value();
  return std::min(static_cast<int>(std::lround(60.0 * hours)),
                  facts.daylight_min[static_cast<std::size_t>(day)]) -
         now;
}

/// The longest day that anybody of the farm works, at work that day or not: machines stay out as long.
int longest_day_min(const Facts& facts, int day) {
  return std::min(facts.longest_operator_min, facts.daylight_min[static_cast<std::size_t>(day)]);
}

/// Hours of a second machine on the tenth days of each plan, mean over the plans.
double second_machine_hours(const Facts& facts, const std::vector<machinery::DateRange>& away, int plans) {
  double minutes = 0.0;
  for (int d = 0; d < facts.farm().season.days; ++d) {
    if (within(away, facts.farm().season.date(d))) continue;
    int times = 0;
    for (int k = 0; k < plans; ++k) times += d % 10 == k % 10 ? 1 : 0;
    minutes += static_cast<double>(times * longest_day_min(facts, d)) / plans;
  }
  return minutes / 60.0;
}

template <class T>
const T* with_id(const std::vector<T>& all, const std::string& id) {
  const auto at = std::ranges::find_if(all, [&](const T& x) { return x.id.value == id; });
  return at == all.end() ? nullptr : &*at;
}

/// What a tenth more of the thing is; nothing: the farm has no such thing.
std::optional<double> tenth_of(const Facts& facts, const plan::MoreOf& of, int plans) {
  const farm::Farm& farm = facts.farm();
  const burn::Limits& l = facts.burn_limits;
  if (of.kind == "operator") {
    const farm::Operator* o = with_id(farm.operators, of.id);
    if (o == nullptr) return std::nullopt;
    const auto person = static_cast<int>(o - farm.operators.data());
    double minutes = 0.0;
    for (int d = 0; d < farm.season.days; ++d) minutes += longer_minutes(facts, person, d);
    return minutes / 60.0;
  }
  const auto* tractor = of.kind == "tractor" ? with_id(farm.tractors, of.id) : nullptr;
  if (tractor != nullptr) return second_machine_hours(facts, tractor->away, plans);
  const auto* implement = with_id(farm.implements, of.id);
  if (of.kind == "implement" && implement != nullptr && !implement->hire)
    return second_machine_hours(facts, implement->away, plans);
  if (of.kind == "hired_days" && implement != nullptr && implement->hire) {
    int days = 0;
    for (const auto& r : implement->hire->windows) days += r.to - r.from + 1;
    if (days > 0) return std::max(1.0, std::round(0.1 * days));
  }
  if (of.kind == "burn_day_area" && l.daily_area_ha) return 0.1 * *l.daily_area_ha;
  if (of.kind == "burn_season_area" && (l.season_area_ha || l.season_share))
    return 0.1 * std::min(l.season_area_ha.value_or(facts.farm_area_ha),
                          l.season_share.value_or(1.0) * facts.farm_area_ha);
  if (of.kind == "canal_flow" && farm.supply) return 0.1 * farm.supply->most_flow.value() / 86400.0;
  return std::nullopt;
}

/// A chosen method, or one that it goes over to, burns (or is filled from the canal).
bool plan_may(const farm::Farm& farm, const plan::Decision& d, bool burn) {
  for (int chosen : d.method) {
    std::set<int> seen;
    while (chosen >= 0 && seen.insert(chosen).second) {
      const method::Recipe& r = farm.book.recipes[static_cast<std::size_t>(chosen)];
      for (const method::Step& s : r.steps) {
        const method::Operation& o = farm.book.operations[static_cast<std::size_t>(s.operation)];
        if (burn ? o.burning : o.water == method::Water::fill) return true;
      }
      chosen = -1;
      for (std::size_t k = 0; r.fall_back && k < farm.book.recipes.size(); ++k)
        if (farm.book.recipes[k].id == r.fall_back->method) chosen = static_cast<int>(k);
    }
  }
  return false;
}

bool can_matter(const farm::Farm& farm, const plan::Decision& d, const Worked& worked,
                const plan::MoreOf& of) {
  if (of.kind.starts_with("burn_")) return plan_may(farm, d, true);
  if (of.kind == "canal_flow") return plan_may(farm, d, false);
  return of.kind == "hired_days" || worked.ever.contains(of.kind + " " + of.id);
}

Findings check_weeks(const farm::Farm& farm, const Worked& worked, const plan::MoreOf& of,
                     const Place& place) {
  Findings f;
  int before = -7;
  for (const plan::MoreInWeek& w : of.weeks) {
    const bool in_order = w.first_day % 7 == 0 && w.first_day > before && w.first_day < farm.season.days;
    const bool works = worked.weeks.contains({of.kind + " " + of.id, w.first_day / 7});
    f.expect(in_order && works && w.error >= 0.0, "wrong week of one more", place, [&] {
      return Texts{fmt::format("the week of day {}", w.first_day),
                   "a week in which the plan works with it, in order"};
    });
    const bool limit = of.kind == "burn_day_area" || of.kind == "canal_flow";
    f.expect(!limit || std::abs(w.more - of.more) <= printed_amount, "wrong amount of one more", place, [&] {
      return Texts{fmt::format("{:.4f} in a week", w.more), fmt::format("{:.4f}", of.more)};
    });
    before = w.first_day;
  }
  return f;
}

}  // namespace

std::optional<plan::OneMore> read_one_more(JsonIn& in, const Json& root) {
  const Json& all = in.get(root, "one_more_worth", "plan");
  if (!all.is_object()) return std::nullopt;
  plan::OneMore out{.plans = in.small(all, "plans", "one_more_worth"), .things = {}};
  const Json& things = in.array(all, "things", "one_more_worth");
  for (std::size_t k = 0; k < things.size(); ++k) {
    const std::string place = fmt::format("one_more_worth.things[{}]", k);
    plan::MoreOf of{
        .kind = in.text(things[k], "kind", place), .id = "", .unit = in.text(things[k], "unit", place)};
    if (!in.get(things[k], "id", place).is_null()) of.id = in.text(things[k], "id", place);
    of.more = in.number(things[k], "more", place);
    of.worth = in.number(things[k], "worth", place);
    of.error = in.number(things[k], "standard_error", place);
    const Json& weeks = in.array(things[k], "weeks", place);
    for (std::size_t w = 0; w < weeks.size(); ++w)
      of.weeks.push_back(read_week(in, weeks[w], fmt::format("{}.weeks[{}]", place, w)));
    out.things.push_back(std::move(of));
  }
  return out;
}

Findings check_one_more(const Facts& facts, const plan::PlannedYears& planned) {
  Findings f;
  const plan::Plan& p = planned.plan;
  if (!p.one_more) return f;
  const farm::Farm& farm = facts.farm();
  const Worked worked = worked_in(farm, planned.runs);
  for (const plan::MoreOf& of : p.one_more->things) {
    const Place place{nullptr, -1, -1, -1, of.kind + " " + of.id};
    const auto tenth = tenth_of(facts, of, std::max(p.one_more->plans, 1));
    f.expect(tenth && std::abs(of.more - *tenth) <= printed_amount, "wrong amount of one more", place, [&] {
      return Texts{fmt::format("{:.4f} {}", of.more, of.unit),
                   tenth ? fmt::format("{:.4f}", *tenth) : "a machine, person or limit of the farm"};
    });
    f.expect(of.error >= 0.0 && (of.worth == 0.0 || can_matter(farm, p.decision, worked, of)),
             "worth of what is not used", place, [&] {
               return Texts{fmt::format("{:.2f}", of.worth), "0: the plan has no work for it"};
             });
    f.expect(of.weeks.empty() || of.told(), "wrong week of one more", place, [&] {
      return Texts{"weeks", "none where the season's worth cannot be told from nothing"};
    });
    f += check_weeks(farm, worked, of, place);
  }
  return f;
}

}  // namespace aftercut::audit
