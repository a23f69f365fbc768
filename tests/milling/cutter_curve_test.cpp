#include "milling/cutter_curve.h"

#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Gps_circle_segment_traits_2.h>
#include <CGAL/approximated_offset_2.h>
#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"
#include "meridian/plane.h"
#include "milling/finish_shapes.h"
#include "support/light.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

using OffsetKernel = CGAL::Exact_predicates_exact_constructions_kernel;
using OffsetTraits = CGAL::Gps_circle_segment_traits_2<OffsetKernel>;

constexpr double drawn_chord_error = 1e-4;  // mm

/// Chords of the chain, and back round below and left of the axis, so that only its own offset is looked at.
CGAL::Polygon_2<OffsetKernel> chord_polygon(const Chain& chain, double room) {
  CGAL::Polygon_2<OffsetKernel> polygon;
  const Point first = chain.front().from(), last = chain.back().to();
  polygon.push_back({last.r, -room});
  polygon.push_back({last.r, last.z});
  for (auto s = chain.rbegin(); s != chain.rend(); ++s) {
    const double chord = s->is_arc() ? 2 * std::sqrt(2 * s->radius() * drawn_chord_error) : s->length();
    const int count = static_cast<int>(std::ceil(s->length() / chord));
    for (int i = count - 1; i >= 0; --i) {
      const Point p = s->at(s->length() * i / count);
      polygon.push_back({p.r, p.z});
    }
  }
  polygon.push_back({-room, first.z});
  polygon.push_back({-room, -room});
  return polygon;
}

/// Pieces of the library's offset as lines and arcs of ours.
std::vector<Segment> library_offset(const Chain& chain, double R) {
  const auto offset = CGAL::approximated_offset_2(chord_polygon(chain, 3 * R), OffsetKernel::FT(R), 1e-5);
  std::vector<Segment> pieces;
  const auto plain = [](const auto& p) { return Point{CGAL::to_double(p.x()), CGAL::to_double(p.y())}; };
  for (auto curve = offset.outer_boundary().curves_begin(); curve != offset.outer_boundary().curves_end();
       ++curve) {
    const Point from = plain(curve->source()), to = plain(curve->target());
    if (curve->is_linear()) {
      pieces.push_back(Segment::line(from, to));
      continue;
    }
    const Point centre{CGAL::to_double(curve->supporting_circle().center().x()),
                       CGAL::to_double(curve->supporting_circle().center().y())};
    using namespace meridian;
    double turn = std::atan2(cross(from - centre, to - centre), dot(from - centre, to - centre));
    if (curve->orientation() == CGAL::COUNTERCLOCKWISE && turn < 0) turn += 2 * pi;
    if (curve->orientation() == CGAL::CLOCKWISE && turn > 0) turn -= 2 * pi;
    pieces.push_back(Segment::arc_through(from, to, turn));
  }
  return pieces;
}

void expect_like_the_library(const Chain& chain, double R) {
  const std::vector<Segment> library = library_offset(chain, R);
  const CutterCurve curve(chain, R);
  double furthest = 0;
  for (double s = 0; s < curve.length(); s += 0.25)
    furthest = std::max(furthest, meridian::distance_to(library, curve.centre(s)));
  EXPECT_LE(furthest, 3e-4);
}

TEST(CutterCurve, LikeApproximatedOffsetOfTheLibrary) {
  // CGAL's approximated_offset_2 of the chord polygon: chords 1e-4 off, agreement within 3e-4.
  expect_like_the_library(shapes::flanged(), 3);
  expect_like_the_library(shapes::cone(), 3);
  expect_like_the_library(shapes::sharp_flat(), 6);
  expect_like_the_library(shapes::filleted(10), 3);
  if (!test::light()) expect_like_the_library(test::pad_top(40, 20, 4, 8), 3);
}

void expect_touching(const Chain& target, double R) {
  using namespace meridian;
  const CutterCurve curve(target, R);
  for (double s = 0; s < curve.length(); s += 0.1) {
    const CutterPlace place = curve.place(s);
    ASSERT_NEAR(distance_to(target, place.centre), R, 1e-9);
    ASSERT_NEAR(norm(place.contact - place.centre), R, 1e-9);
    ASSERT_NEAR(distance_to(target, place.contact), 0, 1e-8);
    ASSERT_NEAR(norm(target[place.segment].at(place.along) - place.contact), 0, 1e-8);
    if (curve.piece_at(s).corner) continue;
    const Point out = target[place.segment].normal_at(place.along);
    ASSERT_NEAR(std::atan2(out.r, out.z), place.slope, 1e-8);
    ASSERT_NEAR(curve.piece_at(s).curvature, target[place.segment].curvature(), 1e-8);
  }
}

TEST(CutterCurve, TellsWhatTheBallTouches) {
  for (const auto& shape : shapes::all()) {
    SCOPED_TRACE(shape.name);
    expect_touching(shape.setup.target, shape.job.finish.radius());
  }
}

TEST(CutterCurve, HollowCornersAreTrimmed) {
  // A ball of 3 in a right corner at (40, 8): its middle turns at (43, 11).
  const CutterCurve curve(shapes::flanged(), 3);
  double least = 1e9;
  for (const CutterPiece& piece : curve.pieces())
    least = std::min(least, std::hypot(piece.centres.from().r - 43, piece.centres.from().z - 11));
  EXPECT_LT(least, 1e-9);
}

TEST(CutterCurve, EndsWhereTheTipIsLowEnough) {
  const CutterCurve curve(shapes::sharp_flat(), 3);
  EXPECT_NEAR(curve.centre(curve.end_above(-3)).z, 0, 1e-9);
  EXPECT_NEAR(curve.centre(curve.end_above(-1)).z, 2, 1e-9);
  EXPECT_NEAR(curve.end_above(-10), curve.length(), 1e-12);
}

TEST(CutterCurve, HeightsAndRadiiOfAFallingCurve) {
  const Chain flange = shapes::flanged();
  EXPECT_EQ(radius_at_height(flange, 31), 0);
  EXPECT_EQ(radius_at_height(flange, 30), 0);
  EXPECT_NEAR(radius_at_height(flange, 20), 40, 1e-9);
  EXPECT_NEAR(radius_at_height(flange, 8), 40, 1e-9);
  EXPECT_NEAR(radius_at_height(flange, 7.9), 60, 1e-9);
  EXPECT_NEAR(radius_at_height(flange, -5), 60, 1e-9);
  EXPECT_NEAR(height_at_radius(flange, 10).value(), 30, 1e-9);
  EXPECT_NEAR(height_at_radius(flange, 50).value(), 8, 1e-9);
  EXPECT_FALSE(height_at_radius(flange, 61));
  EXPECT_NEAR(radius_at_height(shapes::cone(), 16), 32.5, 1e-9);
}

}  // namespace
}  // namespace crownwright::milling
