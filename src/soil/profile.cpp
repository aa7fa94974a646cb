#include "aftercut/soil/profile.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/soil/evaporation.hpp"
#include "aftercut/soil/saxton_rawls.hpp"

namespace aftercut::soil {
namespace {

struct TextureRow {
  Texture texture;
  const char* name;
  Retention retention;  // theta_r, theta_s, alpha, n, Ks. Source: CarselParrish1988 (read in a public copy)
  double
      readily_evaporable_mm;  // middle of the range. Source: Allen1998 Table 19 (read second-hand); * assumed
};

constexpr std::array<TextureRow, 12> texture_table{{
    {Texture::sand, "sand", {0.045, 0.43, 0.145, 2.68, 712.8}, 4.5},
    {Texture::loamy_sand, "loamy sand", {0.057, 0.41, 0.124, 2.28, 350.2}, 6.0},
    {Texture::sandy_loam, "sandy loam", {0.065, 0.41, 0.075, 1.89, 106.1}, 8.0},
    {Texture::loam, "loam", {0.078, 0.43, 0.036, 1.56, 24.96}, 9.0},
    {Texture::silt, "silt", {0.034, 0.46, 0.016, 1.37, 6.0}, 9.5},
    {Texture::silt_loam, "silt loam", {0.067, 0.45, 0.020, 1.41, 10.8}, 9.5},
    {Texture::sandy_clay_loam, "sandy clay loam", {0.100, 0.39, 0.059, 1.48, 31.4}, 9.0},  // *
    {Texture::clay_loam, "clay loam", {0.095, 0.41, 0.019, 1.31, 6.2}, 9.5},               // *
    {Texture::silty_clay_loam, "silty clay loam", {0.089, 0.43, 0.010, 1.23, 1.7}, 9.5},
    {Texture::sandy_clay, "sandy clay", {0.100, 0.38, 0.027, 1.23, 2.9}, 9.5},  // *
    {Texture::silty_clay, "silty clay", {0.070, 0.36, 0.005, 1.09, 0.5}, 10.0},
    {Texture::clay, "clay", {0.068, 0.38, 0.008, 1.09, 4.8}, 10.0},
}};

constexpr double field_capacity_suction_cm = 337.0;  // 33 kPa
constexpr double wilting_suction_cm = 15000.0;       // 1.5 MPa
constexpr double particle_density_t_per_m3 = 2.65;   // Source: SaxtonRawls2006 (read)
constexpr double kilopascal_per_psi = 6.894757;
constexpr double strength_at_dry_limit = 2.0;  // of that at the optimum. Source: DexterBird2001 (recalled)
constexpr double most_suction_cm = 1e9;        // far beyond oven-dry ground
constexpr double suction_tolerance = 1e-12;    // share of the suction
constexpr double millimetres_per_metre = 1000.0;

const TextureRow& row_of(Texture texture) {
  const auto found = std::find_if(texture_table.begin(), texture_table.end(),
                                  [texture](const TextureRow& row) { return row.texture == texture; });
  require(found != texture_table.end(), "every texture has a row");
  return *found;
}

void require_sound(const ProfileInput& input) {
  require(input.bulk_density_t_per_m3 >= 0.3 && input.bulk_density_t_per_m3 <= 2.2,
          "bulk density lies between 0.3 and 2.2 t/m3");
  require(input.clay_percent >= 0.0 && input.clay_percent <= 100.0, "clay is a percentage");
  require(!input.sand_percent ||
              (*input.sand_percent >= 0.0 && *input.sand_percent + input.clay_percent <= 100.0),
          "sand and clay are at most 100 % together");
  require(input.percolation_mm_per_day >= 0.0 && input.surface_drain_mm_per_day >= 0.0 &&
              input.capillary_mm_per_day >= 0.0,
          "a soil's rates are not negative");
  require(input.dry_draft_gain >= 0.0, "draft does not fall as ground dries");
}

/// Contents by sand, clay and organic matter.
void take_texture_water(Profile& p) {
  const TextureWater w = saxton_rawls(*p.input.sand_percent / 100.0, p.input.clay_percent / 100.0,
                                      p.input.organic_matter_percent);
  p.input.bulk_density_t_per_m3 = w.bulk_density_t_per_m3;
  p.retention.theta_s = p.saturation = w.saturation;
  p.field_capacity = w.field_capacity;
  p.wilting = w.wilting;
}

double wet_limit_of(const ProfileInput& input, const Retention& r) {
  switch (input.wet_limit_rule) {
    case WetLimitRule::inflection:
      return wet_limit_inflection(r);
    case WetLimitRule::ten_percent_air:
      return wet_limit_ten_percent_air(r);
    case WetLimitRule::entered:
      break;
  }
  require(input.entered_wet_limit > 0.0 && input.entered_wet_limit <= r.theta_s,
          "an entered wet limit lies in the pore space");
  return input.entered_wet_limit;
}

double dry_limit_of(const ProfileInput& input, const Retention& r, double wet_limit) {
  if (!input.entered_dry_limit) return wet_limit * dry_limit_strength_doubled(r) / wet_limit_inflection(r);
  require(*input.entered_dry_limit > 0.0 && *input.entered_dry_limit < wet_limit,
          "an entered dry limit lies below the wet limit");
  return *input.entered_dry_limit;
}

/// Suction [cm] at the inflection point of the curve. Source: DexterBird2001 (recalled)
double inflection_suction_cm(const Retention& r) {
  return std::pow(1.0 - 1.0 / r.n, -1.0 / r.n) / r.alpha_per_cm;
}

/// Effective stress [cm]: suction in the share of the pores that is full. Source: DryStrength (assumed)
double strength_cm(const Retention& r, double suction_cm) {
  return suction_cm * water_content(r, suction_cm) / r.theta_s;
}

/// The two numbers of the cone index equation that hang on clay: ln RCI = 4.605 + (shift - 0.693 ln M) /
/// spread.
struct ConeLine {
  double shift, spread;
};
ConeLine cone_line(double clay_percent) {
  return {2.123 + 0.008 * clay_percent, 0.149 + 0.002 * clay_percent};
}

}  // namespace

Retention retention_of(Texture texture) { return row_of(texture).retention; }

double readily_evaporable_mm(Texture texture) { return row_of(texture).readily_evaporable_mm; }

std::optional<Texture> parse_texture(const std::string& name) {
  std::string spaced = name;
  std::replace(spaced.begin(), spaced.end(), '_', ' ');
  for (const TextureRow& row : texture_table) {
    if (spaced == row.name) return row.texture;
  }
  return std::nullopt;
}

std::string name_of(Texture texture) { return row_of(texture).name; }

double water_content(const Retention& r, double suction_cm) {
  require(suction_cm >= 0.0, "suction is not negative");
  const double m = 1.0 - 1.0 / r.n;
  return r.theta_r + (r.theta_s - r.theta_r) * std::pow(1.0 + std::pow(r.alpha_per_cm * suction_cm, r.n), -m);
}

double optimum_water_content(const Retention& r) {
  const double m = 1.0 - 1.0 / r.n;
  return r.theta_r + (r.theta_s - r.theta_r) * std::pow(1.0 + 1.0 / m, -m);
}

double wet_limit_inflection(const Retention& r) {
  const double optimum = optimum_water_content(r);
  return optimum + 0.4 * (r.theta_s - optimum);
}

double wet_limit_ten_percent_air(const Retention& r) { return r.theta_s - 0.10; }

double dry_limit_strength_doubled(const Retention& r) {
  double wetter = inflection_suction_cm(r);
  const double wanted = strength_at_dry_limit * strength_cm(r, wetter);
  double drier = 2.0 * wetter;
  while (strength_cm(r, drier) < wanted) {  // sand weakens a while before the last of its water holds it
    wetter = drier;
    drier *= 2.0;
    require(drier < most_suction_cm, "a drying soil gets twice as strong as at its optimum");
  }
  while (drier - wetter > suction_tolerance * drier) {
    const double middle = 0.5 * (wetter + drier);
    (strength_cm(r, middle) < wanted ? wetter : drier) = middle;
  }
  return water_content(r, drier);
}

Profile make_profile(const ProfileInput& input) {
  require_sound(input);
  Profile p;
  p.input = input;
  p.retention = retention_of(input.texture);
  p.retention.theta_s = 1.0 - input.bulk_density_t_per_m3 / particle_density_t_per_m3;
  p.saturation = p.retention.theta_s;
  p.field_capacity = water_content(p.retention, field_capacity_suction_cm);
  p.wilting = water_content(p.retention, wilting_suction_cm);
  if (input.sand_percent) take_texture_water(p);
  p.wet_limit = wet_limit_of(input, p.retention);
  p.dry_limit = dry_limit_of(input, p.retention, p.wet_limit);
  p.least_draft = std::min(optimum_water_content(p.retention), p.wet_limit);
  p.total_evaporable_mm =
      total_evaporable_mm(p.field_capacity, p.wilting, p.seedbed_depth_mm / millimetres_per_metre);
  p.readily_evaporable_mm = std::min(readily_evaporable_mm(input.texture), p.total_evaporable_mm);
  return p;
}

KiloPascal rating_cone_index(double clay_percent, double water_percent) {
  require(water_percent > 0.0, "the cone index is asked for moist soil");
  const ConeLine line = cone_line(clay_percent);
  return KiloPascal{kilopascal_per_psi *
                    std::exp(4.605 + (line.shift - 0.693 * std::log(water_percent)) / line.spread)};
}

double content_for_cone_index(const Profile& profile, KiloPascal index) {
  require(index.value() > 0.0, "a cone index is above zero");
  const ConeLine line = cone_line(profile.input.clay_percent);
  const double log_water =
      (line.shift - line.spread * (std::log(index.value() / kilopascal_per_psi) - 4.605)) / 0.693;
  return std::exp(log_water) / 100.0 * profile.input.bulk_density_t_per_m3;
}

double upper_tillage_limit_percent(double organic_matter_percent, double clay_percent) {
  return 7.5 + 1.91 * organic_matter_percent + 0.34 * clay_percent;
}

}  // namespace aftercut::soil
