// The counter-based generator against its known answers, and the moments of its draws.
#include "aftercut/core/random.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <vector>

#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using aftercut::test::check;
using aftercut::test::Kind;
using Block = std::array<std::uint32_t, 4>;

namespace {

constexpr int many = 200000;

struct Moments {
  double mean = 0.0, variance = 0.0, skew = 0.0;
};

template <class Draw>
Moments moments(Draw draw) {
  std::vector<double> v(many);
  for (double& x : v) x = draw();
  Moments m;
  for (const double x : v) m.mean += x / many;
  for (const double x : v) m.variance += (x - m.mean) * (x - m.mean) / many;
  for (const double x : v) m.skew += std::pow((x - m.mean) / std::sqrt(m.variance), 3) / many;
  return m;
}

// The largest gap between the draws' step function and a distribution.
template <class Draw, class Cdf>
double gap(Draw draw, Cdf cdf) {
  std::vector<double> v(many);
  for (double& x : v) x = draw();
  std::sort(v.begin(), v.end());
  double worst = 0.0;
  for (int i = 0; i < many; ++i)
    worst = std::max({worst, std::abs(cdf(v[static_cast<std::size_t>(i)]) - i / double{many}),
                      std::abs(cdf(v[static_cast<std::size_t>(i)]) - (i + 1) / double{many})});
  return worst;
}

// Kolmogorov: a gap above 1.95 / sqrt(n) has a chance of 0.1 %. Source: Kolmogorov1933 (recalled)
const double gap_limit = 1.95 / std::sqrt(double{many});

}  // namespace

TEST_CASE("Philox4x32-10 known answers", "[published]") {
  // Source: Random123Kat philox4x32 10 (read)
  CHECK(philox({0, 0, 0, 0}, {0, 0}) == Block{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
  CHECK(philox({0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}, {0xffffffff, 0xffffffff}) ==
        Block{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
  CHECK(philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}) ==
        Block{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

TEST_CASE("stream names: FNV-1a known answers", "[recalled]") {
  // Source: FNV1a (recalled)
  CHECK(stream_of("") == 0xcbf29ce484222325ULL);
  CHECK(stream_of("a") == 0xaf63dc4c8601ec8cULL);
  CHECK(stream_of("foobar") == 0x85944171f73967e8ULL);
}

TEST_CASE("a stream depends on seed, name and index alone", "[identity]") {
  const auto first = [](std::uint64_t seed, const char* name, std::uint64_t index) {
    return Draws{seed, stream_of(name), index}.uniform();
  };
  CHECK(first(1, "rain", 2) == first(1, "rain", 2));
  const std::uint64_t high = std::uint64_t{1} << 40U;
  const std::set<double> all{first(1, "rain", 2), first(2, "rain", 2), first(1, "wind", 2),
                             first(1, "rain", 3), first(1 + high, "rain", 2)};
  CHECK(all.size() == 5);
  Draws a{5, 6, 7};
  a.normal();
  Draws copy = a;
  CHECK(a.uniform() == copy.uniform());
  CHECK(a.normal() == copy.normal());
}

TEST_CASE("uniform draws lie inside (0, 1) and are even", "[derived]") {
  Draws draws{11, stream_of("uniform")};
  double low = 1.0, high = 0.0;
  const Moments m = moments([&] {
    const double u = draws.uniform();
    low = std::min(low, u);
    high = std::max(high, u);
    return u;
  });
  CHECK(low > 0.0);
  CHECK(high < 1.0);
  check(
      {{"mean", "derived", Kind::derived, 0.5, m.mean, 5.0 * std::sqrt(1.0 / 12.0 / many)},
       {"variance", "derived", Kind::derived, 1.0 / 12.0, m.variance, 5.0 * std::sqrt(1.0 / 180.0 / many)}});
  CHECK(gap([&] { return draws.uniform(); }, [](double u) { return u; }) < gap_limit);
}

TEST_CASE("normal draws: moments and distribution", "[derived]") {
  Draws draws{12, stream_of("normal")};
  const Moments m = moments([&] { return draws.normal(); });
  check({{"mean", "derived", Kind::derived, 0.0, m.mean, 5.0 / std::sqrt(double{many})},
         {"variance", "derived", Kind::derived, 1.0, m.variance, 5.0 * std::sqrt(2.0 / many)},
         {"skew", "derived", Kind::derived, 0.0, m.skew, 5.0 * std::sqrt(6.0 / many)}});
  CHECK(gap([&] { return draws.normal(); }, [](double x) { return 0.5 * std::erfc(-x / std::sqrt(2.0)); }) <
        gap_limit);
}

TEST_CASE("gamma draws: mean k s, variance k s2, skew 2 / sqrt k", "[derived]") {
  for (const auto& [shape, scale] : std::vector<std::pair<double, double>>{
           {0.4, 8.0}, {0.75, 12.0}, {1.0, 3.0}, {2.5, 2.0}, {30.0, 0.1}}) {
    CAPTURE(shape, scale);
    Draws draws{13, stream_of("gamma")};
    const Moments m = moments([&, k = shape, s = scale] { return draws.gamma(k, s); });
    const double fourth = (3.0 + 6.0 / shape) * std::pow(shape * scale * scale, 2);  // fourth central moment
    const double variance = shape * scale * scale;
    check({{"mean", "derived", Kind::derived, shape * scale, m.mean, 5.0 * std::sqrt(variance / many)},
           {"variance", "derived", Kind::derived, variance, m.variance,
            5.0 * std::sqrt((fourth - variance * variance) / many)},
           {"skew", "derived", Kind::derived, 2.0 / std::sqrt(shape), m.skew,
            0.05 * (1.0 + 2.0 / std::sqrt(shape))}});
  }
  Draws draws{14, stream_of("exponential")};
  CHECK(gap([&] { return draws.gamma(1.0, 3.0); }, [](double x) { return 1.0 - std::exp(-x / 3.0); }) <
        gap_limit);
  CHECK_THROWS_AS(draws.gamma(0.0, 1.0), InternalError);
  CHECK_THROWS_AS(draws.gamma(1.0, -1.0), InternalError);
}

TEST_CASE("draws below n are even and stay below", "[derived]") {
  Draws draws{15, stream_of("below")};
  std::vector<int> count(7);
  for (int i = 0; i < many; ++i) ++count.at(draws.below(7));
  for (const int c : count) CHECK(std::abs(c - many / 7.0) < 5.0 * std::sqrt(many * 6.0 / 49.0));
  CHECK(draws.below(1) == 0);
  CHECK_THROWS_AS(draws.below(0), InternalError);
}
