#pragma once
// How much straw a tool buries, by its working depth and the length of the straw, and how much work long
// straw makes.

namespace aftercut::straw {

struct BurialSettings {
  /// Share of the straw that a cm more of working depth buries besides. Source: BurialDepth (read; 0.005 to
  /// 0.014 of cover, here of mass).
  double per_cm = 0.010;
  double short_mm = 102.0;   ///< straw up to here buries as the tool's table says. Source: ChopLength (read)
  double long_mm = 300.0;    ///< from here on the factors below hold in full. Source: LongStraw (assumed)
  double long_burial = 0.8;  ///< buried of long straw over short. Source: LongStraw (assumed)
  double long_weight = 1.1;  ///< long straw counts so much when passes are chosen. Source: LongStraw
  double combine_chop_mm = 100.0;         ///< left by the combine's chopper. Source: LongStraw (assumed)
  double combine_straw_mm = 300.0;        ///< left by the combine without it. Source: LongStraw (assumed)
  double default_chop_mm = 80.0;          ///< left by a chopper that does not say. Source: ChopLength (read)
  double least_cm = 3.0, most_cm = 30.0;  ///< depths that the rule is used for. Source: BurialDepth
};

/// What the tool that is used brings; 0: it does not say.
struct Tool {
  double depth_cm = 0.0;
  double chop_length_mm = 0.0;
};

/// Length of the straw of a field after the combine, weighted by mass [mm]: stubble as long as it was cut
/// high, the rest as the combine leaves it. `stubble_share` 0 to 1.
double length_after_combine(double cut_height_cm, double stubble_share, bool chopped,
                            const BurialSettings& settings);

/// Share of the straw on top that goes under in a pass, 0 to 1: the tool's `usual_share` at its
/// `usual_depth_cm` in short straw, more or less by the depth that it is set to and by the straw's length. No
/// usual depth (0), as for rollers: the share holds as it stands. No depth set (0): the usual one.
double buried_share(double usual_share, double usual_depth_cm, double depth_cm, double length_mm,
                    const BurialSettings& settings);

/// Straw by which passes are chosen [kg/ha]: long straw counts for more.
double straw_for_passes(double straw_kg_per_ha, double length_mm, const BurialSettings& settings);

}  // namespace aftercut::straw
