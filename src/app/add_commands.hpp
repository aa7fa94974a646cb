#pragma once
// The commands of the command line and the options that several of them take. Internal to the program.

#include <CLI/CLI.hpp>
#include <functional>

#include "aftercut/app/commands.hpp"

namespace aftercut::app {

using Command = std::function<int(const Options&)>;

/// What the command line comes to: options and the command to run with them.
struct Shared {
  Options options;
  Command run;
};

CLI::App* command(CLI::App& app, Shared& shared, const char* name, const char* what, const char* example,
                  Command run);
void add_reading_options(CLI::App* sub, Options& o, const char* farm);
void add_plan_options(CLI::App* sub, Options& o);
/// Options that read the farm otherwise than its folder says.
void add_set_option(CLI::App* sub, Options& o, const char* what);
void add_scenario_option(CLI::App* sub, Options& o);

/// plan, what-if, try, hindcast, trade-offs, region, serve, export.
void add_planning(CLI::App& app, Shared& shared);
/// record.
void add_record(CLI::App& app, Shared& shared);

}  // namespace aftercut::app
