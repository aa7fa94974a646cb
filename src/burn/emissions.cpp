#include "aftercut/burn/rules.hpp"

namespace aftercut::burn {
namespace {

// g per kg of dry straw burned.
constexpr double ch4_g_per_kg = 2.7;   // Source: IPCC2006 Table 2.5 (read second-hand)
constexpr double n2o_g_per_kg = 0.07;  // Source: IPCC2006 Table 2.5 (read second-hand)
constexpr double co_g_per_kg = 92.0;   // Source: IPCC2006 Table 2.5 (recalled)
constexpr double nox_g_per_kg = 2.5;   // Source: IPCC2006 Table 2.5 (read second-hand)
constexpr double pm25_g_per_kg = 8.3;  // Source: KimOanh2011 (read), spread straw in the field

constexpr double diesel_kg_per_gallon = 10.21;             // Source: EPAhub (read second-hand)
constexpr double litre_per_gallon = 3.785411784;           // by definition
constexpr double ch4_warming = 27.0, n2o_warming = 273.0;  // Source: AR6 (read second-hand), 100 years

}  // namespace

Emissions burn_emissions(Kilogram burned) {
  const double t = burned.value() / 1000.0;
  Emissions e;
  e.ch4_kg = ch4_g_per_kg * t;
  e.n2o_kg = n2o_g_per_kg * t;
  e.pm25_kg = pm25_g_per_kg * t;
  e.co_kg = co_g_per_kg * t;
  e.nox_kg = nox_g_per_kg * t;
  e.co2e_kg = co2_equivalent_kg(e);
  return e;
}

double diesel_co2_kg(Litre fuel) { return fuel.value() * diesel_kg_per_gallon / litre_per_gallon; }

double co2_equivalent_kg(const Emissions& e) {
  return ch4_warming * e.ch4_kg + n2o_warming * e.n2o_kg + e.co2_diesel_kg;
}

}  // namespace aftercut::burn
