#include "aftercut/report/trade_offs.hpp"

#include <cmath>

#include "aftercut/core/mixed_files.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "out_folder.hpp"
#include "parts.hpp"
#include "trade_off_words.hpp"

namespace aftercut::report {
namespace {

/// Fields with another method than in the base plan.
int unlike_base(const TradeOffsShown& s, std::size_t plan) {
  const auto method_of = [&](std::size_t k, std::size_t f) {
    return s.trade_offs->plans[k].planned.plan.decision.method[f];
  };
  int unlike = 0;
  for (std::size_t f = 0; f < s.problem->farm.fields.size(); ++f)
    unlike += method_of(plan, f) == method_of(0, f) ? 0 : 1;
  return unlike;
}

json weighed_plan_json(const TradeOffsShown& s, std::size_t k) {
  const plan::WeighedPlan& p = s.trade_offs->plans[k];
  return {{"name", p.name},
          {"folder", p.name},
          {"dominated", p.dominated},
          {"weights",
           {{"straw_per_t", rounded(p.weights.straw_per_t, 2)},
            {"late_times", rounded(p.weights.late_times, 2)},
            {"co2e_per_t", rounded(p.weights.co2e_per_t, 2)}}},
          {"cost", money(p.figures.cost_cents)},
          {"cost_per_ha", rounded(p.figures.cost_per_ha, 2)},
          {"chance", rounded(p.figures.chance, 4)},
          {"fields_below_wanted", p.figures.below_wanted},
          {"co2e_t", rounded(p.co2e_t, 2)},
          {"baled_t", rounded(p.figures.baled_t, 2)},
          {"burned_ha", rounded(p.figures.burned_ha, 3)},
          {"canal_m3", rounded(p.figures.canal_m3, 1)},
          {"fields_unlike_base", unlike_base(s, k)},
          {"methods", methods_json(s.problem->farm, p.planned.plan.decision)},
          {"audit", audit_counts_json(s.audits[k])}};
}

}  // namespace

std::string trade_offs_json(const TradeOffsShown& s) {
  const plan::TradeOffs& t = *s.trade_offs;
  const plan::Plan& base = t.plans.front().planned.plan;
  json plans = json::array();
  for (std::size_t k = 0; k < t.plans.size(); ++k) plans.push_back(weighed_plan_json(s, k));
  const json out{{"schema", "aftercut-trade-offs-1"},
                 {"version", base.version},
                 {"seed", base.seed},
                 {"farm", farm_head_json(*s.problem)},
                 {"years", base.years},
                 {"shown_years", base.shown_years},
                 {"searched", t.searched},
                 {"found_twice", t.same},
                 {"dominated_left_out", t.dropped},
                 {"plans", plans}};
  return out.dump(1) + "\n";
}

std::string trade_offs_text(const TradeOffsShown& s) {
  const farm::Farm& farm = s.problem->farm;
  const plan::TradeOffs& t = *s.trade_offs;
  const auto row = [](const std::array<std::string, 7>& c) {
    return fmt::format("{} {} {} {} {} {} {}\n", fit(c[0], 20), fit(c[1], 12, true), fit(c[2], 10, true),
                       fit(c[3], 12, true), fit(c[4], 12, true), fit(c[5], 12, true), fit(c[6], 14, true));
  };
  std::string out = row({"Plan", farm.currency + " a year", "chance", "CO2e, t", "baled, t", "burned, ha",
                         "fields unlike"}) +
                    std::string(terminal_width, '-') + "\n";
  for (std::size_t k = 0; k < t.plans.size(); ++k) {
    const plan::WeighedPlan& p = t.plans[k];
    out += row({p.name, with_thousands(money(p.figures.cost_cents)),
                fmt::format("{:.1f} %", 100.0 * p.figures.chance), fmt::format("{:.0f}", p.co2e_t),
                fmt::format("{:.0f}", p.figures.baled_t), fmt::format("{:.0f}", p.figures.burned_ha),
                std::to_string(unlike_base(s, k))});
  }
  out += "\n";
  for (const std::string& words : trade_off_words(s)) out += wrapped(words, terminal_width, 2) + "\n";
  return out;
}

Result<std::filesystem::path> write_trade_offs(const TradeOffsShown& s, const std::filesystem::path& out) {
  std::error_code error;
  std::filesystem::create_directories(out, error);  // where that fails, the mark says why
  Issues issues = mark_moving(out);
  for (std::size_t k = 0; issues.empty() && k < s.trade_offs->plans.size(); ++k) {
    const plan::WeighedPlan& p = s.trade_offs->plans[k];
    gather(issues, write(*s.problem, p.planned, s.audits[k], out / p.name));
  }
  if (issues.empty()) gather(issues, save_file(out / "trade-offs.html", trade_offs_html(s)));
  if (issues.empty()) gather(issues, save_file(out / "trade-offs.json", trade_offs_json(s)));
  if (issues.empty()) issues = take_mark_away(out);
  if (!issues.empty()) return issues;
  return out;
}

}  // namespace aftercut::report
