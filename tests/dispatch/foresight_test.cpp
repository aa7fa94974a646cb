// What day d may know: the weather to the end of d-1 and day d's own mask, never the rest of the year.

#include "aftercut/core/random.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

/// Year `a` up to and including `day`, then year `b`.
farm::Problem spliced(const farm::Problem& p, std::size_t a, std::size_t b, int day) {
  farm::Problem q = p;
  weather::Year year = p.years.years[a];
  const auto from = static_cast<std::size_t>(day) + 1;
  for (std::size_t d = from; d < year.days.size(); ++d) {
    year.days[d] = p.years.years[b].days[d];
    year.et0_mm[d] = p.years.years[b].et0_mm[d];
  }
  q.years.years = {year};
  return q;
}

std::vector<plan::Work> work_until(const plan::YearRun& run, int day) {
  std::vector<plan::Work> kept;
  for (const auto& w : run.work)
    if (w.day <= day) kept.push_back(w);
  return kept;
}

}  // namespace

TEST_CASE("decisions up to a day do not change when the weather after it does", "[identity]") {
  const farm::Problem p = test::small_problem(8);
  const plan::Decision decision = test::decide(p.farm, test::mixed_methods);
  Draws draws{11, stream_of("foresight")};
  std::size_t differing_later = 0;
  for (int k = 0; k < 60; ++k) {
    const auto a = draws.below(8), b = (a + 1 + draws.below(7)) % 8;
    const int day = 20 + static_cast<int>(draws.below(230));
    const farm::Problem alone = spliced(p, a, a, day), changed = spliced(p, a, b, day);
    const auto x = dispatch::run(dispatch::make_table(alone, 7), decision, 0);
    const auto y = dispatch::run(dispatch::make_table(changed, 7), decision, 0);
    CAPTURE(a, b, day);
    CHECK(work_until(x, day) == work_until(y, day));
    if (x.work != y.work) ++differing_later;
  }
  CHECK(differing_later > 20);  // the other year does make a difference afterwards
}
