// The demo season from its journal: looked at, planned again, audited, reviewed, carried into the next one.

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>
#include <vector>

#include "catch2/catch.hpp"
#include "command_line.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;

namespace {

const std::filesystem::path season = std::filesystem::path{AFTERCUT_SOURCE_DIR} / "fields" / "demo-season";

/// Lines of a table whose first column, a day, is `day` (`until` false) or before it, without that column.
std::string rows(const char* file, const std::string& day, bool until) {
  std::istringstream in{text_of(season / file)};
  std::string out, line;
  for (bool head = true; std::getline(in, line); head = false) {
    const std::size_t comma = line.find(',');
    const std::string first = line.substr(0, comma);
    if (head || (until ? first < day : first == day)) out += line.substr(comma + 1) + "\n";
  }
  return out;
}

class DemoSeason {
 public:
  DemoSeason() {
    std::filesystem::copy_file(season / "weather.csv", demo_.farm() / "so-far.csv");
    edit(demo_.farm() / "farm.json", " \"prices\": {",
         " \"weather_so_far\": {\"file\": \"so-far.csv\"},\n \"forecast\": {\"file\": \"forecast.csv\"},\n"
         " \"prices\": {");
  }
  [[nodiscard]] std::string farm() const { return demo_.farm().string(); }
  [[nodiscard]] std::string out(const std::string& name) const { return (demo_.root() / name).string(); }

  /// The morning of a Monday: what was written down by then, and its forecast.
  Ran wake_on(const std::string& day, const std::string& evening) const {
    put_text(demo_.farm() / "forecast.csv", rows("forecasts.csv", day, false));
    put_text(demo_.root() / "written.csv", rows("journal.csv", day, true));
    return run_program("record " + farm() + " --import " + out("written.csv") + " --now " + evening +
                       "T20:00:00Z");
  }
  Ran plan(const std::string& day, const std::string& after, const std::string& effort) const {
    return run_program("plan " + farm() + " --as-of " + day + " --out " + out(day) + effort +
                       (after.empty() ? "" : " --after " + out(after)));
  }
  void need_sound(const Ran& planned, const std::string& day) const {
    INFO(planned.out << planned.err);
    REQUIRE(planned.code <= 1);
    const Json json = Json::parse(text_of(std::filesystem::path{out(day)} / "plan.json"));
    CHECK(json["audit"]["ok"] == true);
    CHECK(json["audit"]["checks"] > 20000);
    const Ran audited = run_program("audit " + farm() + " " + out(day));
    INFO(audited.out << audited.err);
    CHECK(audited.code == 0);
  }

 private:
  DemoCopy demo_;
};

struct Morning {
  std::string day, evening;
};
const std::vector<Morning> mornings{{"2026-10-19", "2026-10-18"}, {"2026-10-26", "2026-10-25"},
                                    {"2026-11-02", "2026-11-01"}, {"2026-11-16", "2026-11-15"},
                                    {"2026-12-07", "2026-12-06"}, {"2027-02-15", "2027-02-14"},
                                    {"2027-03-15", "2027-03-14"}, {"2027-04-12", "2027-04-11"}};
const std::string short_search = " --effort 150 --one-more 0 --bound-rounds 1 --years 2001..2008";

int entries(const DemoSeason& s) {
  return static_cast<int>(
      Json::parse(run_program("record " + s.farm() + " --list --json").out)["entries"].size());
}

}  // namespace

TEST_CASE("the demo season is planned again in the wet, reviewed and carried on", "[cross]") {
  const DemoSeason s;
  put_text(std::filesystem::path{s.farm()} / "forecast.csv", rows("forecasts.csv", "2026-10-12", false));
  s.need_sound(s.plan("2026-10-12", "", short_search), "2026-10-12");
  CHECK(s.wake_on("2026-11-16", "2026-11-15").code == 0);
  s.need_sound(s.plan("2026-11-16", "2026-10-12", short_search), "2026-11-16");
  CHECK(s.wake_on("2027-02-15", "2027-02-14").code == 0);
  CHECK(entries(s) >= 150);
  const Ran look =
      run_program("watch " + s.farm() + " --plan " + s.out("2026-11-16") + " --as-of 2027-02-15");
  CHECK(look.code <= 1);
  CHECK_THAT(look.out, Catch::Contains("A3: chop, disk twice"));
  CHECK(s.wake_on("2027-05-24", "2027-05-23").code == 0);
  CHECK(entries(s) == 366);
  const std::string at_the_end = " --plan " + s.out("2026-10-12") + " --as-of 2027-05-24";
  const Ran review = run_program("review " + s.farm() + at_the_end);
  CHECK(review.code == 0);
  CHECK_THAT(review.out, Catch::Contains("Yield of D5: 9,110 kg/ha, expected were 9,600"));
  CHECK_THAT(review.out, Catch::Contains("\"disk 1\".speed"));
  CHECK_THAT(review.out, !Catch::Contains("\"chisel\".speed"));
  CHECK_THAT(review.out, !Catch::Contains("no work recorded, planned bale"));
  const Ran next = run_program("next-season " + s.farm() + at_the_end + " --out " + s.out("next"));
  INFO(next.out << next.err);
  REQUIRE(next.code == 0);
  const Ran check = run_program("check " + s.out("next"));
  INFO(check.out << check.err);
  CHECK(check.code == 0);
  CHECK_THAT(check.out, Catch::Contains("30 weather years"));
  const Json farm = Json::parse(text_of(std::filesystem::path{s.out("next")} / "farm.json"));
  const auto b3 = std::ranges::find(farm["field_values"], Json("B3"), [](const Json& f) { return f["id"]; });
  CHECK((*b3)["history"][0]["burned"] == true);
}

TEST_CASE("all eight plans of the demo season made again are clean", "[cross][.long]") {
  const DemoSeason s;
  put_text(std::filesystem::path{s.farm()} / "forecast.csv", rows("forecasts.csv", "2026-10-12", false));
  s.need_sound(s.plan("2026-10-12", "", short_search), "2026-10-12");
  std::string stands = "2026-10-12";
  for (const Morning& m : mornings) {
    INFO(m.day);
    CHECK(s.wake_on(m.day, m.evening).code == 0);
    s.need_sound(s.plan(m.day, stands, " --effort 1500 --one-more 2"), m.day);
    stands = m.day;
  }
}
