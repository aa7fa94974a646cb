// bound.json as it is written comes back as the values that it was; faults in it, and a gap that does not
// follow, are violations.

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <functional>
#include <nlohmann/json.hpp>

#include "aftercut/audit/bound_proof.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "bounded_plan.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::test;
namespace fs = std::filesystem;
using Json = nlohmann::json;

namespace {

/// A plan folder with its own bound.json and plan.json, gone with the value.
class PlanFolder {
 public:
  PlanFolder() { REQUIRE(report::write(bounded_problem(), bounded_plan(), audit::Audit{}, path).ok()); }
  PlanFolder(const PlanFolder&) = delete;
  PlanFolder& operator=(const PlanFolder&) = delete;
  ~PlanFolder() { fs::remove_all(path); }

  const fs::path path = fs::temp_directory_path() / ("aftercut-bound-test-" + std::to_string(::getpid()));
  [[nodiscard]] Json bound() const { return Json::parse(read_file(path / "bound.json").value()); }
  void put(const char* file, const std::string& text) const {
    std::ofstream{path / file, std::ios::binary} << text;
  }

  /// Rules broken in the folder as the audit reads it.
  [[nodiscard]] std::set<std::string> rules() const {
    auto planned = audit::read_plan(path / "plan.json", bounded_problem());
    REQUIRE(planned.ok());
    plan::PlannedYears p = std::move(planned).value();
    audit::BoundRead read = audit::read_bound(path / "plan.json", bounded_problem(), p.plan);
    p.bound = read.proof;
    std::set<std::string> rules;
    for (const auto& v : audit::both(read.found, audit::check(bounded_problem(), p)).violations)
      rules.insert(v.rule);
    return rules;
  }
};

}  // namespace

TEST_CASE("a written bound is read back to the same values", "[cross]") {
  const PlanFolder folder;
  const auto read = audit::read_bound(folder.path / "plan.json", bounded_problem(), bounded_plan().plan);
  INFO(listed(read.found));
  CHECK(read.found.ok());
  REQUIRE(read.proof);
  CHECK(*read.proof == *bounded_plan().bound);
  CHECK(folder.rules().empty());
}

TEST_CASE("faults of the written bound are violations, each by its name", "[cross]") {
  const PlanFolder folder;
  const std::string good = read_file(folder.path / "bound.json").value();
  const auto after = [&](const std::function<void(Json&)>& change) {
    Json b = Json::parse(good);
    change(b);
    folder.put("bound.json", b.dump());
    return folder.rules();
  };
  const auto row = [](Json& b) -> Json& {
    for (Json& year : b["years"])
      if (!year["multipliers"].empty()) return year["multipliers"][0];
    throw std::runtime_error("no multiplier");
  };
  CHECK(after([&](Json& b) { row(b)["id"] = "T99"; }).contains("unknown multiplier"));
  CHECK(after([&](Json& b) { row(b)["kind"] = "horse"; }).contains("unknown multiplier"));
  CHECK(after([&](Json& b) { row(b)["days"][0] = "2031-01-01"; }).contains("unknown multiplier"));
  CHECK(after([&](Json& b) { row(b)["cents_a_minute"][0] = -1; }).contains("multiplier below zero"));
  CHECK(after([&](Json& b) {
          Json& most = *std::ranges::max_element(row(b)["cents_a_minute"]);
          most = 1.5 * most.get<double>();
        }).contains("wrong sum paid back"));
  CHECK(after([&](Json& b) { b["years"].erase(0); }).contains("years of the bound"));
  for (const char* key : {"schema", "years", "fields", "bound_cents", "currency"})
    CHECK(after([&](Json& b) { b.erase(key); }).contains("broken bound.json"));
  CHECK(after([&](Json& b) { row(b)["days"].erase(0); }).contains("broken bound.json"));
  CHECK(after([&](Json& b) { row(b)["cents_a_minute"][0] = "dear"; }).contains("broken bound.json"));
  CHECK(after([&](Json& b) { b["fields"].erase(0); }).contains("broken bound.json"));
  CHECK(after([&](Json& b) { b["fields"][0]["methods"][0]["id"] = "sing"; }).contains("broken bound.json"));
  folder.put("bound.json", good.substr(0, good.size() / 2));
  CHECK(folder.rules() == std::set<std::string>{"broken bound.json", "bound without its multipliers"});
  fs::remove(folder.path / "bound.json");
  CHECK(folder.rules() == std::set<std::string>{"bound without its multipliers"});
}

TEST_CASE("a gap of plan.json that is not plan less bound is named", "[cross]") {
  const PlanFolder folder;
  const std::string good = read_file(folder.path / "plan.json").value();
  const auto after = [&](const char* key, const Json& value) {
    Json p = Json::parse(good);
    p["objective"][key] = value;
    folder.put("plan.json", p.dump());
    return folder.rules();
  };
  const Json objective = Json::parse(good)["objective"];
  CHECK(after("gap", objective["gap"]).empty());
  CHECK(after("gap", objective["gap"].get<double>() - 0.01) == std::set<std::string>{"wrong gap"});
  CHECK(after("gap", nullptr) == std::set<std::string>{"wrong gap"});
  CHECK(after("gap_percent", objective["gap_percent"].get<double>() + 0.02) ==
        std::set<std::string>{"wrong gap"});
  CHECK(after("bound", objective["bound"].get<double>() + 0.01).contains("wrong bound"));
  CHECK(after("bound", nullptr).contains("multipliers without a bound"));
}
