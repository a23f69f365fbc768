// What the ball touches follows from the offset alone: the contact lies one radius back along the normal, an
// arc of centres about the corner that it rolls round has the ball's own radius, every other arc that of the
// target plus (convex) or less (hollow) the ball's.
#include "milling/cutter_curve.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "meridian/offset.h"
#include "meridian/plane.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

constexpr double upright_slack = 1e-9;  // of a unit tangent
constexpr double corner_slack = 1e-7;   // mm; an arc this small is a corner to any tool
constexpr double level_slack = 1e-9;    // mm

std::size_t nearest_segment(const Chain& chain, Point p) {
  std::size_t nearest = 0;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < chain.size(); ++i)
    if (const double d = chain[i].distance_to(p); d < least - level_slack) {
      least = d;
      nearest = i;
    }
  return nearest;
}

Point contact_of(const Segment& centres, double s, double radius) {
  using namespace meridian;
  return centres.at(s) - radius * centres.normal_at(s);
}

CutterPiece piece_of(const Segment& centres, const Chain& target, double radius) {
  CutterPiece piece{centres};
  const double k = centres.curvature();
  piece.corner = k < 0 && centres.radius() - radius < corner_slack;
  if (piece.corner)
    piece.curvature = -std::numeric_limits<double>::infinity();
  else if (k != 0)
    piece.curvature = k < 0 ? -1 / (centres.radius() - radius) : 1 / (centres.radius() + radius);
  piece.upright = k == 0 && std::abs(centres.tangent_at(0).r) < upright_slack;
  piece.segment = nearest_segment(target, contact_of(centres, centres.length() / 2, radius));
  return piece;
}

/// Where a falling segment comes down to z. Precondition: it begins above and ends at or below.
double crossing_of(const Segment& segment, double z) {
  double above = 0, below = segment.length();
  for (int i = 0; i < 100 && above < below; ++i) {
    const double middle = above + (below - above) / 2;
    (segment.at(middle).z > z ? above : below) = middle;
  }
  return below;
}

}  // namespace

CutterCurve::CutterCurve(const Chain& target, double radius) : target_(target), radius_(radius) {
  const auto centres = meridian::offset(target, radius);
  if (!centres) throw std::logic_error("no ball runs over this target: " + centres.fault().what);
  double start = 0;
  for (const Segment& segment : centres.value()) {
    pieces_.push_back(piece_of(segment, target, radius));
    pieces_.back().start = start;
    start = pieces_.back().end();
  }
}

const CutterPiece& CutterCurve::piece_at(double s) const {
  const auto later = std::upper_bound(pieces_.begin(), pieces_.end(), s,
                                      [](double at, const CutterPiece& piece) { return at < piece.start; });
  return later == pieces_.begin() ? pieces_.front() : *(later - 1);
}

Point CutterCurve::centre(double s) const {
  const CutterPiece& piece = piece_at(s);
  return piece.centres.at(s - piece.start);
}

CutterPlace CutterCurve::place(double s) const {
  const CutterPiece& piece = piece_at(s);
  const double along = s - piece.start;
  CutterPlace place;
  place.centre = piece.centres.at(along);
  place.normal = piece.centres.normal_at(along);
  place.contact = contact_of(piece.centres, along, radius_);
  place.slope = std::atan2(place.normal.r, place.normal.z);
  place.segment = piece.segment;
  place.along = target_[piece.segment].nearest(place.contact);
  return place;
}

double CutterCurve::cusp(double s0, double s1) const {
  using namespace meridian;
  const Point a = centre(s0), b = centre(s1);
  const double half = norm(b - a) / 2;
  if (half >= radius_) return radius_;
  if (half < level_slack) return 0;
  const Point material = -left(unit(b - a));
  const Point crossing = 0.5 * (a + b) + std::sqrt(radius_ * radius_ - half * half) * material;
  return std::min(radius_, distance_to(target_, crossing));
}

double CutterCurve::end_above(double lowest_tip) const {
  const double lowest = lowest_tip + radius_;
  for (const CutterPiece& piece : pieces_)
    if (piece.centres.to().z < lowest - level_slack)
      return piece.start + (piece.centres.from().z > lowest ? crossing_of(piece.centres, lowest) : 0);
  return length();
}

double radius_at_height(const Chain& falling, double z) {
  const double down = z + level_slack;
  for (const Segment& segment : falling) {
    if (segment.from().z <= down) return segment.from().r;
    if (segment.to().z <= down) return segment.at(crossing_of(segment, down)).r;
  }
  return falling.back().to().r;
}

std::optional<double> height_at_radius(const Chain& falling, double r) {
  for (const Segment& segment : falling) {
    if (segment.to().r < r) continue;
    double before = 0, after = segment.length();
    for (int i = 0; i < 100 && before < after; ++i) {
      const double middle = before + (after - before) / 2;
      (segment.at(middle).r < r ? before : after) = middle;
    }
    return segment.at(before).z;
  }
  return std::nullopt;
}

}  // namespace crownwright::milling
