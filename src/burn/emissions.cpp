#include "aftercut/burn/emissions.hpp"

#include <algorithm>
#include <optional>

#include "aftercut/core/require.hpp"

namespace aftercut::burn {
namespace {

constexpr double litre_per_gallon = 3.785411784;  // by definition

/// g per kg of straw spread on the field, and of straw in rows or piles where the set tells them apart.
struct Factor {
  Uncertain spread;
  std::optional<Uncertain> rows;
};

constexpr Uncertain give_or_take(double mid, double error) { return {mid, mid - error, mid + error}; }
constexpr Uncertain lb_per_ton(double lb) { return exactly(g_per_kg_of_lb_per_ton(lb)); }

// Source: AP42 section 2.5, rice (recalled), good practice and dry straw; particles in all, VOC as carbon.
std::optional<Factor> ap42(Gas gas) {
  switch (gas) {
    case Gas::co:
      return Factor{lb_per_ton(83.0), {}};
    case Gas::ch4:
      return Factor{lb_per_ton(2.4), {}};
    case Gas::voc:
      return Factor{lb_per_ton(8.0), {}};
    case Gas::pm:
      return Factor{lb_per_ton(9.0), {}};
    default:
      return std::nullopt;
  }
}

// Source: Jenkins1996 (recalled), rice straw in a wind tunnel.
std::optional<Factor> california(Gas gas) {
  switch (gas) {
    case Gas::co:
      return Factor{lb_per_ton(57.4), {}};
    case Gas::nox:
      return Factor{lb_per_ton(5.2), {}};
    case Gas::so2:
      return Factor{lb_per_ton(1.1), {}};
    case Gas::voc:
      return Factor{lb_per_ton(4.7), {}};
    case Gas::pm25:
      return Factor{lb_per_ton(5.9), {}};
    case Gas::pm10:
      return Factor{lb_per_ton(6.3), {}};
    default:
      return std::nullopt;
  }
}

std::optional<Factor> ipcc2006(Gas gas) {
  switch (gas) {
    case Gas::co2:
      return Factor{give_or_take(1515.0, 177.0), {}};  // Source: IPCC2006 Table 2.5 (read second-hand)
    case Gas::co:
      return Factor{give_or_take(92.0, 84.0), {}};  // Source: IPCC2006 Table 2.5 (recalled)
    case Gas::ch4:
      return Factor{exactly(2.7), {}};  // Source: IPCC2006 Table 2.5 (read second-hand), no error given
    case Gas::n2o:
      return Factor{exactly(0.07), {}};  // Source: IPCC2006 Table 2.5 (read second-hand), no error given
    case Gas::nox:
      return Factor{give_or_take(2.5, 1.0), {}};  // Source: IPCC2006 Table 2.5 (read second-hand)
    default:
      return std::nullopt;
  }
}

std::optional<Factor> measured(Gas gas) {
  switch (gas) {
    case Gas::co:
      return Factor{give_or_take(27.2, 1.7), {}};  // Source: Hayashi2014 (read), 11 to 13 % moisture
    case Gas::ch4:
      // Source: Romasanta2017 (read), chamber; the low end is that of Hayashi2014 (read), a sixth of it
      return Factor{{4.51, 0.74, 4.87}, {}};
    case Gas::n2o:
      return Factor{give_or_take(0.069, 0.012), {}};  // Source: Romasanta2017 (read)
    case Gas::pm25:
      // Source: KimOanh2011 (read) spread, high end LaskoVadrevu2018 (read); in piles LaskoVadrevu2018, high
      // end Pham2021 (read second-hand), small piles
      return Factor{{8.3, 5.6, 11.0}, Uncertain{16.9, 12.8, 51.6}};
    case Gas::pm:
      return Factor{give_or_take(4.7, 2.2),
                    give_or_take(20.0, 8.0)};  // Source: KimOanh2011 (read), under a hood
    default:
      return std::nullopt;
  }
}

std::optional<Uncertain> own_factor(FactorSet set, Gas gas, bool in_rows) {
  const std::optional<Factor> f = set == FactorSet::ap42         ? ap42(gas)
                                  : set == FactorSet::california ? california(gas)
                                  : set == FactorSet::ipcc2006   ? ipcc2006(gas)
                                                                 : measured(gas);
  if (!f) return std::nullopt;
  return in_rows && f->rows ? *f->rows : f->spread;
}

bool rises_with_moisture(Gas gas) {
  return gas == Gas::co || gas == Gas::ch4 || gas == Gas::pm25 || gas == Gas::pm10 || gas == Gas::pm;
}

Gas gas_at(std::size_t i) { return static_cast<Gas>(i); }
std::size_t place_of(Gas gas) { return static_cast<std::size_t>(gas); }

/// Kg CO2 a litre.
Uncertain diesel_factor(DieselSet set) {
  constexpr double epa = 10.21 / litre_per_gallon;  // Source: EPAhub (read second-hand)
  constexpr double by_energy = 3.186 * 0.836;       // Source: IPCC2006Energy (recalled), at 0.836 kg/L
  constexpr double method = 2.886;                  // Source: RiceCarbonMethod (read second-hand)
  constexpr double lightest = 3.186 * 0.832;        // the same at 0.832 kg/L
  return {set == DieselSet::epa_hub    ? epa
          : set == DieselSet::ipcc2006 ? by_energy
                                       : method,
          lightest, method};
}

}  // namespace

const char* key_of(Gas gas) {
  static constexpr std::array<const char*, gases> keys{"co2_biogenic", "co",  "ch4",  "n2o",  "nox",
                                                       "so2",          "voc", "pm25", "pm10", "pm"};
  return keys[place_of(gas)];
}

const std::vector<std::string>& factor_set_keys() {
  static const std::vector<std::string> keys{"ap42", "california", "ipcc2006", "measured"};
  return keys;
}

const char* words_of(FactorSet set) {
  static constexpr std::array<const char*, factor_sets> words{
      "US EPA AP-42 section 2.5, rice (recalled, not read)",
      "California inventory, Jenkins et al. 1996 (recalled, not read)",
      "IPCC 2006 Table 2.5 (read second-hand; CO recalled)", "measured on rice straw (read)"};
  return words[static_cast<std::size_t>(set)];
}

bool has(FactorSet set, Gas gas) { return own_factor(set, gas, false).has_value(); }

Uncertain factor_g_per_kg(Gas gas, FactorSet set, const BurnedHow& how) {
  static constexpr std::array<FactorSet, factor_sets> lenders{FactorSet::ipcc2006, FactorSet::measured,
                                                              FactorSet::california, FactorSet::ap42};
  std::optional<Uncertain> out = own_factor(set, gas, how.in_rows);
  for (const FactorSet s : lenders) {
    const auto f = own_factor(s, gas, how.in_rows);
    if (!f) continue;
    if (!out) out = f;
    out->low = std::min(out->low, f->low);
    out->high = std::max(out->high, f->high);
  }
  require(out.has_value(), "some set has a factor for each gas");
  if (rises_with_moisture(gas) && how.moisture_percent > dry_straw_percent) out->low = out->mid;
  return *out;
}

BurnAir burn_air(Kilogram burned, FactorSet set, const BurnedHow& how) {
  BurnAir air;
  for (std::size_t i = 0; i < gases; ++i)
    air[i] = burned.value() / 1000.0 * factor_g_per_kg(gas_at(i), set, how);
  return air;
}

KgPerHa ipcc_burned_of(KgPerHa load) { return 0.80 * load; }

Warming warming_of(WarmingSet set) {
  if (set == WarmingSet::ar5) return {28.0, 265.0};  // Source: AR5 (read second-hand)
  return {27.0, 273.0};                              // Source: AR6 (read second-hand), CH4 not fossil
}

const std::vector<std::string>& warming_set_keys() {
  static const std::vector<std::string> keys{"AR5", "AR6"};
  return keys;
}

const std::vector<std::string>& diesel_set_keys() {
  static const std::vector<std::string> keys{"epa_hub", "ipcc2006", "rice_method"};
  return keys;
}

Uncertain diesel_co2_kg(Litre fuel, DieselSet set) { return fuel.value() * diesel_factor(set); }

Emissions emissions_of(const BurnAir& air, double co2_diesel_kg, WarmingSet set) {
  Emissions e{.ch4_kg = air[place_of(Gas::ch4)].mid,
              .n2o_kg = air[place_of(Gas::n2o)].mid,
              .pm25_kg = air[place_of(Gas::pm25)].mid,
              .co_kg = air[place_of(Gas::co)].mid,
              .nox_kg = air[place_of(Gas::nox)].mid,
              .co2_diesel_kg = co2_diesel_kg};
  e.co2e_kg = burn_co2e_kg(air, set).mid + co2_diesel_kg;
  return e;
}

Uncertain burn_co2e_kg(const BurnAir& air, WarmingSet set) {
  const Warming w = warming_of(set);
  return sum_of_independent(w.ch4 * air[place_of(Gas::ch4)], w.n2o * air[place_of(Gas::n2o)]);
}

}  // namespace aftercut::burn
