// The burn sheet of one field: plain HTML for paper.

#include <algorithm>
#include <cmath>
#include <string_view>

#include "burn_words.hpp"

namespace aftercut::report {
namespace {

/// The row's name with blanks for paper: "least_wind: ..." as "Least wind: ...".
std::string named(std::string row) {
  const std::size_t end = std::min(row.find_first_of(": "), row.size());
  if (row.substr(0, end).find_first_of("_abcdefghijklmnopqrstuvwxyz") != 0 || end == row.size()) return row;
  std::replace(row.begin(), row.begin() + static_cast<std::ptrdiff_t>(end), '_', ' ');
  row[0] = static_cast<char>(row[0] - 'a' + 'A');
  return row;
}

std::string pair_row(const std::string& what, const std::string& value) {
  return fmt::format("<tr><th>{}</th><td>{}</td></tr>\n", html_text(what), html_text(value));
}

std::string cells(const std::vector<std::string>& texts, const char* tag = "td") {
  std::string out = "<tr>";
  for (const std::string& t : texts) out += fmt::format("<{0}>{1}</{0}>", tag, html_text(t));
  return out + "</tr>\n";
}

const char* const style =
    "body{font:11pt/1.35 sans-serif;color:#000;background:#fff;max-width:190mm;margin:8mm auto;padding:0 4mm}"
    "h1{font-size:16pt;margin:0}h2{font-size:12pt;margin:5mm 0 1mm;border-bottom:1px solid #000}"
    "table{border-collapse:collapse;width:100%}th,td{border:1px solid #777;padding:1mm 2mm;text-align:left;"
    "vertical-align:top;font-size:10pt}th{font-weight:600}.pairs th{width:34%}"
    ".standing{border:2px solid #000;padding:2mm 3mm;margin:3mm 0}.standing b{font-size:14pt}"
    "li{margin:0 0 1mm}p{margin:1mm 0}small{font-size:9pt}.line{border-bottom:1px solid #000;height:9mm}"
    ".answer td{height:9mm}section,tr{break-inside:avoid}h2{break-after:avoid}"
    "@media(max-width:700px){table{display:block;overflow-x:auto}}";

std::string standing_box(const farm::Farm& farm, const season::BurnStanding& s) {
  std::string out =
      fmt::format("<div class=\"standing\"><b>{}</b><ul>\n", html_text(standing_words(farm, s)));
  for (const burn::RowWords& row : s.finding.rows)
    out += "<li>" + html_text(named(burn::to_text(row))) + "</li>\n";
  return out + "</ul></div>\n";
}

std::string field_section(const farm::Farm& farm, const season::BurnStanding& s) {
  const farm::Field& f = farm.fields.at(s.field);
  const Units& u = units_of(farm);
  const int days = s.day - f.harvest;
  std::string out = "<section><h2>The field</h2><table class=\"pairs\">\n";
  out +=
      pair_row("Area", fmt::format("{:.1f} {}{}", f.area.value() * u.area_per_ha, u.area,
                                   f.invented_shape ? ", drawn as a rectangle: no outline was given" : ""));
  out += pair_row("Middle of the field", place_words(s.middle));
  out += pair_row(
      "Straw at harvest, oven-dry",
      fmt::format("{} {}, of it {} standing; {} in all", with_thousands(s.load_kg_per_ha * u.mass_per_kg_ha),
                  u.mass_per_area, with_thousands(s.standing_kg_per_ha * u.mass_per_kg_ha),
                  mass_words(farm, s.mass_kg)));
  out += pair_row("How it lies", words(f.lay));
  out += pair_row("Cut", days < 0 ? fmt::format("not yet: expected on {}", iso(f.harvest))
                                  : fmt::format("{}, {} days before", iso(f.harvest), days));
  return out + "</table></section>\n";
}

std::string day_section(const farm::Farm& farm, const season::BurnStanding& s) {
  std::string out = "<section><h2>The day</h2><table class=\"pairs\">\n";
  out += pair_row("Sun", fmt::format("rises {}, sets {} (standard time)", clock_words(s.sunrise_hour),
                                     clock_words(s.sunset_hour)));
  out += pair_row("Hours of lighting by the rows",
                  fmt::format("{} to {}", s.light_from_hour ? clock_words(*s.light_from_hour) : "no row",
                              s.light_until_hour ? clock_words(*s.light_until_hour) : "no row"));
  out += pair_row("Weather", weather_words(farm, s));
  out += pair_row(
      "Days since rain that starts the drying anew",
      s.facts.days_since_rain_reset ? fmt::format("{}", *s.facts.days_since_rain_reset) : "not known");
  return out + "</table></section>\n";
}

std::string task_section(const season::BurnStanding& s, burn::Role role, const char* title,
                         const char* blank) {
  std::string rows;
  for (const season::BurnTask& t : s.tasks)
    if (t.role == role) rows += cells({named(t.text), task_moment(t), ""});
  if (rows.empty()) return "";
  return fmt::format(
      "<h2>{}</h2><table><thead><tr><th>Row</th><th style=\"width:18%\">When</th><th "
      "style=\"width:26%\">{}</th></tr></thead>\n{}</table>\n",
      title, blank, rows);
}

std::string at_hand_section(const farm::Farm& farm, const season::BurnStanding& s) {
  const burn::Facts& f = s.facts;
  std::string out =
      "<section><h2>At the field</h2><table><tr><th></th><th>Entered</th><th>There, seen by (initials, "
      "time)</th></tr>\n";
  out += cells({"People, crew included", f.people ? fmt::format("{}", *f.people) : "not entered", ""});
  out += cells({"Water standing by",
                !f.water_l                           ? "not entered"
                : farm.units == farm::UnitSystem::us ? with_thousands(*f.water_l / 3.785411784) + " gal"
                                                     : with_thousands(*f.water_l) + " L",
                ""});
  out += cells(
      {"Firebreak, clean and all round", f.firebreak_m ? metres(farm, *f.firebreak_m) : "not entered", ""});
  out += cells({"Lighting", f.ignition ? burn::in_marks(*f.ignition) : "not entered", ""});
  return out + "</table></section>\n";
}

std::string neighbour_section(const farm::Farm& farm, const season::BurnStanding& s) {
  std::string out =
      "<section><h2>Neighbours by the wind</h2><p><small>Nearest of each kind, from the field's edge; the "
      "bearing is "
      "taken from its middle. Kinds that are not in the farm's places are not shown: look "
      "yourself.</small></p>"
      "<table><tr><th>Side</th><th>Smoke goes there in a wind from</th><th>Nearest</th></tr>\n";
  for (std::size_t k = 0; k < s.around.size(); ++k) {
    std::string near;
    for (std::size_t kind = 0; kind < burn::setback_kinds.size(); ++kind) {
      const auto& n = s.around[k].by_kind[kind];
      if (!n) continue;
      std::string name = burn::setback_kinds[kind];
      std::replace(name.begin(), name.end(), '_', ' ');
      near += fmt::format("{}{} {} ({:.0f}°)", near.empty() ? "" : "; ", name,
                          metres(farm, n->distance.value()), n->bearing_deg);
    }
    out +=
        cells({geo::sector_names[k], geo::sector_names[(k + 4) % 8], near.empty() ? "none entered" : near});
  }
  return out + "</table></section>\n";
}

std::string fire_section(const farm::Farm& farm, const season::BurnStanding& s) {
  std::string out =
      "<section><h2>How a fire runs (cautions only)</h2><table><tr><th>Weather</th><th>Wind at 10 m</th>"
      "<th>Head runs</th><th>Flames</th><th>Grass danger index</th><th>Chance that the head crosses a bare "
      "break</th></tr>\n";
  for (const season::FireCaution& c : s.cautions) {
    std::string crossing;
    for (const auto& [width, chance] : c.crossing)
      crossing += fmt::format("{}{}: {}", crossing.empty() ? "" : "; ", metres(farm, width), one_in(chance));
    out +=
        cells({fmt::format("{}: {}, humidity {:.0f} %", c.when,
                           temperature_words(farm, c.weather.temperature_c), c.weather.humidity_percent),
               wind_words(farm, c.weather.wind_km_h),
               fmt::format("{} a minute ({} by another equation)", metres(farm, c.head_km_h * 1000.0 / 60.0),
                           metres(farm, c.other_head_km_h * 1000.0 / 60.0)),
               metres(farm, c.flame_m), fmt::format("{:.0f}", c.danger_index), crossing});
  }
  return out + fmt::format("</table><p><small>{} Source: {}.</small></p></section>\n",
                           html_text(cautions_leave_out), cautions_sources);
}

std::string smoke_section(const farm::Farm& farm, const season::BurnStanding& s) {
  std::string out =
      "<section><h2>Smoke</h2><table><tr><th>Straw consumed</th><th>Fine particles "
      "(PM2.5)</th><th>CO</th><th>NOx</th><th>CH4</th><th>CO2e of CH4 and N2O</th></tr>\n";
  const auto kg = [](const Uncertain& u) {
    return fmt::format("{} kg ({} to {})", with_thousands(u.mid), with_thousands(u.low),
                       with_thousands(u.high));
  };
  const auto of = [&](burn::Gas gas) { return kg(s.air[static_cast<std::size_t>(gas)]); };
  out += cells({mass_words(farm, s.burned_kg), of(burn::Gas::pm25), of(burn::Gas::co), of(burn::Gas::nox),
                of(burn::Gas::ch4), kg(s.co2e_kg)});
  return out + fmt::format(
                   "</table><p><small>Middle by: {}; in brackets the range of all sets of factors. Careful "
                   "studies of rice straw differ several times over; damp straw makes more smoke. Source: "
                   "docs/environment.md.</small></p></section>\n",
                   html_text(burn::words_of(farm.environment.burn_factors)));
}

std::string answer_section(const farm::Farm& farm) {
  const std::string who = farm.burning ? farm.burning->authority : "the authority";
  std::string out = fmt::format("<section><h2>Answer of {}</h2><table class=\"answer\">\n", html_text(who));
  for (const char* what : {"Who answered, day and hour", "In their words", "Conditions",
                           "Number of the permit or call", "Written down by"})
    out += fmt::format("<tr><th style=\"width:34%\">{}</th><td{}></td></tr>\n", what,
                       std::string_view(what) == "In their words" ? " style=\"height:27mm\"" : "");
  return out + "</table></section>\n";
}

}  // namespace

std::string burn_sheet_html(const farm::Farm& farm, const season::BurnStanding& s) {
  const farm::Field& f = farm.fields.at(s.field);
  const std::string title = fmt::format("Burn sheet: field {}, {}", f.id.value, iso(s.day));
  std::string out = fmt::format(
      "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" "
      "content=\"width=device-width\"><title>{0}</title><style>{1}</style></head><body>\n<h1>{0}</"
      "h1>\n<p>{2}. The "
      "farm's own sheet for the talk with the authority. The named authority decides, on the day.</p>\n",
      html_text(title), style, html_text(farm.name));
  out += standing_box(farm, s) + field_section(farm, s) + day_section(farm, s);
  out += task_section(s, burn::Role::asked, "To be asked", "Answer");
  out += task_section(s, burn::Role::duty, "To be told and done", "Done (initials, time)");
  out +=
      at_hand_section(farm, s) + neighbour_section(farm, s) + fire_section(farm, s) + smoke_section(farm, s);
  out += task_section(s, burn::Role::shown, "What a breach costs", "");
  out += answer_section(farm);
  return out +
         "<p><small>Local authority, fire service and licensed practice come before anything on this "
         "sheet.</small></p>\n</body></html>\n";
}

std::string burn_sheet_name(const FieldId& id) {
  std::string name = "burn-";
  for (const char c : id.value) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.';
    name += plain ? c : '-';
  }
  return name + ".html";
}

}  // namespace aftercut::report
