#pragma once
// Puts a walk together piece by piece, each piece starting where the last one ended.

#include "solid/solid.h"

namespace crownwright::solid {

class WalkBuilder {
 public:
  explicit WalkBuilder(meridian::Point start) : at_(start) {}

  /// A straight line to p; nothing when p is where we are (within 1e-9 mm).
  WalkBuilder& line_to(meridian::Point p, Role role);
  /// Part of a circle about `centre`, of signed turn, to the given end.
  WalkBuilder& arc_to(meridian::Point p, meridian::Point centre, double turn, Role role);
  /// Precondition: the chain starts where we are, within 1e-9 mm (its first point is taken as ours).
  WalkBuilder& along(const meridian::Chain& chain, Role role);
  meridian::Point at() const { return at_; }

  Shell shell(bool closed) const { return make_shell(walk_, roles_, closed); }
  const meridian::Chain& walk() const { return walk_; }

 private:
  void add(const meridian::Segment& segment, Role role);
  meridian::Point at_;
  meridian::Chain walk_;
  std::vector<Role> roles_;
};

/// The chain from where it first reaches radius r (walked from the axis outwards) to its end.
/// Precondition: the chain starts on the axis and its first segment reaches beyond r.
meridian::Chain from_radius(const meridian::Chain& chain, double r);

}  // namespace crownwright::solid
