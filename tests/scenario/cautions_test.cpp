#include "aftercut/scenario/cautions.hpp"

#include <set>

#include "catch2/catch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// Every field under this method.
plan::Decision all_of(const farm::Farm& farm, const std::string& id) {
  plan::Decision d;
  for (std::size_t r = 0; r < farm.book.recipes.size(); ++r)
    if (farm.book.recipes[r].id.value == id) d.method.assign(farm.fields.size(), static_cast<int>(r));
  REQUIRE(d.method.size() == farm.fields.size());
  return d;
}

std::set<std::string> about(const farm::Farm& farm, const std::string& method) {
  std::set<std::string> words;
  for (const plan::Caution& c : scenario::cautions(farm, all_of(farm, method))) words.insert(c.about);
  return words;
}

}  // namespace

TEST_CASE("cautions stand where the plan makes them relevant, and not elsewhere", "[identity]") {
  farm::Problem p = small_problem(2);
  p.farm.places.clear();
  for (auto& f : p.farm.fields) f.levees.clear(), f.ground = {};
  const auto burn = about(p.farm, "burn"), bale = about(p.farm, "bale"), flood = about(p.farm, "flood"),
             chop = about(p.farm, "chop_disk");
  for (const char* word : {"burning", "smoke"}) {
    CHECK(burn.contains(word));
    CHECK(!bale.contains(word));
    CHECK(!flood.contains(word));
  }
  for (const char* word : {"stacks", "bales", "machine fires"}) {
    CHECK(bale.contains(word));
    CHECK(!chop.contains(word));
  }
  CHECK(flood.contains("flooded ground"));
  CHECK(flood.contains("banks"));
  CHECK(!chop.contains("banks"));
  CHECK(!chop.contains("mud"));
  CHECK(!bale.contains("lines"));
  for (const auto& words : {burn, bale, flood, chop}) {
    CHECK(words.contains("shafts"));
    CHECK(words.contains("storms"));
  }
}

TEST_CASE("levees, soft ground and a power line near by bring their cautions with their fields only",
          "[identity]") {
  farm::Problem p = small_problem(2);
  p.farm.places.clear();
  for (auto& f : p.farm.fields) f.levees.clear(), f.ground = {};
  p.farm.fields[1].ground.state = farm::GroundState::tracked;
  const geo::Point at = geo::label_point(p.farm.fields[2].shape);
  p.farm.fields[2].levees = {{{at.x - 0.001, at.y}, {at.x + 0.001, at.y}}};
  p.farm.places.push_back(
      {"line", farm::PlaceKind::power_line, {{}, {{{at.x, at.y - 0.0001}, {at.x, at.y}}}, {}}});
  const auto fields_of = [&](const char* word) {
    for (const plan::Caution& c : scenario::cautions(p.farm, all_of(p.farm, "bale")))
      if (c.about == word) return c.fields;
    return std::vector<int>{};
  };
  CHECK(fields_of("mud") == std::vector<int>{1});
  CHECK(fields_of("banks") == std::vector<int>{2});
  const auto lines = fields_of("lines");
  CHECK(std::find(lines.begin(), lines.end(), 2) != lines.end());
}

TEST_CASE("every caution has a source or says that it is common practice, and none grants a burn",
          "[identity]") {
  const farm::Problem p = small_problem(2);
  for (const char* method : {"burn", "bale", "flood", "chop_disk"})
    for (const plan::Caution& c : scenario::cautions(p.farm, all_of(p.farm, method))) {
      CAPTURE(c.about, c.text);
      CHECK(!c.source.empty());
      if (c.about != "burning") continue;
      for (const char* word :
           {"allowed", "permitted", "approved", "cleared", "legal", " OK", " safe", " may "})
        CHECK(c.text.find(word) == std::string::npos);
    }
}
