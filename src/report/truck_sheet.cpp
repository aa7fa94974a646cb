// The truck sheet: one row a field, for a clip board on the dash.

#include <algorithm>

#include "exports_parts.hpp"
#include "parts.hpp"
#include "sheet_html.hpp"
#include "truck_rows.hpp"

namespace aftercut::report::sheets {
namespace {

const char* const truck_style =
    ".truck{table-layout:fixed}.truck td,.truck th{font-size:10.5pt;line-height:1.2;padding:.7mm 1.2mm}"
    ".truck th{font-size:10pt}.truck b{font-size:12pt}.truck td:last-child{background:#fff}"
    ".truck p{margin:0 0 .5mm}.back{break-before:page}.back p,.back td,.back th{font-size:13pt}"
    ".lead{font-size:11pt;margin:0 0 2mm}";

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
  out += "<table>" + table_head({"More of", "A tenth is", "Saves a year", "Give or take"}) + "<tbody>";
  for (auto row : rows) {
    for (std::string& cell : row) cell = html_text(cell);
    out += table_row(row);
  }
  return out + "</tbody></table>\n<p>Methods and orders kept, one at a time; indicative.</p></section>\n";
}

}  // namespace

std::string truck_sheet_html(const Plan& plan, const ExportOptions& options) {
  std::string body =
      tagged("h1", plan.farm + ": truck sheet") + "\n" + tagged("p", plan_day_words(plan), "lead") +
      "\n<table class=\"truck\"><colgroup><col style=\"width:12%\"><col style=\"width:11%\"><col "
      "style=\"width:14%\"><col style=\"width:13%\"><col style=\"width:18%\"><col "
      "style=\"width:13%\"><col style=\"width:11%\"><col style=\"width:8%\"></colgroup>" +
      table_head({"Field", "Method", "Next job", "Who, with what", "Start by, if … then", "Water, boards",
                  "Keep out", "Pencil"}) +
      "<tbody>\n";
  for (const TruckRow& r : truck_rows(plan)) body += truck_row_html(r);
  body += "</tbody></table>\n" + back_html(plan);
  return html_of({.title = plan.farm + ": truck sheet",
                  .paper = options.paper,
                  .landscape = true,
                  .style = truck_style,
                  .body = body});
}

}  // namespace aftercut::report::sheets
