// Files are whole or absent.
#include "aftercut/core/save_file.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <fstream>

#include "catch2/catch.hpp"

using namespace aftercut;
namespace fs = std::filesystem;

namespace {

struct Folder {
  fs::path path{fs::temp_directory_path() / ("aftercut-save-" + std::to_string(::getpid()))};
  Folder() { fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::size_t files() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator{path}, fs::directory_iterator{}));
  }
};

}  // namespace

TEST_CASE("what was saved is read back, bytes and all", "[identity]") {
  const Folder folder;
  const std::string text = std::string("line\r\n\0\xFF", 8) + std::string(3000000, 'x');
  const auto saved = save_file(folder.path / "a.txt", text);
  REQUIRE(saved.ok());
  CHECK(saved.value() == folder.path / "a.txt");
  CHECK(read_file(folder.path / "a.txt").value() == text);
  REQUIRE(save_file(folder.path / "a.txt", "new").ok());
  CHECK(read_file(folder.path / "a.txt").value() == "new");
  REQUIRE(save_file(folder.path / "a.txt", "").ok());
  CHECK(read_file(folder.path / "a.txt").value().empty());
  CHECK(folder.files() == 1);
}

TEST_CASE("an open reader keeps the old file: the new one is moved in, not written over it", "[identity]") {
  const Folder folder;
  REQUIRE(save_file(folder.path / "a.txt", "old").ok());
  std::ifstream open{folder.path / "a.txt"};
  REQUIRE(save_file(folder.path / "a.txt", "new").ok());
  std::string seen;
  open >> seen;
  CHECK(seen == "old");
}

TEST_CASE("a place that cannot be written is an issue, and nothing is left or changed", "[identity]") {
  const Folder folder;
  const auto none = save_file(folder.path / "none" / "a.txt", "text");
  REQUIRE_FALSE(none.ok());
  CHECK(none.issues()[0].file == (folder.path / "none" / "a.txt").string());
  CHECK_THAT(none.issues()[0].found, Catch::Contains("could not create"));
  fs::create_directories(folder.path / "taken" / "inside");
  const auto taken = save_file(folder.path / "taken", "text");
  REQUIRE_FALSE(taken.ok());
  CHECK_THAT(taken.issues()[0].found, Catch::Contains("could not rename"));
  CHECK(fs::is_directory(folder.path / "taken" / "inside"));
  CHECK(folder.files() == 1);
}

TEST_CASE("a finished file is moved into place", "[identity]") {
  const Folder folder;
  std::ofstream{folder.path / "part"} << "done";
  REQUIRE(put_in_place(folder.path / "part", folder.path / "whole").ok());
  CHECK(read_file(folder.path / "whole").value() == "done");
  CHECK_FALSE(fs::exists(folder.path / "part"));
  CHECK_FALSE(put_in_place(folder.path / "gone", folder.path / "whole").ok());
  CHECK(read_file(folder.path / "whole").value() == "done");
}

TEST_CASE("reading what is not there, or a folder, is an issue", "[identity]") {
  const Folder folder;
  CHECK(read_file(folder.path / "gone").issues().at(0).found == "no such file");
  CHECK(read_file(folder.path).issues().at(0).found == "a folder");
}

TEST_CASE("a device or a pipe is no input: reading it might never end", "[regression]") {
  const Folder folder;
  const fs::path pipe = folder.path / "pipe";
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  for (const fs::path& path : {fs::path{"/dev/zero"}, pipe}) {
    INFO(path);
    const auto read = read_file(path);
    REQUIRE_FALSE(read.ok());
    CHECK(read.issues() == Issues{no_plain_file(path)});
  }
}
