#include "aftercut/report/report.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "aftercut/core/save_file.hpp"
#include "aftercut/geo/layer.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using test::Kind;

// A folder of this test's own, gone at its end.
struct Folder {
  explicit Folder(const std::string& name)
      : path{fs::temp_directory_path() / ("aftercut_report_" + name + "_" + std::to_string(::getpid()))} {
    fs::remove_all(path);
    fs::create_directory(path);
  }
  ~Folder() {
    std::error_code ignored;
    fs::permissions(path, fs::perms::owner_all, ignored);
    fs::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  fs::path path;
};

std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator{folder}) names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

const std::vector<std::string> all_names{
    "calendar.ics", "fall-back-years.jsonl", "fields.geojson",   "fields.gpkg",     "plan-years.jsonl",
    "plan.json",    "report.html",           "truck-sheet.html", "truck-sheet.txt", "work.csv",
    "work.xlsx"};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

// Cells of one CSV line (RFC 4180).
std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells{""};
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"') {
      cells.back() += '"';
      ++i;
    } else if (line[i] == '"') {
      quoted = !quoted;
    } else if (line[i] == ',' && !quoted) {
      cells.emplace_back();
    } else {
      cells.back() += line[i];
    }
  }
  return cells;
}

TEST_CASE("The same plan gives the same bytes", "[identity]") {
  const auto a = test::sample(), b = test::sample();
  const std::string plan = report::plan_json(a.problem, a.planned, a.audit);
  CHECK(plan == report::plan_json(b.problem, b.planned, b.audit));
  CHECK(report::years_jsonl(a.problem, a.planned) == report::years_jsonl(b.problem, b.planned));
  CHECK(report::work_csv(a.problem, a.planned) == report::work_csv(b.problem, b.planned));
  CHECK(report::report_html(plan, a.problem.farm) == report::report_html(plan, b.problem.farm));
}

TEST_CASE("Money in plan.json is the cents of the plan", "[identity]") {
  const auto s = test::sample();
  const json plan = json::parse(report::plan_json(s.problem, s.planned, s.audit));
  std::vector<test::Row> rows;
  for (std::size_t f = 0; f < s.planned.plan.fields.size(); ++f) {
    for (std::size_t m = 0; m < s.planned.plan.fields[f].methods.size(); ++m) {
      const auto& value = s.planned.plan.fields[f].methods[m];
      const json& shown = plan["fields"][f]["methods"][m];
      CHECK(shown["possible"] == value.possible);
      CHECK(shown.contains("cost") == value.possible);
      if (!value.possible) continue;
      double sum = 0.0;
      for (const auto& [name, part] : shown["cost_parts"].items()) sum += part.get<double>();
      rows.push_back({"parts add up to the full cost", "plan values", Kind::identity,
                      static_cast<double>(value.mean_cost.full()) / 100.0, sum, 0.005});
      rows.push_back({"cost per ha times area is the cost", "plan values", Kind::identity,
                      shown["cost"].get<double>(),
                      shown["cost_per_ha"].get<double>() * plan["fields"][f]["area_ha"].get<double>(), 0.3});
    }
  }
  rows.push_back(
      {"objective", "plan values", Kind::identity, 102345.67, plan["objective"]["plan"].get<double>(), 1e-9});
  test::check(rows);
}

TEST_CASE("A bound brings its gap; without a bound there is none", "[identity]") {
  auto s = test::sample();
  const json without = json::parse(report::plan_json(s.problem, s.planned, s.audit))["objective"];
  CHECK(without["bound"].is_null());
  CHECK(without["gap"].is_null());
  CHECK(without["gap_percent"].is_null());
  s.planned.plan.bound_cents = s.planned.plan.cost_cents * 9 / 10;
  const json with = json::parse(report::plan_json(s.problem, s.planned, s.audit))["objective"];
  test::check({{"gap percent", "(plan - bound) / plan", Kind::identity, 10.0,
                with["gap_percent"].get<double>(), 0.005},
               {"gap", "plan - bound", Kind::identity,
                with["plan"].get<double>() - with["bound"].get<double>(), with["gap"].get<double>(), 0.005}});
}

TEST_CASE("A fallow field has no planting day and nothing due", "[identity]") {
  const auto s = test::sample();
  const json field = json::parse(report::plan_json(s.problem, s.planned, s.audit))["fields"][6];
  CHECK(field["next_use"] == "fallow");
  CHECK(field["planting_date"].is_null());
  CHECK(field["unplanted_chance"].is_null());
  for (const auto& m : field["methods"]) {
    if (m["possible"].get<bool>()) CHECK(m["ready"]["p50"].is_null());
  }
}

TEST_CASE("A field not ready by its cut-off says so with the day", "[identity]") {
  auto s = test::sample();
  for (auto& m : s.planned.plan.fields[0].methods) m.ready.p90.reset();
  const json plan = json::parse(report::plan_json(s.problem, s.planned, s.audit));
  for (const auto& m : plan["fields"][0]["methods"]) {
    if (m["possible"].get<bool>()) CHECK(m["ready"]["p90"] == "not by 2027-05-30");
  }
}

TEST_CASE("A number that is not one is our own fault, never written", "[regression]") {
  auto s = test::sample();
  s.planned.plan.fields[0].load_kg_per_ha = std::nan("");
  CHECK_THROWS_AS(report::plan_json(s.problem, s.planned, s.audit), InternalError);
  s = test::sample();
  s.planned.plan.schedule_year = 1900;
  CHECK_THROWS_AS(report::plan_json(s.problem, s.planned, s.audit), InternalError);
}

TEST_CASE("plan-years.jsonl has a line a year, in the plan's order, with every field and stretch",
          "[identity]") {
  const auto s = test::sample();
  const auto lines = lines_of(report::years_jsonl(s.problem, s.planned));
  REQUIRE(lines.size() == s.planned.plan.years.size());
  for (std::size_t y = 0; y < lines.size(); ++y) {
    const json year = json::parse(lines[y]);
    CHECK(year["schema"] == "aftercut-plan-years-1");
    CHECK(year["year"] == s.planned.plan.years[y]);
    CHECK(year["fields"].size() == s.problem.farm.fields.size());
    CHECK(year["work"].size() == s.planned.runs[y].work.size());
    CHECK(year["water"].size() == s.planned.runs[y].water.size());
  }
  const json first = json::parse(lines[0]);
  CHECK(first["fields"][6]["status"] == "nothing_due");
  CHECK(first["fields"][7]["ready"].is_null());
  CHECK(first["work"][0]["date"] == iso(s.problem.farm.season.date(s.planned.runs[0].work[0].day)));
}

TEST_CASE("work.csv has a row a stretch of the shown year, in the farm's units", "[identity]") {
  const auto us = test::sample(farm::UnitSystem::us), si = test::sample(farm::UnitSystem::si);
  const auto us_lines = lines_of(report::work_csv(us.problem, us.planned));
  const auto si_lines = lines_of(report::work_csv(si.problem, si.planned));
  const auto& run = us.planned.runs[15];
  REQUIRE(run.year == us.planned.plan.schedule_year);
  REQUIRE(us_lines.size() == run.work.size() + 1);
  CHECK(us_lines[0] ==
        "date,field,field_name,operation,machine,tractor,operator,start,end,hours,area_ac,fuel_gal");
  CHECK(si_lines[0] ==
        "date,field,field_name,operation,machine,tractor,operator,start,end,hours,area_ha,fuel_l");
  for (std::size_t i = 0; i < run.work.size(); ++i) {
    const auto us_cells = cells_of(us_lines[i + 1]), si_cells = cells_of(si_lines[i + 1]);
    REQUIRE(us_cells.size() == 12);
    REQUIRE(si_cells.size() == 12);
    const auto& field = us.problem.farm.fields[static_cast<std::size_t>(run.work[i].field)];
    CHECK(us_cells[2] == field.name);
    test::check(
        {{"acres", "1 ac = 0.40468564224 ha", Kind::identity, run.work[i].area_ha / 0.40468564224,
          std::stod(us_cells[10]), 0.0051},
         {"hectares", "plan values", Kind::identity, run.work[i].area_ha, std::stod(si_cells[10]), 0.0051},
         {"gallons", "1 gal = 3.785411784 L", Kind::identity, run.work[i].fuel_l / 3.785411784,
          std::stod(us_cells[11]), 0.051}});
  }
}

TEST_CASE("No name can end the page's data or become markup", "[regression]") {
  auto s = test::sample();
  s.problem.farm.name = "</script><img src=x onerror=alert(1)> & \"farm\"";
  s.problem.farm.fields[0].name = "</ScRiPt><!--<script>";
  s.problem.farm.places[0].name = "<b>";
  const std::string page =
      report::report_html(report::plan_json(s.problem, s.planned, s.audit), s.problem.farm);
  const auto data = page.find("<script type=\"application/json\" id=\"plan\">");
  REQUIRE(data != std::string::npos);
  const auto begin = page.find('>', data) + 1, end = page.find("</script>", begin);
  const std::string text = page.substr(begin, end - begin);
  CHECK(text.find('<') == std::string::npos);
  const json plan = json::parse(text);
  CHECK(plan["farm"]["name"] == s.problem.farm.name);
  CHECK(plan["fields"][0]["name"] == s.problem.farm.fields[0].name);
  CHECK(page.find("<img") == std::string::npos);
  CHECK(page.find("<title>&lt;/script&gt;&lt;img src=x onerror=alert(1)&gt; &amp; &quot;farm&quot;") !=
        std::string::npos);
}

TEST_CASE("The page stands alone", "[identity]") {
  const auto s = test::sample();
  const std::string page =
      report::report_html(report::plan_json(s.problem, s.planned, s.audit), s.problem.farm);
  CHECK(page.find("default-src 'none'") != std::string::npos);
  CHECK(page.find("@@") == std::string::npos);
  CHECK(page.find("<link") == std::string::npos);
  CHECK(page.find(" src=\"http") == std::string::npos);
}

TEST_CASE("Everything is written, and written again the same", "[identity]") {
  const Folder folder{"write"};
  const auto s = test::sample();
  const auto out = report::write(s.problem, s.planned, s.audit, folder.path / "new" / "out");
  REQUIRE(out.ok());
  CHECK(names_in(folder.path / "new" / "out") == all_names);
  CHECK(names_in(folder.path / "new") == std::vector<std::string>{"out"});
  const std::string first = read_file(folder.path / "new/out/plan.json").value();
  std::ofstream{folder.path / "new/out/mine.txt"} << "kept";
  REQUIRE(report::write(s.problem, s.planned, s.audit, folder.path / "new" / "out/").ok());
  CHECK(read_file(folder.path / "new/out/plan.json").value() == first);
  CHECK(read_file(folder.path / "new/out/mine.txt").value() == "kept");
  CHECK(names_in(folder.path / "new") == std::vector<std::string>{"out"});
}

TEST_CASE("The field layers can be read back with the plan's columns", "[cross]") {
  const Folder folder{"layers"};
  const auto s = test::sample();
  REQUIRE(report::write(s.problem, s.planned, s.audit, folder.path / "out").ok());
  for (const char* name : {"out/fields.geojson", "out/fields.gpkg"}) {
    const auto layer = geo::read_layer(folder.path / name);
    REQUIRE(layer.ok());
    REQUIRE(layer.value().features.size() == 8);
    const auto& first = layer.value().features[0];
    CHECK(first.values.at("id") == "1");
    CHECK(first.values.at("method") == "burn");
    CHECK(first.values.count("cost_per_ha") == 1);
    test::check({{"area of the polygon read back [ha]", "Karney2013", Kind::cross,
                  s.problem.farm.fields[0].area.value(), geo::geodesic_area(first.shape).value(), 1e-3}});
  }
}

TEST_CASE("A failure leaves nothing behind and keeps what was there", "[regression]") {
  const Folder folder{"fail"};
  auto s = test::sample();
  std::ofstream{folder.path / "taken"} << "a file";
  CHECK_FALSE(report::write(s.problem, s.planned, s.audit, folder.path / "taken").ok());
  CHECK_FALSE(report::write(s.problem, s.planned, s.audit, folder.path / "taken" / "below").ok());
  CHECK(names_in(folder.path) == std::vector<std::string>{"taken"});

  REQUIRE(report::write(s.problem, s.planned, s.audit, folder.path / "out").ok());
  const std::string before = read_file(folder.path / "out/plan.json").value();
  s.planned.plan.seed = 99;
  fs::remove(folder.path / "out/work.csv");
  fs::create_directories(folder.path / "out/work.csv/in the way");
  REQUIRE(report::write(s.problem, s.planned, s.audit, folder.path / "out")
              .ok());  // a folder in the way is set aside
  CHECK(names_in(folder.path / "out") == all_names);
  CHECK(read_file(folder.path / "out/plan.json").value() != before);
  CHECK(names_in(folder.path) == std::vector<std::string>{"out", "taken"});
}

TEST_CASE("A fault while the outputs are made leaves no folder", "[regression]") {
  const Folder folder{"fault"};
  auto s = test::sample();
  s.planned.plan.fields[3].loose_kg_per_ha = std::nan("");
  CHECK_THROWS_AS(report::write(s.problem, s.planned, s.audit, folder.path / "out"), InternalError);
  CHECK(names_in(folder.path).empty());
}

}  // namespace
}  // namespace aftercut
