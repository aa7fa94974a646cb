// Field sheets: a page for each field, with facts, method, jobs, fall-backs, reasons, all methods, cautions.

#include <algorithm>

#include "exports_parts.hpp"
#include "parts.hpp"
#include "sheet_html.hpp"
#include "truck_rows.hpp"

namespace aftercut::report::sheets {
namespace {

const char* const sheets_style =
    "body{font-size:10.5pt;line-height:1.25}.facts "
    "th{width:24%}.method{font-size:16pt;font-weight:700;border:3px solid "
    "#000;padding:2mm 3mm;margin:2mm 0}.method small{font-weight:400;font-size:11pt;display:block}"
    "td,th{font-size:10pt;padding:.5mm 1.2mm}h2{font-size:13pt;margin:3mm 0 1mm;break-after:avoid}"
    ".methods{break-before:page}.chosen td{font-weight:700}.cautions{font-size:9.5pt}";

std::string fact(const char* what, const std::string& value) {
  return fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", what, html_text(value));
}

std::string next_words(const Field& f) {
  if (f.next_use == "fallow" || !f.planting) return "rests this summer";
  std::string out = fmt::format("{}, planting {}", f.next_use == "rice" ? "rice" : "another crop",
                                full_date(*f.planting, en));
  if (f.cut_off) out += fmt::format("; after {} it stays unplanted", day_words(*f.cut_off, en));
  return out;
}

std::string laid_words(const Field& f) {
  if (f.lay == "windrow") return "in windrows";
  return f.lay == "chopped" ? "chopped by the combine" : "spread behind the combine";
}

std::string facts_html(const Plan& plan, const Field& f) {
  std::string out = "<table class=\"facts\"><tbody>\n";
  out += fact("Area, soil", area_words(plan, f.area_ha) + ", " + f.soil);
  out += fact("Straw, oven-dry", fmt::format("{}: {} standing, {} loose", mass_words(plan, f.load),
                                             mass_words(plan, f.standing), mass_words(plan, f.loose)));
  out += fact(f.cut ? "Cut" : "To be cut", fmt::format("{}; straw {}, stubble {}{}", full_date(f.harvest, en),
                                                       laid_words(f), length_words(plan, f.cut_height_cm),
                                                       f.cut       ? ""
                                                       : f.chopper ? "; chopper on"
                                                                   : "; chopper off"));
  out += fact("Next", next_words(f));
  if (!f.history.empty()) out += fact("Before", fmt::format("{}", fmt::join(f.history, ". ")));
  return out + "</tbody></table>\n";
}

std::string method_html(const Plan& plan, const Field& f) {
  const Method* m = chosen_method(plan, f);
  const Outcome* o = chosen_outcome(f);
  std::string small = m == nullptr ? "The reasons stand below." : m->summary;
  if (f.locked) small += " Fixed by you.";
  if (m != nullptr && m->burns)
    small += " Ask " + plan.authority.value_or("the authority") + " before each burn.";
  std::string out = "<p class=\"method\">" + html_text(capital(method_name(plan, f.method, en))) +
                    tagged("small", small) + "</p>\n";
  if (o != nullptr && f.planting) {
    std::string sure =
        fmt::format("Ready by planting: {}; middle of the years: {}.", chance_words(o->chance_ready),
                    o->ready ? ready_text(plan, *o->ready) : "none");
    if (f.unplanted_chance.value_or(0.0) > 0.0)
      sure += fmt::format(" Stays unplanted in {}.", chance_words(*f.unplanted_chance));
    out += tagged("p", sure) + "\n";
  }
  return out;
}

std::string jobs_html(const Plan& plan, const Field& f) {
  if (f.jobs.empty()) return "";
  std::string out = "<h2>Jobs</h2>\n<table>" + columns({18, 31, 34, 9, 8}) +
                    table_head({"Job", "When", "Who, with what", "Years", "Done"}) + "<tbody>\n";
  for (const Job& j : f.jobs) {
    std::string name = capital(operation_name(plan, j.operation, en));
    if (j.pass > 0) name += fmt::format(", pass {}", j.pass + 1);
    if (j.fell_back) name += " (fall-back)";
    const std::string who = who_with(plan, row_of(plan, f, j));
    out += table_row({html_text(name), html_text(capital(when_words(when_of(j, plan.forecast_until), en))),
                      who.empty() ? "–" : html_text(who),
                      j.years_done == j.years ? "all" : fmt::format("{} of {}", j.years_done, j.years), ""});
  }
  return out + "</tbody></table>\n";
}

std::string fall_backs_html(const Plan& plan, const Field& f) {
  std::string out;
  for (const FallBack& b : f.hangs_on) {
    std::string text = capital(fall_back_words(plan, b));
    if (b.chance_taken > 0.0) text += "; it comes to that in " + chance_words(b.chance_taken);
    out += tagged("li", text + ".") + "\n";
  }
  return out.empty() ? "" : "<h2>If it does not come</h2>\n<ul>" + out + "</ul>\n";
}

std::string reasons_html(const Plan& plan, const Field& f) {
  std::string out;
  for (const std::string& because : f.because) out += tagged("li", capital(because) + ".") + "\n";
  if (f.next_best && f.because.empty()) {
    const Units& u = units_of(plan.us ? farm::UnitSystem::us : farm::UnitSystem::si);
    const double saves = f.next_best_saves_per_ha / u.area_per_ha;
    std::string text = fmt::format("Next best: {}, {} {} {} by {}{}", method_name(plan, f.next_best, en),
                                   saves < 0.0 ? "cheaper by" : "dearer by", with_thousands(std::abs(saves)),
                                   plan.currency, u.area, f.toss_up ? ", a toss-up" : "");
    for (const std::string& d : f.decides) text += "; " + d;
    out += tagged("li", text + ".") + "\n";
  }
  return out.empty() ? "" : "<h2>Why</h2>\n<ul>" + out + "</ul>\n";
}

std::string methods_html(const Plan& plan, const Field& f) {
  const Units& u = units_of(plan.us ? farm::UnitSystem::us : farm::UnitSystem::si);
  std::string out =
      "<h2 class=\"methods\">All methods on this field</h2>\n<table>" +
      columns({27, 10, 15, 14, 14, 10, 10}) +
      table_head({"Method", plan.currency + "/" + u.area, "Ready, middle of years", "Ready by planting",
                  "Start by", std::string{"Straw left, "} + u.mass_per_area,
                  std::string{"CO2e, "} + u.mass_per_area}) +
      "<tbody>\n";
  for (const Outcome& o : f.methods) {
    const std::string name = html_text(capital(method_name(plan, o.id, en)));
    if (!o.possible) {
      out += fmt::format("<tr><td>{}</td><td colspan=\"6\">not open: {}</td></tr>\n", name,
                         html_text(list_of(o.why_not, "; ")));
      continue;
    }
    out += fmt::format("<tr{}>", f.method == o.id ? " class=\"chosen\"" : "");
    const bool due = f.planting.has_value();
    for (const std::string& cell :
         {f.method == o.id ? "► " + name : name, with_thousands(o.cost_per_ha / u.area_per_ha),
          o.ready ? html_text(ready_text(plan, *o.ready)) : "–", due ? chance_words(o.chance_ready) : "–",
          o.last_start ? "week of " + day_words(*o.last_start - weekday(*o.last_start), en) : "–",
          with_thousands(o.straw_left * u.mass_per_kg_ha), with_thousands(o.co2e * u.mass_per_kg_ha)})
      out += "<td>" + cell + "</td>";
    out += "</tr>\n";
  }
  return out + "</tbody></table>\n";
}

std::string cautions_of_field(const Plan& plan, const Field& f) {
  std::string out;
  for (const Caution& c : plan.cautions)
    if (std::ranges::count(c.fields, f.id) > 0)
      out += "<li>" + html_text(c.text) + " " + tagged("small", "[" + c.source + "]") + "</li>\n";
  return out.empty() ? "" : "<h2>Take care</h2>\n<ul class=\"cautions\">" + out + "</ul>\n";
}

}  // namespace

std::string field_sheets_html(const Plan& plan, const ExportOptions& options) {
  std::string body;
  for (const Field& f : plan.fields)
    body += "<section class=\"sheet\">" + tagged("h1", "Field " + field_label(f)) + "\n" +
            tagged("p", plan.farm + ". " + plan_day_words(plan)) + "\n" + method_html(plan, f) +
            jobs_html(plan, f) + fall_backs_html(plan, f) + facts_html(plan, f) + reasons_html(plan, f) +
            methods_html(plan, f) + cautions_of_field(plan, f) + "</section>\n";
  return html_of({.title = plan.farm + ": field sheets",
                  .paper = options.paper,
                  .landscape = false,
                  .style = sheets_style,
                  .body = body});
}

}  // namespace aftercut::report::sheets
