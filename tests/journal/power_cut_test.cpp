// The journal, with the power cut and the disk failing at every call: no acknowledged entry is lost, none is
// half there, and the next one can be recorded.
#include <cerrno>

#include "catch2/catch.hpp"
#include "memory_disk.hpp"
#include "write_log.hpp"
#include "written.hpp"

using namespace aftercut;
using namespace aftercut::journal;
using namespace aftercut::test;

namespace {

using Files = std::map<std::string, std::string>;

const std::string file = "f/journal.jsonl";

struct Start {
  const char* name;
  Files files;
  std::vector<Entry> stand;
  std::vector<Entry> asked;
};

std::vector<Start> starts() {
  const std::vector<Entry> old{entry("a1", disked(12.5)), entry("a2", Rain{23.0})};
  const std::vector<Entry> one{entry("n1", Bales{412.0, {}})};
  const std::vector<Entry> three{entry("n1", Bales{412.0, {}}), entry("n2", Rain{4.0}),
                                 entry("n3", TakenBack{}, 1)};
  const std::string text = log_text(old), torn = log_text(three).substr(0, 90);
  return {{"no journal, one entry", {}, {}, one},
          {"an empty journal, one entry", {{file, ""}}, {}, one},
          {"a journal, one entry", {{file, text}}, old, one},
          {"a journal, three entries", {{file, text}}, old, three},
          {"a torn journal, one entry", {{file, text + torn}}, old, one},
          {"nothing but a torn line, one entry", {{file, torn}}, {}, one},
          {"an entry that is there", {{file, text}}, old, {old[1]}}};
}

/// What holds after trouble: the entries from before, then the asked ones up to some place, none half; all of
/// them if they were acknowledged. And the next entry can be recorded.
void check_sound(const Files& files, const Start& s, bool acknowledged) {
  const auto disk = MemoryDisk::holding(files);
  const auto log = read_log("f", *disk);
  REQUIRE(log.ok());
  std::vector<Entry> wanted = s.stand;
  for (const Entry& e : s.asked)
    if (std::ranges::find(wanted, e.id, &Entry::id) == wanted.end()) wanted.push_back(e);
  const auto& found = log.value().entries;
  REQUIRE(found.size() >= s.stand.size());
  REQUIRE(found.size() <= wanted.size());
  if (acknowledged) REQUIRE(found.size() == wanted.size());
  wanted.resize(found.size());
  REQUIRE(log_text(found) == log_text(wanted));
  const auto next = append_alone(*disk, "f", s.asked);
  REQUIRE(next.ok());
  REQUIRE(append_alone(*disk, "f", {entry("later", Rain{1.0})}).ok());
  const auto later = read_log("f", *disk);
  REQUIRE(later.ok());
  REQUIRE(later.value().torn.empty());
  REQUIRE(later.value().entries.back().id == "later");
  if (!log.value().torn.empty()) {
    bool kept = false;
    for (const auto& [name, text] : disk->files()) kept = kept || text == log.value().torn;
    REQUIRE(kept);
  }
}

}  // namespace

TEST_CASE("a power cut at any call of the journal loses nothing acknowledged", "[identity]") {
  std::size_t cuts = 0, states = 0;
  for (const Start& s : starts())
    for (int at = 0;; ++at) {
      CAPTURE(s.name, at);
      const auto disk = MemoryDisk::holding(s.files);
      disk->expect({Trouble::Kind::power_cut, at});
      bool acknowledged = false;
      try {
        acknowledged = append_alone(*disk, "f", s.asked).ok();
      } catch (const PowerCut&) {
        ++cuts;
      }
      for (const Files& files : disk->after_power_cut()) {
        ++states;
        check_sound(files, s, acknowledged);
      }
      if (acknowledged) break;
    }
  CHECK(cuts > 50);
  CHECK(states > 3000);
  WARN(cuts << " cuts, " << states << " states found afterwards");
}

TEST_CASE("a program that dies after its write and a power cut later lose nothing acknowledged",
          "[identity]") {
  for (const Start& s : starts())
    for (int killed = 0; killed < 20; ++killed) {
      CAPTURE(s.name, killed);
      const auto disk = MemoryDisk::holding(s.files);
      disk->expect({Trouble::Kind::power_cut, killed});
      try {
        (void)append_alone(*disk, "f", s.asked);
      } catch (const PowerCut&) {
      }
      disk->expect({});  // the machine runs on: what was written stays, synced or not
      REQUIRE(append_alone(*disk, "f", s.asked).ok());
      for (const Files& files : disk->after_power_cut()) check_sound(files, s, true);
    }
}

TEST_CASE("any call that fails leaves the journal as it was, or all of it acknowledged", "[identity]") {
  std::size_t refusals = 0;
  for (const Start& s : starts())
    for (const int why : {EIO, ENOSPC, EROFS})
      for (const bool from_then : {false, true})
        for (int at = 0; at < 25; ++at) {
          CAPTURE(s.name, why, from_then, at);
          const auto disk = MemoryDisk::holding(s.files);
          disk->expect({Trouble::Kind::refused, at, why, from_then});
          const auto done = append_alone(*disk, "f", s.asked);
          refusals += done.ok() ? 0U : 1U;
          if (!done.ok()) REQUIRE_FALSE(done.issues()[0].found.empty());
          check_sound(disk->files(), s, done.ok());
          if (!done.ok() && !from_then) {
            const auto log = read_log("f", *disk);
            REQUIRE(log.value().entries.size() == s.stand.size());
          }
          for (const Files& files : disk->after_power_cut()) check_sound(files, s, done.ok());
        }
  CHECK(refusals > 300);
  WARN(refusals << " refused calls told");
}

TEST_CASE("a short write is gone on with", "[identity]") {
  for (const Start& s : starts())
    for (int at = 0; at < 25; ++at) {
      CAPTURE(s.name, at);
      const auto disk = MemoryDisk::holding(s.files);
      disk->expect({Trouble::Kind::short_write, at});
      const auto done = append_alone(*disk, "f", s.asked);
      REQUIRE(done.ok());
      check_sound(disk->files(), s, true);
    }
}
