#pragma once
// Products of two 64-bit integers, exactly.

namespace crownwright {

__extension__ typedef __int128 Int128;

constexpr Int128 magnitude(Int128 value) { return value < 0 ? -value : value; }

/// Euclid's algorithm. gcd(0, b) = |b|.
constexpr Int128 greatest_common_divisor(Int128 a, Int128 b) {
  while (b != 0) {
    const Int128 rest = a % b;
    a = b;
    b = rest;
  }
  return magnitude(a);
}

}  // namespace crownwright
