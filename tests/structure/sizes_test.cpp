// A file is read in one go: at most 300 lines, but for data tables that stand alone in their file.
#include "catch2/catch.hpp"
#include "tree.hpp"

using namespace aftercut::test;

namespace {
constexpr std::size_t most_lines = 300;
const std::set<std::string> data_tables{};  // paths of long tables, each alone in its file

std::vector<std::string> too_long(const std::vector<TextFile>& files) {
  std::vector<std::string> found;
  for (const TextFile& file : files)
    if (file.lines.size() > most_lines && !data_tables.contains(file.path))
      found.push_back(file.path + ": " + std::to_string(file.lines.size()) + " lines");
  return found;
}
}  // namespace

TEST_CASE("no source file is longer than 300 lines", "[structure]") {
  const auto files = files_below({"include", "src", "tests"}, {".cpp", ".hpp", ".mjs"});
  REQUIRE(files.size() > 20);
  for (const std::string& found : too_long(files)) FAIL_CHECK(found);
}

TEST_CASE("a long file is caught", "[structure]") {
  CHECK(too_long({{"src/soil/long.cpp", std::vector<std::string>(301)}}).size() == 1);
  CHECK(too_long({{"src/soil/full.cpp", std::vector<std::string>(300)}}).empty());
}
