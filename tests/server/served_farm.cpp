#include "served_farm.hpp"

#include "aftercut/farm/read.hpp"
#include "catch2/catch.hpp"

namespace aftercut::test {
namespace {

constexpr auto pause = std::chrono::milliseconds{5};
constexpr int most_waits = 60000;

bool over(const std::string& stage) {
  return stage == "planned" || stage == "refused" || stage == "given_up" || stage == "failed";
}

/// The folder of the plan that stands, made once for all tests of the program.
const std::filesystem::path& prepared_plan() {
  static const Scratch scratch{"prepared"};
  static const std::filesystem::path out = [] {
    const server::Setup setup = served_farm(scratch, Base::to_be_made);
    const auto farm = setup.read({});
    REQUIRE(farm.ok());
    REQUIRE(server::whole_plan(setup, farm.value(), {.start = {}, .out = setup.out}, [](double) {}).ok());
    return setup.out;
  }();
  return out;
}

}  // namespace

server::Setup served_farm(const Scratch& scratch, Base base) {
  server::Setup s;
  s.folder = scratch.path;
  s.out = scratch.path / "out";
  s.version = "test";
  s.threads = 2;
  s.quick_changes = 40;
  s.changes = 80;
  s.bound_rounds = 0;
  s.one_more_plans = 0;
  s.read = [](const server::ToRead& what) -> Result<server::ReadFarm> {
    farm::ReadOptions options;
    options.years_from = 2001;
    options.years_to = 2002;
    options.as_of = what.stands_on.value_or(make_date(2026, 10, 12));
    options.fit_implements = what.fit_implements;
    options.scenario = what.scenario;
    options.scenario_file = what.file;
    auto read = farm::read(std::filesystem::path{AFTERCUT_SOURCE_DIR} / "fields/demo", options);
    if (!read.ok()) return read.issues();
    return server::ReadFarm{std::move(read).value(), {}};
  };
  s.read_on = [read = s.read](Date day) { return read({.stands_on = day}); };
  s.read_bare = []() -> Result<farm::Problem> {
    farm::ReadOptions options;
    options.fit_implements = false;
    return farm::read(std::filesystem::path{AFTERCUT_SOURCE_DIR} / "fields/demo", options);
  };
  s.now = [] { return journal::Now{"2026-11-02T18:03:22Z", make_date(2026, 11, 2)}; };
  if (base == Base::there)
    std::filesystem::copy(prepared_plan(), s.out, std::filesystem::copy_options::recursive);
  return s;
}

server::Job at_stage(const server::Desk& desk, const std::string& job, const std::string& stage) {
  for (int waited = 0; waited < most_waits; ++waited) {
    const auto now = desk.job(job);
    REQUIRE(now);
    if (now->stage == stage || over(now->stage)) return *now;
    std::this_thread::sleep_for(pause);
  }
  FAIL("the job never came to " + stage);
  return {};
}

server::Job ended(const server::Desk& desk, const std::string& job) { return at_stage(desk, job, "planned"); }

}  // namespace aftercut::test
