// work.xlsx read back by GDAL's own reader.
#include <gdal_priv.h>
#include <ogrsf_frmts.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "aftercut/core/week.hpp"
#include "aftercut/report/exports.hpp"
#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

using nlohmann::json;
using Cells = std::vector<std::vector<std::string>>;  ///< [row][column], the heading first

struct Book {
  explicit Book(const std::string& bytes)
      : path{std::filesystem::temp_directory_path() /
             ("aftercut_book_" + std::to_string(::getpid()) + ".xlsx")} {
    std::ofstream{path, std::ios::binary} << bytes;
    GDALAllRegister();
    CPLSetThreadLocalConfigOption("OGR_XLSX_HEADERS", "FORCE");
    const char* drivers[] = {"XLSX", nullptr};
    data.reset(static_cast<GDALDataset*>(
        GDALOpenEx(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers, nullptr, nullptr)));
  }
  ~Book() {
    data.reset();
    std::filesystem::remove(path);
  }
  Book(const Book&) = delete;
  Book& operator=(const Book&) = delete;

  Cells cells(const char* sheet) const {
    OGRLayer* layer = data->GetLayerByName(sheet);
    REQUIRE(layer != nullptr);
    Cells out(1);
    const OGRFeatureDefn* columns = layer->GetLayerDefn();
    for (int c = 0; c < columns->GetFieldCount(); ++c)
      out[0].push_back(columns->GetFieldDefn(c)->GetNameRef());
    for (const auto& feature : *layer) {
      out.emplace_back();
      for (int c = 0; c < columns->GetFieldCount(); ++c) out.back().push_back(feature->GetFieldAsString(c));
    }
    return out;
  }
  std::filesystem::path path;
  std::unique_ptr<GDALDataset> data;
};

std::string day(const std::string& cell) {
  std::string out = cell.substr(0, 10);
  std::replace(out.begin(), out.end(), '/', '-');
  return out;
}

std::string book_bytes(const std::string& plan) {
  return report::export_of(plan, "work.xlsx", {}).value().bytes;
}

std::size_t column(const Cells& cells, const std::string& head) {
  const auto at = std::find_if(cells[0].begin(), cells[0].end(),
                               [&](const std::string& h) { return h == head || h.starts_with(head + ","); });
  INFO(head);
  REQUIRE(at != cells[0].end());
  return static_cast<std::size_t>(at - cells[0].begin());
}

void check_number(const std::string& cell, double expected) {
  INFO(cell << " for " << expected);
  CHECK(std::abs(std::stod(cell) - expected) <= 1e-6 * std::max(1.0, std::abs(expected)));
}

}  // namespace

TEST_CASE("the sheets of the work book hold what plan.json holds", "[cross]") {
  const std::string text = plan_text(test::sample());
  const json plan = json::parse(text);
  const Book book{book_bytes(text)};
  REQUIRE(book.data);
  CHECK(book.data->GetLayerCount() == 4);

  const Cells fields = book.cells("Fields");
  REQUIRE(fields.size() == plan["fields"].size() + 1);
  for (std::size_t f = 0; f + 1 < fields.size(); ++f) {
    const json& field = plan["fields"][f];
    CHECK(fields[f + 1][column(fields, "Field")] == field["id"]);
    CHECK(fields[f + 1][column(fields, "Name")] == field["name"]);
    CHECK(day(fields[f + 1][column(fields, "Harvest")]) == field["harvest"]);
    check_number(fields[f + 1][column(fields, "Area, ac")], field["area_ha"].get<double>() / 0.40468564224);
    check_number(fields[f + 1][column(fields, "Straw, lb/ac")],
                 field["straw"]["load_kg_per_ha"].get<double>() * 0.40468564224 / 0.45359237);
  }

  const Cells work = book.cells("Work");
  std::size_t jobs = 0;
  for (const json& f : plan["fields"]) jobs += f["jobs"].size();
  REQUIRE(work.size() == jobs + 1);
  for (const json& f : plan["fields"])
    for (const json& j : f["jobs"]) {
      const std::string from = iso(week_start(*parse_iso_date(j["first"]["p10"].get<std::string>())));
      const std::string to = iso(week_start(*parse_iso_date(j["last"]["p90"].get<std::string>())));
      CHECK(std::any_of(work.begin() + 1, work.end(), [&](const auto& row) {
        return row[column(work, "Field")] == f["id"] && day(row[column(work, "From")]) == from &&
               day(row[column(work, "To")]) == to &&
               std::stoi(row[column(work, "Step")]) == j["step"].get<int>() + 1 &&
               row[column(work, "Known to the")] == "week";
      }));
    }

  const Cells dates = book.cells("Dates to keep");
  REQUIRE(dates.size() == plan["dates_to_keep"].size() + 1);
  for (std::size_t d = 0; d + 1 < dates.size(); ++d) {
    CHECK(day(dates[d + 1][column(dates, "By")]) == plan["dates_to_keep"][d]["by"]);
    CHECK(dates[d + 1][column(dates, "What")] == plan["dates_to_keep"][d]["what"]);
    CHECK(dates[d + 1][column(dates, "Why")] == plan["dates_to_keep"][d]["why"]);
  }

  const Cells money = book.cells("Money by month");
  REQUIRE(money.size() == plan["cash"].size() + 1);
  for (std::size_t m = 0; m + 1 < money.size(); ++m) {
    const json& month = plan["cash"][m];
    CHECK(money[m + 1][0] == month["month"]);
    check_number(money[m + 1][column(money, "Sum, USD")], month["sum"]);
    check_number(money[m + 1][column(money, "Fuel")], month["parts"]["fuel"]);
    check_number(money[m + 1][column(money, "Lease income")], month["parts"]["lease_income"]);
    check_number(money[m + 1][column(money, "Low year (1 in 10)")], month["p10"]);
  }
}

TEST_CASE("hostile names come back from the work book as texts", "[cross]") {
  const auto s = test::hostile_sample(farm::UnitSystem::si);
  const Book book{book_bytes(plan_text(s))};
  REQUIRE(book.data);
  const Cells fields = book.cells("Fields"), dates = book.cells("Dates to keep");
  CHECK(fields[1][column(fields, "Name")] == test::hostile_name());
  CHECK(fields[2][column(fields, "Name")] == "=HYPERLINK(\"http://x\")");
  CHECK(std::any_of(dates.begin(), dates.end(),
                    [&](const auto& row) { return row[column(dates, "What")] == test::hostile_name(); }));
}

TEST_CASE("a name that no cell holds is an issue, not cut off", "[regression]") {
  auto s = test::sample();
  s.problem.farm.fields[0].name = std::string(40000, 'x');
  const auto out = report::export_of(plan_text(s), "work.xlsx", {});
  REQUIRE_FALSE(out.ok());
  CHECK(out.issues().front().expected.find("32,767") != std::string::npos);
}

}  // namespace aftercut
