#include <algorithm>

#include "parts.hpp"

namespace aftercut::farm {
namespace {

constexpr int shortest_season_days = 30;
/// From the planting date to the day after which a field stays unplanted. Assumed.
constexpr int default_cut_off_days = 31;
/// Grain lost by planting late [kg/ha a day]. Source: UCCE2023 (read): 560 kg/ha over the 30 days of May,
/// rounded.
constexpr double late_loss_kg_per_ha_day = 19.0;
constexpr double most_loss_kg_per_ha = 20000.0;

std::optional<int> season_length(const Object& season, Date first) {
  if (season.has("days")) return season.whole("days", shortest_season_days, longest_season_days);
  const auto last = season.date("last");
  if (!last) return std::nullopt;
  const int days = *last - first + 1;
  if (days >= shortest_season_days && days <= longest_season_days) return days;
  season.fault("last", iso(*last), "a day 29 to 364 days after the season's first day, " + iso(first),
               "correct first or last");
  return std::nullopt;
}

}  // namespace

std::vector<LateNode> read_late_curve(const Object& holder) {
  std::vector<LateNode> curve;
  for (const Object& node : holder.list("late_curve")) {
    const auto day = node.date("day");
    const auto loss = node.quantity("loss", "kg/ha", {0.0, most_loss_kg_per_ha});
    if (!day) continue;
    if (!node.has(node.key_of("loss")))
      node.fault("loss", "nothing: the key is missing", "a loss such as \"0 kg/ha\"", "add it");
    if (!curve.empty() && *day <= curve.back().day)
      node.fault("day", iso(*day), "a day after " + iso(curve.back().day),
                 "put the nodes in rising order of days, each day once");
    else if (!curve.empty() && loss && *loss < curve.back().loss_kg_per_ha)
      node.fault("loss", "a loss that falls with later planting", "a loss not below the node before",
                 "correct the loss");
    curve.push_back({*day, loss.value_or(0.0)});
  }
  return curve;
}

std::vector<LateNode> default_late_curve(const SeasonDates& season, Date planting, Date cut_off) {
  const MonthDay best = season.south ? MonthDay{11, 1} : MonthDay{5, 1};
  const Date start = std::max(planting, next_on(best, season.calendar.first));
  std::vector<LateNode> curve{{start, 0.0}};
  if (cut_off > start) curve.push_back({cut_off, late_loss_kg_per_ha_day * (cut_off - start)});
  return curve;
}

SeasonDates read_season(const Object& top, bool south) {
  const Object s = top.child("season");
  SeasonDates out;
  out.south = south;
  const auto first = s.date("first");
  const auto days = first ? season_length(s, *first) : std::nullopt;
  out.sound = first && days;
  if (out.sound) out.calendar = {*first, *days};
  out.planting = s.date("planting_date");
  out.window_opens = s.date("window_opens");
  out.cut_off = s.date("cut_off");
  out.late_curve = read_late_curve(s);
  out.planted_ha_per_day = s.quantity("planting_rate", "ha/day", {0.1, 1e5});
  if (!out.sound || !out.planting) return out;
  const Date last = out.calendar.date(out.calendar.days - 1);
  if (*out.planting <= *first || *out.planting > last)
    s.fault("planting_date", iso(*out.planting),
            "a day inside the season, " + iso(*first) + " to " + iso(last), "correct the season or the date");
  if (!out.cut_off) out.cut_off = std::min(*out.planting + default_cut_off_days, last);
  return out;
}

}  // namespace aftercut::farm
