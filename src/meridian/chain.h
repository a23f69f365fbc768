#pragma once
// The meridian: a chain of straight lines and circular arcs in the half plane (r, z), r >= 0, millimetres.
//
// Direction: a chain is walked with the OUTSIDE (air) on its left and the material on its right. For a form
// that is: from the pole outwards along the tip, down over the crown edge, in along the underside, down the
// collar; inwards along the foot; up the inner face back to the axis. The left normal of the unit tangent
// (tr, tz) is (-tz, tr) and points out of the material.
// Consecutive segments share their end point exactly (the same doubles). A joint is G1 when the tangents
// agree within 1e-9; otherwise it is a corner.

#include <optional>
#include <vector>

namespace crownwright::meridian {

struct Point {
  double r = 0, z = 0;
  friend bool operator==(const Point&, const Point&) = default;
};

/// A straight line, or an arc of less than a full turn. An arc keeps the start and end points as given and
/// centre and radius consistent with them to 1e-9 mm; `turn` is the signed angle swept from start to end,
/// negative when it curves to the right (clockwise, like the crown's edge: convex seen from the air).
class Segment {
 public:
  static Segment line(Point from, Point to);
  /// Precondition: |from - centre| and |to - centre| agree with `radius` to 1e-9; 0 < |turn| < 2 pi.
  static Segment arc(Point from, Point to, Point centre, double radius, double turn);
  /// Arc of signed turn about `centre` starting at `from`; the end point is computed.
  static Segment arc_about(Point from, Point centre, double turn);
  /// Arc of signed turn through two given ends; centre and radius are computed. Precondition: the ends
  /// differ.
  static Segment arc_through(Point from, Point to, double turn);

  bool is_arc() const { return radius_ > 0; }
  Point from() const { return from_; }
  Point to() const { return to_; }
  Point centre() const { return centre_; }
  double radius() const { return radius_; }  ///< 0 for a line
  double turn() const { return turn_; }      ///< 0 for a line
  /// Signed curvature with respect to the left (outward) normal: positive when the curve bends towards it
  /// (hollow seen from the air), negative when convex. turn / length.
  double curvature() const;

  double length() const;
  /// Point and unit tangent at arc length s from the start, 0 <= s <= length(). The ends are exact.
  Point at(double s) const;
  Point tangent_at(double s) const;
  Point normal_at(double s) const;  ///< left normal: out of the material
  Segment reversed() const;
  Segment translated(double dz) const;
  /// The piece between two arc lengths, 0 <= s0 < s1 <= length(). Its ends are at(s0) and at(s1).
  Segment part(double s0, double s1) const;
  /// The same segment with its ends replaced by points within rounding of them: how joints are made exact.
  Segment with_ends(Point from, Point to) const;

  /// Pappus-Guldinus over a full turn, closed form (source: pappus.cpp). Area of the swept surface.
  double swept_area() const;
  /// Signed volume between the swept surface and the axis: pi * integral of r^2 dz along the segment, with
  /// sign so that a chain of a solid walked as above sums to the solid's positive volume
  /// (i.e. -pi * integral r^2 dz: the outer face is walked downwards).
  double swept_volume() const;
  /// Unsigned distance from a point in the half plane to the segment.
  double distance_to(Point p) const;
  /// Arc length of the segment's point nearest to p (of two equally near, the earlier).
  double nearest(Point p) const;

 private:
  Point from_, to_, centre_;
  double radius_ = 0, turn_ = 0;
};

using Chain = std::vector<Segment>;

double length(const Chain& chain);
double swept_area(const Chain& chain);
double swept_volume(const Chain& chain);
Chain reversed(const Chain& chain);
Chain translated(const Chain& chain, double dz);
/// Greatest gap between consecutive end points (0 for a well-formed chain).
double greatest_gap(const Chain& chain);
double distance_to(const Chain& chain, Point p);

/// Point/tangent/normal at arc length s along the whole chain.
Point at(const Chain& chain, double s);
Point normal_at(const Chain& chain, double s);

}  // namespace crownwright::meridian
