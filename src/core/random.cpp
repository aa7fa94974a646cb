#include "aftercut/core/random.hpp"

#include <cmath>
#include <numbers>

#include "aftercut/core/require.hpp"

namespace aftercut {

std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> c, std::array<std::uint32_t, 2> k) {
  for (int round = 0; round < 10; ++round) {
    const std::uint64_t p0 = std::uint64_t{0xD2511F53U} * c[0];
    const std::uint64_t p1 = std::uint64_t{0xCD9E8D57U} * c[2];
    c = {static_cast<std::uint32_t>(p1 >> 32) ^ c[1] ^ k[0], static_cast<std::uint32_t>(p1),
         static_cast<std::uint32_t>(p0 >> 32) ^ c[3] ^ k[1], static_cast<std::uint32_t>(p0)};
    k[0] += 0x9E3779B9U;
    k[1] += 0xBB67AE85U;
  }
  return c;
}

std::uint64_t stream_of(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const char ch : text) {
    hash ^= static_cast<unsigned char>(ch);
    hash *= 0x100000001b3ULL;
  }
  return hash;
}

Draws::Draws(std::uint64_t seed, std::uint64_t stream, std::uint64_t index)
    : counter_{0, static_cast<std::uint32_t>(index), static_cast<std::uint32_t>(stream),
               static_cast<std::uint32_t>(stream >> 32)},
      key_{static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>((seed >> 32) ^ (index >> 32))} {}

std::uint32_t Draws::next32() {
  if (used_ == 4) {
    block_ = philox(counter_, key_);
    ++counter_[0];
    used_ = 0;
  }
  return block_[static_cast<std::size_t>(used_++)];
}

double Draws::uniform() {
  const std::uint64_t high = next32();
  const std::uint64_t bits = ((high << 32) | next32()) >> 11;
  return (static_cast<double>(bits) + 0.5) * 0x1.0p-53;
}

// Box-Muller, one of the pair: Source: BoxMuller1958 (recalled).
double Draws::normal() {
  const double radius = std::sqrt(-2.0 * std::log(uniform()));
  return radius * std::cos(2.0 * std::numbers::pi * uniform());
}

// Marsaglia and Tsang's squeeze, with the power trick below shape 1. Source: MarsagliaTsang2000 (recalled).
double Draws::gamma(double shape, double scale) {
  require(shape > 0.0 && scale > 0.0, "a gamma draw needs positive shape and scale");
  if (shape < 1.0) {
    const double u = uniform();
    return gamma(shape + 1.0, scale) * std::pow(u, 1.0 / shape);
  }
  const double d = shape - 1.0 / 3.0;
  const double c = 1.0 / std::sqrt(9.0 * d);
  for (;;) {
    const double x = normal();
    const double v = std::pow(1.0 + c * x, 3);
    if (v > 0.0 && std::log(uniform()) < 0.5 * x * x + d - d * v + d * std::log(v)) return d * v * scale;
  }
}

std::uint32_t Draws::below(std::uint32_t n) {
  require(n > 0, "a draw below zero choices");
  return static_cast<std::uint32_t>((std::uint64_t{next32()} * n) >> 32);
}

}  // namespace aftercut
