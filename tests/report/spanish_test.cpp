// Every caution, operation, method and machine kind that the program can name has its Spanish.
#include "spanish.hpp"

#include <map>

#include "aftercut/method/recipe.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/scenario/cautions.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

/// Under each method in turn, on a farm with levees, soft ground and a power line: all that can be said.
std::map<std::string, std::size_t> every_caution(const farm::Farm& farm) {
  std::map<std::string, std::size_t> most;
  for (std::size_t r = 0; r < farm.book.recipes.size(); ++r) {
    plan::Decision d;
    d.method.assign(farm.fields.size(), static_cast<int>(r));
    std::map<std::string, std::size_t> here;
    for (const plan::Caution& c : scenario::cautions(farm, d)) ++here[c.about];
    for (const auto& [about, n] : here) most[about] = std::max(most[about], n);
  }
  return most;
}

}  // namespace

TEST_CASE("every caution has its Spanish", "[cross]") {
  farm::Farm farm = test::sample().problem.farm;
  farm.fields.pop_back();  // the one without a shape
  for (auto& f : farm.fields) f.ground.state = farm::GroundState::rutted;
  farm.places.push_back({"line", farm::PlaceKind::power_line, farm.fields[0].shape});
  const auto all = every_caution(farm);
  CHECK(all.size() >= 14);
  std::map<std::string, std::size_t> spanish;
  for (const auto& [about, n] : report::sheets::spanish_cautions()) spanish[about] += n;
  CHECK(spanish == all);
  for (const auto& [about, n] : all) {
    for (std::size_t k = 0; k < n; ++k) CHECK(report::sheets::spanish_caution(about, k));
    CHECK_FALSE(report::sheets::spanish_caution(about, n));
  }
}

TEST_CASE("every built-in method, operation and machine kind has its Spanish", "[cross]") {
  const method::Book book = method::builtin_book();
  for (const auto& r : book.recipes) {
    INFO(r.id.value);
    CHECK(report::sheets::spanish_method(r.id.value));
  }
  for (const auto& o : book.operations) {
    INFO(o.id.value);
    CHECK(report::sheets::spanish_operation(o.id.value));
    if (!o.implement.empty()) CHECK(report::sheets::spanish_machine_kind(o.implement));
  }
}

TEST_CASE("a Spanish work list has no English but the farm's own names and the plan's sources",
          "[regression]") {
  auto s = test::sample();
  s.planned.plan.cautions = scenario::cautions(s.problem.farm, s.planned.plan.decision);
  const std::string text = report::plan_json(s.problem, s.planned, s.audit);
  for (const char* name : {"work-lists.html", "combine-card.html"}) {
    const std::string page =
        report::export_of(text, name, {report::Paper::a4, report::Language::spanish}).value().bytes;
    CHECK(page.find("lang=\"es\"") != std::string::npos);
    for (const char* english : {">Field<", ">Job<", ">With<", "the week", ">Today", "Take care",
                                "common practice", "Guards on", "Work list", "Combine card", " Oct 2026"}) {
      INFO(name << ": " << english);
      CHECK(page.find(english) == std::string::npos);
    }
  }
}

}  // namespace aftercut
