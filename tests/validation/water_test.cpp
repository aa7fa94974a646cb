// Water of the winter on the real record: days from drawdown to a workable seedbed, winter water, caught
// rain, soil temperature.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/soil/temperature.hpp"
#include "aftercut/water/flood.hpp"
#include "catch2/catch.hpp"
#include "field_case.hpp"
#include "tables.hpp"

using namespace aftercut;
using namespace aftercut::validation;

namespace {

constexpr double hectares_per_acre = 0.40468564224;  // by definition

struct Drawdown {
  MonthDay on;
  double load_kg_per_ha;
  soil::WetLimitRule rule;
};

/// Days from boards out to the first morning on which `fit` says yes, in each winter; to the season's end
/// where it never does.
template <class Fit>
std::vector<double> days_to(const Drawdown& d, Fit fit) {
  std::vector<double> days;
  farm::Farm farm = one_field(d.load_kg_per_ha);
  soil::ProfileInput input;
  input.wet_limit_rule = d.rule;
  farm.soils = {soil::make_profile(input)};
  for (const auto& year : davis()->winters.years) {
    const auto drivers = season::drivers_of(year, farm);
    season::FieldYear field =
        live(farm, drivers, {.name = "held", .work = {}, .hold = Hold{{11, 1}, d.on}}, d.on).end;
    field.set_boards(0.0);
    const int out = field.day();
    while (field.day() < farm.season.days - 1 && !fit(field.mask())) field.end_day(0.0);
    days.push_back(field.day() - out);
  }
  return days;
}

bool ground_fit(const season::DayMask& mask) { return mask.workable; }
bool carries_load(const season::DayMask& mask) { return mask.drive_heavy; }

/// The winter's water sum: what came in against what went and stayed [mm].
double open_end_mm(const WinterRun& run) {
  const soil::WaterFluxes& f = run.over_hold;
  return run.canal_mm + f.rain_mm - f.evaporation_mm - f.percolation_mm - f.spill_mm -
         (run.end_mm - run.start_mm);
}

std::vector<WinterRun> held(double depth_mm) {
  const farm::Farm farm = one_field(7000.0);
  const Case c{.name = "held", .work = {}, .hold = Hold{{11, 1}, {3, 1}, depth_mm, 150.0}};
  std::vector<WinterRun> runs;
  for (const auto& year : davis()->winters.years)
    runs.push_back(live(farm, season::drivers_of(year, farm), c, {3, 2}));
  return runs;
}

std::vector<double> each(const std::vector<WinterRun>& runs, double (*get)(const WinterRun&)) {
  std::vector<double> out;
  for (const WinterRun& run : runs) out.push_back(get(run));
  return out;
}

}  // namespace

TEST_CASE("days from drawdown to a workable seedbed", "[derived]") {
  if (no_record()) return;
  struct Row {
    const char* name;
    MonthDay on;
    const char*
        plain;  // a plain run over 20 mm of evaporation from field capacity, no straw / half the evaporation
  };
  const std::vector<Row> rows{{"1 February", {2, 1}, "11/17/36; 24/44/70"},
                              {"1 March", {3, 1}, "7/12/31; 14/28/44"},
                              {"15 March", {3, 15}, "5/8/18; 12/19/32"},
                              {"1 April", {4, 1}, "5/5/11; 9/13/22"}};
  constexpr auto air = soil::WetLimitRule::ten_percent_air, inflection = soil::WetLimitRule::inflection;
  Table table{"drawdown",
              {"boards out, after 100 mm held", "bare: p10 / p50 / p90", "with 7 t/ha of straw",
               "bare, other wet limit (inflection)", "bare, carries a loaded wagon", "plain evaporation run"},
              {}};
  for (const Row& row : rows) {
    const auto bare = days_to({row.on, 0.0, air}, ground_fit),
               straw = days_to({row.on, 7000.0, air}, ground_fit);
    const auto other = days_to({row.on, 0.0, inflection}, ground_fit);
    for (std::size_t y = 0; y < bare.size(); ++y) CHECK(straw[y] >= bare[y]);
    table.rows.push_back({row.name, three(bare), three(straw), three(other),
                          three(days_to({row.on, 0.0, air}, carries_load)), row.plain});
  }
  const auto march = days_to({{3, 1}, 0.0, air}, ground_fit);
  CHECK(at_share(march, 0.5) >= 14.0);
  CHECK(page_holds(table));
}

TEST_CASE("water of a winter hold", "[published]") {
  if (no_record()) return;
  const auto runs = held(100.0), caught = held(0.0);
  for (const auto& all : {runs, caught})
    for (const WinterRun& run : all) CHECK(std::abs(open_end_mm(run)) < 1e-6);
  const auto canal = each(runs, [](const WinterRun& r) { return r.canal_mm; });
  const auto rain = each(runs, [](const WinterRun& r) { return r.over_hold.rain_mm; });
  CHECK(at_share(canal, 0.5) >= 180.0);
  CHECK(at_share(canal, 0.5) <= 320.0);
  const double dry = at_share(rain, 0.33), wet = at_share(rain, 0.67), middle = at_share(canal, 0.5);
  std::vector<double> in_dry, in_wet;
  for (std::size_t y = 0; y < runs.size(); ++y) {
    if (rain[y] <= dry) in_dry.push_back(canal[y]);
    if (rain[y] >= wet) in_wet.push_back(canal[y]);
  }
  CHECK(at_share(in_dry, 0.5) > middle);
  CHECK(at_share(in_wet, 0.5) < middle);
  const auto by_rain =
      std::count_if(caught.begin(), caught.end(), [](const WinterRun& r) { return r.days_with_50_mm >= 60; });
  std::vector<double> in_m3, in_acre_feet;
  for (const double mm : canal) {
    in_m3.push_back(water::volume(Millimetre{mm}, Hectare{1.0}).value());
    in_acre_feet.push_back(water::acre_feet(water::volume(Millimetre{mm}, Hectare{hectares_per_acre})));
  }
  const auto row = [](const char* name, const std::vector<double>& s, const char* published) {
    return std::vector<std::string>{name, three(s), published};
  };
  CHECK(page_holds(
      {"winter hold",
       {"1 November to 1 March, 100 mm kept up, boards 150 mm; mm where not said", "modelled p10 / p50 / p90",
        "published"},
       {row("canal water", canal, "about 305, typical (Bettner2007, read); 180 to 320 expected"),
        row("the same [m3/ha]", in_m3, "about 3048"),
        {"the same [acre-feet per acre]",
         fmt::format("{:.2f} / {:.2f} / {:.2f}", at_share(in_acre_feet, 0.1), at_share(in_acre_feet, 0.5),
                     at_share(in_acre_feet, 0.9)),
         "about 1"},
        row("of dry winters (rain in the driest third)", in_dry, ""),
        row("of wet winters (the wettest third)", in_wet, ""),
        row("rain", rain, "at least 250 in 85 % of winters (BakkerJenkins, read), whole winter"),
        row("evaporation", each(runs, [](const WinterRun& r) { return r.over_hold.evaporation_mm; }),
            "143: pan 190 x 0.75"),
        row("percolation", each(runs, [](const WinterRun& r) { return r.over_hold.percolation_mm; }),
            "222: 1.85 a day (Linquist2015, read)"),
        row("spill over the boards", each(runs, [](const WinterRun& r) { return r.over_hold.spill_mm; }), ""),
        row("days with 50 mm by caught rain alone, of 120",
            each(caught, [](const WinterRun& r) { return static_cast<double>(r.days_with_50_mm); }), ""),
        {"winters in which caught rain keeps 50 mm for half of the hold",
         fmt::format("{} of {}", by_rain, caught.size()), ""}}}));
}

TEST_CASE("soil temperature against the measured column", "[published]") {
  if (no_record()) return;
  struct Month {
    const char* name;
    int month;
  };
  const std::vector<Month> months{{"October", 10}, {"November", 11}, {"December", 12}, {"January", 1},
                                  {"February", 2}, {"March", 3},     {"April", 4},     {"May", 5}};
  Table table{"soil temperature", {"month", "days", "mean error, C", "RMSE, C"}, {}};
  double running = davis()->soil.front().air_c;
  std::vector<std::vector<double>> errors(13);
  for (const SoilDay& day : davis()->soil) {
    running = soil::next_running_mean(running, day.air_c, false, {});
    if (day.soil_c)
      errors[static_cast<std::size_t>(month_of(day.date))].push_back(
          soil::soil_temperature(running, 0.0, false, {}) - *day.soil_c);
  }
  for (const Month& m : months) {
    const auto& e = errors[static_cast<std::size_t>(m.month)];
    double sum = 0.0, squares = 0.0;
    for (const double x : e) {
      sum += x;
      squares += x * x;
    }
    const auto n = static_cast<double>(e.size());
    const double rmse = std::sqrt(squares / n);
    INFO(m.name);
    CHECK(rmse < 3.0);
    table.rows.push_back(
        {m.name, fmt::format("{}", e.size()), fmt::format("{:+.1f}", sum / n), fmt::format("{:.1f}", rmse)});
  }
  CHECK(page_holds(table));
}
