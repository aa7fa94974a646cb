// The walk that chooses plans, on public scheduling instances whose least makespans are known. The instances
// are not part of the project: where they are not at hand the cases say so and pass.

#include <cstdlib>

#include "catch2/catch.hpp"
#include "project.hpp"
#include "sanitized.hpp"

using namespace aftercut;
namespace fs = std::filesystem;

namespace {

const fs::path sets = fs::path{AFTERCUT_SOURCE_DIR}.parent_path() / "shared/data/scheduling-open";

bool at_hand(const char* set) {
  if (test::sanitized) {
    WARN("skipped: so many schedules take too long under the sanitizers");
    return false;
  }
  if (fs::is_directory(sets / set)) return true;
  WARN("skipped: " << (sets / set).string() << " is not there");
  return false;
}

struct Sum {
  int instances = 0, hits = 0, below = 0, none = 0;
  double deviation = 0.0;  ///< of the optimum, added up
};

Sum searched(const char* set, const char* optima, long schedules, std::uint64_t seed) {
  Sum sum;
  const auto best = test::read_optima(sets / optima);
  for (const auto& entry : fs::directory_iterator{sets / set}) {
    const test::Project p = test::read_project(entry.path());
    const test::Tried t = test::search_project(p, schedules, seed);
    const int least = best.at(test::set_and_instance(entry.path().filename().string()));
    ++sum.instances;
    if (t.makespan == 0) {
      ++sum.none;
      continue;
    }
    const test::Built built = test::build(p, t.list);
    CHECK(test::broken(p, t.list, built).empty());
    CHECK(built.makespan == t.makespan);
    CHECK(t.schedules <= schedules);
    sum.hits += t.makespan == least ? 1 : 0;
    sum.below += t.makespan < least ? 1 : 0;
    sum.deviation += static_cast<double>(t.makespan - least) / least;
  }
  return sum;
}

/// Two jobs on one machine behind a start, then an end: 3 + 4 time units.
test::Project two_jobs() {
  test::Project p;
  p.renewable = {1};
  p.jobs = {{{{0, {0}, {}}}, {}, {1, 2}},
            {{{3, {1}, {}}}, {0}, {3}},
            {{{4, {1}, {}}}, {0}, {3}},
            {{{0, {0}, {}}}, {1, 2}, {}}};
  return p;
}

}  // namespace

TEST_CASE("a list becomes a schedule, and a broken one is told", "[identity]") {
  const test::Project p = two_jobs();
  const test::JobList list = test::first_list(p);
  test::Built built = test::build(p, list);
  CHECK(built.makespan == 7);
  CHECK(test::broken(p, list, built).empty());
  built.start[2] = 1;
  CHECK(test::broken(p, list, built) == "a resource is used beyond what is there");
  built.start[3] = 1;
  CHECK(test::broken(p, list, built) == "a job starts before one that it waits for has ended");
}

TEST_CASE("30 jobs, one mode: near the known optima and never below", "[published]") {
  if (!at_hand("j30.sm")) return;
  const Sum sum = searched("j30.sm", "j30opt.sm", 50'000, 1);
  CHECK(sum.instances == 60);
  CHECK(sum.below == 0);
  CHECK(sum.none == 0);
  CHECK(sum.deviation / sum.instances <= 0.004);  // Source: DemeulemeesterHerroelen1995 (read)
}

TEST_CASE("10 jobs of three modes: every known optimum met and none undercut", "[published]") {
  if (!at_hand("j10.mm")) return;
  const Sum sum = searched("j10.mm", "j10opt.mm", 50'000, 1);
  CHECK(sum.instances == 56);
  CHECK(sum.hits == sum.instances);  // Source: SprecherDrexl1996 (read)
  CHECK(sum.below == 0);
}

TEST_CASE("ten seeds: the mean of the ten keeps to the same", "[published][.long]") {
  if (!at_hand("j30.sm") || !at_hand("j10.mm")) return;
  double deviation = 0.0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const Sum one = searched("j30.sm", "j30opt.sm", 50'000, seed);
    deviation += one.deviation / one.instances / 10.0;
    CHECK(one.below == 0);
    const Sum modes = searched("j10.mm", "j10opt.mm", 50'000, seed);
    CHECK(modes.hits == 56);
    CHECK(modes.below == 0);
  }
  WARN("j30 mean deviation of ten seeds: " << 100.0 * deviation << " %");
  CHECK(deviation <= 0.004);
}
