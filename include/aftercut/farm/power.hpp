#pragma once
// What the farm's implements ask of its tractors, and which of them no tractor pulls.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/machinery/capacity.hpp"

namespace aftercut::farm {

/// An implement at an operation on a field.
struct Job {
  std::size_t implement = 0;
  std::size_t operation = 0;
  std::size_t field = 0;
};

/// The ground under the tractor: soft where the operation wants ponded water, tilled where it is tillage,
/// else firm.
machinery::Ground ground_of(const method::Operation& operation);
/// Soil group of the draft equation: fine from 35 % clay, else medium. Source: assumed
machinery::SoilGroup group_of(const soil::Profile& soil);
/// Loose straw at harvest, oven-dry, at the field's cutting height.
KgPerHa loose_straw_of(const Field& field);

/// Power asked for at the PTO with the stated range of the draft or power value.
struct PowerAsked {
  KiloWatt asked, low, high;
};
PowerAsked power_asked(const Farm& farm, const Job& job, machinery::Drive drive);

/// Whether a tractor of the farm, or the outfit's own, can pull it.
bool some_tractor_pulls(const Farm& farm, const Job& job);

/// "chisel 5.6 m at 8.0 km/h asks 168 kW at the PTO on tilled fine soil, band 84 to 252; strongest tractor
/// 150 kW", in the farm's units; for the tractor that comes nearest.
std::string power_words(const Farm& farm, const Job& job);

/// One line for each implement of the farm that no tractor pulls in any operation of the book that would use
/// it, on the field that asks least.
std::vector<std::string> power_notes(const Farm& farm);

}  // namespace aftercut::farm
