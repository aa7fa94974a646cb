// Classes and Brier scores of chances worked out by hand, and intervals that know that fields of a winter go
// together.

#include "aftercut/review/reliability.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/random.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using Catch::Detail::Approx;
using plan::SaidChance;

namespace {

SaidChance said(int winter, double chance, bool happened, double climatology = 0.5) {
  return {
      .winter = winter, .said = chance, .climatology = climatology, .at_start = 0.5, .happened = happened};
}

/// Every chance 0.9; in each winter all fields came out alike.
std::vector<SaidChance> alike_in_a_winter(int fields) {
  std::vector<SaidChance> all;
  for (int winter = 1970; winter < 1980; ++winter)
    for (int f = 0; f < fields; ++f) all.push_back(said(winter, 0.9, winter % 3 != 0));
  return all;
}

}  // namespace

TEST_CASE("Brier scores by hand", "[derived]") {
  // (0.8-1)^2 + (0.3-0)^2 + (0.6-0)^2 + (1-1)^2 = 0.04 + 0.09 + 0.36 + 0 = 0.49, by 4; climatology
  // 0.16 + 0.36 + 0.36 + 0.16 = 1.04, by 4.
  const std::vector<SaidChance> rows{said(1971, 0.8, true, 0.6), said(1971, 0.3, false, 0.6),
                                     said(1972, 0.6, false, 0.6), said(1972, 1.0, true, 0.6)};
  const plan::BrierScores s = review::brier_scores(rows, {});
  CHECK(s.said == Approx(0.1225));
  CHECK(s.climatology.score == Approx(0.26));
  CHECK(s.climatology.difference == Approx(-0.1375));
  CHECK(*s.climatology.skill == Approx(1.0 - 0.1225 / 0.26));
  // Winter 1971 alone: 0.065 - 0.26; 1972 alone: 0.18 - 0.26; each is drawn twice a quarter of the time.
  CHECK(s.climatology.interval->low == Approx(-0.195));
  CHECK(s.climatology.interval->high == Approx(-0.08));
  CHECK(s.at_start.score == 0.25);
  CHECK(s.at_start.difference == Approx(-0.1275));
  CHECK(s.at_start.interval->low == Approx(-0.185));
  CHECK(s.at_start.interval->high == Approx(-0.07));
}

TEST_CASE("perfect, useless and constant chances", "[derived]") {
  std::vector<SaidChance> perfect, worst, even, same;
  for (int winter = 1971; winter < 1977; ++winter)
    for (int f = 0; f < 3; ++f) {
      const bool happened = (winter + f) % 2 == 0;
      perfect.push_back(said(winter, happened ? 1.0 : 0.0, happened));
      worst.push_back(said(winter, happened ? 0.0 : 1.0, happened));
      even.push_back(said(winter, 0.5, happened));
      same.push_back(said(winter, 0.7, happened, 0.7));
    }
  CHECK(review::brier_scores(perfect, {}).said == 0.0);
  CHECK(review::brier_scores(perfect, {}).climatology.skill == 1.0);
  CHECK(review::brier_scores(worst, {}).said == 1.0);
  CHECK(*review::brier_scores(worst, {}).climatology.skill == Approx(-3.0));
  CHECK(review::brier_scores(even, {}).said == 0.25);
  const plan::BrierBeside constant = review::brier_scores(same, {}).climatology;
  CHECK(constant.skill == 0.0);
  CHECK(constant.difference == 0.0);
  CHECK(*constant.interval == plan::Interval{0.0, 0.0});
  const auto classes = review::classes_of(perfect, {});
  CHECK(classes.front().happened == 0.0);
  CHECK(classes.back().happened == 1.0);
}

TEST_CASE("climatology that never errs leaves no skill to tell", "[derived]") {
  const std::vector<SaidChance> rows{said(1971, 0.5, true, 1.0), said(1972, 0.5, true, 1.0)};
  const plan::BrierBeside s = review::brier_scores(rows, {}).climatology;
  CHECK_FALSE(s.skill.has_value());
  CHECK(s.difference == 0.25);
}

TEST_CASE("four classes with their ends, empty ones too", "[derived]") {
  const std::vector<SaidChance> rows{said(1971, 0.0, false), said(1971, 0.2, true),   said(1972, 0.25, true),
                                     said(1972, 0.75, true), said(1973, 1.0, true),   said(1973, 0.8, false),
                                     said(1974, 0.76, true), said(1974, 0.24, false), said(1974, 0.1, false)};
  const auto classes = review::classes_of(rows, {});
  REQUIRE(classes.size() == 4);
  CHECK(classes[0].field_winters == 4);
  CHECK(classes[0].winters == 2);
  CHECK(classes[0].said == Approx(0.135));
  CHECK(classes[0].happened == Approx(0.25));
  CHECK(classes[0].interval->low == Approx(0.0));  // 1974 drawn for every winter of the class
  CHECK(classes[1].field_winters == 1);
  CHECK_FALSE(classes[1].interval.has_value());
  CHECK(classes[2].field_winters == 0);
  CHECK(classes[2].winters == 0);
  CHECK_FALSE(classes[2].interval.has_value());
  CHECK(classes[2].from == 0.5);
  CHECK(classes[2].below == 0.75);
  CHECK(classes[3].field_winters == 4);
  CHECK(classes[3].winters == 3);
  CHECK(classes[3].said == Approx(0.8275));
  CHECK(classes[3].happened == Approx(0.75));
}

TEST_CASE("a single winter has no intervals", "[derived]") {
  const std::vector<SaidChance> rows{said(1971, 0.8, true), said(1971, 0.9, false)};
  CHECK_FALSE(review::brier_scores(rows, {}).climatology.interval.has_value());
  for (const auto& c : review::classes_of(rows, {})) CHECK_FALSE(c.interval.has_value());
}

TEST_CASE("winters that all agree get the exact interval of as many trials", "[derived]") {
  const std::vector<SaidChance> rows{said(1971, 0.8, true),  said(1971, 0.9, true),  said(1972, 0.8, true),
                                     said(1973, 0.1, false), said(1974, 0.1, false), said(1975, 0.1, false)};
  const auto classes = review::classes_of(rows, {});
  CHECK(classes[3].interval->low == Approx(std::sqrt(0.05)));
  CHECK(classes[3].interval->high == 1.0);
  CHECK(classes[0].interval->low == 0.0);
  CHECK(classes[0].interval->high == Approx(1.0 - std::cbrt(0.05)));
}

TEST_CASE("more fields in the same winters make no interval narrower", "[identity]") {
  const auto one = review::classes_of(alike_in_a_winter(1), {}),
             many = review::classes_of(alike_in_a_winter(50), {});
  REQUIRE(one[3].interval.has_value());
  CHECK(one[3].interval->high - one[3].interval->low > 0.3);
  CHECK(many[3].interval->low == Approx(one[3].interval->low));
  CHECK(many[3].interval->high == Approx(one[3].interval->high));
}

TEST_CASE("neither the order of rows nor a second call changes anything; another seed does", "[identity]") {
  std::vector<SaidChance> rows;
  Draws draws{5, stream_of("rows"), 0};
  for (int winter = 1970; winter < 1990; ++winter)
    for (int f = 0; f < 4; ++f) {
      const double chance = 0.125 * draws.below(9);  // sums of eighths do not depend on their order
      rows.push_back(said(winter, chance, draws.uniform() < chance));
    }
  const auto classes = review::classes_of(rows, {.seed = 1});
  const auto scores = review::brier_scores(rows, {.seed = 1});
  CHECK(review::classes_of(rows, {.seed = 2}) != classes);
  std::reverse(rows.begin(), rows.end());
  CHECK(review::classes_of(rows, {.seed = 1}) == classes);
  CHECK(review::brier_scores(rows, {.seed = 1}) == scores);
}

TEST_CASE("intervals hold the truth about as often as they say, although fields go together", "[identity]") {
  // Three fields a winter that share one draw: were fields drawn by themselves, intervals would be too narrow
  // by a root of three and hold the truth in two sets in three.
  int held = 0;
  constexpr int sets = 200;
  for (int k = 0; k < sets; ++k) {
    Draws draws{9, stream_of("coverage"), static_cast<std::uint64_t>(k)};
    std::vector<SaidChance> rows;
    for (int winter = 1900; winter < 1940; ++winter) {
      const bool happened = draws.uniform() < 0.6;
      for (int f = 0; f < 3; ++f) rows.push_back(said(winter, 0.6, happened));
    }
    const auto c = review::classes_of(rows, {.seed = 3, .count = 400})[2];
    held += c.interval->low <= 0.6 && 0.6 <= c.interval->high ? 1 : 0;
  }
  CHECK(held > 0.82 * sets);
  CHECK(held < 0.97 * sets);
}
