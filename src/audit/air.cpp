#include "air.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "year_columns.hpp"

namespace aftercut::audit {
namespace {

// plan.json prints these figures with 3 decimals, the straw factor with 4, kg of CO2 of a field with 1.
constexpr double air_tolerance = 5.01e-4, straw_factor_tolerance = 5.01e-5, field_co2_tolerance = 0.0501;
constexpr double n2o_of_n = 44.0 / 28.0;
// kg N2O-N per kg N of straw. Source: IPCC2019 Table 11.1 (read second-hand)
constexpr Uncertain n_lost_flooded{0.003, 0.0, 0.010}, n_lost_drained{0.005, 0.0, 0.016};
constexpr int long_dry_days = 365, half_year_days = 180,
              flood_counts_days = 30;  // Source: RulesOfWork (assumed)

Uncertain times(double k, const Uncertain& u) { return {k * u.mid, k * u.low, k * u.high}; }

/// Terms that know nothing of each other: the middles add up, the distances to the ends by their squares.
Uncertain joined(std::initializer_list<Uncertain> terms) {
  double mid = 0.0, down = 0.0, up = 0.0;
  for (const Uncertain& t : terms) {
    mid += t.mid;
    down += (t.mid - t.low) * (t.mid - t.low);
    up += (t.high - t.mid) * (t.high - t.mid);
  }
  return {mid, mid - std::sqrt(down), mid + std::sqrt(up)};
}

std::size_t at(burn::Gas gas) { return static_cast<std::size_t>(gas); }

/// The columns of plan.json: burning over all years, the crop over those in which rice follows.
struct Air {
  std::array<RangeColumn, burn::gases> burned;
  RangeColumn methane, methane_dry, methane_flooded, n2o;
  Column straw_factor;
  struct Equivalents {
    RangeColumn burn, methane, n2o, diesel, all;
  } in_rice_years, in_all_years;
};

burn::Preseason dry_for(int days) {
  if (days > long_dry_days) return burn::Preseason::dry_over_365;
  return days > half_year_days ? burn::Preseason::dry_over_180 : burn::Preseason::dry_under_180;
}

/// The water before the crop: by the summer drain alone, with the winter flood, and as the farm reads it.
struct BeforeCrop {
  burn::Preseason dry, flooded, farms;
};
BeforeCrop before_crop(const farm::Farm& farm, const farm::Field& field, const plan::FieldRun& run) {
  const int starts = std::max(farm.season.day(field.next.planting), run.ready_day + 1);
  const burn::Preseason dry = dry_for(starts - farm.season.day(field.summer_drain));
  const int flood_end = run.next_crop.long_flood_end;
  if (flood_end == plan::none) return {dry, dry, dry};
  const int dry_days = starts - (flood_end + 1);
  const bool counts =
      farm.environment.winter_flood == farm::WinterFlood::flooded || dry_days <= flood_counts_days;
  return {dry, burn::Preseason::flooded, counts ? burn::Preseason::flooded : dry_for(dry_days)};
}

/// Methane and nitrous oxide of the rice that follows, kg/ha.
struct RiceAir {
  Uncertain methane, n2o;
};
RiceAir add_rice(Air& air, const farm::Farm& farm, const farm::Field& field, const CropYear& y) {
  const burn::MethaneSettings& s = farm.environment.methane;
  const plan::NextCrop& n = y.run.next_crop;
  const burn::StrawApplied applied{n.applied_early_kg_per_ha, n.applied_late_kg_per_ha};
  const BeforeCrop before = before_crop(farm, field, y.run);
  const double nitrogen_kg =
      (n.applied_early_kg_per_ha + n.applied_late_kg_per_ha) * farm.decay.nitrogen_g_per_kg / 1000.0;
  const bool flooded = s.water == burn::SeasonWater::continuous;
  const RiceAir rice{burn::season_methane(applied, before.farms, s),
                     times(nitrogen_kg * n2o_of_n, flooded ? n_lost_flooded : n_lost_drained)};
  air.methane.add(rice.methane, y.shown);
  air.methane_dry.add(burn::season_methane(applied, before.dry, s), y.shown);
  air.methane_flooded.add(burn::season_methane(applied, before.flooded, s), y.shown);
  air.n2o.add(rice.n2o, y.shown);
  air.straw_factor.add(burn::straw_factor(applied, s).mid, y.shown);
  return rice;
}

void add_air(Air& air, const farm::Farm& farm, const farm::Field& field, const CropYear& y) {
  const farm::EnvironmentSettings& e = farm.environment;
  const plan::NextCrop& n = y.run.next_crop;
  const burn::BurnedHow how{n.burned_in_rows, n.burned_moisture_percent};
  std::array<Uncertain, burn::gases> burned;
  for (std::size_t g = 0; g < burn::gases; ++g) {
    burned[g] = times(y.run.burned_kg_per_ha / 1000.0,
                      burn::factor_g_per_kg(static_cast<burn::Gas>(g), e.burn_factors, how));
    air.burned[g].add(burned[g], y.shown);
  }
  const bool rice_follows = field.next.kind == farm::NextUseKind::rice &&
                            (y.run.status == plan::Status::ready || y.run.status == plan::Status::late);
  const RiceAir rice = rice_follows ? add_rice(air, farm, field, y) : RiceAir{};
  const burn::Warming w = burn::warming_of(e.warming);
  const Uncertain fire =
      joined({times(w.ch4, burned[at(burn::Gas::ch4)]), times(w.n2o, burned[at(burn::Gas::n2o)])});
  const Uncertain methane = times(w.ch4, rice.methane), n2o = times(w.n2o, rice.n2o);
  const Uncertain diesel =
      times(y.run.fuel_l / field.area.value(), burn::diesel_co2_kg(Litre{1.0}, e.diesel));
  const auto add_to = [&](Air::Equivalents& c) {
    c.burn.add(fire, y.shown);
    c.methane.add(methane, y.shown);
    c.n2o.add(n2o, y.shown);
    c.diesel.add(diesel, y.shown);
    c.all.add(joined({fire, methane, n2o, diesel}), y.shown);
  };
  add_to(air.in_all_years);
  if (rice_follows) add_to(air.in_rice_years);
}

/// Figures beside one another, each under the name of its rule.
class Beside {
 public:
  explicit Beside(const Place& place) : place_{place} {}

  void same(const char* rule, double found, double expected, double tolerance, const std::string& name) {
    Place where = place_;
    where.what += " " + name;
    findings.expect_near(found, expected, tolerance, rule, where);
  }
  void figure(const char* rule, const plan::Figure& found, const RangeColumn& column,
              const std::string& name) {
    same(rule, found.mean, column.mid.mean(), air_tolerance, name);
    same(rule, found.low, column.low(), air_tolerance, name + ", low");
    same(rule, found.high, column.high(), air_tolerance, name + ", high");
    same(rule, found.p10, column.mid.at(0.1), air_tolerance, name + ", p10");
    same(rule, found.p90, column.mid.at(0.9), air_tolerance, name + ", p90");
  }

  Findings findings;

 private:
  const Place& place_;
};

/// What plan.json says of the field as a whole, in kg.
void check_field_kg(Beside& b, const farm::Farm& farm, const farm::Field& field, const burn::Emissions& said,
                    const Air& air, double fuel_l) {
  constexpr const char* rule = "wrong emissions";
  const auto kg = [&](burn::Gas gas) { return field.area.value() * air.burned[at(gas)].mid.mean(); };
  const double diesel = fuel_l * burn::diesel_co2_kg(Litre{1.0}, farm.environment.diesel).mid;
  const burn::Warming w = burn::warming_of(farm.environment.warming);
  b.same(rule, said.ch4_kg, kg(burn::Gas::ch4), air_tolerance, "CH4 of the field");
  b.same(rule, said.n2o_kg, kg(burn::Gas::n2o), air_tolerance, "N2O of the field");
  b.same(rule, said.pm25_kg, kg(burn::Gas::pm25), air_tolerance, "PM2.5 of the field");
  b.same(rule, said.co_kg, kg(burn::Gas::co), air_tolerance, "CO of the field");
  b.same(rule, said.nox_kg, kg(burn::Gas::nox), air_tolerance, "NOx of the field");
  b.same(rule, said.co2_diesel_kg, diesel, field_co2_tolerance, "CO2 of diesel of the field");
  b.same(rule, said.co2e_kg, w.ch4 * kg(burn::Gas::ch4) + w.n2o * kg(burn::Gas::n2o) + diesel,
         field_co2_tolerance, "CO2e of burning and diesel of the field");
}

}  // namespace

Findings check_air(const Facts& facts, const Place& place, int field, const plan::MethodOutcome& said,
                   const std::vector<CropYear>& years) {
  const farm::Farm& farm = facts.farm();
  const farm::Field& land = farm.fields[static_cast<std::size_t>(field)];
  Air air;
  double fuel_l = 0.0;
  for (const CropYear& y : years) {
    add_air(air, farm, land, y);
    fuel_l += y.run.fuel_l / static_cast<double>(years.size());
  }
  Beside b{place};
  const plan::Environment& e = said.environment;
  for (std::size_t g = 0; g < burn::gases; ++g)
    b.figure("wrong emissions", e.burned[g], air.burned[g],
             std::string("burned ") + burn::key_of(static_cast<burn::Gas>(g)));
  check_field_kg(b, farm, land, said.emissions, air, fuel_l);

  constexpr const char* crop = "wrong figure of the next crop";
  const bool some_rice = !air.methane.mid.all.empty();
  b.figure(crop, e.methane, air.methane, "methane");
  b.figure(crop, e.methane_dry_winter, air.methane_dry, "methane, winter read as dry");
  b.figure(crop, e.methane_flooded_winter, air.methane_flooded, "methane, winter read as flooded");
  b.figure(crop, e.residue_n2o, air.n2o, "N2O of straw worked in");
  b.same(crop, e.straw_factor, some_rice ? air.straw_factor.mean() : 1.0, straw_factor_tolerance,
         "straw factor");
  b.same(crop, e.rice_years, static_cast<double>(air.methane.mid.all.size()), 0.0,
         "years in which rice follows");

  constexpr const char* co2e = "wrong CO2e";
  const Air::Equivalents& c = some_rice ? air.in_rice_years : air.in_all_years;
  b.figure(co2e, e.co2e_burn, c.burn, "CO2e of burning");
  b.figure(co2e, e.co2e_methane, c.methane, "CO2e of methane");
  b.figure(co2e, e.co2e_n2o, c.n2o, "CO2e of N2O");
  b.figure(co2e, e.co2e_diesel, c.diesel, "CO2e of diesel");
  b.figure(co2e, e.co2e, c.all, "CO2e of all");
  return b.findings;
}

}  // namespace aftercut::audit
