#pragma once
// Room straw, lead header. Purpose: how much straw there is, how wet, and what is left of it. Takes yields,
// daily temperatures and wetness as numbers; gives load, split, moisture, decay, cover and nutrients. Leaves
// out soils and machines.

#include "aftercut/core/quantity.hpp"

namespace aftercut::straw {

/// Straw left after harvest, oven-dry: S = Y (1 - HI) / HI, from the definition HI = Y / (Y + S).
/// Y oven-dry grain, 0 < HI < 1 (grain share of above-ground dry mass). Leaves out roots.
KgPerHa straw_load(KgPerHa dry_grain, Fraction harvest_index);

/// Oven-dry grain from grain at `moisture` (wet basis).
KgPerHa dry_grain(KgPerHa grain, Fraction moisture);

/// The IPCC line as an upper variant: above-ground dry mass = 0.95 Y + 2.46 t/ha, less nothing. Source:
/// IPCC2006 Table 11.2 (recalled).
KgPerHa straw_load_ipcc(KgPerHa dry_grain);

/// Share of straw mass in the stubble below the cut: (h / H)^0.522 up to 1, H 95.2 cm for a semi-dwarf crop.
/// Source: Lu2017 (read), curve through two of its mid-points by us.
Fraction stubble_share(double cut_height_cm, double crop_height_cm = 95.2);

/// How the combine left the straw that it passed through.
enum class Lay { windrow, spread, chopped };

}  // namespace aftercut::straw
