// What a farm folder says of burning: facts of fields, the authority's calls, and faults in both.
#include <algorithm>

#include "catch2/catch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

const char* const rules = R"({"jurisdiction": "Invented", "authority": "the invented office",
  "burn_day_chance": {"value": 0.4, "source": "invented"}, "rules": []})";

FarmFiles with_calls(const std::string& table) {
  FarmFiles files = small_farm();
  files.farm["burn_rules"] = "rules.json";
  files.farm["burn_days"] = {{"file", "calls.csv"}};
  files.others["rules.json"] = rules;
  files.others["calls.csv"] = table;
  return files;
}

bool told(const FarmFiles& files, const std::string& file, const std::string& place,
          const std::string& found) {
  const auto read = read_farm(files);
  const Issues issues = read.issues();
  for (const Issue& i : issues) UNSCOPED_INFO(to_text(i));
  return std::any_of(issues.begin(), issues.end(), [&](const Issue& i) {
    return i.file == file && i.place.find(place) != std::string::npos &&
           i.found.find(found) != std::string::npos && !i.expected.empty() && !i.fix.empty();
  });
}

}  // namespace

TEST_CASE("facts for a burn arrive, in their own units", "[regression]") {
  FarmFiles files = small_farm();
  files.farm["field_defaults"]["burn_people"] = 3;
  files.farm["field_values"] =
      Json::parse(R"([{"id": "B", "burn_zone": "A", "burn_leave": "leave of 3 October",
    "clean_record_years": 5, "burn_water": "500 gal", "firebreak_ft": 12, "dryness_test": "2020-10-20",
    "burn_ignition": "backing", "disease_samples": [{"disease": "stem rot", "share": "18 %"},
    {"disease": "blast", "share_percent": 2}]}])");
  const farm::Problem p = sound(files);
  const farm::BurnFacts& b = field_of(p, "B").burn;
  CHECK(b.zone == "A");
  CHECK(b.leave == "leave of 3 October");
  CHECK(b.clean_years == 5);
  CHECK(b.people == 3);
  CHECK(*b.water_l == Approx(1892.705892));
  CHECK(*b.firebreak_m == Approx(3.6576));
  CHECK(*b.dryness_test == make_date(2020, 10, 20));
  CHECK(b.ignition == "backing");
  REQUIRE(b.samples.size() == 2);
  CHECK(b.samples[0].share == Approx(0.18));
  CHECK(b.samples[1].share == Approx(0.02));
  CHECK_FALSE(field_of(p, "A").burn.zone);
}

TEST_CASE("the authority's calls are read in any order", "[regression]") {
  const farm::Problem p =
      sound(with_calls("date,class\n2019-10-02,no burn\n2019-10-01,burn\n2018-11-05,burn\n"));
  REQUIRE(p.farm.burn_calls.size() == 3);
  CHECK(p.farm.burn_calls.front() == burn::DayCall{make_date(2018, 11, 5), true});
  CHECK(burn::called_on(p.farm.burn_calls, make_date(2019, 10, 2)) == false);
  CHECK_FALSE(burn::called_on(p.farm.burn_calls, make_date(2019, 10, 3)));
  CHECK(std::any_of(p.farm.inputs.begin(), p.farm.inputs.end(),
                    [](const auto& i) { return i.path == "calls.csv"; }));
}

TEST_CASE("faults of burn facts and calls, all at once", "[regression]") {
  const FarmFiles calls =
      with_calls("date,class\n2019-02-30,burn\n2019-10-01,perhaps\n2019-10-05,burn\n2019-10-05,burn\n");
  CHECK(told(calls, "calls.csv", "line 2, column date", "2019-02-30"));
  CHECK(told(calls, "calls.csv", "line 3, column class", "perhaps"));
  CHECK(told(calls, "calls.csv", "line 5, column date", "twice"));
  CHECK(told(with_calls("day,class\n2019-10-01,burn\n"), "calls.csv", "column date", "no such column"));
  FarmFiles bare = with_calls("date,class\n2019-10-01,burn\n");
  bare.farm.erase("burn_rules");
  CHECK(told(bare, "farm.json", "burn_days", "calls.csv"));
  FarmFiles facts = small_farm();
  facts.farm["field_values"] = Json::parse(R"([{"id": "B", "burn_water": "5 m",
    "disease_samples": [{"disease": "stem rot"}, {"disease": "blast", "share": "2 %"}, {"disease": "blast", "share": "3 %"}]}])");
  CHECK(told(facts, "farm.json", "burn_water", "5 m"));
  CHECK(told(facts, "farm.json", "disease_samples[0].share", "nothing"));
  CHECK(told(facts, "farm.json", "disease_samples[2].disease", "twice"));
}
