#pragma once
// Room soil, lead header. Purpose: how wet the ground is and what may drive or work on it. Takes rain,
// evaporative demand, water let in, cover (0 to 1) and board height; gives water in two layers and on top,
// fluxes, temperature, and whether the ground can be worked or driven on. Leaves out straw, machines and
// methods.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/quantity.hpp"
#include "aftercut/core/result.hpp"

namespace aftercut::soil {

enum class Texture {
  sand,
  loamy_sand,
  sandy_loam,
  loam,
  silt,
  silt_loam,
  sandy_clay_loam,
  clay_loam,
  silty_clay_loam,
  sandy_clay,
  silty_clay,
  clay
};

/// Van Genuchten retention: theta(h) = tr + (ts - tr) [1 + (a h)^n]^-(1 - 1/n), h in cm of suction.
struct Retention {
  double theta_r = 0.0, theta_s = 0.0;
  double alpha_per_cm = 0.0, n = 1.0;
  double ks_cm_per_day = 0.0;
};

/// Mean parameters of a texture class. Source: CarselParrish1988 (read in a public copy).
Retention retention_of(Texture texture);
/// "silty clay" or "silty_clay" -> class.
std::optional<Texture> parse_texture(const std::string& name);
std::string name_of(Texture texture);
/// Water content [m3/m3] at suction h >= 0.
double water_content(const Retention& r, double suction_cm);
/// Water content at the inflection point of the curve (the best state for tillage). Source: DexterBird2001
/// (recalled).
double optimum_water_content(const Retention& r);
/// Wet tillage limit = optimum + 0.4 (saturation - optimum). Source: DexterBird2001 (recalled).
double wet_limit_inflection(const Retention& r);
/// Wet tillage limit where a tenth of the volume is air. Source: Obour2019 (read in abstract).
double wet_limit_ten_percent_air(const Retention& r);

/// Dry tillage limit: the content at which the ground is twice as strong as at the optimum, suction times
/// content over saturated content being taken for its strength. The rule: Source: DexterBird2001 (recalled);
/// what stands for strength: Source: DryStrength (assumed), so no value of it is a published one. Throws
/// InternalError on a curve that never gets so strong.
double dry_limit_strength_doubled(const Retention& r);

enum class WetLimitRule { inflection, ten_percent_air, entered };

/// What the farm says of one soil.
struct ProfileInput {
  std::string name;
  Texture texture = Texture::clay;
  double clay_percent = 50.0;
  double bulk_density_t_per_m3 = 1.3;
  /// With sand, the water contents and the bulk density come from sand, clay and organic matter instead of
  /// the class.
  std::optional<double> sand_percent = {};
  double organic_matter_percent = 2.5;
  double percolation_mm_per_day = 1.85;  ///< under ponding. Source: Linquist2015 (read): 1.8 to 1.9
  WetLimitRule wet_limit_rule = WetLimitRule::ten_percent_air;
  double entered_wet_limit = 0.0;  ///< m3/m3, with WetLimitRule::entered
  /// Seedbed content below which a finishing pass waits [m3/m3]; none: worked out from the curve.
  std::optional<double> entered_dry_limit = {};
  /// Rise of draft from the easiest ground to ground at wilting, as a share. Source: DryDraft (assumed)
  double dry_draft_gain = 0.5;
  double surface_drain_mm_per_day =
      25.0;  ///< how fast ponded water leaves with the boards out. Source: SurfaceDrain (assumed)
  /// Most that wet ground below gives back to a drier seedbed; 0 leaves it out. Source: CapillarySupply
  /// (assumed)
  double capillary_mm_per_day = 2.0;
};

/// A soil ready for the daily balance. Contents in m3/m3, depths in mm.
struct Profile {
  ProfileInput input;
  Retention retention;  ///< of the texture, with saturation set to the pore space of the bulk density
  double seedbed_depth_mm = 150.0;  ///< the layer that is worked
  double below_depth_mm = 450.0;
  double saturation = 0.0;      ///< both layers
  double field_capacity = 0.0;  ///< at 337 cm
  double wilting = 0.0;         ///< at 15 000 cm
  double wet_limit = 0.0;       ///< seedbed workable below this
  double dry_limit = 0.0;       ///< below this the seedbed is too hard to be made fine
  double least_draft = 0.0;     ///< at and above this content draft is lowest
  double readily_evaporable_mm = 10.0;
  double total_evaporable_mm = 0.0;  ///< 1000 (FC - 0.5 WP) Ze over the seedbed layer
};

/// With sand given: wilting, field capacity, saturation and bulk density by saxton_rawls; the class then only
/// shapes the curve of the inflection rule. Else: Saturation is the pore space 1 - bulk density / 2.65, so
/// that water by volume and water by weight agree. Source: PoreSaturation (assumed); particle density:
/// Source: SaxtonRawls2006 (read). Throws InternalError on a bulk density outside 0.3 to 2.2, on clay outside
/// 0 to 100 %, on sand and clay above 100 % together, on an entered wet limit outside the pore space and on
/// an entered dry limit that is not below the wet limit in force: a reader checks these first.
/// The dry limit is the wet limit in force times the ratio of both limits on the curve, so that the two keep
/// their distance whichever rule the wet limit follows. Source: DryLimitShift (assumed). Draft is lowest from
/// the optimum on, or from the wet limit in force where that is lower.
Profile make_profile(const ProfileInput& input);
/// Water that evaporates at the full rate, by texture [mm]: middle of the range of FAO-56 Table 19.
/// Source: Allen1998 Table 19 (read second-hand); sandy clay loam, clay loam and sandy clay are assumed.
double readily_evaporable_mm(Texture texture);

/// Rating cone index [kPa] from clay [%] and gravimetric water content [% dry weight].
/// Source: Collins1971 in Anderson1983 eq. 1 (read); psi there (recalled), converted by 6.894757.
KiloPascal rating_cone_index(double clay_percent, double water_percent);
/// Water content [m3/m3] at which the cone index falls to `index`: the inverse of rating_cone_index in this
/// soil.
double content_for_cone_index(const Profile& profile, KiloPascal index);
/// Upper tillage limit [% dry weight] from organic matter [%] and clay [%], a second opinion on the wet
/// limit. Source: Uruguay1988 (read): 7.5 + 1.91 OM + 0.34 clay.
double upper_tillage_limit_percent(double organic_matter_percent, double clay_percent);

}  // namespace aftercut::soil
