// The page of trade-offs: three pictures drawn here, and the table.

#include <algorithm>
#include <cmath>
#include <functional>

#include "aftercut/report/trade_offs.hpp"
#include "parts.hpp"
#include "trade_off_words.hpp"

namespace aftercut::report {
namespace {

/// One picture: cost to the right, something else upwards.
struct Axis {
  const char* title;
  const char* unit;
  std::function<double(const plan::WeighedPlan&)> value;
  int digits;
};

struct Span {
  double low = 0.0, high = 1.0, step = 1.0;  ///< ends on round numbers, a step apart
  [[nodiscard]] double share(double x) const { return (x - low) / (high - low); }
};

/// Four to ten steps of 1, 2 or 5 times a power of ten around the values.
Span span_of(const std::vector<double>& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  const double wanted = std::max((*high - *low) / 4.0, 1e-3 * std::max(std::abs(*high), 1.0));
  const double ten = std::pow(10.0, std::floor(std::log10(wanted)));
  const double step = wanted <= 2.0 * ten ? ten : wanted <= 5.0 * ten ? 2.0 * ten : 5.0 * ten;
  Span s{std::floor(*low / step) * step, std::ceil(*high / step) * step, step};
  if (s.high <= s.low) s.high = s.low + step;
  return s;
}

constexpr double wide = 640.0, tall = 320.0, left = 64.0, bottom = 44.0, top = 24.0, right = 36.0;

std::string ticks(const Span& x, const Span& y, const std::string& currency) {
  std::string out;
  for (double at = x.low; at <= x.high + 0.5 * x.step; at += x.step) {
    const double at_x = left + x.share(at) * (wide - left - right);
    out += fmt::format("<path class=\"grid\" d=\"M{:.1f} {}V{}\"/>", at_x, top, tall - bottom);
    out += fmt::format("<text x=\"{:.1f}\" y=\"{}\" text-anchor=\"middle\">{}</text>", at_x,
                       tall - bottom + 18, with_thousands(at));
  }
  for (double at = y.low; at <= y.high + 0.5 * y.step; at += y.step) {
    const double at_y = tall - bottom - y.share(at) * (tall - bottom - top);
    out += fmt::format("<path class=\"grid\" d=\"M{} {:.1f}H{}\"/>", left, at_y, wide - right);
    out += fmt::format("<text x=\"{}\" y=\"{:.1f}\" text-anchor=\"end\">{:.{}f}</text>", left - 6, at_y + 4,
                       at, y.step < 1.0 ? 1 : 0);
  }
  return out + fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"end\">{} a year</text>", wide - right,
                           tall - 6, html_text(currency));
}

/// Points with numbers, so that nothing hangs on colour; the base is a square.
std::string points(const std::vector<plan::WeighedPlan>& plans, const Span& x, const Span& y,
                   const Axis& axis) {
  std::string out;
  for (std::size_t k = 0; k < plans.size(); ++k) {
    const double cost = money(plans[k].figures.cost_cents), value = axis.value(plans[k]);
    const double at_x = left + x.share(cost) * (wide - left - right);
    const double at_y = tall - bottom - y.share(value) * (tall - bottom - top);
    const std::string title = fmt::format("<title>{}: {} {}, {:.{}f} {}</title>", html_text(plans[k].name),
                                          with_thousands(cost), "a year", value, axis.digits, axis.unit);
    out += k == 0 ? fmt::format(
                        "<rect class=\"base\" x=\"{:.1f}\" y=\"{:.1f}\" width=\"12\" height=\"12\">{}</rect>",
                        at_x - 6, at_y - 6, title)
                  : fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"6\">{}</circle>", at_x, at_y, title);
    out +=
        fmt::format("<text class=\"number\" x=\"{:.1f}\" y=\"{:.1f}\">{}</text>", at_x + 8, at_y - 6, k + 1);
  }
  return out;
}

std::string picture(const TradeOffsShown& s, const Axis& axis) {
  const auto& plans = s.trade_offs->plans;
  std::vector<double> costs, values;
  for (const plan::WeighedPlan& p : plans) {
    costs.push_back(money(p.figures.cost_cents));
    values.push_back(axis.value(p));
  }
  const Span x = span_of(costs), y = span_of(values);
  return fmt::format(
      "<section><h2>{}</h2><svg viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{} of {} plans against their "
      "cost; the "
      "table below has every figure\">{}{}</svg></section>\n",
      axis.title, wide, tall, axis.title, plans.size(), ticks(x, y, s.problem->farm.currency),
      points(plans, x, y, axis));
}

std::string plans_table(const TradeOffsShown& s) {
  std::string out = fmt::format(
      "<div class=\"scroller\" tabindex=\"0\" role=\"region\" aria-label=\"Every plan\"><table><thead><tr>"
      "<th>No.</th><th>Plan</th><th>{} a year</th><th>Seedbed by planting</th><th>CO2e, t</th><th>Baled, "
      "t</th>"
      "<th>Burned, ha</th></tr></thead><tbody>\n",
      html_text(s.problem->farm.currency));
  for (std::size_t k = 0; k < s.trade_offs->plans.size(); ++k) {
    const plan::WeighedPlan& p = s.trade_offs->plans[k];
    out += fmt::format(
        "<tr><td>{}</td><th scope=\"row\"><a href=\"{}/report.html\">{}</a></th><td>{}</td><td>{:.1f} %</td>"
        "<td>{:.0f}</td><td>{:.0f}</td><td>{:.0f}</td></tr>\n",
        k + 1, html_text(p.name), html_text(p.name), with_thousands(money(p.figures.cost_cents)),
        100.0 * p.figures.chance, p.co2e_t, p.figures.baled_t, p.figures.burned_ha);
  }
  return out + "</tbody></table></div>\n";
}

const char* const page_style =
    "body{font:16px/1.45 system-ui,sans-serif;color:#1d241f;background:#fff;max-width:60rem;margin:1rem "
    "auto;padding:0 1rem}h1{font-size:1.5rem}h2{font-size:1.15rem;margin:1.5rem 0 "
    ".3rem}svg{width:100%;height:auto}"
    "svg text{font-size:12px;fill:#3c463f}svg "
    ".number{font-weight:600;fill:#1d241f}.grid{stroke:#dfe4dc;fill:none}"
    "circle{fill:#35607a;stroke:#fff}.base{fill:#a3541c;stroke:#fff}table{border-collapse:collapse;width:100%"
    "}"
    "th,td{border-bottom:1px solid #cfd6cc;padding:.3rem "
    ".5rem;text-align:right}th:nth-child(2){text-align:left}"
    ".scroller{overflow-x:auto}section{break-inside:avoid}";

}  // namespace

std::string trade_offs_html(const TradeOffsShown& s) {
  const std::vector<Axis> axes{
      {"Chance of a seedbed by planting, %", "%", [](const auto& p) { return 100.0 * p.figures.chance; }, 1},
      {"CO2 equivalents, t a year", "t", [](const auto& p) { return p.co2e_t; }, 0},
      {"Straw baled, t a year", "t", [](const auto& p) { return p.figures.baled_t; }, 0}};
  const std::string name = html_text(s.problem->farm.name);
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" "
      "content=\"width=device-width,initial-scale=1\"><title>Trade-offs: {0}</title><style>{1}</style></head>"
      "<body><h1>{0}: what else a plan can weigh</h1>\n",
      name, page_style);
  out +=
      "<p>Each point is a whole plan. The square is the base plan, which counts money alone. But for the "
      "base, "
      "no plan here is beaten by another in all of cost, chance, CO2e and straw baled.</p>\n";
  for (const Axis& axis : axes) out += picture(s, axis);
  out += "<section><h2>Every plan</h2>" + plans_table(s) + "<ul>\n";
  for (const std::string& words : trade_off_words(s)) out += "<li>" + html_text(words) + "</li>\n";
  return out + "</ul></section></body></html>\n";
}

}  // namespace aftercut::report
