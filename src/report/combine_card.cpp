// The combine card: how to set the combine on each field that still stands.

#include <algorithm>

#include "exports_parts.hpp"
#include "parts.hpp"
#include "sheet_html.hpp"
#include "sheet_words.hpp"
#include "spanish.hpp"

namespace aftercut::report::sheets {
namespace {

const char* const card_style =
    ".card td,.card th{font-size:15pt;padding:2mm}.card b{font-size:17pt}.lead{font-size:13pt}";

std::string lay_words(const std::string& lay, Language language) {
  if (lay == "windrow") return told("in a windrow", language);
  return told(lay == "chopped" ? "chopped and spread" : "spread", language);
}

std::string chance_told(double chance, Language language) {
  const std::string words = chance_words(chance);
  if (language == Language::english) return words;
  const std::size_t space = words.find(' ');
  const bool counted = words[0] >= '0' && words[0] <= '9';
  return counted ? words.substr(0, space + 1) + told(words.substr(space + 1).c_str(), language)
                 : told(words.c_str(), language);
}

std::string card_row(const Plan& plan, const Field& f, Language language) {
  const std::string ruts = f.rut_chance.value_or(0.0) > 0.0 ? chance_told(*f.rut_chance, language)
                                                            : told("none expected", language);
  return table_row({tagged("b", field_label(f)) + "<br>" + html_text(area_words(plan, f.area_ha)),
                    html_text(day_words(f.harvest, language)), tagged("b", lay_words(f.lay, language)),
                    tagged("b", told(f.chopper ? "on" : "off", language)),
                    tagged("b", length_words(plan, f.cut_height_cm)),
                    html_text(capital(method_name(plan, f.method, language))), html_text(ruts), ""});
}

}  // namespace

std::string combine_card_html(const Plan& plan, const ExportOptions& options) {
  const Language language = options.language;
  std::vector<const Field*> standing;
  for (const Field& f : plan.fields)
    if (!f.cut) standing.push_back(&f);
  std::ranges::stable_sort(standing, {}, [](const Field* f) { return f->harvest; });
  std::string body = tagged("h1", plan.farm + ": " + told("Combine card", language)) + "\n" +
                     tagged("p", told("Plan of", language) + " " + full_date(plan.as_of, language), "lead") +
                     "\n";
  if (standing.empty()) {
    body += tagged("p", told("Every field is cut already.", language), "lead");
  } else {
    body += tagged("p",
                   told("Wet ground on the day of the cut leaves ruts: then the straw is neither baled nor "
                        "burned there, and spring asks for more passes.",
                        language),
                   "lead");
    std::vector<std::string> heads;
    for (const char* head : {"Field", "Cut about", "Straw", "Chopper", "Cut at", "For", "Ruts", "Noted"})
      heads.push_back(told(head, language));
    body += "\n<table class=\"card\">" + columns({19, 10, 14, 11, 9, 16, 12, 9}) + table_head(heads) +
            "<tbody>\n";
    for (const Field* f : standing) body += card_row(plan, *f, language);
    body += "</tbody></table>\n";
  }
  return html_of({.title = plan.farm + ": " + told("Combine card", language),
                  .paper = options.paper,
                  .landscape = true,
                  .language = language,
                  .style = card_style,
                  .body = body});
}

}  // namespace aftercut::report::sheets
