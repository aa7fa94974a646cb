#include "parts.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "aftercut/core/customary.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/core/week.hpp"

namespace aftercut::report {

double rounded(double x, int digits) {
  require(std::isfinite(x), "a number to be written is finite");
  const double scale = std::pow(10.0, digits);
  const double r = std::round(x * scale) / scale;
  return r == 0.0 ? 0.0 : r;
}

double money(std::int64_t cents) { return rounded(static_cast<double>(cents) / 100.0, 2); }

std::string date_time(Date day, int minutes) {
  const Date d = day + minutes / 1440;
  return fmt::format("{}T{:02}:{:02}", iso(d), minutes % 1440 / 60, minutes % 60);
}

std::string words(straw::Lay lay) {
  switch (lay) {
    case straw::Lay::windrow:
      return "windrow";
    case straw::Lay::spread:
      return "spread";
    case straw::Lay::chopped:
      return "chopped";
  }
  fail("unknown lay");
}

const plan::YearRun& run_of(const plan::PlannedYears& planned, int year) {
  const auto found = std::find_if(planned.runs.begin(), planned.runs.end(),
                                  [&](const plan::YearRun& r) { return r.year == year; });
  require(found != planned.runs.end(), "the shown year was played");
  return *found;
}

json ready_json(const farm::Farm& farm, const farm::Field& field, std::optional<int> day) {
  if (!farm::seedbed_due(field)) return nullptr;
  if (!day) return "not by " + iso(field.next.cut_off);
  return iso(farm.season.date(*day));
}

double total_area_ha(const farm::Farm& farm) {
  double sum = 0.0;
  for (const auto& f : farm.fields) sum += f.area.value();
  return sum;
}

json farm_head_json(const farm::Problem& problem) {
  const farm::Farm& f = problem.farm;
  return {{"name", f.name},
          {"units", f.units == farm::UnitSystem::us ? "us" : "si"},
          {"currency", f.currency},
          {"as_of", iso(problem.as_of)}};
}

json audit_counts_json(const audit::Audit& a) {
  return {{"ok", a.ok()}, {"count", a.count}, {"checks", a.checks}};
}

json methods_json(const farm::Farm& farm, const plan::Decision& d) {
  json out = json::array();
  for (std::size_t f = 0; f < farm.fields.size(); ++f)
    out.push_back(
        {{"field", farm.fields[f].id.value}, {"method", id_or_null(farm.book.recipes, d.method[f])}});
  return out;
}

std::string html_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else
      out += c;
  }
  return out;
}

std::string html_attribute(std::string_view text) {
  std::string out;
  for (const char c : html_text(text)) out += c == '"' ? std::string{"&quot;"} : std::string{c};
  return out;
}

std::string csv_cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? std::string{"\"\""} : std::string{c};
  return out + "\"";
}

json ids_of(const farm::Farm& farm, const std::vector<int>& fields) {
  json ids = json::array();
  for (const int f : fields) ids.push_back(farm.fields.at(static_cast<std::size_t>(f)).id.value);
  return ids;
}

// Factors exact by definition. Source: ExactUnits (recalled).
const Units& units_of(farm::UnitSystem system) {
  static constexpr Units si{"ha", "kg/ha", "L", "m3", "cm", 1.0, 1.0, 1.0, 1.0, 1.0};
  static constexpr Units us{"ac",
                            "lb/ac",
                            "gal",
                            "acre-ft",
                            "in",
                            1.0 / ha_per_acre,
                            ha_per_acre / kg_per_lb,
                            1.0 / 3.785411784,
                            1.0 / 1233.48183754752,
                            1.0 / 2.54};
  return system == farm::UnitSystem::us ? us : si;
}

const Units& units_of(const farm::Farm& farm) { return units_of(farm.units); }

std::string short_date(Date day) { return day_words(day); }

std::string with_thousands(double x) {
  const std::string digits = fmt::format("{:.0f}", std::abs(rounded(x, 0)));
  std::string out = rounded(x, 0) < 0.0 ? "-" : "";
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && (digits.size() - i) % 3 == 0) out += ',';
    out += digits[i];
  }
  return out;
}

std::string ready_words(const farm::Farm& farm, const farm::Field& field, const std::optional<int>& day,
                        const char* nothing_due) {
  if (!farm::seedbed_due(field)) return nothing_due;
  if (!day) return fmt::format("not by {}", short_date(field.next.cut_off));
  return short_date(farm.season.date(*day));
}

std::string cost_per_area(const farm::Farm& farm, const farm::Field& field, const plan::MethodOutcome& m) {
  return with_thousands(static_cast<double>(m.mean_cost.out_of_pocket()) / 100.0 / field.area.value() /
                        units_of(farm).area_per_ha);
}

std::string chance_words(double chance) {
  const int tenths = static_cast<int>(std::floor(chance * 10.0 + 1e-9));
  if (chance >= 1.0) return "every year";
  if (chance <= 0.0) return "no year";
  if (tenths == 0) return "under 1 in 10";
  return fmt::format("{} year{} in 10", tenths, tenths == 1 ? "" : "s");
}

namespace {

bool starts_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), starts_character));
}

std::string first_characters(const std::string& text, std::size_t n) {
  std::size_t at = 0;
  for (std::size_t seen = 0; at < text.size(); ++at) {
    if (starts_character(text[at]) && seen++ == n) break;
  }
  return text.substr(0, at);
}

}  // namespace

std::string fit(const std::string& text, std::size_t width, bool right) {
  const std::size_t n = characters(text);
  if (n > width) return first_characters(text, width - 1) + "…";
  const std::string pad(width - n, ' ');
  return right ? pad + text : text + pad;
}

std::string wrapped(const std::string& text, std::size_t width, std::size_t indent) {
  std::string out, line;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
    const std::string word = text.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    if (!line.empty() && characters(line) + 1 + characters(word) > width) {
      out += line + "\n";
      line = std::string(indent, ' ') + word;
    } else {
      line += (line.empty() ? "" : " ") + word;
    }
  }
  return out + line;
}

}  // namespace aftercut::report
