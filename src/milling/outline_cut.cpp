#include "milling/outline_cut.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "meridian/plane.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

constexpr double on_plane = 1e-9;  // mm: what is nearer to a height than this lies on it

// Least arc length for which `reached` holds, to the last bit that matters. Precondition: it does not hold
// before it first does.
template <class Reached>
double first_length(const Segment& segment, Reached reached) {
  double low = 0, high = segment.length();
  for (int i = 0; i < 64 && low < high; ++i) {
    const double middle = low + (high - low) / 2;
    (reached(segment.at(middle)) ? high : low) = middle;
  }
  return high;
}

double share_length(const Segment& line, double from, double to, double at) {
  return line.length() * std::clamp((at - from) / (to - from), 0.0, 1.0);
}

Segment cut_between(const Segment& segment, double top, double bottom) {
  const bool cut_top = segment.from().z > top + on_plane, cut_bottom = segment.to().z < bottom - on_plane;
  if (!cut_top && !cut_bottom) return segment;
  const double s0 = cut_top ? length_to_height(segment, top) : 0;
  const double s1 = cut_bottom ? length_to_height(segment, bottom) : segment.length();
  const Segment part = segment.part(s0, s1);
  return part.with_ends(cut_top ? Point{part.from().r, top} : part.from(),
                        cut_bottom ? Point{part.to().r, bottom} : part.to());
}

Segment laid_over(const Segment& segment, double over) {
  const auto mirrored = [over](Point p) { return Point{p.r, over - p.z}; };
  const Point from = mirrored(segment.to()), to = mirrored(segment.from());
  if (!segment.is_arc()) return Segment::line(from, to);
  return Segment::arc(from, to, mirrored(segment.centre()), segment.radius(), segment.turn());
}

}  // namespace

double length_to_height(const Segment& segment, double z) {
  if (!segment.is_arc()) return share_length(segment, segment.from().z, segment.to().z, z);
  return first_length(segment, [z](Point p) { return p.z <= z; });
}

double length_to_radius(const Segment& segment, double r) {
  if (!segment.is_arc()) return share_length(segment, segment.from().r, segment.to().r, r);
  return first_length(segment, [r](Point p) { return p.r >= r; });
}

double radius_at(const Chain& outer, double z) {
  double radius = -1;
  for (const Segment& segment : outer) {
    const double high = segment.from().z, low = segment.to().z;
    if (z > high + on_plane || z < low - on_plane) continue;
    if (z >= high - on_plane) radius = std::max(radius, segment.from().r);
    if (z <= low + on_plane) radius = std::max(radius, segment.to().r);
    if (z < high - on_plane && z > low + on_plane)
      radius = std::max(radius, segment.at(length_to_height(segment, z)).r);
  }
  if (radius < 0) throw std::logic_error("a plane was asked for that does not meet the form");
  return radius;
}

double least_radius(const Chain& outer, double top, double bottom) {
  double least = INFINITY;
  for (const Segment& segment : between(outer, top, bottom)) {
    for (const Segment& piece : turned_once(segment)) least = std::min({least, piece.from().r, piece.to().r});
  }
  return least;
}

Chain between(const Chain& outer, double top, double bottom) {
  Chain kept;
  for (const Segment& segment : outer) {
    if (segment.to().z >= top - on_plane) continue;
    if (segment.from().z <= bottom + on_plane) break;
    kept.push_back(cut_between(segment, top, bottom));
  }
  return kept;
}

Chain upside_down(const Chain& chain, double over) {
  Chain turned;
  for (std::size_t i = chain.size(); i-- > 0;) turned.push_back(laid_over(chain[i], over));
  return turned;
}

double height_at(const Chain& seen, double r) {
  for (const Segment& segment : seen) {
    if (segment.to().r < r) continue;
    return segment.from().r >= r ? segment.from().z : segment.at(length_to_radius(segment, r)).z;
  }
  throw std::logic_error("a height was asked for beyond the form");
}

Chain turned_once(const Segment& segment) {
  if (!segment.is_arc()) return {segment};
  Chain pieces;
  double from = 0;
  std::vector<double> cuts;
  for (const double side : {-1.0, 1.0}) {
    const Point extreme{segment.centre().r + side * segment.radius(), segment.centre().z};
    const double s = segment.nearest(extreme);
    if (meridian::norm(segment.at(s) - extreme) < on_plane && s > on_plane && s < segment.length() - on_plane)
      cuts.push_back(s);
  }
  std::sort(cuts.begin(), cuts.end());
  cuts.push_back(segment.length());
  for (const double to : cuts) {
    pieces.push_back(segment.part(from, to));
    from = to;
  }
  return pieces;
}

}  // namespace crownwright::milling
