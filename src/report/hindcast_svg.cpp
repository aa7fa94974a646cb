// The picture of a hindcast: for each date what was said against what happened, greys only.

#include <algorithm>

#include "aftercut/report/hindcast.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

constexpr double plot_side = 220.0, plot_left = 52.0, plot_top = 40.0, plot_right = 14.0;  // of a plot
constexpr double bars_from = 52.0, bar_tall = 44.0;  // class sizes, below the plot
constexpr double panel_wide = plot_left + plot_side + plot_right,
                 panel_tall = plot_top + plot_side + bars_from + bar_tall + 70.0;
constexpr double head = 58.0;
constexpr std::size_t most_in_a_row = 3;

double across(double chance) { return plot_left + plot_side * chance; }
double up(double share) { return plot_top + plot_side * (1.0 - share); }

std::string text(double x, double y, const char* anchor, const std::string& words, const char* style = "") {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\"{}>{}</text>", x, y, anchor, style,
                     html_text(words));
}

std::string line(double x1, double y1, double x2, double y2, const char* look) {
  return fmt::format("<path class=\"{}\" d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\"/>", look, x1, y1, x2, y2);
}

std::string axes() {
  std::string out;
  for (const double at : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    const std::string label = fmt::format("{:.0f}", 100.0 * at);
    out += line(across(at), up(0.0), across(at), up(1.0), "grid");
    out += line(across(0.0), up(at), across(1.0), up(at), "grid");
    out += text(across(at), up(0.0) + 16, "middle", label) + text(plot_left - 6, up(at) + 4, "end", label);
  }
  out += line(across(0.0), up(0.0), across(1.0), up(1.0), "as_said");
  out += text(across(0.5), up(0.0) + 34, "middle", "chance said, %");
  return out + fmt::format(
                   "<text transform=\"translate({:.1f} {:.1f}) rotate(-90)\" text-anchor=\"middle\">"
                   "happened, % of field-winters</text>",
                   plot_left - 36.0, up(0.5));
}

/// The share that happened at all, whatever was said.
double share_of_all(const plan::HindcastDate& date) {
  double ready = 0.0, all = 0.0;
  for (const plan::ChanceClass& c : date.classes) {
    ready += c.happened * c.field_winters;
    all += c.field_winters;
  }
  return all > 0.0 ? ready / all : 0.0;
}

std::string point(const plan::ChanceClass& c) {
  if (c.field_winters == 0) return "";
  const double x = across(c.said), y = up(c.happened);
  std::string out;
  if (c.interval) {
    out += line(x, up(c.interval->low), x, up(c.interval->high), "interval");
    for (const double end : {c.interval->low, c.interval->high})
      out += line(x - 5, up(end), x + 5, up(end), "interval");
  }
  return out + fmt::format(
                   "<circle class=\"point\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"5\"><title>said {:.0f} %, "
                   "happened {:.0f} %: {} field-winters of {} winters</title></circle>",
                   x, y, 100.0 * c.said, 100.0 * c.happened, c.field_winters, c.winters);
}

/// How many field-winters fell in each class, and of how many winters.
std::string class_sizes(const std::vector<plan::ChanceClass>& classes) {
  int most = 1;
  for (const plan::ChanceClass& c : classes) most = std::max(most, c.field_winters);
  const double floor = plot_top + plot_side + bars_from + bar_tall;
  std::string out = line(across(0.0), floor, across(1.0), floor, "axis");
  for (const plan::ChanceClass& c : classes) {
    const double tall = (bar_tall - 14.0) * c.field_winters / most;
    const double middle = across(0.5 * (c.from + c.below));
    out += fmt::format("<rect class=\"bar\" x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\"/>",
                       across(c.from) + 4.0, floor - tall, plot_side * (c.below - c.from) - 8.0, tall);
    out += text(middle, floor - tall - 3.0, "middle", std::to_string(c.field_winters), " class=\"count\"");
    out += text(middle, floor + 14.0, "middle", fmt::format("of {}", c.winters));
  }
  return out + text(across(0.5), floor + 30.0, "middle", "field-winters said, of so many winters");
}

std::string panel(const farm::Farm& farm, const plan::HindcastDate& date) {
  const double share = share_of_all(date);
  std::string out = text(across(0.0), plot_top - 12.0, "start",
                         "Said on " + short_date(farm.season.date(date.day)), " class=\"title\"");
  out += axes() + line(across(0.0), up(share), across(1.0), up(share), "overall");
  for (const plan::ChanceClass& c : date.classes) out += point(c);
  out += class_sizes(date.classes);
  return out + text(across(0.5), panel_tall - 4.0, "middle",
                    fmt::format("Brier {:.3f}, climatology {:.3f}", date.scores.said,
                                date.scores.climatology.score));
}

const char* const style =
    "text{font:12px system-ui,sans-serif;fill:#333}.title{font-weight:600;font-size:14px;fill:#111}.count{"
    "font-weight:600;fill:#111}.grid{stroke:#e2e2e2;fill:none}.axis{stroke:#555;fill:none}.as_said{stroke:#"
    "777;"
    "stroke-dasharray:6 4;fill:none}.overall{stroke:#777;stroke-dasharray:1 4;stroke-width:1.5;fill:none}"
    ".interval{stroke:#111;stroke-width:1.6;fill:none}.point{fill:#111;stroke:#fff;stroke-width:1.5}.bar{"
    "fill:"
    "#9a9a9a}";

}  // namespace

std::string hindcast_svg(const HindcastShown& s) {
  const plan::Hindcast& h = *s.hindcast;
  const std::size_t columns = std::clamp<std::size_t>(h.dates.size(), 1, most_in_a_row);
  const std::size_t rows = (h.dates.size() + columns - 1) / columns;
  const double wide = std::max(static_cast<double>(columns) * panel_wide, 560.0);
  const double tall = head + static_cast<double>(rows) * panel_tall + 8.0;
  const std::string title = fmt::format("{}: chances said in {} winters against what happened",
                                        s.problem->farm.name, h.winters.size());
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}\" "
      "height=\"{1:.0f}\" role=\"img\" aria-label=\"{2}\">\n<title>{3}</title><style>{4}</style>"
      "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n",
      wide, tall, html_attribute(title), html_text(title), style);
  out += text(14.0, 22.0, "start", title, " class=\"title\"");
  out += text(
      14.0, 42.0, "start",
      "Dashed: as often as said. Dotted: share of all. Upright lines: 9 of 10 redraws of whole winters.");
  for (std::size_t k = 0; k < h.dates.size(); ++k)
    out += fmt::format(
        "\n<g transform=\"translate({:.0f} {:.0f})\">{}</g>", static_cast<double>(k % columns) * panel_wide,
        head + static_cast<double>(k / columns) * panel_tall, panel(s.problem->farm, h.dates[k]));
  return out + "\n</svg>\n";
}

}  // namespace aftercut::report
