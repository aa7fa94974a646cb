#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>

#include "aftercut/app/clock.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/made.hpp"
#include "aftercut/server/guard.hpp"
#include "aftercut/server/server.hpp"

namespace aftercut::app {
namespace {

Result<server::ReadFarm> read_for_server(const Options& o, bool fit_implements,
                                         const std::optional<farm::Scenario>& changes = {},
                                         const std::string& file = "") {
  auto input = read_input(o, fit_implements, changes, file);
  if (!input.ok()) return input.issues();
  auto troubles = troubles_of(input.value());
  return server::ReadFarm{std::move(input).value().problem, std::move(troubles)};
}

/// The plan that stands goes on standing: its day, where none is asked for, and the journal as it knew it.
Options as_the_plan_knew_it(Options o) {
  const audit::PlanMade made = audit::plan_made_in(std::filesystem::path{o.out} / "plan.json");
  const auto& day = made.as_of;
  if (!day || (!o.as_of.empty() && o.as_of != iso(*day))) return o;
  const auto at = made.inputs.find(journal::file_name);
  const auto log = journal::read_log(o.farm);
  if (!log.ok()) return o;
  o.journal_entries =
      journal::known_to_plan(log.value().entries, *day, at == made.inputs.end() ? "" : at->second);
  if (o.journal_entries) o.as_of = iso(*day);
  return o;
}

server::Setup setup_of(const Options& o) {
  server::Setup s;
  s.folder = o.farm;
  s.out = o.out;
  s.version = AFTERCUT_VERSION;
  s.seed = o.seed;
  s.threads = threads_of(o);
  s.changes = o.evaluations;
  s.bound_rounds = o.bound_rounds;
  s.one_more_plans = o.one_more_plans;
  s.read = [o](const server::ToRead& what) {
    Options then = o;
    if (what.stands_on) {
      then.as_of = iso(*what.stands_on);
      then.journal_entries.reset();
      then = as_the_plan_knew_it(then);
    }
    return read_for_server(then, what.fit_implements, what.scenario, what.file);
  };
  s.read_on = [o](Date day) {
    Options then = o;
    then.as_of = iso(day);
    then.journal_entries.reset();
    return read_for_server(then, true);
  };
  s.read_bare = [o] {
    farm::ReadOptions options;
    options.fit_implements = false;
    return farm::read(o.farm, options);
  };
  s.now = [o] { return now_of(o).value(); };
  return s;
}

}  // namespace

int serve(const Options& asked) {
  const auto now = now_of(asked);
  if (!now.ok()) return report_issues(now.issues(), asked.json);
  const Options o = as_the_plan_knew_it(asked);
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  server::Server server{setup_of(o), {o.address, o.port, o.key.empty() ? server::random_key() : o.key}};
  const auto port = server.bind();
  if (!port.ok()) return report_issues(port.issues(), o.json);
  if (o.address != "127.0.0.1")
    fmt::print(stderr,
               "Answers at {}: every machine that reaches it and has the key can read this farm, keep "
               "scenarios and write in its journal. Nothing is encrypted on the way.\n",
               o.address);
  fmt::print("Open {}\nEnd with Ctrl-C.\n", server.address_with_key());
  std::fflush(stdout);
  server::run_until_told_to_end(server);
  return done;
}

}  // namespace aftercut::app
