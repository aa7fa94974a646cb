// What is printed of burning: the closed vocabulary in every output, for every row, weather and answer.
#include "aftercut/report/burn.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>
#include <unordered_set>

#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

using namespace aftercut;

namespace {

using Json = nlohmann::json;

/// Texts without what stands in quotation marks, straight or curled: that is the authority's or the rule's.
std::string without_quotations(const std::string& text) {
  static const std::regex straight{"\"[^\"]*\""}, curled{"“[^”]*”"};
  return std::regex_replace(std::regex_replace(text, straight, "\"\""), curled, "“”");
}

std::string without_tags(const std::string& html) {
  const std::string body = html.substr(std::min(html.find("<body>"), html.size()));
  static const std::regex tag{"<[^>]*>"};
  return std::regex_replace(body, tag, "\n");
}

/// The first granting word of ours, English or Spanish; "permit" is one unless it is the noun.
std::string granting_word(const std::string& text) {
  static const std::regex words{
      R"(\b(allow\w*|permitted|permits|permitting|approv\w*|cleared|legal\w*|ok|okay|safe\w*|may|granted|go ahead|)"
      R"(authori[sz]ed|permitid[oa]s?|permite\w*|autoriz\w*|aprobad[oa]s?|segur[oa]s?|puede\w*|lícito|vale|)"
      R"((you|we|to) permit)\b)",
      std::regex::icase};
  // None of the words goes over the end of a line, and most lines are printed again and again.
  static std::unordered_set<std::string> clean;
  std::istringstream own{without_quotations(text)};
  for (std::string line; std::getline(own, line);) {
    if (clean.contains(line)) continue;
    std::smatch found;
    if (std::regex_search(line, found, words)) return found.str();
    clean.insert(line);
  }
  return "";
}

/// Every string in a JSON value but those that quote a row as it was written: value, unit, source of a rule.
void own_strings(const Json& value, std::vector<std::string>& out) {
  if (value.is_string()) out.push_back(value.get<std::string>());
  if (value.is_array())
    for (const Json& v : value) own_strings(v, out);
  if (!value.is_object()) return;
  const bool rule = value.contains("comparison") && value.contains("weight");
  for (const auto& [key, v] : value.items())
    if (!rule || (key != "value" && key != "unit" && key != "source")) own_strings(v, out);
}

std::string granting_in_json(const std::string& text) {
  std::vector<std::string> strings;
  own_strings(Json::parse(text), strings);
  for (const std::string& s : strings)
    if (const std::string word = granting_word(s); !word.empty()) return word + " in: " + s;
  return "";
}

burn::Rule row(const burn::RowKind& kind) {
  burn::Rule r{kind.name,
               "3",
               kind.units.front(),
               kind.comparison,
               "permit term",
               "you may read it, page 1",
               make_date(2026, 8, 1),
               true};
  const std::string& unit = r.unit;
  if (unit == "month-day") r.value = kind.comparison == "<=" ? "12-15" : "09-01";
  if (unit == "month-days") r.value = "12-25";
  if (unit == "clock") r.value = kind.comparison == "<=" ? "17:00" : "10:00";
  if (unit == "yes/no") r.value = "yes";
  if (unit == "weekdays") r.value = "sunday";
  if (unit == "share") r.value = kind.comparison == "<=" ? "0.9" : "0.1";
  if (unit == "list") r.value = "A, backing";
  if (unit == "text") r.value = "allowed when it is safe; approved and legal";
  if (kind.name == "disease_sample") r.of = "stem rot";
  if (std::string{kind.name}.ends_with("_area")) r.value = "300";
  if (kind.name == "least_wind") r.value = "1";
  if (kind.name == "most_temperature") r.value = "30";
  if (kind.name == "setback_canal") r.value = "0";  // the sample's canal runs along the field
  return r;
}

burn::Jurisdiction every_row() {
  burn::Jurisdiction j{"Invented district", "the district air office", {}, 0.35};
  for (const burn::RowKind& kind : burn::row_kinds()) j.rules.push_back(row(kind));
  return j;
}

/// The jurisdiction with one row as it is, missing, unchecked, old or without a limit.
burn::Jurisdiction changed(burn::Jurisdiction j, std::size_t at, int how) {
  if (how == 1) j.rules[at].checked = false;
  if (how == 2) j.rules[at].as_of = make_date(2020, 1, 1);
  if (how == 3) j.rules[at].value = "none";
  if (how == 4) j.rules.erase(j.rules.begin() + static_cast<std::ptrdiff_t>(at));
  return j;
}

burn::Facts under_sky(burn::Facts f, int which) {
  if (which == 0) return f;
  const bool mild = which == 1;
  f.wind_m_s = mild ? 2.9 : 14.0;
  f.humidity = mild ? 0.5 : 0.05;
  f.temperature_c = mild ? 15.0 : 41.0;
  f.days_since_rain_reset = mild ? 9 : 0;
  return f;
}

burn::Facts answer(burn::Facts f, int which) {
  if (which >= 1) f.leave = "You may burn, it is allowed and safe. Puede quemar.";
  if (which == 2) f.answer = "Burn is \"approved\", legal, OK.";
  return f;
}

/// What is known of a field in the good and in the bad case of all other facts.
burn::Facts evidence(burn::Facts f, bool good) {
  f.disease_finding = good;
  f.samples = {{"stem rot", good ? 0.6 : 0.01}};
  f.clean_years = good ? 9 : 0;
  f.people = good ? 5 : 0;
  f.water_l = good ? 9000.0 : 0.0;
  f.firebreak_m = good ? 9.0 : 0.0;
  f.zone = good ? "A" : "Z";
  f.ignition = good ? "backing" : "heading";
  f.start_hour = good ? 11.0 : 3.0;
  f.called = good ? std::optional<bool>{} : std::optional<bool>{false};
  return f;
}

struct Printed {
  std::string text, json, html;
};

Printed print(const farm::Farm& farm, const season::BurnStanding& s) {
  return {report::burn_text(farm, {s}), report::burn_json(farm, {s}), report::burn_sheet_html(farm, s)};
}

std::string granting_in(const Printed& p) {
  if (const auto word = granting_word(p.text); !word.empty()) return "text: " + word;
  if (const auto word = granting_in_json(p.json); !word.empty()) return "json: " + word;
  if (const auto word = granting_word(without_tags(p.html)); !word.empty()) return "html: " + word;
  return "";
}

}  // namespace

TEST_CASE("the search for granting words finds planted ones and leaves nouns and quotations alone",
          "[identity]") {
  for (const char* planted :
       {"Burning of field 3 is allowed today.", "This burn is permitted.", "The burn is OK.", "You may burn.",
        "It is safe to burn.", "A legal burn.", "The burn was approved.", "Cleared to burn.",
        "Quema permitida.", "Se puede quemar.", "The office permits the burn."}) {
    CAPTURE(planted);
    CHECK_FALSE(granting_word(planted).empty());
  }
  CHECK(granting_word("Number of the permit or call").empty());
  CHECK(granting_word("row \"burning is allowed\", source \"you may read it\"").empty());
  CHECK(granting_word("the office: “You may burn.”").empty());
}

TEST_CASE("no output of any row, weather and answer grants a burn", "[identity]") {
  test::Sample sample = test::sample();
  farm::Farm& farm = sample.problem.farm;
  const std::size_t rows = burn::row_kinds().size();
  int printed = 0;
  std::set<std::string> standings;
  for (std::size_t at = 0; at < rows; ++at)
    for (int how = 0; how < 5; ++how) {
      farm.burning = changed(every_row(), at, how);
      season::BurnStanding s = season::burn_standing(sample.problem, 0, make_date(2026, 10, 20));
      for (int sky = 0; sky < 3; ++sky)
        for (int word = 0; word < 3; ++word) {
          const burn::Facts facts = answer(under_sky(evidence(s.facts, sky != 2), sky), word);
          s.finding = burn::evaluate(*farm.burning, facts);
          standings.insert(burn::to_text(s.finding.standing, *farm.burning));
          const std::string found = granting_in(print(farm, s));
          if (!found.empty()) FAIL_CHECK(burn::row_kinds()[at].name << ", case " << how << ": " << found);
          ++printed;
        }
    }
  CHECK(printed == static_cast<int>(rows) * 45);
  CHECK(standings == std::set<std::string>{"answered", "ask the district air office", "blocked", "unknown"});
}

TEST_CASE("no row, weather and answer grants a burn where fields are told together", "[identity]") {
  test::Sample sample = test::sample();
  farm::Farm& farm = sample.problem.farm;
  int printed = 0;
  for (std::size_t at = 0; at < burn::row_kinds().size(); ++at)
    for (int how = 0; how < 5; ++how) {
      farm.burning = changed(every_row(), at, how);
      const season::BurnStanding one = season::burn_standing(sample.problem, 0, make_date(2026, 10, 20));
      std::vector<season::BurnStanding> all;
      for (std::size_t f = 0; f < farm.fields.size(); ++f) {  // every weather and answer at once
        all.push_back(one);
        all.back().field = f;
        const auto k = static_cast<int>(f);
        const burn::Facts facts = answer(under_sky(evidence(one.facts, k % 3 != 2), k % 3), k / 3);
        all.back().finding = burn::evaluate(*farm.burning, facts);
      }
      const std::string found = granting_word(report::burn_text(farm, all));
      if (!found.empty()) FAIL_CHECK(burn::row_kinds()[at].name << ", case " << how << ": " << found);
      ++printed;
    }
  CHECK(printed == static_cast<int>(burn::row_kinds().size()) * 5);
}

TEST_CASE("ask and answered are printed in the same closed words", "[identity]") {
  test::Sample sample = test::sample();
  farm::Farm& farm = sample.problem.farm;
  farm.burning = burn::Jurisdiction{"Invented district", "the district air office", {}, 0.35};
  farm.burning->rules = burn::rows_without_limit(
      burn::known_rule_names(), {"", "", "", "", "rule", "invented", make_date(2026, 8, 1), true});
  const auto printed = [&] {
    return print(farm, season::burn_standing(sample.problem, 0, make_date(2026, 10, 20)));
  };
  CHECK(printed().text.find("  ask the district air office\n") != std::string::npos);
  CHECK(granting_in(printed()).empty());
  farm.fields[0].burn_answer = "You may burn after eleven.";
  const Printed answered = printed();
  CHECK(answered.text.find("  answered\n") != std::string::npos);
  CHECK(answered.text.find("the district air office: \"You may burn after eleven.\"") != std::string::npos);
  CHECK(granting_in(answered).empty());
  // The check on the page can fail: a planted sentence is found in each output.
  Printed spoilt = answered;
  spoilt.html.insert(spoilt.html.find("<h2>The day"), "<p>This burn is allowed.</p>");
  CHECK_FALSE(granting_in(spoilt).empty());
  spoilt = answered;
  spoilt.text += "You may burn.\n";
  CHECK_FALSE(granting_in(spoilt).empty());
  farm.burning.reset();
  CHECK(printed().text.find("unknown") != std::string::npos);
  CHECK(granting_in(printed()).empty());
}

TEST_CASE("the page's data grants nothing outside the rows that it quotes", "[identity]") {
  test::Sample sample = test::sample();
  sample.problem.farm.burning = every_row();
  const std::string plan = report::plan_json(sample.problem, sample.planned, sample.audit);
  const Json burning = Json::parse(plan)["burning"];
  CHECK(burning["rules"].size() == burn::row_kinds().size());
  CHECK(granting_in_json(burning.dump()).empty());
  Json spoilt = burning;
  spoilt["authority"] = "burning is allowed";
  CHECK_FALSE(granting_in_json(spoilt.dump()).empty());
}

TEST_CASE("the sheet tells what it should", "[golden]") {
  test::Sample sample = test::sample(farm::UnitSystem::si);
  sample.problem.farm.burning = every_row();
  sample.problem.farm.fields[0].burn = {.people = 4, .water_l = 2500.0, .firebreak_m = 5.0};
  const season::BurnStanding s = season::burn_standing(sample.problem, 0, make_date(2026, 10, 20));
  const std::string html = report::burn_sheet_html(sample.problem.farm, s);
  for (const char* part : {"Burn sheet: field", "2026-10-20", "Sample &lt;farm&gt;", "blocked", "To be asked",
                           "To be told and done", "Neighbours by the wind", "How a fire runs (cautions only)",
                           "2,500 L", "5 m", "PM2.5", "Answer of the district air office", "canal"}) {
    CAPTURE(part);
    CHECK(html.find(part) != std::string::npos);
  }
  CHECK(html.find("<script") == std::string::npos);
  // A notice of three hours is due so long before lighting at the first hour that clock and sun leave.
  const auto notice = std::find_if(s.tasks.begin(), s.tasks.end(),
                                   [](const season::BurnTask& t) { return t.name == "notice_neighbours"; });
  REQUIRE(notice != s.tasks.end());
  CHECK(*notice->by_day == s.day);
  CHECK(*notice->by_hour == Approx(std::max(10.0, s.sunrise_hour + 3.0) - 3.0));
  CHECK(report::burn_sheet_name(FieldId{"C 4/a"}) == "burn-C-4-a.html");
  const Json json = Json::parse(report::burn_json(sample.problem.farm, {s}));
  CHECK(json["fields"][0]["around"].size() == 8);
}
