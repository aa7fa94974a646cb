// How plan and bound of a region came about over time: rows for a spreadsheet, and a picture.

#include <algorithm>
#include <cmath>

#include "aftercut/report/region.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

constexpr double plot_wide = 720.0, plot_tall = 320.0, plot_left = 56.0, plot_right = 20.0, plot_top = 40.0,
                 plot_bottom = 46.0;

double at_x(double seconds, double most) {
  return plot_left + seconds / most * (plot_wide - plot_left - plot_right);
}
double at_y(double share) { return plot_tall - plot_bottom - share * (plot_tall - plot_bottom - plot_top); }

std::string line(const std::vector<RegionMoment>& moments, double most, const char* style,
                 double (RegionMoment::*share)() const, bool (*counts)(const RegionMoment&)) {
  std::string d;
  for (const RegionMoment& m : moments) {
    if (!counts(m)) continue;
    d += fmt::format("{}{:.1f} {:.1f}", d.empty() ? "M" : "L", at_x(m.seconds, most),
                     at_y(std::clamp((m.*share)(), 0.0, 1.0)));
  }
  return d.empty() ? d : fmt::format("<path fill=\"none\" stroke-width=\"2\" {} d=\"{}\"/>", style, d);
}

std::string text(double x, double y, const char* anchor, const std::string& words) {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\">{}</text>", x, y, anchor,
                     html_text(words));
}

std::string grid(double most) {
  std::string out;
  for (int k = 0; k <= 5; ++k) {
    const double share = 0.2 * k;
    out += fmt::format("<path stroke=\"#dfe4dc\" d=\"M{} {:.1f}H{}\"/>", plot_left, at_y(share),
                       plot_wide - plot_right);
    out += text(plot_left - 6.0, at_y(share) + 4.0, "end", fmt::format("{} %", 20 * k));
  }
  const double step = most > 240.0 ? 60.0 * std::ceil(most / 600.0) : std::max(1.0, std::ceil(most / 8.0));
  for (double s = 0.0; s <= most; s += step)
    out += text(at_x(s, most), plot_tall - plot_bottom + 18.0, "middle",
                most > 240.0 ? fmt::format("{:.0f}", s / 60.0) : fmt::format("{:.0f}", s));
  return out + text(plot_wide - plot_right, plot_tall - 8.0, "end", most > 240.0 ? "minutes" : "seconds");
}

}  // namespace

std::string region_progress_csv(const std::vector<RegionMoment>& moments) {
  std::string out =
      "seconds,farms,farms_looked_at,farms_planned,plan,plan_of_planned,bound_of_planned,gap_percent,"
      "gap_of_planned_percent\n";
  for (const RegionMoment& m : moments)
    out +=
        fmt::format("{:.1f},{},{},{},{:.2f},{:.2f},{:.2f},{:.2f},{:.2f}\n", m.seconds, m.farms, m.looked_at,
                    m.planned, m.cost, m.planned_cost, m.bound, 100.0 * m.gap(), 100.0 * m.gap_of_planned());
  return out;
}

std::string region_progress_svg(const std::vector<RegionMoment>& moments, const std::string& currency) {
  const double most = moments.empty() ? 1.0 : std::max(moments.back().seconds, 1.0);
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" font-family=\"system-ui,sans-serif\" "
      "font-size=\"11.5\" role=\"img\" aria-label=\"What was not proven yet, over time\"><rect width=\"{}\" "
      "height=\"{}\" fill=\"#fff\"/>",
      plot_wide, plot_tall, plot_wide, plot_tall);
  out += grid(most);
  out += line(moments, most, "stroke=\"#a3541c\"", &RegionMoment::gap,
              [](const RegionMoment& m) { return m.cost > 0.0; });
  out += line(moments, most, "stroke=\"#35607a\" stroke-dasharray=\"6 4\"", &RegionMoment::gap_of_planned,
              [](const RegionMoment& m) { return m.planned > 0; });
  out += text(
      plot_left, 18.0, "start",
      "Share of the plan not proven yet. Line: all farms, those without a bound count in full. Dashes: farms "
      "bounded by then.");
  if (!moments.empty())
    out += text(plot_left, 34.0, "start",
                fmt::format("At the end: plan {} {} a year, gap {:.1f} %",
                            with_thousands(moments.back().cost), currency, 100.0 * moments.back().gap()));
  return out + "</svg>\n";
}

}  // namespace aftercut::report
