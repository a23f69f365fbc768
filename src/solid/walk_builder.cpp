#include "solid/walk_builder.h"

#include <cmath>
#include <stdexcept>

namespace crownwright::solid {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

namespace {
bool together(Point p, Point q) { return std::hypot(p.r - q.r, p.z - q.z) < 1e-9; }

}  // namespace

void WalkBuilder::add(const Segment& segment, Role role) {
  walk_.push_back(segment);
  roles_.push_back(role);
  at_ = segment.to();
}

WalkBuilder& WalkBuilder::line_to(Point p, Role role) {
  if (!together(at_, p)) add(Segment::line(at_, p), role);
  return *this;
}

WalkBuilder& WalkBuilder::arc_to(Point p, Point centre, double turn, Role role) {
  add(Segment::arc(at_, p, centre, std::hypot(p.r - centre.r, p.z - centre.z), turn), role);
  return *this;
}

WalkBuilder& WalkBuilder::along(const Chain& chain, Role role) {
  for (const Segment& segment : chain) {
    if (!together(at_, segment.from())) throw std::logic_error("a piece of the walk starts elsewhere");
    add(segment.with_ends(at_, segment.to()), role);
  }
  return *this;
}

Chain from_radius(const Chain& chain, double r) {
  const Segment& first = chain.front();
  double low = 0, high = first.length();
  if (first.to().r <= r) throw std::logic_error("the tip is smaller than the vent at the pole");
  // r grows along a tip; bisection to the last bit is short and cannot miss.
  for (int i = 0; i < 200 && high - low > 0; ++i) {
    const double middle = low + (high - low) / 2;
    if (middle == low || middle == high) break;
    (first.at(middle).r < r ? low : high) = middle;
  }
  const Segment rest = first.part(high, first.length());
  Chain cut{rest.with_ends({r, rest.from().z}, rest.to())};
  cut.insert(cut.end(), chain.begin() + 1, chain.end());
  return cut;
}

}  // namespace crownwright::solid
