// The truck sheet: one row a field, for a clip board on the dash.

#include <algorithm>

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

/// As large as lets the fields stand on one page; too many for that: more pages, larger letters again.
std::string type_size(std::size_t fields) {
  const char* size = fields <= 10 ? "13" : fields <= 14 ? "11.5" : fields <= 20 || fields > 24 ? "10" : "8.7";
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
  return out + "</tbody></table>\n<p>Methods and orders kept, one at a time; indicative.</p></section>\n";
}

}  // namespace

std::string truck_sheet_html(const Plan& plan, const ExportOptions& options) {
  const BriefRows brief = brief_truck_rows(plan);
  std::string body = tagged("h1", plan.farm + ": truck sheet") + " " +
                     tagged("p", plan_day_words(plan), "lead") +
                     tagged("p", list_of(brief.legend, " · "), "legend") + "\n<table class=\"truck\">" +
                     columns({15, 12, 14, 17, 15, 11, 6.5, 9.5}) +
                     table_head({"Field", "Method", "Next job", "Who, with what", "Start by, if … then",
                                 "Water, boards", "Keep out", "Pencil"}) +
                     "<tbody>\n";
  for (const TruckRow& r : brief.rows) body += truck_row_html(r);
  body += "</tbody></table>\n" + back_html(plan);
  return html_of({.title = plan.farm + ": truck sheet",
                  .paper = options.paper,
                  .landscape = true,
                  .style = truck_style + type_size(plan.fields.size()),
                  .body = body});
}

}  // namespace aftercut::report::sheets
