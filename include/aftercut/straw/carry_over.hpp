#pragma once
// Disease that straw carries to the next crop, as an index from 0 to 1, and grain lost at harvest that birds
// still find in late autumn. The index compares methods; it says nothing of yield.

namespace aftercut::straw {

/// How much a kg of straw in the ground carries over against one on top. Leaving it on top is the worst, to
/// chop and disk it in autumn better (read); half is our judgement. Source: CarryOver (assumed)
inline constexpr double carried_in_ground = 0.5;
/// What a winter flood takes off at the most, and the days under water that do it: a winter flood leaves less
/// stem rot (read); how much less stands nowhere that we read. Source: CarryOver (assumed)
inline constexpr double most_off_by_flood = 0.3;
inline constexpr double full_flood_days = 60.0;

/// What is left of the straw when spring work begins, beside what an untouched field has on top that day
/// [kg/ha].
struct CarriedStraw {
  double on_top = 0.0, in_ground = 0.0;
  double untouched_on_top = 0.0;
  int flooded_days = 0;
};

/// Share of what doing nothing would carry over, 0 to 1: straw stands for the inoculum on it. 0 where an
/// untouched field has nothing left.
double carried_share(const CarriedStraw& straw);

/// Weight of a field's history, 0 to 1: stem rot in so many percent of stems, against the 15 % from which a
/// programme lets a field count as diseased. Source: Ccr80156 (read)
double stem_rot_weight(double stems_percent);

/// Grain lost at harvest and what is done to it before late autumn.
struct WasteGrain {
  double at_harvest_kg_per_ha = 388.0;  ///< Source: Miller1989 (read), Sacramento Valley 1985-86
  /// Rots, sprouts and is eaten: 271 kg/ha at harvest to 105 in late autumn in some 90 days, another valley
  /// and warmer. Source: WasteGrainLoss (assumed; one figure recalled, one read)
  double loss_per_day = 0.0105;
};
/// Share that each kind of handling leaves of the grain, once however often. Source: Kross2006 (read),
/// against standing straw in late autumn; fire: Miller1989 (read)
inline constexpr double grain_after_fire = 276.0 / 388.0, grain_after_chopping = 67.0 / 105.0,
                        grain_after_rolling = 51.0 / 105.0, grain_after_disking = 48.0 / 105.0;
struct GrainHandling {
  bool burned = false, chopped = false, rolled = false, disked = false;
  friend bool operator==(const GrainHandling&, const GrainHandling&) = default;
};
/// Grain left after `days` since harvest [kg/ha]. Straw that was disked counts as disked alone: the chopping
/// and rolling before it are in the figure of the source.
double waste_grain_left(const WasteGrain& grain, int days, const GrainHandling& handling);

/// Water in which waterfowl feed [mm]. Most kinds like 100 to 200 (read); the limits are ours. Source:
/// WaterfowlDepth (assumed)
inline constexpr double shallowest_for_birds_mm = 50.0, deepest_for_birds_mm = 300.0;

}  // namespace aftercut::straw
