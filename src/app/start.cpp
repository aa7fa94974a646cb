#include <fmt/format.h>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/farm/new_farm.hpp"

namespace aftercut::app {
namespace {

void print_made(const farm::NewFarm& made, bool with_weather) {
  fmt::print("Made {}:\n", made.folder.string());
  for (const auto& file : made.files) fmt::print("  {}\n", file.string());
  if (!made.guesses.empty()) fmt::print("Guessed, most important first:\n");
  for (std::size_t i = 0; i < made.guesses.size(); ++i)
    fmt::print("  {}. {}\n     {}\n", i + 1, made.guesses[i].what, made.guesses[i].change);
  for (const auto& note : made.notes) fmt::print("Note: {}\n", note);
  fmt::print("Next: {}aftercut plan {} --out {}/plan\n",
             with_weather ? "" : "put weather.csv into the folder, then ", made.folder.string(),
             made.folder.string());
}

}  // namespace

int new_farm_folder(const Options& o) {
  farm::NewFarmInput in{.folder = o.farm,
                        .table = o.table,
                        .boundaries = {},
                        .weather = {},
                        .units = farm::UnitSystem::si,
                        .as_of = {}};
  if (!o.boundaries.empty()) in.boundaries = o.boundaries;
  if (!o.weather.empty()) in.weather = o.weather;
  if (o.units == "US") in.units = farm::UnitSystem::us;
  if (!o.as_of.empty()) {
    in.as_of = parse_iso_date(o.as_of);
    if (!in.as_of)
      return report_issues(
          {{"command line", "--as-of", o.as_of, "a day like 2026-10-12", "write year-month-day"}}, false);
  }
  const auto made = farm::new_farm(in);
  if (!made.ok()) return report_issues(made.issues(), false);
  print_made(made.value(), in.weather.has_value());
  return done;
}

}  // namespace aftercut::app
