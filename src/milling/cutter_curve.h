#pragma once
// Where the middle of a ball runs that touches the target: the exact offset of the target by the ball's
// radius, open corners rolled round, hollow ones trimmed. Half plane (r, z), mm.

#include <optional>
#include <vector>

#include "meridian/chain.h"

namespace crownwright::milling {

/// A stretch of the curve on which the ball touches one line, arc or corner of the target.
struct CutterPiece {
  meridian::Segment centres;  ///< of the ball
  double start = 0;           ///< arc length along the curve where it begins
  double curvature = 0;  ///< of the target there, as meridian::Segment::curvature; minus infinity at a corner
  bool corner = false;   ///< the ball rolls round a corner that stays where it is
  bool upright = false;  ///< a wall that stands upright
  std::size_t segment = 0;  ///< of the target; of the two at a corner the earlier

  double end() const { return start + centres.length(); }
};

struct CutterPlace {
  meridian::Point centre, normal, contact;  ///< normal: unit, out of the material
  double slope = 0;                         ///< of the target, radians: 0 level, pi/2 upright
  std::size_t segment = 0;                  ///< of the target
  double along = 0;                         ///< arc length of the contact on that segment
};

class CutterCurve {
 public:
  /// Precondition: radius > 0; target as Setup::target (else std::logic_error).
  CutterCurve(const meridian::Chain& target, double radius);

  double radius() const { return radius_; }
  double length() const { return pieces_.back().end(); }
  const std::vector<CutterPiece>& pieces() const { return pieces_; }
  /// The piece that holds arc length s; at a joint the later one.
  const CutterPiece& piece_at(double s) const;
  meridian::Point centre(double s) const;
  CutterPlace place(double s) const;

  /// How high the cusp between balls at two places of the curve stands over the target: where their circles
  /// cross on the target's side, whatever lies between them. The balls' radius at most (they do not meet).
  double cusp(double s0, double s1) const;
  /// The curve's end, or where it would take the tip lower than this.
  double end_above(double lowest_tip) const;

 private:
  meridian::Chain target_;
  double radius_;
  std::vector<CutterPiece> pieces_;
};

/// Of a curve whose r never falls and whose z never rises: the r at which it comes down to z. 0 where it
/// never stands above z, its end's r where it ends above. Exact levels count as down (1e-9 mm).
double radius_at_height(const meridian::Chain& falling, double z);
/// The z at which it passes r (of a wall there: the top). Below its end: none.
std::optional<double> height_at_radius(const meridian::Chain& falling, double r);

}  // namespace crownwright::milling
