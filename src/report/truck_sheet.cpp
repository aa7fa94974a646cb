// The truck sheet: one row a field, for a clip board on the dash.

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>

#include "exports_parts.hpp"
#include "parts.hpp"
#include "sheet_html.hpp"
#include "truck_rows.hpp"

namespace aftercut::report::sheets {
namespace {

const char* const truck_style =
    "@page{margin:6mm}.truck{margin-top:.5mm}"
    ".truck td,.truck th{line-height:1.06;padding:.2mm 1mm}.truck b{font-size:1.08em;line-height:1}.truck "
    "p{margin:0}"
    "h1{font-size:14pt;display:inline}.lead{display:inline;font-size:10pt}"
    ".legend{font-size:9pt;line-height:1.1;margin:.3mm 0}.back{break-before:page}.back h2{font-size:16pt}"
    ".back p,.back td,.back th{font-size:13.5pt}";

constexpr std::array<double, 8> column_percent{15, 12, 14, 17, 15, 11, 6.5, 9.5};
constexpr double mm_per_pt = 25.4 / 72.0;

/// Lines that a text takes in a column of so many letters, word by word.
int lines_of(const std::string& text, double letters) {
  int lines = 1;
  double used = 0.0;
  std::istringstream words{text};
  for (std::string word; words >> word;) {
    const auto length = static_cast<double>(
        std::ranges::count_if(word, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
    const double with = used + (used > 0.0 ? 1.0 : 0.0) + length;
    if (with <= letters) {
      used = with;
      continue;
    }
    lines += (used > 0.0 ? 1 : 0) + static_cast<int>((length - 1.0) / letters);
    used = std::fmod(length - 1.0, letters) + 1.0;
  }
  return lines;
}

/// Height of the table's rows in mm in letters of so many points: about, from the usual width of a letter.
double height_of(const std::vector<TruckRow>& rows, double pt, double paper_width_mm) {
  const auto letters = [&](std::size_t column, double em) {
    return (paper_width_mm * column_percent[column] / 100.0 - 2.2) / (em * pt * mm_per_pt);
  };
  constexpr double plain = 0.5, bold = 0.59;  // letter widths in ems, bold ones a little larger
  double sum = 0.0;
  for (const TruckRow& r : rows) {
    const auto all = [&](const std::vector<std::string>& texts, std::size_t column) {
      int lines = 0;
      for (const std::string& t : texts) lines += lines_of(t, letters(column, plain));
      return lines;
    };
    const int lines = std::max({lines_of(r.field, letters(0, bold)) + 1, lines_of(r.method, letters(1, bold)),
                                lines_of(r.job, letters(2, bold)) + lines_of(r.when, letters(2, plain)),
                                all({r.who}, 3), all(r.instead, 4), all(r.water, 5), all(r.keep_out, 6)});
    sum += lines * 1.07 * pt * mm_per_pt + 0.7;
  }
  return sum;
}

/// The largest letters with which the fields stand on one page; none fit: more pages, in letters that read
/// well.
std::string type_size(const BriefRows& brief, Paper paper) {
  const double width = (paper == Paper::letter ? 279.4 : 297.0) - 12.0;
  const double height = (paper == Paper::letter ? 215.9 : 210.0) - 12.0;
  const int legend = lines_of(list_of(brief.legend, " · "), width / (0.5 * 9.0 * mm_per_pt));
  double size = 10.0;
  for (const double pt : {13.0, 12.0, 11.0, 10.5, 10.0, 9.6, 9.2, 8.8, 8.5, 8.2})
    if (8.0 + legend * 3.6 + 1.2 * pt * mm_per_pt + height_of(brief.rows, pt, width) <= height) {
      size = pt;
      break;
    }
  return fmt::format(".truck td,.truck th{{font-size:{}pt}}", size);
}

/// Every text a paragraph of its own; a dash where there is none.
std::string lines_html(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& t : texts)
    if (!t.empty()) out += tagged("p", t);
  return out.empty() ? "–" : out;
}

std::string truck_row_html(const TruckRow& r) {
  return table_row({tagged("b", r.field) + "<br>" + html_text(r.area), tagged("b", r.method),
                    r.job.empty() ? "–" : tagged("b", capital(r.job)) + "<br>" + html_text(r.when),
                    lines_html({r.who}), lines_html(r.instead), lines_html(r.water), lines_html(r.keep_out),
                    ""});
}

std::string back_html(const Plan& plan) {
  std::string out = "<section class=\"back\"><h2>What it costs, and what more would be worth</h2>\n";
  for (const std::string& t : truck_back(plan)) out += tagged("p", t) + "\n";
  const auto rows = worth_rows(plan);
  out += "<h2>What a tenth more would save a year</h2>\n";
  if (rows.empty()) return out + tagged("p", no_worth_words(plan)) + "</section>\n";
  out += "<table>" + columns({40, 20, 20, 20}) +
         table_head({"More of", "A tenth is", "Saves a year", "Give or take"}) + "<tbody>";
  for (auto row : rows) {
    for (std::string& cell : row) cell = html_text(cell);
    out += table_row(row);
  }
  return out +
         "</tbody></table>\n<p>One at a time, with the methods and the order of work of this plan kept: a "
         "rough guide.</p></section>\n";
}

}  // namespace

std::string truck_sheet_html(const Plan& plan, const ExportOptions& options) {
  const BriefRows brief = brief_truck_rows(plan);
  std::string body = tagged("h1", plan.farm + ": truck sheet") + " " +
                     tagged("p", plan_day_words(plan), "lead") +
                     tagged("p", list_of(brief.legend, " · "), "legend") + "\n<table class=\"truck\">" +
                     columns({column_percent.begin(), column_percent.end()}) +
                     table_head({"Field", "Method", "Next job", "Who, with what", "Start by, if … then",
                                 "Water, boards", "Keep out", "Pencil"}) +
                     "<tbody>\n";
  for (const TruckRow& r : brief.rows) body += truck_row_html(r);
  body += "</tbody></table>\n" + back_html(plan);
  return html_of({.title = plan.farm + ": truck sheet",
                  .paper = options.paper,
                  .landscape = true,
                  .style = truck_style + type_size(brief, options.paper),
                  .body = body});
}

}  // namespace aftercut::report::sheets
