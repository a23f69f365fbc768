// The outside is walked down in pieces along which r only rises or only falls. With r0 the greatest radius so
// far, a piece that stays within r0 is hidden; one that comes out beyond it is cut where it does, and an
// upright line from the last point seen leads to it. Material is taken to fill the outside whole, so what is
// seen at a height is the greatest radius at or above it.
#include "milling/outline_seen.h"

#include <algorithm>
#include <stdexcept>

#include "meridian/plane.h"
#include "milling/outline_cut.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

constexpr double hardly = 1e-9;  // mm

class Looking {
 public:
  explicit Looking(Point start) : at_{0, start.z} {
    if (start.r > hardly) go_to(start);
  }

  void pass(const Segment& piece) {
    if (piece.to().r <= at_.r + hardly) return hide(piece);
    const bool hidden_first = piece.from().r < at_.r - hardly;
    const double s = hidden_first ? length_to_radius(piece, at_.r) : 0;
    if (s > piece.length() - hardly) return hide(piece);
    const Segment shown = s > 0 ? piece.part(s, piece.length()) : piece;
    close_bridge();
    go_to({at_.r, shown.from().z});
    seen_.target.push_back(shown.with_ends(at_, shown.to()));
    at_ = shown.to();
  }

  Seen end_at(double bottom) && {
    close_bridge();
    go_to({at_.r, bottom});
    return std::move(seen_);
  }

 private:
  void hide(const Segment& piece) {
    // What runs along the wall itself parts two hollows.
    if (std::min(piece.from().r, piece.to().r) >= at_.r - hardly) return close_bridge();
    for (const Point p : {piece.from(), piece.to()})
      if (at_.r - p.r > bridge_.depth) bridge_ = {p, at_.r - p.r};
  }
  void close_bridge() {
    if (bridge_.depth > hardly) seen_.bridges.push_back(bridge_);
    bridge_ = {};
  }
  void go_to(Point p) {
    if (meridian::norm(p - at_) <= hardly) return;
    seen_.target.push_back(Segment::line(at_, p));
    at_ = p;
  }

  Point at_;
  Bridge bridge_;
  Seen seen_;
};

}  // namespace

Seen seen_from_above(const Chain& outside) {
  if (outside.empty()) throw std::logic_error("nothing lies between two planes");
  Looking looking(outside.front().from());
  for (const Segment& segment : outside)
    for (const Segment& piece : turned_once(segment)) looking.pass(piece);
  return std::move(looking).end_at(outside.back().to().z);
}

}  // namespace crownwright::milling
