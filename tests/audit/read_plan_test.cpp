// plan.json and plan-years.jsonl as they are written come back as the values that they were; faults in them
// are issues.

#include <unistd.h>

#include "catch2/catch.hpp"
#include "sound_plan.hpp"

#include <filesystem>
#include <fstream>

#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"

using namespace aftercut;
using namespace aftercut::test;
namespace fs = std::filesystem;

namespace {

struct Texts {
  std::string plan, years, fall_backs;
};

const Texts& written() {
  static const Texts texts{report::plan_json(locked_problem(), sound_plan(), audit::Audit{}),
                           report::years_jsonl(locked_problem(), sound_plan()),
                           report::fall_back_years_jsonl(locked_problem(), sound_plan())};
  return texts;
}

Result<plan::PlannedYears> read(const Texts& texts) {
  const fs::path folder =
      fs::temp_directory_path() / ("aftercut-read-plan-test-" + std::to_string(::getpid()));
  fs::create_directories(folder);
  std::ofstream{folder / "plan.json", std::ios::binary} << texts.plan;
  std::ofstream{folder / "plan-years.jsonl", std::ios::binary} << texts.years;
  std::ofstream{folder / "fall-back-years.jsonl", std::ios::binary} << texts.fall_backs;
  auto result = audit::read_plan(folder / "plan.json", locked_problem());
  fs::remove_all(folder);
  return result;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

void expect_issue(const Texts& texts, const std::string& part) {
  const auto result = read(texts);
  REQUIRE_FALSE(result.ok());
  std::string all;
  for (const auto& issue : result.issues()) all += to_text(issue) + "\n";
  INFO(all);
  CHECK(all.find(part) != std::string::npos);
  for (const auto& issue : result.issues()) {
    CHECK_FALSE(issue.file.empty());
    CHECK_FALSE(issue.fix.empty());
  }
}

}  // namespace

TEST_CASE("a written plan is read back and is clean", "[cross]") {
  const auto result = read(written());
  for (const auto& issue : result.issues()) UNSCOPED_INFO(to_text(issue));
  REQUIRE(result.ok());
  const plan::PlannedYears& back = result.value();
  const audit::Audit a = audit::check(locked_problem(), back);
  INFO(listed(a));
  CHECK(a.ok());
  const auto& planned = sound_plan();
  CHECK(back.plan.decision == planned.plan.decision);
  CHECK(back.plan.seed == planned.plan.seed);
  CHECK(back.plan.cost_cents == planned.plan.cost_cents);
  CHECK(back.plan.shown_years == planned.plan.shown_years);
  REQUIRE(back.runs.size() == planned.runs.size());
  for (std::size_t y = 0; y < back.runs.size(); ++y) {
    CHECK(back.runs[y].work.size() == planned.runs[y].work.size());
    for (std::size_t f = 0; f < back.runs[y].fields.size(); ++f)
      CHECK(back.runs[y].fields[f].cost == planned.runs[y].fields[f].cost);
  }
}

TEST_CASE("a figure changed in the files is a violation", "[cross]") {
  Texts texts = written();
  const auto chance = texts.plan.find("\"chance_ready\": ");
  REQUIRE(chance != std::string::npos);
  for (auto at = chance; at != std::string::npos; at = texts.plan.find("\"chance_ready\": ", at + 5)) {
    const auto end = texts.plan.find(',', at);
    texts.plan.replace(at, end - at, "\"chance_ready\": 0.123");
  }
  const auto result = read(texts);
  REQUIRE(result.ok());
  CHECK(broken_rules(locked_problem(), result.value()).contains("wrong chance"));
}

TEST_CASE("a load and an end of a range changed in the files are violations", "[cross]") {
  const Texts& good = written();
  const auto rules = [&](const std::string& from, const std::string& to) {
    const auto result = read({replaced(good.plan, from, to), good.years, good.fall_backs});
    REQUIRE(result.ok());
    return broken_rules(locked_problem(), result.value());
  };
  CHECK(rules("\"loads\": ", "\"loads\": 9").contains("wrong bale count"));
  Texts texts = good;
  for (auto at = texts.plan.find("\"low\": "); at != std::string::npos;
       at = texts.plan.find("\"low\": ", at + 5))
    texts.plan.insert(at + 7, "12345");
  const auto result = read(texts);
  REQUIRE(result.ok());
  const auto broken = broken_rules(locked_problem(), result.value());
  CHECK(broken.contains("wrong CO2e"));
  CHECK(broken.contains("wrong emissions"));
  expect_issue({replaced(good.plan, "\"twine_m\"", "\"twine\""), good.years, good.fall_backs}, "twine_m");
  expect_issue({replaced(good.plan, "\"co2_biogenic\"", "\"co2\""), good.years, good.fall_backs},
               "co2_biogenic");
}

TEST_CASE("jobs and the end of the forecast are read back, and looked at", "[cross]") {
  const Texts& good = written();
  const auto back = read(good);
  REQUIRE(back.ok());
  for (std::size_t f = 0; f < back.value().plan.fields.size(); ++f)
    CHECK(back.value().plan.fields[f].jobs == sound_plan().plan.fields[f].jobs);
  const auto with = [&](const std::string& from, const std::string& to) {
    return Texts{replaced(good.plan, from, to), good.years, good.fall_backs};
  };
  expect_issue(with("\"jobs\"", "\"tasks\""), "jobs");
  expect_issue(with("\"years_done\"", "\"years_worked\""), "years_done");
  expect_issue(with("\"forecast_until\": null", "\"forecast_until\": 5"), "forecast_until");
  const auto changed = read(with("\"forecast_until\": null", "\"forecast_until\": \"2026-10-01\""));
  REQUIRE(changed.ok());
  CHECK(broken_rules(locked_problem(), changed.value()).contains("wrong end of the forecast"));
}

TEST_CASE("a missing file is an issue", "[cross]") {
  const auto result =
      audit::read_plan(fs::temp_directory_path() / "aftercut-no-such-folder" / "plan.json", locked_problem());
  REQUIRE_FALSE(result.ok());
  CHECK(result.issues().size() == 3);
}

TEST_CASE("broken files are issues", "[cross]") {
  const Texts& good = written();
  expect_issue({good.plan.substr(0, good.plan.size() / 2), good.years, good.fall_backs}, "not a JSON object");
  expect_issue({good.plan, good.years.substr(0, good.years.size() - 40), good.fall_backs},
               "not a JSON object");
  expect_issue({"[]", good.years, good.fall_backs}, "not a JSON object");
  expect_issue({"", ""}, "not a JSON object");
  expect_issue({good.plan, ""}, "no lines");
  expect_issue({good.plan, "\xff\xfe not text\n"}, "not a JSON object");
}

TEST_CASE("unknown ids, missing keys and wrong kinds are issues", "[cross]") {
  const Texts& good = written();
  expect_issue({good.plan, replaced(good.years, "\"operation\":\"chisel\"", "\"operation\":\"sing\"")},
               "id of a operation");
  expect_issue({good.plan, replaced(good.years, "\"field\":\"1\"", "\"field\":\"one\"")}, "id of a field");
  expect_issue({good.plan, replaced(good.years, "\"tractor\":\"T2\"", "\"tractor\":\"T9\"")},
               "id of a tractor");
  expect_issue({good.plan, replaced(good.years, "\"crew\":[\"", "\"crew\":[\"nobody\",\"")},
               "id of a person");
  expect_issue({good.plan, replaced(good.years, "\"status\":\"", "\"status\":\"un")}, "status");
  expect_issue({good.plan, replaced(good.years, "\"start_min\":", "\"began\":")}, "start_min");
  expect_issue({good.plan, replaced(good.years, "\"start_min\":", "\"start_min\":1.5e0,\"x\":")},
               "whole number");
  expect_issue({good.plan, replaced(good.years, "\"fell_back\":false", "\"fell_back\":0")}, "true or false");
  expect_issue({good.plan, replaced(good.years, "\"date\":\"2026-", "\"date\":\"2026-13-")}, "a date");
  expect_issue({good.plan, replaced(good.years, "aftercut-plan-years-1", "aftercut-plan-years-9")},
               "aftercut-plan-years-1");
  expect_issue({replaced(good.plan, "aftercut-plan-1", "aftercut-plan-9"), good.years, good.fall_backs},
               "aftercut-plan-1");
  expect_issue({replaced(good.plan, "\"seed\": ", "\"seed\": -"), good.years, good.fall_backs}, "seed");
  expect_issue({replaced(good.plan, "\"policy\"", "\"politics\""), good.years, good.fall_backs}, "policy");
}

TEST_CASE("a schedule that is not the work of its year is an issue", "[cross]") {
  const Texts& good = written();
  const auto at = good.plan.find("\"schedule\": [");
  REQUIRE(at != std::string::npos);
  const std::string head = good.plan.substr(0, at), tail = good.plan.substr(at);
  expect_issue({head + replaced(tail, "T07:", "T08:"), good.years, good.fall_backs}, "schedule[");
  expect_issue(
      {head + replaced(tail, "\"tractor\": \"T2\"", "\"tractor\": \"T1\""), good.years, good.fall_backs},
      "schedule[");
}
