#pragma once
// Random numbers keyed by what they are for, not by the order of the calls: Philox4x32-10.
// Source: Salmon2011 (recalled); check vectors in tests/core/random_test.cpp.

#include <array>
#include <cstdint>
#include <string_view>

namespace aftercut {

/// Ten Philox4x32 rounds on a counter and a key.
std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> counter, std::array<std::uint32_t, 2> key);

/// A stable 64-bit number of a text (FNV-1a), for use as a stream name.
std::uint64_t stream_of(std::string_view text);

/// A stream of draws that depends on (seed, stream, index) alone; different ones for all indices below 2^32.
/// Copies are independent values.
class Draws {
 public:
  Draws(std::uint64_t seed, std::uint64_t stream, std::uint64_t index = 0);
  double uniform();                          ///< in (0, 1)
  double normal();                           ///< mean 0, standard deviation 1
  double gamma(double shape, double scale);  ///< shape > 0, scale > 0
  std::uint32_t below(std::uint32_t n);      ///< 0 to n-1, n > 0

 private:
  std::uint32_t next32();
  std::array<std::uint32_t, 4> counter_;
  std::array<std::uint32_t, 2> key_;
  std::array<std::uint32_t, 4> block_{};
  int used_ = 4;
};

}  // namespace aftercut
