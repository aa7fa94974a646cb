#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/server/guard.hpp"
#include "aftercut/server/server.hpp"

namespace aftercut::app {
namespace {

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
  s.read = [o](const std::optional<farm::Scenario>& changes, const std::string& file,
               bool fit_implements) -> Result<server::ReadFarm> {
    auto input = read_input(o, fit_implements, changes, file);
    if (!input.ok()) return input.issues();
    auto troubles = troubles_of(input.value());
    return server::ReadFarm{std::move(input).value().problem, std::move(troubles)};
  };
  return s;
}

}  // namespace

int serve(const Options& o) {
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  server::Server server{setup_of(o), {o.address, o.port, o.key.empty() ? server::random_key() : o.key}};
  const auto port = server.bind();
  if (!port.ok()) return report_issues(port.issues(), o.json);
  if (o.address != "127.0.0.1")
    fmt::print(stderr,
               "Answers at {}: every machine that reaches it and has the key can read this farm and keep "
               "scenarios. Nothing is encrypted on the way.\n",
               o.address);
  fmt::print("Open {}\nEnd with Ctrl-C.\n", server.address_with_key());
  std::fflush(stdout);
  server::run_until_told_to_end(server);
  return done;
}

}  // namespace aftercut::app
