#pragma once
// One farm of a region: what it offers to do with less burn area and canal water, and its plan once its
// shares are known.

#include <cstdint>
#include <optional>
#include <vector>

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/region.hpp"
#include "aftercut/planner/share_out.hpp"

namespace aftercut::scenario {

struct FarmOffers {
  std::vector<plan::Decision> decisions;  ///< the first: what it would do by itself
  std::vector<planner::Offer> offers;     ///< [decision] a year's mean cost and the most used in any year
};

/// Its plan by a short search, and the same with fewer fields burned (those that lose least by it first),
/// with less canal flow, and without any. Only kinds that the region limits are told apart.
FarmOffers offers_of(const farm::Problem& problem,
                     const std::array<std::optional<double>, plan::shared_kinds>& limits, std::uint64_t seed,
                     int changes);

/// The farm with no more than its shares beside its own limits.
farm::Problem with_shares(farm::Problem problem, const plan::Shares& shares);

struct FarmToPlan {
  plan::Shares share{};
  plan::Decision start;
  std::uint64_t seed = 1;
  int changes = 0;
  int bound_rounds = 0;
};
/// Searches on from `start` within the shares, plays the best in every year and bounds it from below: by all
/// that its own rules give it, whatever its share. Folder and what it costs alone are left to the caller.
plan::RegionFarm plan_farm(const farm::Problem& problem, const FarmToPlan& how);

}  // namespace aftercut::scenario
