#pragma once
// Generator parameters out of a daily record, and weather years invented with them
// (docs/weather-generator.md, "Fitted to a record").

#include <cstdint>
#include <optional>

#include "aftercut/weather/generator.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::weather {

/// Whole October-to-September years that a fit asks for. Source: FittedGenerator (assumed)
inline constexpr int least_fit_years = 8;

/// Nothing where the record has too few whole years. The yearly factor is chosen so that invented years have
/// the record's spread of yearly rain.
std::optional<GeneratorParameters> fit_generator(const Series& record, const Site& site);

/// So many invented years laid on the season. Year labels start at 2101, beyond any record's, so that draws
/// keyed by year are none of the record's. The same arguments give the same years.
Years invented_years(const GeneratorParameters& parameters, const Site& site, Date season_first,
                     int season_days, int count, std::uint64_t seed);

}  // namespace aftercut::weather
