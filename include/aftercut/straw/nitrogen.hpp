#pragma once
// Nitrogen in straw and in what rots it, kg/ha. Straw that rots hands its nitrogen to microbes; where they
// hold more of it than the straw had, they take the rest from the soil, and give it back as they die.

#include "aftercut/core/lanes.hpp"

namespace aftercut::straw {

struct NitrogenSettings {
  double content_kg_per_kg = 0.0059;  ///< of fresh straw. Source: Witt1999 (read), product by us
  /// Nitrogen that microbes hold for a kg of straw rotted. Source: Microbes (chosen so that buried straw ties
  /// up about what BrownDickey1970 measured)
  double held_kg_per_kg = 0.008;
  double release_25c_per_day = 0.004;  ///< share that dying microbes give back. Source: Microbes (assumed)
};

template <class N>
struct NitrogenStateOf {
  N in_straw = 0.0, in_microbes = 0.0;
};

template <class N>
struct NitrogenStepOf {
  NitrogenStateOf<N> state;
  N from_soil = 0.0;  ///< taken up (tied up)
  N to_soil = 0.0;    ///< given back
};

/// The nitrogen of a day on which `decayed` kg/ha of straw rot; `soil_factor` is the temperature factor of
/// decay.
template <class N>
[[gnu::always_inline]] inline NitrogenStepOf<N> live_nitrogen(const NitrogenStateOf<N>& state,
                                                              const N& decayed_kg_per_ha,
                                                              const N& soil_factor, const NitrogenSettings& s,
                                                              double days = 1.0) {
  const N out_of_straw = s.content_kg_per_kg * decayed_kg_per_ha;
  const N wanted = s.held_kg_per_kg * decayed_kg_per_ha;
  const N to_microbes = lesser(out_of_straw, wanted);
  const N dying = state.in_microbes * lesser(N{days * s.release_25c_per_day * soil_factor}, N{1.0});
  const N from_soil = wanted - to_microbes;
  return {.state = {state.in_straw - out_of_straw, state.in_microbes + to_microbes + from_soil - dying},
          .from_soil = from_soil,
          .to_soil = out_of_straw - to_microbes + dying};
}

}  // namespace aftercut::straw
