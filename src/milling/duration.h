#pragma once
// How long a program runs on a machine with limited acceleration.

#include "milling/path.h"

namespace crownwright::milling {

struct MachinePace {
  double accel = 200;                ///< mm/s2, along the path
  double rapid = 3000;               ///< mm/min
  double junction_deviation = 0.01;  ///< mm; 0: stop at every corner
};

struct Duration {
  double seconds = 0;
  double path_mm = 0;  ///< of all moves
  double rapid_mm = 0;
};

/// Trapezoids with look-ahead: speeds at corners by the junction deviation d, v^2 = a d sin(h) / (1 -
/// sin(h)), h half the angle between the two directions turned from straight back; on arcs at most sqrt(a r).
/// The first move, from nowhere, counts nothing; nor does the spindle's own start. The time grows with the
/// number of moves. Preconditions: accel, rapid and the feed of every line and arc are greater than 0.
Duration duration_of(const Path& path, const MachinePace& pace);

}  // namespace crownwright::milling
