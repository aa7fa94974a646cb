#pragma once
// Room dispatch, lead header. Purpose: the one evaluator. Takes a checked problem and a decision; plays each weather year day
// by day and gives the work, costs and ready days. Leaves out which decision is good. Rules: docs/rules-of-work.md.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/farm/read.hpp"
#include "aftercut/plan/decision.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::dispatch {

/// An outfit that can do an operation on a field: which machines, how long for the whole field, fuel.
struct Outfit {
  int tractor = plan::none;
  int implement = plan::none;
  bool own_crew = true;            ///< false: the hired outfit brings its people
  double ha_per_hour = 0.0;
  double fuel_l_per_hour = 0.0;    ///< of the farm's own tank
};

/// Everything that does not change between evaluations.
struct Table {
  const farm::Problem* problem = nullptr;
  std::uint64_t seed = 1;
  std::vector<season::YearDrivers> drivers;                       ///< [year]
  std::vector<std::vector<std::vector<Outfit>>> outfits;          ///< [field][operation], best first
  std::vector<std::vector<std::vector<std::string>>> why_not;     ///< [field][recipe], empty: possible
  std::vector<std::vector<char>> burn_called;                     ///< [year][day] sampled call of the authority
  std::vector<std::vector<int>> days_since_rain_reset;            ///< [year][day]
  std::vector<int> daylight_min;                                  ///< [day]
};
Table make_table(const farm::Problem& problem, std::uint64_t seed);

struct RunOptions {
  std::optional<int> only_field;          ///< every other field is left out (what a method costs alone)
  std::optional<int> start_after_field;   ///< with start_after_day: that field's first step waits
  int start_after_day = 0;
};

/// One weather year (index into Problem::years). The same arguments give the same run.
plan::YearRun run(const Table& table, const plan::Decision& decision, std::size_t year, const RunOptions& options = {});

/// Out-of-pocket cost of a run, cents.
std::int64_t cost_of(const plan::YearRun& run);

}  // namespace aftercut::dispatch
