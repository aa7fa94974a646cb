// A test case is run only when its file is called x_test.cpp and listed for its program: CTest goes by files.
#include "catch2/catch.hpp"
#include "tree.hpp"

using namespace aftercut::test;

namespace {

bool has_cases(const TextFile& file) {
  for (const std::string& line : file.lines)
    if (line.starts_with("TEST_CASE(") || line.starts_with("SCENARIO(")) return true;
  return false;
}

bool named_as_test(const TextFile& file) { return file.path.ends_with("_test.cpp"); }

/// The file's name stands as a word of its own in the list.
bool listed_in(const TextFile& list, const std::string& name) {
  for (const std::string& line : list.lines)
    for (auto at = line.find(name); at != std::string::npos; at = line.find(name, at + 1))
      if (at == 0 || line[at - 1] == ' ') return true;
  return false;
}

}  // namespace

TEST_CASE("test cases stand in files that CTest runs", "[structure]") {
  std::size_t files = 0;
  for (const TextFile& file : files_below({"tests"}, {".cpp", ".hpp"})) {
    if (!has_cases(file)) continue;
    ++files;
    CAPTURE(file.path);
    CHECK(named_as_test(file));
    const std::filesystem::path path{file.path};
    CHECK(listed_in(file_at((path.parent_path() / "CMakeLists.txt").string()), path.filename().string()));
  }
  CHECK(files > 50);
}

TEST_CASE("a test case that would not be run is caught", "[structure]") {
  const TextFile stray{"tests/soil/water.cpp", {"TEST_CASE(\"a\", \"[b]\") {"}};
  CHECK(has_cases(stray));
  CHECK_FALSE(named_as_test(stray));
  CHECK_FALSE(listed_in({"CMakeLists.txt", {"  SOURCES half_water_test.cpp"}}, "water_test.cpp"));
  CHECK(listed_in({"CMakeLists.txt", {"  SOURCES water_test.cpp"}}, "water_test.cpp"));
}
