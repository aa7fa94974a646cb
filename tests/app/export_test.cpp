// Exports through the real program.

#include <filesystem>
#include <nlohmann/json.hpp>

#include "catch2/catch.hpp"
#include "command_line.hpp"

using namespace aftercut::test;
namespace fs = std::filesystem;

namespace {

const char* const names[] = {"work.xlsx",       "calendar.ics",      "truck-sheet.html", "truck-sheet.txt",
                             "work-lists.html", "combine-card.html", "field-sheets.html"};

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator{folder}, fs::directory_iterator{}));
}

/// A plan of two weather years.
fs::path small_plan(const DemoCopy& demo) {
  const fs::path out = demo.root() / "plan";
  const Ran ran =
      run_program("plan " + demo.farm().string() + " --out " + out.string() +
                  " --as-of 2026-10-12 --years 1998..1999 --effort 20 --bound-rounds 0 --one-more 0");
  INFO(ran.err);
  REQUIRE(ran.code <= 1);
  return out;
}

}  // namespace

TEST_CASE("export writes sheets and files from a plan alone", "[golden]") {
  const DemoCopy demo;
  const fs::path plan = small_plan(demo), out = demo.root() / "sheets";
  fs::remove_all(demo.farm());
  const std::string both = plan.string() + " --out " + out.string();
  REQUIRE(run_program("export " + both).code == 0);
  CHECK(files_in(out) == std::size(names));
  for (const char* name : names) CHECK(fs::file_size(out / name) > 500);
  for (const char* beside : {"work.xlsx", "calendar.ics", "truck-sheet.html", "truck-sheet.txt"})
    CHECK(text_of(out / beside) == text_of(plan / beside));
  CHECK(text_of(out / "truck-sheet.html").find("size:A4 landscape") != std::string::npos);

  const fs::path few = demo.root() / "few";
  REQUIRE(run_program("export " + (plan / "plan.json").string() + " --out " + few.string() +
                      " --only work-lists.html --only combine-card.html --paper letter --language es")
              .code == 0);
  CHECK(files_in(few) == 2);
  CHECK(text_of(few / "work-lists.html").find("Lista de trabajo") != std::string::npos);
  CHECK(text_of(few / "work-lists.html").find("size:letter") != std::string::npos);

  REQUIRE(
      run_program("export " + both + " --only calendar.ics --replaces " + (plan / "calendar.ics").string())
          .code == 0);
  CHECK(text_of(out / "calendar.ics") == text_of(plan / "calendar.ics"));
}

TEST_CASE("export names every fault at once and writes nothing", "[golden]") {
  const DemoCopy demo;
  const fs::path plan = demo.root() / "plan.json", out = demo.root() / "out";
  put_text(plan, "{\"schema\": \"aftercut-plan-1\", \"farm\": {}}");
  const Ran broken =
      run_program("export " + plan.string() + " --out " + out.string() + " --only work.pdf --json");
  CHECK(broken.code == 2);
  const auto issues = nlohmann::json::parse(broken.out)["issues"];
  CHECK(issues.size() > 10);
  CHECK(broken.out.find("work.pdf") != std::string::npos);
  CHECK(run_program("export " + demo.root().string() + "/none --out " + out.string()).code == 2);
  CHECK(run_program("export " + plan.string() + " --out " + out.string() + " --replaces " + out.string() +
                    "/no.ics")
            .code == 2);
  CHECK(run_program("export " + plan.string() + " --out " + out.string() + " --paper a5").code == 2);
  CHECK(run_program("export " + plan.string()).code == 2);
  CHECK_FALSE(fs::exists(out));
}
