#include <fmt/format.h>

#include <cstdio>
#include <exception>

#include "add_commands.hpp"
#include "aftercut/scenario/what_if.hpp"

using aftercut::app::Shared;

namespace {

void add_commands(CLI::App& app, Shared& shared) {
  using namespace aftercut::app;
  Options& o = shared.options;
  CLI::App* check = command(app, shared, "check", "Read a farm folder and list every issue in it",
                            "aftercut check fields/demo", check_farm);
  check->add_option("FARM", o.farm, "Farm folder with farm.json")->required();
  check->add_flag("--json", o.json, "Issues as JSON on standard output");

  add_planning(app, shared);
  add_record(app, shared);

  CLI::App* compare = command(app, shared, "compare", "Every method side by side, for one field or for all",
                              "aftercut compare fields/demo --field A1", compare_methods);
  add_plan_options(compare, o);
  compare->add_option("--field", o.field, "Id of one field (default: all)");
  add_scenario_option(compare, o);
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
  add_scenario_option(audit, o);
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
  invent->add_option("--seed", o.seed, "Seed (0: the one in the parameter file)")->capture_default_str();
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
