#pragma once
// A piece of a puzzle block in plan: an upright prism, so that its section at any height is one polygon
// within the form's circle at that height. Distances between sections are exact (lines and arcs), mm.

#include <vector>

namespace crownwright::parts {

struct PlanPoint {
  double x = 0, y = 0;
  friend bool operator==(const PlanPoint&, const PlanPoint&) = default;
};

/// Counter-clockwise, simple, first point not repeated. It may reach beyond the form.
using PlanPolygon = std::vector<PlanPoint>;

struct PlanBox {
  double x0 = 0, x1 = 0, y0 = 0, y1 = 0;
};

/// A line, or an arc of the circle about `centre` run through counter-clockwise from `from`.
struct PlanEdge {
  PlanPoint from, to;
  PlanPoint centre;
  double radius = 0;           ///< 0: a line
  double start = 0, turn = 0;  ///< radians; turn > 0, 2 pi for a whole circle
  PlanBox box = {};            ///< round the edge
};

/// Closed loops one after the other, the piece on the left.
using PlanSection = std::vector<PlanEdge>;

/// The polygon within the circle of this radius about the axis; empty where they have nothing in common.
PlanSection section_within(const PlanPolygon& polygon, double radius);
PlanSection moved(PlanSection section, double dx, double dy);

/// Least distance between two sections; 0 when they touch or overlap. Infinite when one is empty.
double free_distance(const PlanSection& one, const PlanSection& two);
/// Greatest distance from the axis, of the section moved; 0 for an empty one.
double reach(const PlanSection& section, double dx = 0, double dy = 0);
/// Girth of the convex hull, to 0.001 mm.
double hull_girth(const PlanSection& section);
double area(const PlanSection& section);

/// Girth of the convex hull of points, mm.
double hull_girth(std::vector<PlanPoint> points);

}  // namespace crownwright::parts
