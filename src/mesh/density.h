#pragma once
// How fine a face must be divided so that no facet leaves the true surface by more than the chord tolerance.
//
// Over a small facet the surface leaves it by at most (k_s ds^2 + k_t dt^2) / 8, k_s and k_t being the
// curvatures along the meridian and along the parallel. Where both directions curve each gets half the
// budget.

#include "solid/solid.h"

namespace crownwright::mesh {

/// Budget left of the ordered tolerance: rounding to the grid is taken off, and a seventh for facets that are
/// not right-angled.
double chord_budget(double tolerance);

struct Steps {
  double along = 0;   ///< greatest step along the meridian, mm (infinite on a straight line)
  double across = 0;  ///< greatest step along the parallel, mm (infinite on a plane)
};

/// At arc length `local` of the segment. `inner_bulge`: see inner_bulge_share.
Steps steps_at(const meridian::Segment& segment, double local, double budget, bool inner_bulge = false);
/// The same where the curvature, the place and the tangent are known.
Steps steps_at(double curvature, const meridian::Point& p, const meridian::Point& tangent, double budget,
               bool inner_bulge = false);

/// An inner face that bulges into the cavity (the arc about the head line's corner) has chords that eat into
/// the wall, where those of the outer face already do: it gets this share of the budget along the meridian,
/// so that both together stay within the tolerance.
constexpr double inner_bulge_share = 0.05;

/// The same, for the worst place of a stretch of a shell's walk.
Steps steps_within(const solid::Shell& shell, solid::Span span, double budget);

/// Least number of equal chords round a circle of radius r such that none is longer than `across` (never
/// below 6) and such that the sagitta in the circle's own plane is at most `sag`.
int chords_round(double r, double across, double sag);

}  // namespace crownwright::mesh
