#include "read_fall_backs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "read_years.hpp"

namespace aftercut::audit {
namespace {

plan::Trigger trigger_from(JsonIn& in, const Json& value, const std::string& place) {
  for (std::size_t k = 0; k < plan::trigger_keys.size(); ++k)
    if (value.is_string() && value.get<std::string>() == plan::trigger_keys[k])
      return static_cast<plan::Trigger>(k);
  in.issue(place, value.dump(), "a known kind of trigger", "write the plan again");
  return plan::Trigger::burn_call;
}

std::optional<int> day_or_none(JsonIn& in, const Json& row, const char* key, const std::string& place) {
  const int day = in.day(row, key, place, true);
  return day == plan::none ? std::nullopt : std::optional<int>{day};
}

plan::HangsOn read_one(JsonIn& in, const Json& row, const std::string& place) {
  plan::HangsOn h;
  h.trigger = trigger_from(in, in.get(row, "kind", place), place + ".kind");
  h.words = in.text(row, "trigger", place);
  h.method = in.index(in.get(row, "method", place), in.ids().recipes, "method", place + ".method", true);
  h.rule_day = day_or_none(in, row, "method_start_by", place);
  h.chance_taken = in.number(row, "chance_taken", place);
  return h;
}

plan::FallBackTest read_test(JsonIn& in, const Json& row, const std::string& place) {
  plan::FallBackTest t;
  for (const Json& kind : in.array(row, "kinds", place))
    t.triggers.push_back(trigger_from(in, kind, place + ".kinds"));
  for (const Json& field : in.array(row, "fields", place))
    t.fields.push_back(in.index(field, in.ids().fields, "field", place + ".fields", false));
  t.words = in.text(row, "trigger", place);
  t.start_by = day_or_none(in, row, "start_by", place);
  t.day = in.day(row, "played_from", place, false);
  t.chance = in.number(row, "chance", place);
  t.chance_ready = in.number(row, "chance_ready", place);
  t.rule_day = day_or_none(in, row, "method_start_by", place);
  t.chance_by_rule = in.number(row, "chance_by_method_start", place);
  const Json& storm = in.get(row, "storm", place);
  t.storm = {in.small(storm, "year", place + ".storm"), in.day(storm, "began", place + ".storm", false),
             in.small(storm, "days", place + ".storm"), in.number(storm, "rain_mm", place + ".storm")};
  return t;
}

}  // namespace

std::vector<plan::HangsOn> read_hangs_on(JsonIn& in, const Json& chosen, const std::string& place) {
  std::vector<plan::HangsOn> all;
  const Json& first = in.get(chosen, "fallback", place);
  if (first.is_null()) return all;
  all.push_back(read_one(in, first, place + ".fallback"));
  const Json& more = in.array(chosen, "more_fallbacks", place);
  for (std::size_t k = 0; k < more.size(); ++k)
    all.push_back(read_one(in, more[k], fmt::format("{}.more_fallbacks[{}]", place, k)));
  return all;
}

std::vector<plan::FallBackTest> read_fall_back_tests(JsonIn& in, const Json& root) {
  std::vector<plan::FallBackTest> all;
  const Json& rows = in.array(root, "fall_backs", "plan");
  for (std::size_t k = 0; k < rows.size(); ++k)
    all.push_back(read_test(in, rows[k], fmt::format("fall_backs[{}]", k)));
  return all;
}

std::vector<plan::MonthCash> read_cash(JsonIn& in, const Json& root) {
  std::vector<plan::MonthCash> all;
  const Json& rows = in.array(root, "cash", "plan");
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::string place = fmt::format("cash[{}]", k);
    plan::MonthCash c;
    const std::string month = in.text(rows[k], "month", place);
    const auto first = parse_iso_date(month + "-01");
    if (!first) in.issue(place + ".month", month, "a month such as 2026-10", "write the plan again");
    if (first) c.year = year_of(*first);
    if (first) c.month = month_of(*first);
    const Json& parts = in.get(rows[k], "parts", place);
    for (const plan::CostPart& part : plan::cost_parts)
      if (part.of != &plan::CostParts::ownership && part.of != &plan::CostParts::own_labour)
        c.mean.*part.of = in.cents(parts, part.key, place + ".parts");
    c.p10 = in.cents(rows[k], "p10", place);
    c.p90 = in.cents(rows[k], "p90", place);
    all.push_back(c);
  }
  return all;
}

std::vector<plan::Trouble> read_troubles(JsonIn& in, const Json& root) {
  std::vector<plan::Trouble> all;
  for (const Json& row : in.array(root, "troubles", "plan")) {
    plan::Trouble t;
    t.name = in.text(row, "name", "troubles");
    t.text = in.text(row, "text", "troubles");
    for (const Json& field : in.array(row, "fields", "troubles"))
      t.fields.push_back(in.index(field, in.ids().fields, "field", "troubles.fields", false));
    all.push_back(std::move(t));
  }
  return all;
}

}  // namespace aftercut::audit
