// What killed programs leave in and beside an output folder: told, and mended by the next plan.

#include <sys/wait.h>
#include <unistd.h>

#include <fstream>

#include "aftercut/core/mixed_files.hpp"
#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

using namespace aftercut;
namespace fs = std::filesystem;

namespace {

struct Folder {
  fs::path path{fs::temp_directory_path() / ("aftercut-out-" + std::to_string(::getpid()))};
  Folder() { fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  /// A half written folder beside `out`, of this process.
  [[nodiscard]] fs::path half(const std::string& process) const {
    fs::path part = path / (".out." + process + ".part");
    fs::create_directories(part / "old");
    std::ofstream{part / "stray.txt"} << "half";
    return part;
  }
};

std::string ended_process() {
  const pid_t pid = ::fork();
  if (pid == 0) ::_exit(0);
  ::waitpid(pid, nullptr, 0);
  return std::to_string(pid);
}

}  // namespace

TEST_CASE("half written folders of killed programs go with the next plan, a living one's stays",
          "[identity]") {
  const Folder folder;
  const auto s = test::sample();
  for (const bool there : {false, true}) {
    const fs::path dead = folder.half(ended_process()), living = folder.half(std::to_string(::getppid())),
                   own = folder.half(std::to_string(::getpid()));  // of an older process of this number
    CAPTURE(there);
    REQUIRE(report::write(s.problem, s.planned, s.audit, folder.path / "out").ok());
    CHECK_FALSE(fs::exists(dead));
    CHECK(fs::exists(living / "stray.txt"));
    CHECK_FALSE(fs::exists(own));
    CHECK_FALSE(fs::exists(folder.path / "out/stray.txt"));
  }
}

TEST_CASE("a folder into which files were not moved to the end is no plan until the next one", "[identity]") {
  const Folder folder;
  const auto s = test::sample();
  const fs::path out = folder.path / "out";
  REQUIRE(report::write(s.problem, s.planned, s.audit, out).ok());
  CHECK(mixed_files(out).empty());
  REQUIRE(mark_moving(out).empty());
  const auto read = audit::read_plan(out / "plan.json", s.problem);
  REQUIRE_FALSE(read.ok());
  CHECK(read.issues() == mixed_files(out));
  REQUIRE(report::write(s.problem, s.planned, s.audit, out).ok());
  CHECK(mixed_files(out).empty());
  CHECK_FALSE(fs::exists(out / moving_mark));
}
