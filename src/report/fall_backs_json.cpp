// Fall-backs, dates to keep and money by month as JSON.

#include <algorithm>

#include "parts.hpp"

namespace aftercut::report {
namespace {

json day_or_null(const farm::Farm& farm, const std::optional<int>& day) {
  return day ? json(iso(farm.season.date(*day))) : json(nullptr);
}

const char* key_of(plan::Trigger t) { return plan::trigger_keys.at(static_cast<std::size_t>(t)); }

json hangs_on_json(const farm::Farm& farm, const plan::Plan& p, const plan::HangsOn& h, int field) {
  json out{{"kind", key_of(h.trigger)},
           {"trigger", h.words},
           {"method", id_or_null(farm.book.recipes, h.method)},
           {"instead", h.instead}};
  const plan::FallBackTest* own =
      h.test < 0 ? nullptr : &p.fall_back_tests.at(static_cast<std::size_t>(h.test));
  const auto together = std::ranges::find_if(p.fall_back_tests, [&](const plan::FallBackTest& t) {
    return t.triggers.size() > 1 && std::ranges::count(t.fields, field) > 0;
  });
  const bool with_others = together != p.fall_back_tests.end() && own != nullptr &&
                           std::ranges::count(together->triggers, h.trigger) > 0;
  out["start_by"] = own == nullptr ? json(nullptr) : day_or_null(farm, own->start_by);
  out["start_by_together"] = with_others ? day_or_null(farm, together->start_by) : out["start_by"];
  out["method_start_by"] = day_or_null(farm, h.rule_day);
  out["chance_taken"] = rounded(h.chance_taken, 4);
  return out;
}

}  // namespace

json chosen_fall_back_json(const farm::Farm& farm, const plan::Plan& p, std::size_t field) {
  const auto& all = p.fields.at(field).chosen.hangs_on;
  return all.empty() ? json(nullptr) : hangs_on_json(farm, p, all.front(), static_cast<int>(field));
}

json more_fall_backs_json(const farm::Farm& farm, const plan::Plan& p, std::size_t field) {
  const auto& all = p.fields.at(field).chosen.hangs_on;
  json out = json::array();
  for (std::size_t k = 1; k < all.size(); ++k)
    out.push_back(hangs_on_json(farm, p, all[k], static_cast<int>(field)));
  return out;
}

json fall_back_tests_json(const farm::Farm& farm, const plan::Plan& p) {
  json out = json::array();
  for (const plan::FallBackTest& t : p.fall_back_tests) {
    json kinds = json::array();
    for (const plan::Trigger k : t.triggers) kinds.push_back(key_of(k));
    out.push_back({{"kinds", kinds},
                   {"trigger", t.words},
                   {"fields", ids_of(farm, t.fields)},
                   {"start_by", day_or_null(farm, t.start_by)},
                   {"late", t.late()},
                   {"played_from", iso(farm.season.date(t.day))},
                   {"chance", rounded(t.chance, 4)},
                   {"chance_ready", rounded(t.chance_ready, 4)},
                   {"method_start_by", day_or_null(farm, t.rule_day)},
                   {"chance_by_method_start", rounded(t.chance_by_rule, 4)},
                   {"storm",
                    {{"year", t.storm.year},
                     {"began", iso(farm.season.date(t.storm.day))},
                     {"days", t.storm.days},
                     {"rain_mm", rounded(t.storm.rain_mm, 3)}}}});
  }
  return out;
}

json dates_to_keep_json(const farm::Farm& farm, const plan::Plan& p) {
  json out = json::array();
  for (const plan::DateToKeep& d : p.dates)
    out.push_back({{"by", iso(farm.season.date(d.day))},
                   {"what", d.what},
                   {"why", d.why},
                   {"fields", ids_of(farm, d.fields)},
                   {"source", d.source.empty() ? json(nullptr) : json(d.source)},
                   {"worked_out", d.worked_out}});
  return out;
}

json cash_json(const plan::Plan& p) {
  json out = json::array();
  for (const plan::MonthCash& c : p.cash) {
    json parts = json::object();
    for (const plan::CostPart& part : plan::cost_parts)
      if (part.of != &plan::CostParts::ownership && part.of != &plan::CostParts::own_labour)
        parts[part.key] = money(c.mean.*part.of);
    out.push_back({{"month", fmt::format("{:04}-{:02}", c.year, c.month)},
                   {"parts", parts},
                   {"sum", money(c.mean.out_of_pocket())},
                   {"p10", money(c.p10)},
                   {"p90", money(c.p90)}});
  }
  return out;
}

}  // namespace aftercut::report
