// A jurisdiction file: read, and where it can be read, held against a field on three days. What is said of it
// stays in the closed set, and no word of ours grants.

#include <array>
#include <regex>

#include "aftercut/burn/rules.hpp"
#include "fuzz.hpp"

namespace {

using namespace aftercut;

constexpr std::size_t longest_looked_at = 400;  // std::regex goes as deep as its text is long

bool grants(const std::string& text) {
  static const std::regex quoted{"\"[^\"]*\""};
  static const std::regex words{
      R"(\b(allow\w*|permit(ted|s|ting)|approv\w*|clear(ed|s|ance)?|legal\w*|ok|okay|safe\w*|may|can|go ahead|granted|authori[sz]\w*)\b)",
      std::regex::icase};
  return std::regex_search(std::regex_replace(text, quoted, "\"\""), words);
}

std::array<burn::Facts, 3> some_facts() {
  burn::Facts known;
  known.day = make_date(2026, 10, 12);
  known.area = Hectare{30.0};
  known.straw_in_windrow = true;
  known.days_since_cut = known.days_since_rain_reset = 12;
  known.wind_m_s = 3.0;
  known.humidity = 0.4;
  known.temperature_c = 24.0;
  known.disease_finding = true;
  known.samples = {{"stem rot", 0.2}};
  known.to_home_m = known.to_road_m = known.to_trees_m = 250.0;
  known.season_burned_share = 0.1;
  known.season_burned_ha = 40.0;
  known.zone = "A";
  known.harvest = make_date(2026, 9, 20);
  known.people = 3;
  known.called = true;
  burn::Facts bare;
  bare.day = make_date(2027, 3, 1);
  burn::Facts answered = known;
  answered.answer = "You may burn, it is safe.";
  answered.leave = "Leave is given.";
  answered.start_hour = 11.0;
  answered.sunrise_hour = 6.5;
  answered.sunset_hour = 18.0;
  return {known, bare, answered};
}

std::string judged(burn::Jurisdiction j) {
  j.authority = "the burn desk";  // a name can hold any word
  std::string out;
  for (const burn::Facts& facts : some_facts()) {
    const burn::Finding finding = burn::evaluate(j, facts);
    const std::string standing = to_text(finding.standing, j);
    fuzz::must(standing == "blocked" || standing == "ask the burn desk" || standing == "unknown" ||
                   standing == "answered",
               "a result comes from the closed set: " + standing);
    out += standing + "\n";
    for (const burn::RowWords& row : finding.rows) {
      const std::string text = to_text(row);
      fuzz::must(text.size() > longest_looked_at || !grants(text), "no word of ours grants: " + text);
      out += text + "\n";
    }
    out += std::to_string(burn::judge_rows(j, facts).size());
  }
  const burn::Limits limits = burn::limits_of(j);
  for (const auto& x : {limits.season_share, limits.season_area_ha, limits.daily_area_ha, limits.burn_area_ha,
                        limits.rain_reset_mm, limits.most_wind_m_s, limits.least_wind_m_s, limits.start_hour,
                        limits.end_hour, limits.firebreak_m, limits.least_water_l})
    fuzz::must(!x || std::isfinite(*x), "a limit is finite");
  return out;
}

std::string told(const std::string& bytes) {
  const auto read = burn::read_jurisdiction(bytes, "burn-rules.json");
  return read.ok() ? judged(read.value()) : fuzz::checked(read.issues());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string bytes = fuzz::text_of(data, size);
  const std::string once = told(bytes);
  if (fuzz::read_twice(bytes)) fuzz::must(told(bytes) == once, "the same bytes are read the same");
  return 0;
}
