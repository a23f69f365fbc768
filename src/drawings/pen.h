#pragma once
// Lines and curves of a drawing turned into polylines as they are read, millimetres, y down.

#include <cstddef>

#include "drawings/read_drawing.h"

namespace crownwright::drawings {

/// x' = a x + c y + e, y' = b x + d y + f (SVG's matrix(a b c d e f)).
struct Affine {
  double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;
  pattern::Vec2 operator()(pattern::Vec2 p) const { return {a * p.x + c * p.y + e, b * p.x + d * p.y + f}; }
  /// First `inner`, then this one.
  Affine operator*(const Affine& inner) const;
  /// The longest a vector of length 1 can become.
  double stretch() const;
};

/// What kept a drawing from being drawn.
enum class Trouble { none, not_finite, too_far, too_many };

class Pen {
 public:
  /// Curves come within `tolerance`; at most `most` points in all.
  Pen(double tolerance, std::size_t most) : tolerance_(tolerance), most_(most) {}

  /// From the numbers that follow to the sheet's millimetres.
  void set_frame(const Affine& frame) { frame_ = frame; }

  void move_to(pattern::Vec2 p);
  void line_to(pattern::Vec2 p);
  void quadratic_to(pattern::Vec2 control, pattern::Vec2 p);
  void cubic_to(pattern::Vec2 control, pattern::Vec2 second, pattern::Vec2 p);
  /// From where the pen is, along an ellipse about `centre` whose half axes are the two vectors; the pen is
  /// at centre + cos(from) x_axis + sin(from) y_axis.
  void arc(pattern::Vec2 centre, pattern::Vec2 x_axis, pattern::Vec2 y_axis, double from, double sweep);
  /// SVG's arc with its end point, radii, turn of the x axis in degrees and two flags (SVG 1.1, F.6).
  void arc_to(double rx, double ry, double turned, bool large, bool sweep, pattern::Vec2 p);
  /// Joins to where the line began.
  void close();
  /// Ends an open line; must be called before `take`.
  void lift();

  pattern::Vec2 at() const { return at_; }
  std::size_t room() const { return most_ - count_; }
  double tolerance() const { return tolerance_; }
  Trouble trouble() const { return trouble_; }
  Lines take() { return std::move(lines_); }

 private:
  void put(pattern::Vec2 drawn);
  bool have_room(double points);

  double tolerance_;
  std::size_t most_, count_ = 0;
  Affine frame_;
  Trouble trouble_ = Trouble::none;
  pattern::Vec2 at_, start_;  // before the frame
  pattern::Polyline line_;    // after it
  Lines lines_;
};

/// No place of a drawing may be further from its origin than this, mm.
inline constexpr double furthest_place = 1e6;

}  // namespace crownwright::drawings
