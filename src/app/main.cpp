#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <functional>

#include "aftercut/app/commands.hpp"
#include "aftercut/report/exports.hpp"
#include "aftercut/scenario/what_if.hpp"

namespace {

using aftercut::app::Options;
using Command = std::function<int(const Options&)>;

struct Shared {
  Options options;
  Command run;
};

CLI::App* command(CLI::App& app, Shared& shared, const char* name, const char* what, const char* example,
                  Command run) {
  CLI::App* sub = app.add_subcommand(name, what);
  sub->footer(fmt::format("Example: {}", example));
  sub->callback([&shared, run] { shared.run = run; });
  return sub;
}

void add_reading_options(CLI::App* sub, Options& o, const char* farm) {
  sub->add_option("FARM", o.farm, farm)->required();
  sub->add_option("--seed", o.seed, "Seed of the search and of sampled burn days")->capture_default_str();
  sub->add_option("--years", o.years, "Weather years to use, by the year in which their season starts: A..B");
  sub->add_option("--as-of", o.as_of,
                  "First day on which work can still be planned, YYYY-MM-DD (default: as_of in farm.json)");
  sub->add_option("--threads", o.threads, "Threads (0: all cores); the plan is the same for any number")
      ->capture_default_str();
}

void add_plan_options(CLI::App* sub, Options& o) {
  add_reading_options(sub, o, "Farm folder with farm.json");
  sub->add_option("--effort", o.evaluations, "Changes of method or order that the search judges")
      ->capture_default_str()
      ->check(CLI::Range(1, 1000000));
}

/// Options that read the farm otherwise than its folder says.
void add_set_option(CLI::App* sub, Options& o, const char* what) {
  sub->add_option("--set", o.set, what)->allow_extra_args(false);
}

void add_what_if(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub = command(app, shared, "what-if", "Plan the farm under changes, side by side with its plan",
                          "aftercut what-if fields/demo --out out/what-if --set \"prices.straw=40 USD/t\"",
                          aftercut::app::what_if);
  add_plan_options(sub, o);
  sub->add_option("--out", o.out, "Folder for what-if.json and a plan folder for each case")->required();
  sub->add_option("--case", o.cases,
                  "A built-in case, as often as wanted (default: all, unless --set is given)")
      ->allow_extra_args(false)
      ->check(CLI::IsMember(aftercut::scenario::case_names()));
  add_set_option(sub, o, "A case of its own: PATH=VALUE in farm.json; several with ; between them");
  sub->add_flag("--json", o.json, "what-if.json on standard output");
}

void add_trial(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub =
      command(app, shared, "try",
              "Plan on half of the weather years, then play the plan on the others and on invented ones",
              "aftercut try fields/demo", aftercut::app::try_plan);
  add_plan_options(sub, o);
  sub->add_option("--invented", o.invented_years, "How many invented years")
      ->capture_default_str()
      ->check(CLI::Range(2, 2000));
  sub->add_option("--parameters", o.parameters,
                  "JSON file of monthly parameters to invent by (default: fitted to the farm's record)");
  add_set_option(sub, o, "PATH=VALUE put into farm.json before it is read");
  sub->add_flag("--json", o.json, "The trial as JSON on standard output");
}

void add_trade_offs(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub = command(app, shared, "trade-offs",
                          "Plans that weigh cost, readiness, greenhouse gases and straw baled differently",
                          "aftercut trade-offs fields/demo --out out/trade-offs", aftercut::app::trade_offs);
  add_plan_options(sub, o);
  sub->add_option("--out", o.out,
                  "Folder for trade-offs.json, trade-offs.html and a plan folder for each plan")
      ->required();
  add_set_option(sub, o, "PATH=VALUE put into farm.json before it is read");
  sub->add_flag("--json", o.json, "trade-offs.json on standard output");
}

void add_region(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub = command(app, shared, "region",
                          "Plan many farms that share burn area and canal flow, each within its share",
                          "aftercut region my-region --out out/region", aftercut::app::plan_region);
  add_reading_options(sub, o, "Folder with region.json, see docs/region.md");
  sub->add_option("--out", o.out, "Folder for region-plan.json, region.html and region-fields.geojson")
      ->required();
  sub->add_option("--look-effort", o.look_evaluations,
                  "Changes that the search judges on each farm before what is shared is shared out")
      ->capture_default_str()
      ->check(CLI::Range(1, 1000000));
  sub->add_option("--farm-effort", o.farm_evaluations, "And once each farm has its share")
      ->capture_default_str()
      ->check(CLI::Range(1, 1000000));
  sub->add_option("--bound-rounds", o.bound_rounds,
                  "Rounds of prices that raise the cost below which no plan can come")
      ->capture_default_str()
      ->check(CLI::Range(0, 10000));
  sub->add_option("--whole", o.wholes,
                  "A farm's folder, as in region.json: its whole plan is written and audited")
      ->allow_extra_args(false);
  sub->add_flag("--json", o.json, "region-plan.json on standard output");
}

void add_export(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub =
      command(app, shared, "export", "Sheets to print and files for other programs, from a plan",
              "aftercut export out/demo --out out/sheets --language es", aftercut::app::export_plan);
  sub->add_option("PLAN", o.plan, "plan.json, or the folder that holds it")->required();
  sub->add_option("--out", o.out, "Folder to write into")->required();
  sub->add_option("--only", o.only,
                  fmt::format("One of {}, as often as wanted (default: all)",
                              fmt::join(aftercut::report::export_names(), ", ")))
      ->allow_extra_args(false);
  sub->add_option("--paper", o.paper, "Paper of the sheets (default: letter for a farm in US units, else a4)")
      ->check(CLI::IsMember({"a4", "letter"}));
  sub->add_option("--language", o.language, "Language of work lists and combine card")
      ->capture_default_str()
      ->check(CLI::IsMember({"en", "es"}));
  sub->add_option("--replaces", o.replaces,
                  "The calendar that was imported before: its events that are gone are cancelled");
  sub->add_flag("--json", o.json, "Issues as JSON on standard output");
}

void add_commands(CLI::App& app, Shared& shared) {
  using namespace aftercut::app;
  Options& o = shared.options;
  CLI::App* check = command(app, shared, "check", "Read a farm folder and list every issue in it",
                            "aftercut check fields/demo", check_farm);
  check->add_option("FARM", o.farm, "Farm folder with farm.json")->required();
  check->add_flag("--json", o.json, "Issues as JSON on standard output");

  CLI::App* plan =
      command(app, shared, "plan", "Choose a method for every field, schedule the work and write the plan",
              "aftercut plan fields/demo --out out/demo --as-of 2026-10-12", make_plan);
  add_plan_options(plan, o);
  plan->add_option("--bound-rounds", o.bound_rounds,
                   "Rounds of prices that raise the cost below which no plan can come")
      ->capture_default_str()
      ->check(CLI::Range(0, 10000));
  plan->add_option(
          "--one-more", o.one_more_plans,
          "Plans near this one by which the worth of one more hour or limit is judged (0: leave it out)")
      ->capture_default_str()
      ->check(CLI::Range(0, 200));
  plan->add_option("--out", o.out, "Folder for plan.json, report.html, calendar.ics, sheets and layers")
      ->required();
  plan->add_flag("--json", o.json, "Print plan.json instead of the table");

  add_set_option(plan, o, "PATH=VALUE put into farm.json before it is read, e.g. \"prices.straw=40 USD/t\"");

  add_what_if(app, shared);
  add_trial(app, shared);
  add_trade_offs(app, shared);
  add_region(app, shared);
  add_export(app, shared);

  CLI::App* compare = command(app, shared, "compare", "Every method side by side, for one field or for all",
                              "aftercut compare fields/demo --field 7", compare_methods);
  add_plan_options(compare, o);
  compare->add_option("--field", o.field, "Id of one field (default: all)");
  compare->add_option("--units", o.shown_units, "Units shown (default: the farm's)")
      ->check(CLI::IsMember({"SI", "US"}));
  compare->add_flag("--message", o.message, "Plain lines to paste into a message");
  compare->add_flag("--json", o.json, "The comparison as JSON");

  CLI::App* audit =
      command(app, shared, "audit", "Recompute every year of a plan from scratch and list what is wrong",
              "aftercut audit fields/demo out/demo/plan.json", audit_plan);
  audit->add_option("FARM", o.farm, "Farm folder with farm.json")->required();
  audit->add_option("PLAN", o.plan, "plan.json, or the folder that holds it")->required();
  add_set_option(audit, o, "The same --set that the plan was made with");
  audit->add_option("--case", o.cases, "The case of what-if that the plan was made for")
      ->allow_extra_args(false)
      ->expected(1)
      ->check(CLI::IsMember(aftercut::scenario::case_names()));
  audit
      ->add_option("--threads", o.threads, "Threads (0: all cores); the findings are the same for any number")
      ->capture_default_str();
  audit->add_flag("--quick", o.quick, "Leave out working the bound out again from its multipliers");
  audit->add_flag("--json", o.json, "Violations as JSON on standard output");

  CLI::App* passes =
      command(app, shared, "passes", "Lay one machine's passes on every field: hours by its true outline",
              "aftercut passes fields/demo --implement plane --out passes.geojson", show_passes);
  passes->add_option("FARM", o.farm, "Farm folder with farm.json")->required();
  passes->add_option("--implement", o.implement, "Id of an implement (default: the first disk)");
  passes->add_option("--rounds", o.rounds, "Rounds along the edge, to turn on")
      ->capture_default_str()
      ->check(CLI::Range(0, 10));
  passes->add_option("--turn-radius-m", o.turn_radius_m, "Radius of a turn, metres")
      ->capture_default_str()
      ->check(CLI::Range(0.5, 30.0));
  passes->add_option("--out", o.out, "GeoJSON file for the lines of all passes");
  passes->add_option("--threads", o.threads, "Threads (0: all cores)")->capture_default_str();

  CLI::App* straw = command(app, shared, "straw",
                            "Straw on each field, how it varies by the yield map, and where it is heavy",
                            "aftercut straw fields/demo --out out/straw", show_straw);
  straw->add_option("FARM", o.farm, "Farm folder with farm.json")->required();
  straw->add_option("--out", o.out, "Folder for straw.geojson, straw.tif and heavy-straw.geojson");

  CLI::App* machines =
      command(app, shared, "machines", "What each machine asks for, does, takes and truly costs",
              "aftercut machines fields/demo", show_machines);
  machines->add_option("FARM", o.farm, "Farm folder with farm.json")->required();

  CLI::App* stacks = command(app, shared, "stacks", "Bales to stack places: room, distances, sizes",
                             "aftercut stacks fields/demo --plan out/demo", plan_stacks);
  stacks->add_option("FARM", o.farm, "Farm folder with farm.json")->required();
  stacks->add_option("--plan", o.plan, "plan.json, or its folder (default: as if all straw were baled)");
  stacks->add_option("--out", o.out, "GeoJSON file for stack places and ways");

  CLI::App* burn = command(app, shared, "burn",
                           "What the burn rules come to for each field on a day, with a sheet to print",
                           "aftercut burn fields/demo --day 2026-10-20 --out out/burn", show_burning);
  burn->add_option("FARM", o.farm, "Farm folder with farm.json")->required();
  burn->add_option("--field", o.field, "Id of one field (default: all)");
  burn->add_option("--day", o.day, "Day of the season, YYYY-MM-DD (default: as_of in farm.json)");
  burn->add_option("--out", o.out, "Folder for burn.json and one sheet for each field");
  burn->add_flag("--json", o.json, "burn.json on standard output");

  CLI::App* start = command(app, shared, "new", "Make a farm folder from a table of fields",
                            "aftercut new my-farm --table fields.csv --units US", new_farm_folder);
  start->add_option("DIR", o.farm, "Folder to make")->required();
  start
      ->add_option("--table", o.table,
                   "CSV with name, area, dryer tickets, harvest date and soil of each field")
      ->required();
  start->add_option("--boundaries", o.boundaries, "Vector file with the field shapes, joined by name");
  start->add_option("--weather", o.weather, "Daily weather CSV, copied into the folder");
  start->add_option("--units", o.units, "Units of what is written and shown")
      ->check(CLI::IsMember({"SI", "US"}))
      ->capture_default_str();
  start->add_option("--as-of", o.as_of, "Fields harvested by this day are cut already (default: all are)");

  CLI::App* invent =
      command(app, shared, "invent-weather", "Write invented weather years from monthly parameters",
              "aftercut invent-weather weather/valley-parameters.json --out years.csv", invent_weather);
  invent->add_option("PARAMETERS", o.parameters, "JSON file of monthly parameters")->required();
  invent->add_option("--out", o.out, "CSV file to write")->required();
  invent->add_option("--first-year", o.first_year, "First year, from 1 September")
      ->capture_default_str()
      ->check(CLI::Range(1900, 2900));
  invent->add_option("--years", o.year_count, "How many years")
      ->capture_default_str()
      ->check(CLI::Range(1, 1000));
  invent->add_option("--seed", o.seed, "Seed (default: the one in the parameter file)")->default_val(0);
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{
      "aftercut: what to do with the rice straw on each field, and how sure the seedbed is in spring"};
  app.require_subcommand(1);
  app.set_version_flag("--version", AFTERCUT_VERSION);
  Shared shared;
  try {
    add_commands(app, shared);
    app.parse(argc, argv);
    return shared.run(shared.options);
  } catch (const CLI::ParseError& e) {
    const int code = app.exit(e);
    return code == 0 ? 0 : aftercut::app::bad_input;
  } catch (const std::exception& e) {
    fmt::print(stderr,
               "aftercut: our own fault: {}\nPlease keep the farm folder as it is and report this line.\n",
               e.what());
    return aftercut::app::own_fault;
  }
}
