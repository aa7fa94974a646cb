#pragma once
// One arithmetic for one number and for several side by side: a template over a number type N runs with N =
// double, or with N = Lanes, which holds the numbers of `lane_count` fields in one value. Each lane's result
// is that of double, bit for bit. Why not the standard library's: docs/decisions/0007.

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <type_traits>
#include <utility>

namespace aftercut {

inline constexpr std::size_t lane_count = 4;

/// Numbers of four fields in two of the processor's registers, which every 64-bit x86 and ARM machine has.
class Lanes {
 public:
  using Pair = double __attribute__((vector_size(16)));

  Lanes() = default;
  Lanes(double x)
      : low{x, x}, high{x, x} {}  // NOLINT(google-explicit-constructor): a number is the same in each lane
  Lanes(Pair l, Pair h) : low{l}, high{h} {}

  double operator[](std::size_t lane) const { return lane < 2 ? low[lane] : high[lane - 2]; }
  void set(std::size_t lane, double x) {
    Pair& pair = lane < 2 ? low : high;
    pair[lane % 2] = x;
  }

  Lanes& operator+=(const Lanes& b) { return *this = *this + b; }
  Lanes& operator-=(const Lanes& b) { return *this = *this - b; }
  Lanes& operator*=(const Lanes& b) { return *this = *this * b; }
  friend Lanes operator+(const Lanes& a, const Lanes& b) { return {a.low + b.low, a.high + b.high}; }
  friend Lanes operator-(const Lanes& a, const Lanes& b) { return {a.low - b.low, a.high - b.high}; }
  friend Lanes operator*(const Lanes& a, const Lanes& b) { return {a.low * b.low, a.high * b.high}; }
  friend Lanes operator/(const Lanes& a, const Lanes& b) { return {a.low / b.low, a.high / b.high}; }
  friend Lanes operator-(const Lanes& a) { return {-a.low, -a.high}; }

  Pair low, high;
};

/// A yes or no for each lane.
struct LaneMask {
  using Pair = std::int64_t __attribute__((vector_size(16)));
  Pair low, high;  // all bits or none

  void set(std::size_t lane, bool yes) {
    Pair& pair = lane < 2 ? low : high;
    pair[lane % 2] = yes ? -1 : 0;
  }
  friend LaneMask operator&&(const LaneMask& a, const LaneMask& b) {
    return {a.low & b.low, a.high & b.high};
  }
};
inline LaneMask operator<(const Lanes& a, const Lanes& b) { return {a.low < b.low, a.high < b.high}; }
inline LaneMask operator<=(const Lanes& a, const Lanes& b) { return {a.low <= b.low, a.high <= b.high}; }
inline LaneMask operator>(const Lanes& a, const Lanes& b) { return b < a; }
inline LaneMask operator>=(const Lanes& a, const Lanes& b) { return b <= a; }

/// What a comparison of two N gives.
template <class N>
using Mask = decltype(std::declval<N>() < std::declval<N>());

/// `then` where the mask holds, else `otherwise`; both are worked out.
inline double pick(bool when, double then, double otherwise) { return when ? then : otherwise; }
inline Lanes pick(const LaneMask& when, const Lanes& then, const Lanes& otherwise) {
  return {when.low ? then.low : otherwise.low, when.high ? then.high : otherwise.high};
}

namespace detail {
#ifdef __SSE2__  // one instruction, which g++ 12 does not find by itself
inline Lanes::Pair lesser(Lanes::Pair a, Lanes::Pair b) { return __builtin_ia32_minpd(b, a); }
inline Lanes::Pair greater(Lanes::Pair a, Lanes::Pair b) { return __builtin_ia32_maxpd(b, a); }
#else
inline Lanes::Pair lesser(Lanes::Pair a, Lanes::Pair b) { return b < a ? b : a; }
inline Lanes::Pair greater(Lanes::Pair a, Lanes::Pair b) { return b > a ? b : a; }
#endif
}  // namespace detail

inline double lesser(double a, double b) { return b < a ? b : a; }
inline Lanes lesser(const Lanes& a, const Lanes& b) {
  return {detail::lesser(a.low, b.low), detail::lesser(a.high, b.high)};
}
inline double greater(double a, double b) { return b > a ? b : a; }
inline Lanes greater(const Lanes& a, const Lanes& b) {
  return {detail::greater(a.low, b.low), detail::greater(a.high, b.high)};
}
/// x brought between `low` and `high`.
template <class N>
N between(const N& x, const N& low, const N& high) {
  return lesser(greater(x, low), high);
}
template <class N>
N magnitude(const N& x) {
  return greater(x, N{-x});
}

inline bool holds(bool mask) { return mask; }
/// In every lane.
inline bool holds(const LaneMask& mask) {
  const LaneMask::Pair both = mask.low & mask.high;
  return (both[0] & both[1]) != 0;
}

inline double exp_of(double x) { return std::exp(x); }
inline Lanes exp_of(const Lanes& x) {
  return {Lanes::Pair{std::exp(x[0]), std::exp(x[1])}, Lanes::Pair{std::exp(x[2]), std::exp(x[3])}};
}
inline double expm1_of(double x) { return std::expm1(x); }
inline Lanes expm1_of(const Lanes& x) {
  return {Lanes::Pair{std::expm1(x[0]), std::expm1(x[1])}, Lanes::Pair{std::expm1(x[2]), std::expm1(x[3])}};
}

namespace detail {

inline double number_at(const void* plain, std::size_t k) {
  double x;
  std::memcpy(&x, static_cast<const std::byte*>(plain) + k * sizeof(double), sizeof(double));
  return x;
}
inline void put_number_at(void* plain, std::size_t k, double x) {
  std::memcpy(static_cast<std::byte*>(plain) + k * sizeof(double), &x, sizeof(double));
}

template <template <class> class PlainOf>
constexpr std::size_t numbers_in() {
  static_assert(std::is_trivially_copyable_v<PlainOf<double>> &&
                std::is_trivially_copyable_v<PlainOf<Lanes>>);
  constexpr std::size_t count = sizeof(PlainOf<double>) / sizeof(double);
  static_assert(sizeof(PlainOf<Lanes>) == count * sizeof(Lanes));
  return count;
}

}  // namespace detail

/// Structs of nothing but numbers, PlainOf<double>, laid lane by lane into one PlainOf<Lanes>.
template <template <class> class PlainOf>
void lay_side_by_side(const std::array<const PlainOf<double>*, lane_count>& things, PlainOf<Lanes>& lanes) {
  for (std::size_t k = 0; k < detail::numbers_in<PlainOf>(); ++k) {
    const auto number = [&](std::size_t l) { return detail::number_at(things[l], k); };
    const Lanes row{Lanes::Pair{number(0), number(1)}, Lanes::Pair{number(2), number(3)}};
    std::memcpy(reinterpret_cast<std::byte*>(&lanes) + k * sizeof(Lanes), &row, sizeof(Lanes));
  }
}

/// The lanes as things of their own again. Null: this lane is nobody's.
template <template <class> class PlainOf>
void lay_one_by_one(const PlainOf<Lanes>& lanes, const std::array<PlainOf<double>*, lane_count>& things) {
  for (std::size_t l = 0; l < lane_count; ++l)
    if (things[l] != nullptr)
      for (std::size_t k = 0; k < detail::numbers_in<PlainOf>(); ++k)
        detail::put_number_at(things[l], k, detail::number_at(&lanes, k * lane_count + l));
}

}  // namespace aftercut
