#pragma once
// Room app, lead header. Purpose: the command line. Takes arguments; runs one command and gives its exit
// code: 0 done; 1 done, but the audit or the readiness target fails; 2 the input has issues; 3 our own fault.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace aftercut::app {

enum Exit { done = 0, not_reached = 1, bad_input = 2, own_fault = 3 };

/// What a command was given; the members that it does not use stay at their defaults.
struct Options {
  std::string farm;  ///< farm folder
  std::string out;   ///< folder or file to write
  std::string plan;  ///< plan.json or its folder
  std::string table, boundaries, weather;
  std::string units = "SI";
  std::string field;
  std::string day;                      ///< ISO date
  std::string years;                    ///< "A..B"
  std::string as_of;                    ///< ISO date
  std::string parameters;               ///< of invented weather
  std::string implement;                ///< id
  std::optional<double> turn_radius_m;  ///< other than the implement's own
  std::optional<int> rounds;            ///< along the edge, other than the implement's own
  std::uint64_t seed = 0;
  int threads = 0;  ///< 0: as many as the machine has
  int evaluations = 6000;
  int bound_rounds = 4;
  int one_more_plans = 5;
  int first_year = 2001, year_count = 30;
  int invented_years = 200;
  std::vector<std::string> dates{"11-01", "01-01", "03-01"};  ///< of a hindcast, month and day
  int hindcast_evaluations = 600;                      ///< once a winter. Source: HindcastSearch (assumed)
  int look_evaluations = 200, farm_evaluations = 300;  ///< of a region's farm: looked at, planned
  std::string shown_units;                             ///< "SI" or "US" instead of the farm's own
  bool journal = true;                                 ///< the season's journal counts
  std::optional<std::size_t> journal_entries;          ///< only the first so many; none: all
  std::string after;                                   ///< plan.json or its folder: the plan that stands
  std::vector<std::string> set;                        ///< "path=value" on farm.json
  std::string scenario;                                ///< of the farm folder, by name
  std::vector<std::string> cases;                      ///< of what-if, by name
  std::vector<std::string> wholes;                     ///< farms of a region whose whole plans are wanted
  std::string address = "127.0.0.1", key;              ///< of the server
  int port = 8471;
  std::vector<std::string> only;  ///< exports, by name
  std::string paper;              ///< "a4" or "letter"; empty: by the plan's units
  std::string language = "en";
  std::string replaces;  ///< an older calendar
  bool quick = false;    ///< leave out working the bound out again
  bool json = false;
  bool message = false;                  ///< plain lines to paste
  std::vector<std::string> words, with;  ///< of record
  std::string by, note, id, now, import;
  bool list = false, dry_run = false;
};

int check_farm(const Options& options);
int make_plan(const Options& options);
int watch_fields(const Options& options);
int review_season(const Options& options);
int make_next_season(const Options& options);
int what_if(const Options& options);
int try_plan(const Options& options);
int hindcast(const Options& options);
int trade_offs(const Options& options);
int compare_methods(const Options& options);
int show_passes(const Options& options);
int show_straw(const Options& options);
int show_machines(const Options& options);
int plan_stacks(const Options& options);
int show_burning(const Options& options);
int export_plan(const Options& options);
int audit_plan(const Options& options);
int new_farm_folder(const Options& options);
int plan_region(const Options& options);
int serve(const Options& options);
int record(const Options& options);
int invent_weather(const Options& options);

}  // namespace aftercut::app
