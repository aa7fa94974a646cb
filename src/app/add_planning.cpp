// The commands that plan: options and what they do.

#include <fmt/format.h>

#include "add_commands.hpp"
#include "aftercut/report/exports.hpp"
#include "aftercut/scenario/what_if.hpp"

namespace aftercut::app {

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

void add_set_option(CLI::App* sub, Options& o, const char* what) {
  sub->add_option("--set", o.set, what)->allow_extra_args(false);
}

void add_scenario_option(CLI::App* sub, Options& o) {
  sub->add_option("--scenario", o.scenario,
                  "A scenario of the farm folder (scenarios/NAME.json): its changes are made before reading");
}

namespace {

void add_bound_option(CLI::App* sub, Options& o) {
  sub->add_option("--bound-rounds", o.bound_rounds,
                  "Rounds of prices that raise the cost below which no plan can come")
      ->capture_default_str()
      ->check(CLI::Range(0, 10000));
}

/// What a whole plan works out beside the search.
void add_whole_plan_options(CLI::App* sub, Options& o) {
  add_bound_option(sub, o);
  sub->add_option(
         "--one-more", o.one_more_plans,
         "Plans near this one by which the worth of one more hour or limit is judged (0: leave it out)")
      ->capture_default_str()
      ->check(CLI::Range(0, 200));
}

void add_plan(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* plan =
      command(app, shared, "plan", "Choose a method for every field, schedule the work and write the plan",
              "aftercut plan fields/demo --out out/demo --as-of 2026-10-12", make_plan);
  add_plan_options(plan, o);
  add_whole_plan_options(plan, o);
  plan->add_option("--out", o.out, "Folder for plan.json, report.html, calendar.ics, sheets and layers")
      ->required();
  plan->add_flag("--json", o.json, "Print plan.json instead of the table");

  plan->add_option(
      "--after", o.after,
      "plan.json, or its folder, of the plan that stands: only changes worth their gain are made");
  add_set_option(plan, o, "PATH=VALUE put into farm.json before it is read, e.g. \"prices.straw=40 USD/t\"");
  add_scenario_option(plan, o);
}

void add_watch(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* watch = command(app, shared, "watch",
                            "Look at the fields' readiness by the plan that stands: what changed, what a "
                            "storm asks for, what needs a decision (exit code 1)",
                            "aftercut watch fields/demo --plan out/demo --as-of 2026-11-03", watch_fields);
  add_reading_options(watch, o, "Farm folder with farm.json and journal.jsonl");
  watch->add_option("--plan", o.plan, "plan.json, or its folder, of the plan that stands")->required();
  watch->add_flag("--json", o.json, "Print JSON instead of words");
}

void add_review(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* review =
      command(app, shared, "review",
              "Look back on the season: planned against done, what was off, rates to consider for next year",
              "aftercut review fields/demo --plan out/first-plan --as-of 2027-05-20", review_season);
  add_reading_options(review, o, "Farm folder with farm.json and journal.jsonl");
  review->add_option("--plan", o.plan, "plan.json, or its folder, of the season's first plan")->required();
  review->add_flag("--json", o.json, "Print JSON instead of words");

  CLI::App* next = command(app, shared, "next-season",
                           "Make the farm folder of the season to come: dates a year on, history carried",
                           "aftercut next-season fields/demo --plan out/first-plan --out fields/demo-2027",
                           make_next_season);
  add_reading_options(next, o, "Farm folder with farm.json and journal.jsonl");
  next->add_option("--plan", o.plan, "plan.json, or its folder, of the season's first plan")->required();
  next->add_option("--out", o.out, "Folder to make; nothing in it is overwritten")->required();
}

void add_what_if(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub =
      command(app, shared, "what-if", "Plan the farm under changes, side by side with its plan",
              "aftercut what-if fields/demo --out out/what-if --set \"prices.straw=40 USD/t\"", what_if);
  add_plan_options(sub, o);
  sub->add_option("--out", o.out, "Folder for what-if.json and a plan folder for each case")->required();
  sub->add_option("--case", o.cases,
                  "A built-in case, as often as wanted (default: all, unless --set is given)")
      ->allow_extra_args(false)
      ->check(CLI::IsMember(scenario::case_names()));
  add_set_option(sub, o, "A case of its own: PATH=VALUE in farm.json; several with ; between them");
  sub->add_flag("--json", o.json, "what-if.json on standard output");
}

void add_trial(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub =
      command(app, shared, "try",
              "Plan on half of the weather years, then play the plan on the others and on invented ones",
              "aftercut try fields/demo", try_plan);
  add_plan_options(sub, o);
  sub->add_option("--invented", o.invented_years, "How many invented years")
      ->capture_default_str()
      ->check(CLI::Range(2, 2000));
  sub->add_option("--parameters", o.parameters,
                  "JSON file of monthly parameters to invent by (default: fitted to the farm's record)");
  add_set_option(sub, o, "PATH=VALUE put into farm.json before it is read");
  sub->add_flag("--json", o.json, "The trial as JSON on standard output");
}

void add_hindcast(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub =
      command(app, shared, "hindcast", "Chances of readiness said in past winters, beside what then happened",
              "aftercut hindcast fields/demo --dates 11-01,03-01 --out out/hindcast", hindcast);
  add_reading_options(sub, o, "Farm folder with farm.json");
  sub->add_option("--dates", o.dates, "Days on which chances are said, MM-DD, with commas between")
      ->delimiter(',')
      ->capture_default_str();
  sub->add_option("--evaluations", o.hindcast_evaluations,
                  "Changes of method or order that the search judges, once for each winter left out")
      ->capture_default_str()
      ->check(CLI::Range(1, 1000000));
  add_set_option(sub, o, "PATH=VALUE put into farm.json before it is read");
  sub->add_option("--out", o.out, "Folder for hindcast.csv and hindcast.svg");
  sub->add_flag("--json", o.json, "The hindcast as JSON on standard output");
}

void add_trade_offs(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub = command(app, shared, "trade-offs",
                          "Plans that weigh cost, readiness, greenhouse gases and straw baled differently",
                          "aftercut trade-offs fields/demo --out out/trade-offs", trade_offs);
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
                          "aftercut region my-region --out out/region", plan_region);
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
  add_bound_option(sub, o);
  sub->add_option("--whole", o.wholes,
                  "A farm's folder, as in region.json: its whole plan is written and audited")
      ->allow_extra_args(false);
  sub->add_flag("--json", o.json, "region-plan.json on standard output");
}

void add_serve(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub = command(app, shared, "serve", "The page, live: change things, plan again, take files away",
                          "aftercut serve fields/demo --out out/demo --as-of 2026-10-12", serve);
  add_plan_options(sub, o);
  add_whole_plan_options(sub, o);
  sub->add_option("--out", o.out, "Folder of the plan that stands; planned first where it is not there")
      ->required();
  sub->add_option("--port", o.port, "Port (0: any that is free)")
      ->capture_default_str()
      ->check(CLI::Range(0, 65535));
  sub->add_option("--address", o.address,
                  "Address to answer at; any other than this one lets other machines in")
      ->capture_default_str();
  sub->add_option("--now", o.now,
                  "Time to write the journal under, like 2026-10-14T18:03:22Z (default: the clock)");
  sub->add_option("--key", o.key, "Key of the opened address (default: drawn at random)")
      ->check(CLI::Validator(
          [](std::string& key) {
            const bool plain = key.size() >= 32 && key.find_first_not_of(
                                                       "0123456789abcdefghijklmnopqrstuvwxyz"
                                                       "ABCDEFGHIJKLMNOPQRSTUVWXYZ-_") == std::string::npos;
            return plain ? std::string{} : std::string{"a key has 32 or more letters and digits"};
          },
          "KEY"));
}

void add_export(CLI::App& app, Shared& shared) {
  Options& o = shared.options;
  CLI::App* sub = command(app, shared, "export", "Sheets to print and files for other programs, from a plan",
                          "aftercut export out/demo --out out/sheets --language es", export_plan);
  sub->add_option("PLAN", o.plan, "plan.json, or the folder that holds it")->required();
  sub->add_option("--out", o.out, "Folder to write into")->required();
  sub->add_option(
         "--only", o.only,
         fmt::format("One of {}, as often as wanted (default: all)", fmt::join(report::export_names(), ", ")))
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

}  // namespace

void add_planning(CLI::App& app, Shared& shared) {
  add_plan(app, shared);
  add_watch(app, shared);
  add_review(app, shared);
  add_what_if(app, shared);
  add_trial(app, shared);
  add_hindcast(app, shared);
  add_trade_offs(app, shared);
  add_region(app, shared);
  add_serve(app, shared);
  add_export(app, shared);
}

}  // namespace aftercut::app
