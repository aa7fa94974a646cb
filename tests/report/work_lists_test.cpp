// Work lists: hours only inside the forecast, every stretch on its people's pages, cautions where they
// belong.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>

#include "aftercut/report/exports.hpp"
#include "aftercut/scenario/cautions.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

using nlohmann::json;

std::string lists_of(const std::string& plan, report::Language language = report::Language::english) {
  return report::export_of(plan, "work-lists.html", {report::Paper::a4, language}).value().bytes;
}

/// The page of one person, "<section ...>" to "</section>".
std::string page_of(const std::string& lists, const std::string& person) {
  const auto at = lists.find("Work list: " + person);
  REQUIRE(at != std::string::npos);
  return lists.substr(at, lists.find("</section>", at) - at);
}

std::ptrdiff_t times_in(const std::string& text) {
  static const std::regex span{R"(\d\d:\d\d – \d\d:\d\d)"};
  return std::distance(std::sregex_iterator{text.begin(), text.end(), span}, std::sregex_iterator{});
}

/// The sample as of a day on which work falls in the year shown.
test::Sample at_work(std::optional<int> forecast_days) {
  auto s = test::sample();
  const auto& run = *std::ranges::find(s.planned.runs, s.planned.plan.schedule_year, &plan::YearRun::year);
  s.problem.as_of = s.planned.plan.as_of = s.problem.farm.season.date(run.work.front().day);
  if (forecast_days) s.planned.plan.forecast_until = s.problem.as_of + (*forecast_days - 1);
  s.planned.plan.cautions = scenario::cautions(s.problem.farm, s.planned.plan.decision);
  return s;
}

}  // namespace

TEST_CASE("without a forecast work has an order and weeks, but no hours", "[identity]") {
  const std::string lists = lists_of(plan_text(at_work({})));
  CHECK(times_in(lists) == 0);
  CHECK(lists.find("he week") != std::string::npos);
  CHECK(lists.find("Today and this week, in this order") != std::string::npos);
}

TEST_CASE("every stretch inside the forecast stands with its hours on the pages of its people",
          "[identity]") {
  for (const int days : {1, 4, 7, 30}) {
    const auto s = at_work(days);
    const json plan = json::parse(plan_text(s));
    const std::string lists = lists_of(plan.dump());
    const std::string from = iso(s.problem.as_of), to = iso(s.problem.as_of + (std::min(days, 7) - 1));
    std::ptrdiff_t all = 0;
    for (const json& person : plan["operators"]) {
      std::ptrdiff_t wanted = 0;
      for (const json& r : plan["schedule"]) {
        const std::string day = r["start"].get<std::string>().substr(0, 10);
        const bool has = std::ranges::count(r["operators"], person["id"]) > 0;
        wanted += has && day >= from && day <= to ? 1 : 0;
      }
      INFO(person["name"] << ", " << days << " days");
      CHECK(times_in(page_of(lists, person["name"])) == wanted);
      all += wanted;
    }
    CHECK(all > 0);
  }
}

TEST_CASE("a job beyond the forecast that some years bring this week is listed once, without hours",
          "[identity]") {
  const auto s = at_work(1);
  const json plan = json::parse(plan_text(s));
  const std::string lists = lists_of(plan.dump());
  static const std::regex number{R"(<tr><td>\d+</td>)"};
  const auto numbered = static_cast<std::size_t>(
      std::distance(std::sregex_iterator{lists.begin(), lists.end(), number}, std::sregex_iterator{}));
  std::size_t wanted = 0;
  const std::string today = iso(s.problem.as_of), last = iso(s.problem.as_of + 6);
  for (const json& f : plan["fields"])
    for (const json& j : f["jobs"]) {
      const bool today_already = std::ranges::any_of(plan["schedule"], [&](const json& r) {
        return r["field"] == f["id"] && r["step"] == j["step"] && r["pass"] == j["pass"] &&
               r["operation"] == j["operation"] && r["start"].get<std::string>().substr(0, 10) <= today;
      });
      wanted += j["first"]["p10"].get<std::string>() <= last && !today_already ? 1 : 0;
    }
  CHECK(wanted > 0);
  CHECK(numbered == wanted);
}

TEST_CASE("cautions stand on a page only where its jobs call for them", "[identity]") {
  const auto s = at_work(30);
  const json plan = json::parse(plan_text(s));
  const std::string lists = lists_of(plan.dump());
  const auto text_about = [&](const std::string& about) -> std::string {
    for (const json& c : plan["cautions"])
      if (c["about"] == about) return c["text"];
    return "";
  };
  const std::string burning = text_about("burning"), storms = text_about("storms");
  REQUIRE_FALSE(burning.empty());
  for (const json& person : plan["operators"]) {
    const std::string page = page_of(lists, person["name"]);
    const bool burns = page.find("<span class=\"job\">Burn") != std::string::npos;
    const bool any = page.find("<span class=\"job\">") != std::string::npos;
    INFO(person["name"]);
    CHECK((page.find(burning) != std::string::npos) == burns);
    CHECK((page.find("before each burn") != std::string::npos) == burns);
    CHECK((page.find(storms) != std::string::npos) == any);
  }
}

}  // namespace aftercut
