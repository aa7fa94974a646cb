// No word of ours joins a burn with a grant.
#include <cctype>
#include <regex>
#include <string>
#include <vector>

#include "catch2/catch.hpp"
#include "invented_rules.hpp"

using namespace aftercut;
using namespace aftercut::burn;
using test::good_facts;
using test::jurisdiction;
using test::row_texts;

namespace {

/// Texts without what stands in quotation marks: that is the authority's or the rule's.
std::string own_words(const std::string& text) {
  return std::regex_replace(text, std::regex{"\"[^\"]*\""}, "\"\"");
}

bool grants(const std::string& text) {
  static const std::regex words{
      R"(\b(allow\w*|permit(ted|s|ting)|approv\w*|clear(ed|s|ance)?|legal\w*|ok|okay|safe\w*|may|can|go ahead|granted|authori[sz]\w*)\b)",
      std::regex::icase};
  return std::regex_search(own_words(text), words);
}

/// Many fields and days: each fact known, unknown, or beyond its limit, under whole, bare and strange rules.
std::vector<Finding> many_findings() {
  std::vector<Finding> findings;
  std::vector<Jurisdiction> places{jurisdiction(), jurisdiction({})};
  auto strange = row_texts();
  strange["daily_area"].unit = "hides";
  strange["disease_finding"].value = "perhaps";
  strange["moon_phase"] = {"full", "phase", "="};
  strange["autumn_to"].value = "none";
  places.push_back(jurisdiction(strange));
  places.push_back(jurisdiction());
  for (Rule& rule : places.back().rules) rule.checked = false;
  places.push_back(jurisdiction());
  for (Rule& rule : places.back().rules) rule.as_of.reset();
  for (const Jurisdiction& place : places)
    for (int mask = 0; mask < 256; ++mask) {
      Facts f = good_facts();
      if (mask & 1) f.days_since_cut = 1;
      if (mask & 2) f.wind_m_s = 20;
      if (mask & 4) f.to_home_m = 5;
      if (mask & 8) f.disease_finding.reset();
      if (mask & 16) f.answer = "You may burn, it is safe and legal.";
      if (mask & 32) f.start_hour = 5;
      if (mask & 64) f.straw_in_windrow = true;
      if (mask & 128) f.day = make_date(2026, 7, 1);
      findings.push_back(evaluate(place, f));
    }
  return findings;
}

}  // namespace

TEST_CASE("results come from the closed set", "[identity]") {
  const Jurisdiction j = jurisdiction();
  CHECK(to_text(Standing::blocked, j) == "blocked");
  CHECK(to_text(Standing::ask_authority, j) == "ask the Invented Valley air office");
  CHECK(to_text(Standing::unknown, j) == "unknown");
  CHECK(to_text(Standing::answered, j) == "answered");
  CHECK_THROWS_AS(to_text(static_cast<Standing>(9), j), InternalError);
}

TEST_CASE("no finding grants in words of ours", "[identity]") {
  CHECK(grants("burning is permitted"));
  CHECK(grants("you may burn"));
  CHECK_FALSE(grants("permit term \"you may burn\""));
  int granting = 0;
  std::size_t rows = 0;
  for (const Finding& finding : many_findings())
    for (const RowWords& row : finding.rows) {
      ++rows;
      if (!grants(to_text(row))) continue;
      ++granting;
      UNSCOPED_INFO(to_text(row));
    }
  CHECK(granting == 0);
  CHECK(rows > 2000);
}

TEST_CASE("the authority's words stand inside quotation marks only", "[identity]") {
  Facts f = good_facts();
  f.answer = "You may burn.";
  for (const RowWords& row : evaluate(jurisdiction(), f).rows) CHECK_FALSE(grants(to_text(row)));
  f.answer = "\" You may burn. \"";  // marks of its own do not end the quotation
  for (const RowWords& row : evaluate(jurisdiction(), f).rows) CHECK_FALSE(grants(to_text(row)));
}
