#include "bales.hpp"

#include <fmt/format.h>

#include <cmath>

#include "year_columns.hpp"

namespace aftercut::audit {
namespace {

constexpr const char* bale_rule = "wrong bale count";
constexpr double knot_m = 0.5;  // of each strand. Source: BaleTwine (recalled; geometry)
constexpr double hair = 1e-9;   // an exact multiple begins no further bale
// plan.json prints bales with 1 decimal, loads and metres of twine whole.
constexpr double bale_tolerance = 0.0501, load_tolerance = 1e-6, twine_tolerance = 0.501;

void same_bales(Findings& f, Place place, double found, double expected, double tolerance, const char* name) {
  place.what += std::string(" ") + name;
  f.expect_near(found, expected, tolerance, bale_rule, place);
}

}  // namespace

double bales_from(const farm::Farm& farm, double dry_kg) {
  return std::ceil(dry_kg / dry_share_as_sold / farm.bales.mass.value() - hair);
}

Findings check_told_bales(const Place& place, const farm::Farm& farm, const method::Recipe& recipe,
                          const plan::MethodOutcome& said) {
  Findings f;
  f.expect(said.bales.has_value() == recipe.bales, bale_rule, place, [&] {
    return Texts{said.bales ? "bales" : "no bales",
                 recipe.bales ? "a count: it bales" : "none: it bales nothing"};
  });
  if (!said.bales) return f;
  const machinery::BaleSettings& bale = farm.bales;
  const double middle = std::ceil(said.bales->bales.p50 - hair);
  const double around_m = 2.0 * (bale.length.value() + bale.height.value()) + knot_m;
  same_bales(f, place, said.bales->loads, std::ceil(middle / bale.per_load - hair), load_tolerance, "loads");
  same_bales(f, place, said.bales->twine_m, middle * bale.strands * around_m, twine_tolerance, "twine");
  return f;
}

Findings check_bales(const Place& place, const farm::Farm& farm, const farm::Field& field,
                     const plan::BaleCount& said, const std::vector<plan::FieldRun>& shown) {
  std::vector<double> bales;
  for (const plan::FieldRun& run : shown)
    bales.push_back(bales_from(farm, run.baled_kg_per_ha * field.area.value()));
  Findings f;
  same_bales(f, place, said.bales.p10, between(bales, 0.1), bale_tolerance, "bales p10");
  same_bales(f, place, said.bales.p50, between(bales, 0.5), bale_tolerance, "bales p50");
  same_bales(f, place, said.bales.p90, between(bales, 0.9), bale_tolerance, "bales p90");
  return f;
}

}  // namespace aftercut::audit
