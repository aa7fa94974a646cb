// What killed writers leave is taken away by the next one; what living ones write is not.
#include "aftercut/core/left_behind.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <set>

#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
namespace fs = std::filesystem;

namespace {

struct Folder {
  fs::path path{fs::temp_directory_path() / ("aftercut-left-" + std::to_string(::getpid()))};
  Folder() { fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  void put(const std::string& name) const { std::ofstream{path / name} << "half of it"; }
  [[nodiscard]] std::set<std::string> names() const {
    std::set<std::string> all;
    for (const auto& entry : fs::directory_iterator{path}) all.insert(entry.path().filename().string());
    return all;
  }
};

/// The number of a process that has ended.
std::string ended() {
  const pid_t pid = ::fork();
  if (pid == 0) ::_exit(0);
  ::waitpid(pid, nullptr, 0);
  return std::to_string(pid);
}

}  // namespace

TEST_CASE("a file is written beside what a killed process left of it, which goes", "[identity]") {
  const Folder folder;
  const std::string dead = ended(), living = std::to_string(::getppid());
  for (const std::string& name : {"a.json." + dead + ".part", "a.json." + living + ".part",
                                  "b.json." + dead + ".part", std::string{"a.json.x.part"}})
    folder.put(name);
  REQUIRE(save_file(folder.path / "a.json", "whole").ok());
  CHECK(folder.names() == std::set<std::string>{"a.json", "a.json." + living + ".part",
                                                "b.json." + dead + ".part", "a.json.x.part"});
}

TEST_CASE("all that killed processes left goes, files and folders, and nothing else", "[identity]") {
  const Folder folder;
  const std::string dead = ended(), living = std::to_string(::getppid()), own = std::to_string(::getpid());
  fs::create_directories(folder.path / (".out." + dead + ".part") / "old");
  folder.put(".part-" + dead + "-fields.gpkg");
  folder.put("x.json." + dead + ".part");
  const std::set<std::string> stay{"x.json",
                                   "x.json." + living + ".part",
                                   "x.json." + own + ".part",
                                   ".part-" + living + "-fields.gpkg",
                                   ".part-",
                                   ".part-" + dead,
                                   ".part",
                                   "." + dead + ".part",
                                   "part." + dead,
                                   "x.-1.part",
                                   "x.0.part",
                                   "x.99999999999999999999.part",
                                   "x." + dead + " .part"};
  for (const std::string& name : stay) folder.put(name);
  remove_left_behind(folder.path);
  CHECK(folder.names() == stay);
  remove_left_behind(folder.path / "none");
}

TEST_CASE("a part's name tells its place and its writer", "[identity]") {
  const std::string own = std::to_string(::getpid());
  CHECK(part_beside("f/a.json") == "f/a.json." + own + ".part");
  CHECK(part_named_alike("f/a.gpkg") == "f/.part-" + own + "-a.gpkg");
}
