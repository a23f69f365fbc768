#pragma once
// Random members of the beret family, the corners of the range (sharp edges, flat tip, half balls, undersides
// that end flat) drawn often.

#include <algorithm>
#include <random>

#include "meridian/beret.h"
#include "meridian/trials.h"
#include "meridian/underside.h"

namespace crownwright::meridian {

/// Mostly inside (low, high), every fourth time at one of its ends.
inline double often_at_ends(std::mt19937_64& random, double low, double high) {
  switch (random() % 8) {
    case 0:
      return low;
    case 1:
      return high;
    default:
      return uniform(random, low, high);
  }
}

inline BeretValues random_beret(std::mt19937_64& random) {
  BeretValues v;
  v.a = uniform(random, 60, 250);
  v.b = uniform(random, 0.3, 0.999) * v.a;
  v.t = random() % 2 ? often_at_ends(random, 0, 20) : often_at_ends(random, 0, v.a);
  v.t = std::min(v.t, v.a);
  v.e_u = random() % 2 ? often_at_ends(random, 0, 30) : often_at_ends(random, 0, v.a);
  v.e_l = random() % 2 ? v.e_u : often_at_ends(random, 0, 30);
  const double least = least_equator(v.a - v.b, v.e_l);
  v.R = pole_to_equator(v.a, v.t, v.e_u) + often_at_ends(random, std::max(least, 0.1), least + 80);
  return v;
}

}  // namespace crownwright::meridian
