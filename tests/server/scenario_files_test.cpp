// Scenarios on file: written whole, over what the writer has seen, never outside the folder.

#include "aftercut/server/scenario_files.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <thread>

#include "aftercut/core/folder_lock.hpp"
#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"
#include "scratch.hpp"

using namespace aftercut;
using namespace aftercut::server;
using test::Scratch;

namespace {

farm::Scenario wanting(double chance) { return {"surer", {farm::WantChance{std::nullopt, chance}}}; }

std::string text_of(const Scratch& s, const std::string& name) {
  const auto text = read_file(s.path / "scenarios" / (name + ".json"));
  return text.ok() ? text.value() : "";
}

}  // namespace

TEST_CASE("a scenario is written, read back, written over with its mark and removed", "[identity]") {
  const Scratch s{"scenario"};
  const auto first = write_scenario(s.path, "surer", wanting(0.8), "");
  REQUIRE(first.ok());
  REQUIRE_FALSE(first.value().changed_meanwhile);
  const auto read = scenario_on_file(s.path, "surer");
  REQUIRE(read.ok());
  CHECK(read.value().scenario == wanting(0.8));
  CHECK(read.value().mark == first.value().mark);
  const auto second = write_scenario(s.path, "surer", wanting(0.9), first.value().mark);
  REQUIRE(second.ok());
  CHECK(second.value().mark != first.value().mark);
  CHECK(scenarios_on_file(s.path).size() == 1);
  const auto gone = remove_scenario(s.path, "surer", second.value().mark);
  REQUIRE(gone.ok());
  CHECK_FALSE(gone.value().changed_meanwhile);
  CHECK(scenarios_on_file(s.path).empty());
}

TEST_CASE("writing and removing a scenario take away what killed writers left", "[regression]") {
  const Scratch s{"left"};
  const pid_t child = ::fork();
  if (child == 0) ::_exit(0);
  ::waitpid(child, nullptr, 0);  // no process has its number now
  const auto part = s.path / "scenarios" / ("other.json." + std::to_string(child) + ".part");
  const auto leave = [&] {
    std::filesystem::create_directories(part.parent_path());
    REQUIRE(save_file(part, "{").ok());
  };
  leave();
  const auto written = write_scenario(s.path, "surer", wanting(0.8), "");
  REQUIRE(written.ok());
  CHECK_FALSE(std::filesystem::exists(part));
  leave();
  REQUIRE(remove_scenario(s.path, "surer", written.value().mark).ok());
  CHECK_FALSE(std::filesystem::exists(part));
}

TEST_CASE("what another has written meanwhile is not written over", "[identity]") {
  const Scratch s{"meanwhile"};
  const auto seen = write_scenario(s.path, "surer", wanting(0.8), "").value().mark;
  REQUIRE(write_scenario(s.path, "surer", wanting(0.85), seen).ok());
  const std::string stands = text_of(s, "surer");
  for (const std::string& mark : {seen, std::string{}, std::string{"x"}}) {
    const auto again = write_scenario(s.path, "surer", wanting(0.99), mark);
    REQUIRE(again.ok());
    CHECK(again.value().changed_meanwhile);
    const auto removed = remove_scenario(s.path, "surer", mark);
    REQUIRE(removed.ok());
    CHECK(removed.value().changed_meanwhile);
  }
  CHECK(text_of(s, "surer") == stands);
}

TEST_CASE("twenty writers at once: one of them wins, the file is whole", "[identity]") {
  const Scratch s{"writers"};
  std::atomic<int> written{0}, refused{0};
  std::vector<std::thread> writers;
  for (int i = 0; i < 20; ++i)
    writers.emplace_back([&, i] {
      const auto out = write_scenario(s.path, "one", wanting(i / 20.0), "");
      if (out.ok()) ++(out.value().changed_meanwhile ? refused : written);
    });
  for (auto& w : writers) w.join();
  CHECK(written == 1);
  CHECK(refused == 19);
  CHECK(scenario_on_file(s.path, "one").value().issues.empty());
  for (const auto& entry : std::filesystem::directory_iterator{s.path / "scenarios"})
    CHECK(entry.path().extension() == ".json");
}

TEST_CASE("names that lead elsewhere are refused, and nothing is made", "[identity]") {
  const Scratch s{"names"};
  for (const char* bad : {"..", "../farm", "a/b", "", "farm.json", ".hidden"}) {
    CHECK_FALSE(write_scenario(s.path, bad, wanting(0.8), "").ok());
    CHECK_FALSE(scenario_on_file(s.path, bad).ok());
    CHECK_FALSE(remove_scenario(s.path, bad, "x").ok());
  }
  CHECK_FALSE(std::filesystem::exists(s.path / "scenarios"));
}

TEST_CASE("a file that cannot be read is listed with its issues", "[identity]") {
  const Scratch s{"faulty"};
  std::filesystem::create_directories(s.path / "scenarios");
  (void)s.file("scenarios/broken.json", "{\"changes\": [");
  (void)s.file("scenarios/not one.json", "{}");
  const auto all = scenarios_on_file(s.path);
  REQUIRE(all.size() == 1);
  CHECK(all[0].name == "broken");
  CHECK_FALSE(all[0].issues.empty());
}

TEST_CASE("one writer at a time, and a lock that is let go", "[identity]") {
  const Scratch s{"lock"};
  {
    const auto mine = FolderLock::take(s.path);
    REQUIRE(mine.ok());
    const auto other = FolderLock::take(s.path, 50);
    REQUIRE_FALSE(other.ok());
    CHECK(other.issues().front().found.find("another program") != std::string::npos);
  }
  CHECK(FolderLock::take(s.path, 0).ok());
  CHECK_FALSE(FolderLock::take(s.path / "nowhere").ok());
}
