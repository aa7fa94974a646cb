#include "aftercut/burn/methane.hpp"

#include <array>
#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::burn {
namespace {

constexpr double n2o_per_n = 44.0 / 28.0;        // by molar mass
constexpr Uncertain exponent{0.59, 0.54, 0.64};  // Source: IPCC2019 Eq 5.3 (read second-hand)

struct RegionRow {
  Uncertain base;  ///< kg CH4/ha/d
  int days;        ///< of cultivation
};

// Source: IPCC2019 Tables 5.11 and 5.11A (read second-hand). Africa: its own base is the world's to two
// digits; its range and days are the world's.
constexpr std::array<RegionRow, 8> regions{{{{1.19, 0.80, 1.76}, 113},
                                            {{1.56, 1.06, 2.31}, 123},
                                            {{0.65, 0.44, 0.96}, 139},
                                            {{1.27, 0.86, 1.88}, 124},
                                            {{1.32, 0.89, 1.96}, 112},
                                            {{1.22, 0.83, 1.81}, 102},
                                            {{0.85, 0.58, 1.26}, 112},
                                            {{1.19, 0.80, 1.76}, 113}}};

/// What one set of the guidelines says.
struct Factors {
  std::array<Uncertain, 3> water;      ///< by SeasonWater
  std::array<Uncertain, 4> preseason;  ///< by Preseason
  Uncertain early, late;               ///< CFOA of straw
};

// Source: IPCC2019 Tables 5.12, 5.13, 5.14 (read second-hand)
constexpr Factors of_2019{
    .water = {{{1.00, 0.73, 1.27}, {0.71, 0.53, 0.94}, {0.55, 0.41, 0.72}}},
    .preseason = {{{1.00, 0.88, 1.12}, {0.89, 0.80, 0.99}, {0.59, 0.41, 0.84}, {2.41, 2.13, 2.73}}},
    .early = {0.19, 0.11, 0.28},
    .late = {1.00, 0.85, 1.17}};

// Source: IPCC2006Rice Tables 5.11 to 5.14 (recalled); dry for more than a year is no class of its own there
constexpr Factors of_2006{
    .water = {{{1.00, 0.79, 1.26}, {0.60, 0.46, 0.80}, {0.52, 0.41, 0.66}}},
    .preseason = {{{1.00, 0.88, 1.14}, {0.68, 0.58, 0.80}, {0.68, 0.58, 0.80}, {1.90, 1.65, 2.18}}},
    .early = {0.29, 0.20, 0.40},
    .late = {1.00, 0.97, 1.04}};

const Factors& factors_of(const MethaneSettings& s) {
  return s.set == MethaneSet::ipcc2019 ? of_2019 : of_2006;
}

const RegionRow& row_of(const MethaneSettings& s) { return regions[static_cast<std::size_t>(s.region)]; }

double factor_with(const StrawApplied& a, double early, double late, double power) {
  return std::pow(1.0 + (a.early_kg_per_ha * early + a.late_kg_per_ha * late) / 1000.0, power);
}

}  // namespace

const std::vector<std::string>& methane_set_keys() {
  static const std::vector<std::string> keys{"ipcc2019", "ipcc2006"};
  return keys;
}

const std::vector<std::string>& region_keys() {
  static const std::vector<std::string> keys{"world",     "europe",         "north_america", "south_america",
                                             "east_asia", "southeast_asia", "south_asia",    "africa"};
  return keys;
}

const std::vector<std::string>& season_water_keys() {
  static const std::vector<std::string> keys{"continuous", "single_drainage", "multiple_drainage"};
  return keys;
}

Uncertain base_emission(const MethaneSettings& s) {
  if (s.set == MethaneSet::ipcc2006) return {1.30, 0.80, 2.20};  // Source: IPCC2006Rice (recalled), world
  return row_of(s).base;
}

int cultivation_days(const MethaneSettings& s) { return s.cultivation_days.value_or(row_of(s).days); }

Uncertain water_factor(const MethaneSettings& s) {
  return factors_of(s).water[static_cast<std::size_t>(s.water)];
}

Uncertain preseason_factor(Preseason preseason, const MethaneSettings& s) {
  return factors_of(s).preseason[static_cast<std::size_t>(preseason)];
}

Uncertain straw_factor(const StrawApplied& a, const MethaneSettings& s) {
  require(a.early_kg_per_ha >= 0.0 && a.late_kg_per_ha >= 0.0, "straw applied is not negative");
  const Factors& f = factors_of(s);
  const double mid = factor_with(a, f.early.mid, f.late.mid, exponent.mid);
  const Uncertain by_early{mid, factor_with(a, f.early.low, f.late.mid, exponent.mid),
                           factor_with(a, f.early.high, f.late.mid, exponent.mid)};
  const Uncertain by_late{1.0, factor_with(a, f.early.mid, f.late.low, exponent.mid) / mid,
                          factor_with(a, f.early.mid, f.late.high, exponent.mid) / mid};
  const Uncertain by_power{1.0, factor_with(a, f.early.mid, f.late.mid, exponent.low) / mid,
                           factor_with(a, f.early.mid, f.late.mid, exponent.high) / mid};
  return product_of_independent(product_of_independent(by_early, by_late), by_power);
}

Uncertain daily_methane(const StrawApplied& applied, Preseason preseason, const MethaneSettings& s) {
  const Uncertain ground = product_of_independent(base_emission(s), water_factor(s));
  return product_of_independent(product_of_independent(ground, preseason_factor(preseason, s)),
                                straw_factor(applied, s));
}

Uncertain season_methane(const StrawApplied& applied, Preseason preseason, const MethaneSettings& s) {
  return static_cast<double>(cultivation_days(s)) * daily_methane(applied, preseason, s);
}

Preseason dry_preseason(int dry_days) {
  if (dry_days > 365) return Preseason::dry_over_365;
  return dry_days > 180 ? Preseason::dry_over_180 : Preseason::dry_under_180;
}

Uncertain residue_n2o(KgPerHa nitrogen, SeasonWater water) {
  constexpr Uncertain continuous{0.003, 0.0, 0.010}, drained{0.005, 0.0, 0.016};  // kg N2O-N per kg N
  return nitrogen.value() * n2o_per_n * (water == SeasonWater::continuous ? continuous : drained);
}

}  // namespace aftercut::burn
