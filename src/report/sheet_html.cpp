#include "sheet_html.hpp"

#include "parts.hpp"

namespace aftercut::report::sheets {
namespace {

// Sizes in points and millimetres: what stands here is what comes out of the printer.
const char* const common_style =
    "*{box-sizing:border-box}"
    "body{font:12pt/1.3 sans-serif;color:#000;background:#fff;margin:0}"
    "h1{font-size:18pt;margin:0 0 1mm}h2{font-size:14pt;margin:4mm 0 1mm;border-bottom:2px solid #000}"
    "h3{font-size:12pt;margin:3mm 0 1mm}p{margin:1mm 0}ul{margin:1mm 0;padding-left:6mm}li{margin:0 0 1mm}"
    "table{border-collapse:collapse;width:100%;table-layout:fixed}"
    "th,td{border:1px solid #000;padding:1mm "
    "1.5mm;text-align:left;vertical-align:top;overflow-wrap:break-word}"
    "th{font-weight:700}thead{display:table-header-group}tr{break-inside:avoid}"
    "td,small{text-wrap:pretty}small{font-size:9pt}h1,h2,h3,p,li,dd{overflow-wrap:anywhere}"
    ".sheet{break-after:page}.sheet:last-child{break-after:auto}.num{text-align:right;white-space:nowrap}"
    "@media print{body{padding:0 2px}}"
    "@media screen{body{max-width:270mm;margin:6mm auto;padding:0 4mm}.sheet{margin-bottom:12mm}}"
    "@media screen and (max-width:700px){table{display:block;overflow-x:auto}}";

}  // namespace

std::string tagged(const char* tag, const std::string& text, const char* name) {
  const std::string with = *name == '\0' ? "" : fmt::format(" class=\"{}\"", name);
  return fmt::format("<{0}{1}>{2}</{0}>", tag, with, html_text(text));
}

std::string columns(const std::vector<double>& percent) {
  std::string out = "<colgroup>";
  for (const double p : percent) out += fmt::format("<col style=\"width:{}%\">", p);
  return out + "</colgroup>";
}

std::string table_row(const std::vector<std::string>& cells, const char* tag) {
  std::string out = "<tr>";
  for (const std::string& c : cells) out += fmt::format("<{0}>{1}</{0}>", tag, c);
  return out + "</tr>\n";
}

std::string table_head(const std::vector<std::string>& texts) {
  std::string out = "<thead><tr>";
  for (const std::string& t : texts) out += fmt::format("<th scope=\"col\">{}</th>", html_text(t));
  return out + "</tr></thead>\n";
}

std::string html_of(const Page& page) {
  const std::string size =
      fmt::format("@page{{size:{}{};margin:10mm}}", page.paper == Paper::letter ? "letter" : "A4",
                  page.landscape ? " landscape" : "");
  return fmt::format(
      "<!doctype html>\n<html lang=\"{}\"><head><meta charset=\"utf-8\">"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'\">"
      "<meta name=\"viewport\" content=\"width=device-width\"><title>{}</title>\n<style>{}{}{}</style></head>"
      "<body>\n{}</body></html>\n",
      page.language == Language::spanish ? "es" : "en", html_text(page.title), size, common_style, page.style,
      page.body);
}

}  // namespace aftercut::report::sheets
