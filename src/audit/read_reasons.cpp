#include "read_reasons.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace aftercut::audit {
namespace {

constexpr const char* again = "write the plan again";

plan::CostParts read_parts(JsonIn& in, const Json& rows, const std::string& place) {
  plan::CostParts parts;
  for (const Json& row : rows) {
    const std::string name = in.text(row, "part", place);
    const auto part = std::find_if(plan::cost_parts.begin(), plan::cost_parts.end(),
                                   [&](const plan::CostPart& c) { return name == c.key; });
    if (part == plan::cost_parts.end())
      in.issue(place + ".part", name, "a cost part", again);
    else
      parts.*part->of = in.cents(row, "saves", place);
  }
  return parts;
}

plan::BreakEven read_break_even(JsonIn& in, const Json& row, const std::string& place) {
  plan::BreakEven b;
  const std::string name = in.text(row, "price", place);
  const auto word = std::find_if(plan::price_words.begin(), plan::price_words.end(),
                                 [&](const plan::PriceWord& w) { return name == w.key; });
  if (word == plan::price_words.end())
    in.issue(place + ".price", name, "a price", again);
  else
    b.of = static_cast<plan::PriceOf>(word - plan::price_words.begin());
  b.implement =
      in.index(in.get(row, "implement", place), in.ids().implements, "machine", place + ".implement", true);
  b.now = in.number(row, "now", place);
  if (!in.get(row, "even", place).is_null()) b.even = in.number(row, "even", place);
  b.chosen_amount = in.number(row, "chosen_amount", place);
  b.next_amount = in.number(row, "next_amount", place);
  return b;
}

plan::NextBest read_next_best(JsonIn& in, const Json& object, const std::string& place, double area_ha) {
  plan::NextBest n;
  n.method = in.index(in.get(object, "method", place), in.ids().recipes, "method", place + ".method", false);
  n.saves = in.cents(object, "saves", place);
  n.spread = in.number(object, "standard_error_per_ha", place) * 100.0 * area_ha;
  for (const Json& year : in.array(object, "saves_by_year", place))
    n.saves_by_year.push_back(in.cents(Json{{"saves", year}}, "saves", place + ".saves_by_year"));
  n.parts = read_parts(in, in.array(object, "parts", place), place + ".parts");
  n.on_other_fields = in.cents(object, "on_other_fields", place);
  for (const Json& row : in.array(object, "break_even", place))
    n.break_even.push_back(read_break_even(in, row, place + ".break_even"));
  const Json& earlier = in.get(object, "cut_earlier", place);
  if (earlier.is_object()) {
    n.saves_cut_earlier = in.cents(earlier, "saves", place + ".cut_earlier");
    n.earlier_days = in.small(earlier, "days", place + ".cut_earlier");
  }
  return n;
}

plan::TossUp read_toss_up(JsonIn& in, const Json& object, const std::string& place) {
  plan::TossUp t;
  for (const Json& row : in.array(object, "toss_up_because", place)) {
    if (row == "margin")
      t.margin = true;
    else if (row == "years")
      t.years = true;
    else if (row == "straw_price")
      t.straw_price = true;
    else if (row == "diesel_price")
      t.diesel_price = true;
    else
      in.issue(place + ".toss_up_because", row.dump(), "margin, years, straw_price or diesel_price", again);
  }
  return t;
}

}  // namespace

void read_reasons(JsonIn& in, const Json& object, const std::string& place, double area_ha,
                  plan::Chosen& chosen) {
  const Json& next = in.get(object, "next_best", place);
  if (next.is_object()) chosen.next_best = read_next_best(in, next, place + ".next_best", area_ha);
  chosen.toss_up = read_toss_up(in, object, place);
  const Json& with = in.get(object, "toss_up_with", place);
  const Json& method = next.is_object() ? in.get(next, "method", place + ".next_best") : with;
  if (with.is_null() == chosen.toss_up.any() || (with.is_string() && with != method))
    in.issue(place + ".toss_up_with", with.dump(),
             chosen.toss_up.any() ? "the next best method" : "null: nothing makes it a toss-up", again);
  if (!in.get(object, "wait_a_week_cost", place).is_null())
    chosen.wait_a_week = in.cents(object, "wait_a_week_cost", place);
}

}  // namespace aftercut::audit
