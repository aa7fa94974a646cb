// The mark of a folder into which files are being moved.
#include "aftercut/core/mixed_files.hpp"

#include <unistd.h>

#include "catch2/catch.hpp"

using namespace aftercut;
namespace fs = std::filesystem;

TEST_CASE("a marked folder is told until the mark is taken away", "[identity]") {
  const fs::path folder = fs::temp_directory_path() / ("aftercut-mixed-" + std::to_string(::getpid()));
  fs::create_directories(folder);
  CHECK(mixed_files(folder).empty());
  REQUIRE(mark_moving(folder).empty());
  REQUIRE(mixed_files(folder).size() == 1);
  CHECK(mixed_files(folder)[0].file == folder.string());
  REQUIRE(mark_moving(folder).empty());
  REQUIRE(take_mark_away(folder).empty());
  CHECK(mixed_files(folder).empty());
  CHECK(take_mark_away(folder).empty());
  CHECK(fs::is_empty(folder));
  fs::remove_all(folder);
  CHECK(mark_moving(folder).size() == 1);
  CHECK(take_mark_away(folder).size() == 1);
  CHECK(mixed_files(folder).empty());
}
