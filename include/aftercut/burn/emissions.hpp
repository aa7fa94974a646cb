#pragma once
// What a burn of straw and what fuel puts in the air. The sources disagree, so a set of factors is chosen and
// the range of all sets is carried beside it. Masses oven-dry; leaves out where the smoke goes.

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "aftercut/core/quantity.hpp"
#include "aftercut/core/uncertain.hpp"

namespace aftercut::burn {

/// co2 is that of the straw itself (biogenic). voc: non-methane organic compounds. pm: all particles.
enum class Gas { co2, co, ch4, n2o, nox, so2, voc, pm25, pm10, pm };
inline constexpr std::size_t gases = 10;
const char* key_of(Gas gas);  ///< "co2_biogenic", "co", ...

/// ap42: US EPA AP-42 section 2.5 (recalled). california: inventory factors by Jenkins1996 (recalled).
/// ipcc2006: Table 2.5 (read second-hand, CO recalled). measured: rice straw as measured (read).
enum class FactorSet { ap42, california, ipcc2006, measured };
inline constexpr std::size_t factor_sets = 4;
const std::vector<std::string>& factor_set_keys();  ///< as farm.json writes them, by FactorSet
const char* words_of(FactorSet set);                ///< for people, with its status

/// How the straw lay and how wet it was.
struct BurnedHow {
  bool in_rows = false;           ///< windrows or piles
  double moisture_percent = 0.0;  ///< wet basis
};

/// Straw wetter than this counts as wet: CO, methane and particles were higher at 20 % than at 11 to 13 %.
/// Source: Hayashi2014 (read)
inline constexpr double dry_straw_percent = 13.0;

/// Grams per kg of dry straw burned: the middle by `set` (where it lacks the gas, by the first of ipcc2006,
/// measured, california, ap42 that has it), low and high of all sets. How much more wet straw gives off is
/// not known: above `dry_straw_percent` the low end of CO, CH4 and particles rises to the middle.
Uncertain factor_g_per_kg(Gas gas, FactorSet set, const BurnedHow& how);
/// The set has a figure of its own for the gas.
bool has(FactorSet set, Gas gas);

/// By Gas, kg.
using BurnAir = std::array<Uncertain, gases>;
BurnAir burn_air(Kilogram burned, FactorSet set, const BurnedHow& how);

/// Straw burned on a hectare of rice by the default table: the table's 5.5 t/ha is load times combustion
/// factor ALREADY; it is not multiplied by 0.80 again. Source: IPCC2006 Table 2.4 (recalled)
inline constexpr KgPerHa ipcc_burned{5500.0};
/// Own load times the combustion factor of rice. Source: IPCC2006 Table 2.6 (read second-hand)
KgPerHa ipcc_burned_of(KgPerHa load);

/// US tables in lb per short ton, as printed; exact.
constexpr double g_per_kg_of_lb_per_ton(double lb_per_ton) { return 0.5 * lb_per_ton; }

/// Global warming potentials over 100 years. One set in one report, never mixed.
enum class WarmingSet { ar5, ar6 };
struct Warming {
  double ch4 = 0.0, n2o = 0.0;
};
Warming warming_of(WarmingSet set);
const std::vector<std::string>& warming_set_keys();

enum class DieselSet { epa_hub, ipcc2006, rice_method };
const std::vector<std::string>& diesel_set_keys();
/// CO2 of fuel, middle by `set`, low and high of all sets. rice_method holds N2O and CH4 of the engine too.
Uncertain diesel_co2_kg(Litre fuel, DieselSet set);

/// The middle figures of a burn and of the work's fuel [kg].
struct Emissions {
  double ch4_kg = 0.0, n2o_kg = 0.0, pm25_kg = 0.0, co_kg = 0.0, nox_kg = 0.0, co2_diesel_kg = 0.0,
         co2e_kg = 0.0;
};
Emissions emissions_of(const BurnAir& air, double co2_diesel_kg, WarmingSet set);

/// CO2 equivalents of a burn: CH4 and N2O; the straw's own CO2 is left out, as are CO, NOx and particles.
Uncertain burn_co2e_kg(const BurnAir& air, WarmingSet set);

}  // namespace aftercut::burn
