// Earlier seasons of a field.

#include "aftercut/farm/history.hpp"

#include <algorithm>

#include "parts.hpp"

namespace aftercut::farm {

std::vector<PastSeason> read_history(const Object& values, const SeasonDates& season) {
  constexpr int earliest = 1900;
  const int this_year = year_of(season.calendar.first);
  std::vector<PastSeason> out;
  for (const Object& o : values.list("history")) {
    const auto year = o.whole("season", earliest, 9998);
    if (!year) continue;
    if (season.sound && *year >= this_year)
      o.fault("season", std::to_string(*year),
              "a season before this one, which begins in " + std::to_string(this_year),
              "take the line out, or correct its year");
    if (std::ranges::count(out, *year, &PastSeason::year) > 0)
      o.fault("season", std::to_string(*year) + " twice", "one line a season", "put the two lines together");
    PastSeason p{.year = *year, .method = o.text_or("method", ""), .burned = o.yes("burned").value_or(false)};
    if (const auto grain = o.quantity("yield", "kg/ha", {0.0, 20000.0})) p.grain = KgPerHa{*grain};
    p.ready = o.date("ready");
    out.push_back(p);
  }
  std::ranges::sort(out, {}, &PastSeason::year);
  return out;
}

}  // namespace aftercut::farm
