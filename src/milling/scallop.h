#pragma once
// The two-circle law: how high a cusp two neighbouring passes of a ball leave.
//
// In the plane of the meridian the passes are circles of the ball's radius R that touch the profile, a circle
// of radius k (convex: curved away from the tool; hollow: towards it) or a line. With al the angle between
// the two points of contact seen from the profile's centre,
//   convex: cusp = (k + R) cos(al/2) - sqrt(R^2 - ((k + R) sin(al/2))^2) - k
//   hollow: cusp = k - ((k - R) cos(al/2) + sqrt(R^2 - ((k - R) sin(al/2))^2))
//   line:   cusp = R - sqrt(R^2 - (step/2)^2)       (the usual table of line offsets)

namespace crownwright::milling {

/// Cusp square to the surface, mm, for passes `step` apart along it. `curvature` of the profile as
/// meridian::Segment::curvature: 0 line, negative convex, positive hollow. Precondition: R > 0, step >= 0;
/// the passes overlap (else infinity); hollow radius > R.
double cusp_height(double R, double curvature, double step);

/// The step along the surface that leaves this cusp (inverse of cusp_height, to 1e-12 relative).
/// Precondition: 0 < cusp < R. On a convex profile so small that passes which just meet leave less than the
/// cusp: the step of those.
double surface_step(double R, double curvature, double cusp);

}  // namespace crownwright::milling
