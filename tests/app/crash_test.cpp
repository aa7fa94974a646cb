// The real program killed while it writes, on full and read-only disks, and twice at once.
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstring>
#include <fstream>
#include <map>
#include <random>
#include <set>

#include "aftercut/core/mixed_files.hpp"
#include "aftercut/journal/log.hpp"
#include "catch2/catch.hpp"
#include "child.hpp"
#include "command_line.hpp"

using namespace aftercut;
using namespace aftercut::test;
namespace fs = std::filesystem;

namespace {

const std::string now = "2026-11-02T18:03:22Z";

std::set<std::string> ids_in(const fs::path& farm) {
  const auto log = journal::read_log(farm);
  for (const Issue& issue : log.issues()) FAIL(to_text(issue));
  std::set<std::string> ids;
  for (const auto& e : log.value().entries) ids.insert(e.id);
  CHECK(ids.size() == log.value().entries.size());
  return ids;
}

std::vector<std::string> recording(const fs::path& farm, const std::string& id) {
  return {"record", farm.string(), "rain", "3",   "mm",    "--id", id,
          "--on",   "2026-10-20",  "--by", "Ana", "--now", now};
}

/// Kills the child a moment after the file is there: that is when it writes.
void kill_once_there(Child& child, const fs::path& file, int us) {
  while (!child.ended() && !fs::exists(file)) sleep_us(100);
  if (child.ended()) return;
  sleep_us(us);
  child.kill_hard();
}

void fill_rows(const fs::path& file, int rows, const std::string& mark) {
  std::ofstream out{file};
  out << "done_on,what,id\n";
  for (int k = 0; k < rows; ++k) out << "2026-10-20,rain " << k << " mm," << mark << '-' << k << '\n';
}

/// One farm's journal through many killed runs.
class Killed {
 public:
  explicit Killed(const DemoCopy& demo) : demo_{demo} {}

  void record(int run) {
    const std::string id = "one-" + std::to_string(run);
    run_and_kill(recording(demo_.farm(), id), {id});
  }
  void import(int run) {
    const std::string mark = "many-" + std::to_string(run);
    constexpr int rows = 40;
    fill_rows(demo_.root() / "rows.csv", rows, mark);
    std::vector<std::string> ids;
    for (int k = 0; k < rows; ++k) ids.push_back(mark + "-" + std::to_string(k));
    run_and_kill({"record", demo_.farm().string(), "--import", (demo_.root() / "rows.csv").string(), "--by",
                  "Ana", "--now", now},
                 ids);
  }
  int cut_off = 0, torn = 0;
  std::set<std::string> acknowledged;

 private:
  void run_and_kill(const std::vector<std::string>& arguments, const std::vector<std::string>& ids) {
    fs::remove(demo_.farm() / ".aftercut.lock");
    Child child{arguments, demo_.root() / "out"};
    const unsigned longest_us = draws_() % 2U == 0 ? 8000U : 60000U;  // in the write, or about its end
    kill_once_there(child, demo_.farm() / ".aftercut.lock", static_cast<int>(draws_() % longest_us));
    const int code = child.wait();
    CHECK((code == 0 || code == 128 + SIGKILL));
    cut_off += code == 0 ? 0 : 1;
    if (!child.said().empty()) acknowledged.insert(ids.begin(), ids.end());
    const auto there = ids_in(demo_.farm());
    for (const std::string& id : acknowledged) CHECK(there.contains(id));
    torn += journal::read_log(demo_.farm()).value().torn.empty() ? 0 : 1;
  }

  const DemoCopy& demo_;
  std::mt19937 draws_{20261126};
};

std::map<std::string, std::string> files_of(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::directory_iterator{folder})
    if (entry.is_regular_file()) files[entry.path().filename().string()] = text_of(entry.path());
  return files;
}

/// The folder in which a plan is put together before it is moved to `out`; with `inside`: and that in it.
bool writes_beside(const fs::path& out, const std::string& inside) {
  for (const auto& entry : fs::directory_iterator{out.parent_path()})
    if (entry.path().filename().string().starts_with("." + out.filename().string() + ".") &&
        fs::exists(entry.path() / inside))
      return true;
  return false;
}

std::vector<std::string> planning(const DemoCopy& demo, const fs::path& out, const std::string& seed) {
  return {"plan",           demo.farm().string(),
          "--out",          out.string(),
          "--effort",       "20",
          "--years",        "2001..2002",
          "--seed",         seed,
          "--bound-rounds", "0",
          "--one-more",     "0",
          "--as-of",        "2026-10-12"};
}

}  // namespace

TEST_CASE("records and imports killed 150 times while they write", "[.long]") {
  const DemoCopy demo;
  Killed killed{demo};
  for (int run = 0; run < 100; ++run) killed.record(run);
  for (int run = 0; run < 50; ++run) killed.import(run);
  CHECK(run_program("record " + demo.farm().string() + " rain 1 mm --on 2026-10-20 --now " + now).code == 0);
  const auto ids = ids_in(demo.farm());
  CHECK(killed.cut_off > 20);
  CHECK(killed.acknowledged.size() > 20);
  WARN(killed.cut_off << " of 150 runs were cut off, " << killed.torn << " left a torn line; "
                      << killed.acknowledged.size() << " entries acknowledged, " << ids.size() << " there");
}

TEST_CASE("plans killed 50 times while they write leave whole files", "[.long]") {
  const DemoCopy demo;
  const fs::path a = demo.root() / "a", b = demo.root() / "b", out = demo.root() / "out-plan";
  REQUIRE(Child{planning(demo, a, "1"), demo.root() / "said"}.wait() <= 1);
  REQUIRE(Child{planning(demo, b, "2"), demo.root() / "said"}.wait() <= 1);
  const auto one = files_of(a), two = files_of(b);
  REQUIRE(one.contains("report.html"));
  REQUIRE(one.at("plan.json") != two.at("plan.json"));
  std::mt19937 draws{7};
  int cut_off = 0, mixed = 0;
  for (int run = 0; run < 50; ++run) {
    fs::remove_all(out);
    if (run % 5 != 0) fs::copy(run % 2 == 0 ? b : a, out, fs::copy_options::recursive);
    const auto before = fs::exists(out) ? files_of(out) : std::map<std::string, std::string>{};
    Child child{planning(demo, out, run % 2 == 0 ? "1" : "2"), demo.root() / "said"};
    // Killed while the files are written beside the folder, or while they are moved in.
    const bool moving = run % 5 != 0 && run % 3 != 0;
    while (!child.ended() && !writes_beside(out, moving ? "old" : "")) sleep_us(moving ? 20 : 200);
    sleep_us(static_cast<int>(draws() % (moving ? 20000U : 400000U)));
    child.kill_hard();
    cut_off += child.wait() > 1 ? 1 : 0;
    const auto after = fs::exists(out) ? files_of(out) : std::map<std::string, std::string>{};
    for (const auto& [name, text] : before) CHECK(after.contains(name));
    std::set<int> from;
    for (const auto& [name, text] : after) {
      CAPTURE(run, name);
      if (name == moving_mark) continue;
      CHECK((text == one.at(name) || text == two.at(name)));
      if (one.at(name) != two.at(name)) from.insert(text == one.at(name) ? 1 : 2);
    }
    mixed += from.size() > 1 ? 1 : 0;
    if (from.size() > 1) CHECK(after.contains(moving_mark));
    for (const auto& entry : fs::directory_iterator{demo.root()})
      if (entry.path().filename().string().starts_with(".out-plan.")) fs::remove_all(entry.path());
  }
  CHECK(cut_off > 5);
  WARN(cut_off << " of 50 plans were cut off; " << mixed
               << " left files of two plans side by side, each whole, and said so");
}

TEST_CASE("a journal that cannot grow stays as it was, and goes on once it can", "[identity]") {
  const DemoCopy demo;
  for (int k = 0; k < 3; ++k)
    REQUIRE(Child{recording(demo.farm(), "before-" + std::to_string(k)), demo.root() / "out"}.wait() == 0);
  const std::string before = text_of(demo.farm() / "journal.jsonl");
  for (const rlim_t more : {0U, 1U, 80U, 150U}) {
    Child child{recording(demo.farm(), "after"), demo.root() / "out", [&] {
                  std::signal(SIGXFSZ, SIG_IGN);
                  const rlim_t size = before.size() + more;
                  const rlimit limit{size, size};
                  ::setrlimit(RLIMIT_FSIZE, &limit);
                }};
    CHECK(child.wait() == 2);
    CHECK(text_of(demo.farm() / "journal.jsonl") == before);
  }
  CHECK(Child{recording(demo.farm(), "after"), demo.root() / "out"}.wait() == 0);
  CHECK(ids_in(demo.farm()).contains("after"));
}

TEST_CASE("a full disk, then a read-only one", "[.long]") {
  const DemoCopy demo;
  const fs::path small = demo.root() / "small";
  fs::create_directories(small);
  if (::mount("tmpfs", small.c_str(), "tmpfs", 0, "size=24m") != 0) {
    WARN("skipped: mounting is not permitted here (" << std::strerror(errno) << ")");
    return;
  }
  fs::create_directories(small / "fields");
  const fs::path farm = small / "fields" / "demo";
  fs::copy(demo.farm(), farm, fs::copy_options::recursive);
  fs::copy(demo.root() / "weather", small / "weather", fs::copy_options::recursive);
  const fs::path out = demo.root() / "out";
  CHECK(Child{recording(farm, "before"), out}.wait() == 0);
  {
    std::ofstream filler{small / "filler", std::ios::binary};
    while (filler) filler << std::string(4096, 'x') << std::flush;
  }
  // The journal's last page still has room: entries fit until it is full.
  int fitted = 0;
  while (fitted < 40 && Child{recording(farm, "full-" + std::to_string(fitted)), out}.wait() == 0) ++fitted;
  CHECK(fitted < 40);
  CHECK(ids_in(farm).size() == static_cast<std::size_t>(fitted) + 1);
  CHECK(journal::read_log(farm).value().torn.empty());
  fs::remove(small / "filler");
  CHECK(Child{recording(farm, "after"), out}.wait() == 0);
  if (::mount(nullptr, small.c_str(), nullptr, MS_REMOUNT | MS_RDONLY, nullptr) == 0) {
    const std::string before = text_of(farm / "journal.jsonl");
    CHECK(Child{recording(farm, "never"), out}.wait() == 2);
    CHECK(text_of(farm / "journal.jsonl") == before);
  }
  ::umount(small.c_str());
}

TEST_CASE("a folder that the user has no right to write in is told", "[identity]") {
  const DemoCopy demo;
  constexpr uid_t nobody = 65534;
  fs::permissions(demo.root(), fs::perms::all);
  fs::permissions(demo.farm(), fs::perms::owner_read | fs::perms::owner_exec | fs::perms::group_read |
                                   fs::perms::group_exec | fs::perms::others_read | fs::perms::others_exec);
  const bool root = ::geteuid() == 0;
  Child child{recording(demo.farm(), "never"), demo.root() / "out", [&] {
                if (root && (::setgid(nobody) != 0 || ::setuid(nobody) != 0)) ::_exit(126);
              }};
  const int code = child.wait();
  if (code == 126 || code == 127) {
    WARN("skipped: another user cannot run the program here");
  } else {
    CHECK(code == 2);
    CHECK_FALSE(fs::exists(demo.farm() / "journal.jsonl"));
  }
  fs::permissions(demo.farm(), fs::perms::owner_all);
}

TEST_CASE("two programs record 500 entries each at once: all are there, the chain sound", "[.long]") {
  const DemoCopy demo;
  constexpr int entries = 500;
  std::vector<pid_t> writers;
  for (const char* who : {"Ana", "Bo"}) {
    const pid_t pid = ::fork();
    if (pid == 0) {
      int failed = 0;
      for (int k = 0; k < entries; ++k) {
        journal::Entry e;
        e.id = std::string{who} + std::to_string(k);
        e.done_on = make_date(2026, 10, 20);
        e.recorded_at = now;
        e.by = who;
        e.what = journal::Rain{static_cast<double>(k)};
        failed += journal::append(demo.farm(), e).ok() ? 0 : 1;
      }
      ::_exit(failed == 0 ? 0 : 1);
    }
    writers.push_back(pid);
  }
  for (int k = 0; k < 10; ++k)  // and the program itself between them
    CHECK(Child{recording(demo.farm(), "third-" + std::to_string(k)), demo.root() / "out"}.wait() == 0);
  for (const pid_t pid : writers) {
    int status = 0;
    ::waitpid(pid, &status, 0);
    CHECK(status == 0);
  }
  CHECK(ids_in(demo.farm()).size() == 2 * entries + 10);
}
