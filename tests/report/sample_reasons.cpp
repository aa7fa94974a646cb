// Reasons for the invented plan: one field saves, one is a toss-up, one next best would be cheaper.

#include "sample_farm.hpp"

namespace aftercut::test {
namespace {

int another_possible(const plan::FieldPlan& field) {
  for (const plan::MethodOutcome& m : field.methods)
    if (m.possible && m.method != field.chosen.method) return m.method;
  return plan::none;
}

plan::NextBest reasons_of(const plan::Plan& p, int method, std::int64_t saves) {
  plan::NextBest n{.method = method, .saves = saves};
  for (std::size_t y = 0; y < p.years.size(); ++y)
    n.saves_by_year.push_back(saves + (y % 2 == 0 ? 40000 : -40000) * static_cast<std::int64_t>(y));
  n.spread = 20000.0;
  n.parts = {
      .fuel = saves / 2, .wages = 12000, .hire = saves - saves / 2 - 17000, .late = 5000, .ownership = 3300};
  n.on_other_fields = saves / 10;
  n.decides = {{"machine", "the disk: 3 h on this field against 9 h"}, {"days", "days: \"late\" <seedbeds>"}};
  n.break_even = {{plan::PriceOf::straw, plan::none, 30.0, 320.5, 280.25, 41.25},
                  {plan::PriceOf::diesel, plan::none, 1.05, 5200.0, 5900.5, std::nullopt},
                  {plan::PriceOf::water, plan::none, 0.012, 5200.0, 52000.0, 0.0081}};
  return n;
}

}  // namespace

plan::Plan with_sample_reasons(plan::Plan p, const farm::Farm& farm) {
  std::size_t k = 0;
  for (std::size_t f = 0; f < p.fields.size(); ++f) {
    plan::Chosen& chosen = p.fields[f].chosen;
    if (chosen.method == plan::none) continue;
    chosen.wait_a_week = static_cast<std::int64_t>(k) * 12345 - 20000;
    const int next = another_possible(p.fields[f]);
    if (next == plan::none || f == 4) continue;  // the fifth field has no other method
    chosen.next_best = reasons_of(p, next, k % 3 == 2 ? -150000 : 250000);
    if (k % 3 == 1)
      chosen.toss_up = {.margin = true, .years = true, .straw_price = false, .diesel_price = true};
    if (!farm.fields[f].cut) {
      chosen.next_best->saves_cut_earlier = -5000;
      chosen.next_best->earlier_days = 7;
    }
    ++k;
  }
  return p;
}

}  // namespace aftercut::test
