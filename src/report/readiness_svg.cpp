// The picture of readiness through the season: a small line for each field.

#include <algorithm>
#include <cmath>

#include "aftercut/report/watch.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

constexpr std::size_t in_a_row = 4;
constexpr double line_wide = 210.0, line_tall = 112.0, gap = 22.0;  // a panel, and what is between
constexpr double above_panels = 58.0, line_top = 26.0, line_run = 62.0;
constexpr double beside_ends = 52.0;  // where the first and the last day are written

struct SeasonSpan {
  Date first, last;
  [[nodiscard]] double across(Date d) const {
    const double days = std::max(1, last - first);
    return line_wide * static_cast<double>(d - first) / days;
  }
};

double down(double chance) { return line_top + line_run * (1.0 - chance); }

std::string words(double x, double y, const char* anchor, const std::string& text, const char* look = "") {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\"{}>{}</text>", x, y, anchor, look,
                     html_text(text));
}

/// Points of one field over the looks that have it.
struct Point {
  Date day;
  plan::FieldLook look;
};
std::vector<Point> points_of(const std::vector<plan::Look>& looks, const std::string& field) {
  std::vector<Point> out;
  for (const plan::Look& look : looks)
    for (const plan::FieldLook& f : look.fields)
      if (f.field == field) out.push_back({look.day, f});
  return out;
}

std::string months(const SeasonSpan& span) {
  std::string out;
  for (Date d = span.first; d <= span.last; d = d + 1) {
    if (day_of_month(d) != 1) continue;
    const double x = span.across(d);
    out += fmt::format("<path class=\"grid\" d=\"M{0:.1f} {1:.1f}V{2:.1f}\"/>", x, down(1.0), down(0.0));
    if (x > beside_ends && x < line_wide - beside_ends)
      out += words(x, line_tall - 8.0, "middle", short_date(d).substr(2), " class=\"month\"");
  }
  return out;
}

std::string panel(const SeasonSpan& span, const std::vector<Point>& points) {
  const plan::FieldLook& now = points.back().look;
  std::string line, dots;
  for (const Point& p : points) {
    // A step: the chance holds until the next look.
    line += line.empty() ? fmt::format("M{:.1f} {:.1f}", span.across(p.day), down(p.look.chance))
                         : fmt::format("H{:.1f}V{:.1f}", span.across(p.day), down(p.look.chance));
    dots += fmt::format("<circle class=\"{}\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"2.6\"/>",
                        p.look.chance < p.look.wanted - 1e-9 ? "short" : "sure", span.across(p.day),
                        down(p.look.chance));
  }
  std::string out = months(span);
  for (const double at : {0.0, 1.0})
    out += fmt::format("<path class=\"grid\" d=\"M0 {0:.1f}H{1:.1f}\"/>", down(at), line_wide);
  out += fmt::format("<path class=\"wanted\" d=\"M0 {0:.1f}H{1:.1f}\"/>", down(now.wanted), line_wide);
  out += fmt::format("<path class=\"line\" d=\"{}\"/>{}", line, dots);
  out += words(0.0, 14.0, "start", now.field, " class=\"name\"");
  out += words(line_wide, 14.0, "end",
               now.ready ? "ready since " + short_date(*now.ready) : chance_words(now.chance));
  out += words(0.0, line_tall - 8.0, "start", short_date(span.first));
  out += words(line_wide, line_tall - 8.0, "end", short_date(span.last));
  return out;
}

constexpr const char* looks_style =
    "<style>text{font:12px "
    "sans-serif;fill:#222}.title{font-size:16px;font-weight:bold}.name{font-weight:bold}.month{font-size:"
    "10px;fill:#666}"
    "path{fill:none}.grid{stroke:#ccc;stroke-width:1}.wanted{stroke:#222;stroke-width:1;stroke-dasharray:5 4}"
    ".line{stroke:#444;stroke-width:2}.sure{fill:#444;stroke:#444}.short{fill:#fff;stroke:#222;stroke-width:"
    "1.6}"
    "</style>";

}  // namespace

std::string readiness_svg(const farm::Farm& farm, const std::vector<plan::Look>& looks) {
  require(!looks.empty(), "a picture of readiness shows at least one look");
  const SeasonSpan span{looks.front().day, std::max(looks.back().day, looks.front().day + 1)};
  std::vector<std::vector<Point>> fields;
  for (const plan::FieldLook& f : looks.back().fields) fields.push_back(points_of(looks, f.field));
  const std::size_t rows = (fields.size() + in_a_row - 1) / in_a_row;
  const double all_wide = in_a_row * (line_wide + gap) + gap,
               all_tall = above_panels + static_cast<double>(rows) * (line_tall + gap) + gap;
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}\" "
      "height=\"{1:.0f}\" role=\"img\"><title>Readiness through the season</title>{2}<rect width=\"100%\" "
      "height=\"100%\" fill=\"#fff\"/>",
      all_wide, all_tall, looks_style);
  out += words(gap, 26.0, "start", farm.name + ": chance of a ready seedbed by planting", " class=\"title\"");
  out +=
      words(gap, 46.0, "start",
            fmt::format("Looked at on {} days. Top of each panel: every year; bottom: no year. Dashed: the "
                        "chance wanted. Open points: below it.",
                        looks.size()));
  for (std::size_t k = 0; k < fields.size(); ++k)
    out += fmt::format("<g transform=\"translate({:.1f} {:.1f})\">{}</g>",
                       gap + static_cast<double>(k % in_a_row) * (line_wide + gap),
                       above_panels + static_cast<double>(k / in_a_row) * (line_tall + gap),
                       panel(span, fields[k]));
  return out + "</svg>\n";
}

}  // namespace aftercut::report
