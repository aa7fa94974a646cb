// Files are whole or absent whatever fails, and wherever the power is cut.
#include <cerrno>

#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"
#include "memory_disk.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

const std::string older = "what stood there before\n", newer = "and what is put in its place: longer\n";

std::map<std::string, std::string> before(bool there) {
  return there ? std::map<std::string, std::string>{{"f/a.json", older}}
               : std::map<std::string, std::string>{};
}

/// The file is the old one or the new one, whole; `acknowledged`: the new one.
void check_whole(const std::map<std::string, std::string>& files, bool there, bool acknowledged) {
  const auto at = files.find("f/a.json");
  if (at == files.end()) {
    CHECK((!there && !acknowledged));
    return;
  }
  CHECK((at->second == newer || (there && !acknowledged && at->second == older)));
}

}  // namespace

TEST_CASE("a power cut at any call of save_file leaves the old file or the new one", "[identity]") {
  std::size_t states = 0;
  for (const bool there : {false, true})
    for (int at = 0;; ++at) {
      const auto disk = MemoryDisk::holding(before(there));
      disk->expect({Trouble::Kind::power_cut, at});
      bool acknowledged = false;
      try {
        acknowledged = save_file("f/a.json", newer, *disk).ok();
      } catch (const PowerCut&) {
      }
      for (const auto& files : disk->after_power_cut()) {
        ++states;
        check_whole(files, there, acknowledged);
        const auto later = MemoryDisk::holding(files);
        CHECK(save_file("f/a.json", newer, *later).ok());
        CHECK(later->files().at("f/a.json") == newer);
      }
      if (acknowledged) {
        CHECK(at == 7);  // create, write, open, sync, rename, open, sync
        break;
      }
    }
  CHECK(states > 300);
}

TEST_CASE("any call of save_file that fails leaves a whole file, and tells what is not done", "[identity]") {
  const int why = GENERATE(EIO, ENOSPC, EROFS);
  for (const bool there : {false, true})
    for (const bool from_then : {false, true})
      for (int at = 0; at < 10; ++at) {
        const auto disk = MemoryDisk::holding(before(there));
        disk->expect({Trouble::Kind::refused, at, why, from_then});
        const auto saved = save_file("f/a.json", newer, *disk);
        CAPTURE(there, at, from_then);
        CHECK_FALSE(saved.ok());
        check_whole(disk->files(), there, false);
        for (const auto& files : disk->after_power_cut()) check_whole(files, there, false);
        disk->expect({});
        CHECK(save_file("f/a.json", newer, *disk).ok());
      }
}

TEST_CASE("a short write of save_file is gone on with", "[identity]") {
  const auto disk = MemoryDisk::holding(before(true));
  disk->expect({Trouble::Kind::short_write, 1});
  REQUIRE(save_file("f/a.json", newer, *disk).ok());
  CHECK(disk->files() == std::map<std::string, std::string>{{"f/a.json", newer}});
}

TEST_CASE("a file that was written without care is found torn", "[identity]") {
  const auto disk = MemoryDisk::holding(before(true));
  const int fd = disk->open("f/a.json", Disk::Open::fresh);
  disk->write(fd, newer);
  disk->close(fd);
  std::size_t torn = 0;
  for (const auto& files : disk->after_power_cut())
    torn += files.at("f/a.json") != older && files.at("f/a.json") != newer ? 1U : 0U;
  CHECK(torn > 50);
}
