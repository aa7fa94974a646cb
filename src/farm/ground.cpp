// Site and soils.

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/ids.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

std::vector<std::string> texture_names() {
  std::vector<std::string> names;
  for (int t = 0; t <= static_cast<int>(soil::Texture::clay); ++t)
    names.push_back(soil::name_of(static_cast<soil::Texture>(t)));
  return names;
}

std::optional<soil::Texture> read_texture(const Object& s) {
  const auto name = s.text("texture");
  if (!name) return std::nullopt;
  const auto texture = soil::parse_texture(*name);
  if (!texture)
    s.fault("texture", in_quotes(*name), "one of " + listed(texture_names()),
            did_you_mean(*name, texture_names(), "write one of these"));
  return texture;
}

soil::ProfileInput with_wet_limit(const Object& s, soil::ProfileInput in) {
  const auto rule = s.word("wet_limit_rule", {"ten_percent_air", "inflection"});
  if (rule)
    in.wet_limit_rule = *rule == 0 ? soil::WetLimitRule::ten_percent_air : soil::WetLimitRule::inflection;
  const double saturation = soil::retention_of(in.texture).theta_s;
  const auto entered = s.number("wet_limit", {0.05, saturation});
  if (!entered) return in;
  if (rule) s.fault("wet_limit", "both wet_limit and wet_limit_rule", "one of the two", "keep one");
  in.wet_limit_rule = soil::WetLimitRule::entered;
  in.entered_wet_limit = *entered;
  return in;
}

/// The soil with its entered dry limit, which has to lie below the wet limit in force.
soil::Profile with_dry_limit(const Object& s, const soil::ProfileInput& in) {
  const soil::Profile soil = soil::make_profile(in);
  const auto entered = s.number("dry_limit", {0.02, 0.7});
  if (!entered) return soil;
  if (*entered >= soil.wet_limit) {
    s.fault("dry_limit", fmt::format("{:g}", *entered),
            fmt::format("below the wet limit of {:.3f}", soil.wet_limit), "enter a drier limit");
    return soil;
  }
  soil::ProfileInput with = in;
  with.entered_dry_limit = entered;
  return soil::make_profile(with);
}

soil::Profile read_soil(const Object& s) {
  soil::ProfileInput in;
  in.name = s.text_or("name", "");
  in.texture = read_texture(s).value_or(soil::Texture::clay);
  in.clay_percent = s.quantity("clay", "%", {0.0, 100.0}).value_or(in.clay_percent);
  in.sand_percent = s.quantity("sand", "%", {0.0, 100.0});
  if (in.sand_percent && *in.sand_percent + in.clay_percent > 100.0) {
    s.fault("sand", fmt::format("{:g} % sand with {:g} % clay", *in.sand_percent, in.clay_percent),
            "at most 100 % together", "correct one of the two");
    in.sand_percent.reset();
  }
  if (s.has("sand") && s.has("bulk_density"))
    s.fault("bulk_density", "both sand and bulk_density", "one of the two",
            "keep one: sand gives a bulk density of its own");
  const auto organic = s.quantity("organic_matter", "%", {0.0, 8.0});
  if (organic && !s.has("sand"))
    s.fault("organic_matter", "organic matter without sand", "both, or neither", "add sand");
  in.organic_matter_percent = organic.value_or(in.organic_matter_percent);
  in.capillary_mm_per_day = s.quantity("capillary", "mm/day", {0.0, 20.0}).value_or(in.capillary_mm_per_day);
  in.bulk_density_t_per_m3 =
      s.quantity("bulk_density", "t/m3", {0.5, 2.0}).value_or(in.bulk_density_t_per_m3);
  in.percolation_mm_per_day =
      s.quantity("percolation", "mm/day", {0.0, 100.0}).value_or(in.percolation_mm_per_day);
  in.surface_drain_mm_per_day =
      s.quantity("surface_drain", "mm/day", {0.1, 500.0}).value_or(in.surface_drain_mm_per_day);
  in.dry_draft_gain =
      s.quantity("dry_draft_gain", "%", {0.0, 300.0}).value_or(100.0 * in.dry_draft_gain) / 100.0;
  return with_dry_limit(s, with_wet_limit(s, in));
}

}  // namespace

weather::Site read_site(const Object& top) {
  const Object s = top.child("site");
  weather::Site site;
  site.latitude_deg = s.number("latitude_deg", {-66.0, 66.0}).value_or(0.0);
  site.longitude_deg = s.number("longitude_deg", {-180.0, 180.0}).value_or(0.0);
  site.elevation_m = s.quantity("elevation", "m", {-420.0, 5000.0}).value_or(0.0);
  site.utc_offset_h = s.number("utc_offset_h", {-12.0, 14.0}).value_or(0.0);
  site.near_coast = s.yes("near_coast").value_or(false);
  return site;
}

std::vector<soil::Profile> read_soils(const Object& top) {
  std::vector<soil::Profile> soils;
  std::set<std::string> seen;
  for (const Object& s : top.list("soils")) {
    soils.push_back(read_soil(s));
    const std::string& name = soils.back().input.name;
    if (!name.empty() && !seen.insert(name).second)
      s.fault("name", in_quotes(name) + " twice", "each soil once", "rename one of the two");
  }
  std::stable_sort(soils.begin(), soils.end(),
                   [](const auto& a, const auto& b) { return natural_less(a.input.name, b.input.name); });
  return soils;
}

}  // namespace aftercut::farm
