#pragma once
// Soil water contents from texture and organic matter, for a soil that has no retention curve of its own.
// Source: SaxtonRawls2006 (read in two copies; one of them holds 1.238 for 1.283, only 1.283 gives the
// paper's own check).

namespace aftercut::soil {

/// Contents in m3/m3; saturated conductivity in mm/h; bulk density in t/m3.
struct TextureWater {
  double wilting = 0.0, field_capacity = 0.0, saturation = 0.0;
  double conductivity_mm_per_h = 0.0;
  double bulk_density_t_per_m3 = 0.0;
};

/// Sand and clay as shares 0 to 1 (sum at most 1), organic matter in %, 0 to 8. Leaves out gravel, salt and
/// compaction.
TextureWater saxton_rawls(double sand, double clay, double organic_matter_percent);

}  // namespace aftercut::soil
