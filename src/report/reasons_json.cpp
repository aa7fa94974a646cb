#include "reasons.hpp"

#include <algorithm>

namespace aftercut::report {
namespace {

double per_ha(double cents, const farm::Field& field) {
  return rounded(cents / 100.0 / field.area.value(), 2);
}

/// Every part that differs, the largest first.
json parts_json(const plan::CostParts& parts) {
  std::vector<plan::CostPart> differ;
  for (const plan::CostPart& part : plan::cost_parts)
    if (parts.*part.of != 0) differ.push_back(part);
  std::stable_sort(differ.begin(), differ.end(), [&](const plan::CostPart& a, const plan::CostPart& b) {
    return std::abs(parts.*a.of) > std::abs(parts.*b.of);
  });
  json out = json::array();
  for (const plan::CostPart& part : differ)
    out.push_back({{"part", part.key}, {"saves", money(parts.*part.of)}});
  return out;
}

json break_even_json(const plan::BreakEven& b, const farm::Farm& farm) {
  const plan::PriceWord& word = plan::price_words[static_cast<std::size_t>(b.of)];
  json even = nullptr, change = nullptr;
  if (b.even) even = rounded(*b.even, 6);
  if (b.even && b.now > 0.0) change = rounded(100.0 * (*b.even / b.now - 1.0), 1);
  return {{"price", word.key},
          {"implement", id_or_null(farm.implements, b.implement)},
          {"by", word.unit},
          {"now", rounded(b.now, 6)},
          {"even", even},
          {"change_percent", change},
          {"chosen_amount", rounded(b.chosen_amount, 3)},
          {"next_amount", rounded(b.next_amount, 3)}};
}

json next_best_json(const plan::NextBest& n, const farm::Farm& farm, const farm::Field& field) {
  json by_year = json::array(), decides = json::array(), break_even = json::array(), earlier = nullptr;
  for (const std::int64_t cents : n.saves_by_year) by_year.push_back(money(cents));
  for (const plan::Decider& d : n.decides) decides.push_back({{"what", d.what}, {"text", d.text}});
  for (const plan::BreakEven& b : n.break_even) break_even.push_back(break_even_json(b, farm));
  if (n.saves_cut_earlier)
    earlier = {{"days", n.earlier_days},
               {"saves", money(*n.saves_cut_earlier)},
               {"saves_per_ha", per_ha(static_cast<double>(*n.saves_cut_earlier), field)}};
  return {{"method", farm.book.recipes.at(static_cast<std::size_t>(n.method)).id.value},
          {"saves", money(n.saves)},
          {"saves_per_ha", per_ha(static_cast<double>(n.saves), field)},
          {"standard_error_per_ha", per_ha(n.spread, field)},
          {"saves_by_year", by_year},
          {"parts", parts_json(n.parts)},
          {"on_other_fields", money(n.on_other_fields)},
          {"decides", decides},
          {"break_even", break_even},
          {"cut_earlier", earlier}};
}

json toss_up_json(const plan::TossUp& t) {
  json out = json::array();
  if (t.margin) out.push_back("margin");
  if (t.years) out.push_back("years");
  if (t.straw_price) out.push_back("straw_price");
  if (t.diesel_price) out.push_back("diesel_price");
  return out;
}

}  // namespace

void add_reasons(json& out, const plan::Chosen& c, const farm::Farm& farm, const farm::Field& field) {
  json next = nullptr;
  if (c.next_best) next = next_best_json(*c.next_best, farm, field);
  out["next_best"] = next;
  out["toss_up_with"] = c.toss_up.any() && c.next_best ? next["method"] : json(nullptr);
  out["toss_up_because"] = toss_up_json(c.toss_up);
  out["wait_a_week_cost"] = c.wait_a_week ? json(money(*c.wait_a_week)) : json(nullptr);
}

}  // namespace aftercut::report
