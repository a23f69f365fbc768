#pragma once
// Posts under the crown, from floor or foot plane up to its inside: where they stand, and how wide the crown
// still spans between them. Seen from above, millimetres from the axis.

#include <vector>

namespace crownwright::press {

struct Spot {
  double x = 0, y = 0;
  friend bool operator==(const Spot&, const Spot&) = default;
};

struct FreeCircle {
  Spot centre;
  double radius = 0;
};

/// The largest circle inside the crown's circle of `radius` that holds no post (posts are points: their
/// thickness is left aside, on the safe side). Its radius is right to 1e-4 of the crown's, on the small side.
/// Without posts: the crown's circle. Precondition: radius > 0, at most 1000 posts (else std::logic_error).
FreeCircle largest_free_circle(const std::vector<Spot>& posts, double radius);

/// Evenly on one ring, the first at angle 0 (along x), with or without one on the axis.
std::vector<Spot> ring_of_posts(int on_ring, double ring_radius, bool in_middle);

}  // namespace crownwright::press
