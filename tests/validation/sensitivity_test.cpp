// Which inputs move readiness and straw left most: one at a time from a low to a high value that a grower
// might have, all winters.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "catch2/catch.hpp"
#include "field_case.hpp"
#include "tables.hpp"

using namespace aftercut;
using namespace aftercut::validation;

namespace {

/// What can be changed: the soil as entered, and the farm around it.
struct Trial {
  soil::ProfileInput soil;
  farm::Farm farm = one_field(7000.0);
};

struct Input {
  const char* name;
  const char* low;
  const char* high;
  std::function<void(Trial&, bool high)> set;
};

struct Answer {
  double workable_days = 0.0;  // from boards out on 1 March, median winter
  double left = 0.0;           // kg/ha by 15 April, chopped and disked twice, flooded
};

Answer answer(Trial trial) {
  trial.farm.soils = {soil::make_profile(trial.soil)};
  const Case held{.name = "held", .work = {}, .hold = Hold{{11, 1}, {3, 1}}};
  const Case disked = straw_cases()[3];
  std::vector<double> days, left;
  for (const auto& year : davis()->winters.years) {
    const auto drivers = season::drivers_of(year, trial.farm);
    season::FieldYear field = live(trial.farm, drivers, held, {3, 1}).end;
    field.set_boards(0.0);
    const int out = field.day();
    while (field.day() < trial.farm.season.days - 1 && !field.mask().workable) field.end_day(0.0);
    days.push_back(field.day() - out);
    left.push_back(live(trial.farm, drivers, disked, {4, 15}).end.pools().total());
  }
  return {at_share(days, 0.5), at_share(left, 0.5)};
}

const std::vector<Input>& inputs() {
  using T = Trial;
  static const std::vector<Input> all{
      {"wet tillage limit", "10 % air", "inflection",
       [](T& t, bool high) {
         t.soil.wet_limit_rule = high ? soil::WetLimitRule::inflection : soil::WetLimitRule::ten_percent_air;
       }},
      {"bulk density of the seedbed", "1.15 t/m3", "1.45 t/m3",
       [](T& t, bool high) { t.soil.bulk_density_t_per_m3 = high ? 1.45 : 1.15; }},
      {"texture", "silty clay loam", "clay",
       [](T& t, bool high) { t.soil.texture = high ? soil::Texture::clay : soil::Texture::silty_clay_loam; }},
      {"percolation", "0.5 mm/day", "4 mm/day",
       [](T& t, bool high) { t.soil.percolation_mm_per_day = high ? 4.0 : 0.5; }},
      {"surface drainage", "10 mm/day", "50 mm/day",
       [](T& t, bool high) { t.soil.surface_drain_mm_per_day = high ? 50.0 : 10.0; }},
      {"water rising from below", "0 mm/day", "4 mm/day",
       [](T& t, bool high) { t.soil.capillary_mm_per_day = high ? 4.0 : 0.0; }},
      {"slow end of the field", "0 days", "5 days",
       [](T& t, bool high) { t.farm.fields[0].ground.slow_days = high ? 5 : 0; }},
      {"straw load", "5 t/ha", "9 t/ha",
       [](T& t, bool high) { t.farm.fields[0].straw_load = KgPerHa{high ? 9000.0 : 5000.0}; }},
      {"cutting height", "15 cm", "45 cm",
       [](T& t, bool high) { t.farm.fields[0].cut_height_cm = high ? 45.0 : 15.0; }},
      {"harvest date", "20 September", "14 October",
       [](T& t, bool high) {
         if (!high) t.farm.fields[0].harvest = make_date(2026, 9, 20);
       }},
      {"decay rate of the slow share", "0.009 a day", "0.015 a day",
       [](T& t, bool high) { t.farm.decay.slow_rate_25c_per_day = high ? 0.015 : 0.009; }},
      {"Q10 of decay", "1.4", "2.0", [](T& t, bool high) { t.farm.decay.q10 = high ? 2.0 : 1.4; }},
      {"fast share of the straw", "0.25", "0.45",
       [](T& t, bool high) { t.farm.decay.fast_share = high ? 0.45 : 0.25; }},
      {"oxygen under water", "1.5 %", "8 %",
       [](T& t, bool high) { t.farm.decay.oxygen_flooded_percent = high ? 8.0 : 1.5; }},
      {"nitrogen in the straw", "0.42 %", "0.75 %",
       [](T& t, bool high) { t.farm.decay.nitrogen_g_per_kg = high ? 7.5 : 4.2; }},
      {"feeding ducks", "none", "many", [](T& t, bool high) {
         if (!high) return;
         t.farm.decay.waterfowl_loose = straw::duck_loss_loose;
         t.farm.decay.waterfowl_pressed = straw::duck_loss_pressed;
       }}};
  return all;
}

struct Swing {
  const Input* input = nullptr;
  Answer low, high;
};

Table table_of(const char* name, const char* what, const std::vector<Swing>& swings, double Answer::*of) {
  auto order = swings;
  std::stable_sort(order.begin(), order.end(), [&](const Swing& a, const Swing& b) {
    return std::abs(a.high.*of - a.low.*of) > std::abs(b.high.*of - b.low.*of);
  });
  Table table{name, {"input", "low", "high", fmt::format("{}: low", what), "high"}, {}};
  for (const Swing& s : order)
    table.rows.push_back({s.input->name, s.input->low, s.input->high, fmt::format("{:.0f}", s.low.*of),
                          fmt::format("{:.0f}", s.high.*of)});
  return table;
}

}  // namespace

TEST_CASE("inputs by how far they move readiness and straw left", "[derived]") {
  if (no_record()) return;
  std::vector<Swing> swings;
  for (const Input& input : inputs()) {
    Trial low, high;
    input.set(low, false);
    input.set(high, true);
    swings.push_back({&input, answer(low), answer(high)});
  }
  const auto of = [&](const std::string& name) -> const Swing& {
    return *std::find_if(swings.begin(), swings.end(), [&](const Swing& s) { return s.input->name == name; });
  };
  CHECK(of("slow end of the field").high.workable_days > of("slow end of the field").low.workable_days);
  CHECK(of("straw load").high.left > of("straw load").low.left);
  CHECK(of("decay rate of the slow share").high.left < of("decay rate of the slow share").low.left);
  CHECK(of("nitrogen in the straw").high.left < of("nitrogen in the straw").low.left);
  CHECK(of("feeding ducks").high.left < of("feeding ducks").low.left);
  CHECK(page_holds(table_of("readiness by input", "days from 1 March to a workable seedbed, straw on top",
                            swings, &Answer::workable_days)));
  CHECK(page_holds(table_of("straw by input", "straw left by 15 April, disked and flooded [kg/ha]", swings,
                            &Answer::left)));
}
