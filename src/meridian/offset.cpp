// Every segment is moved along its normal (an arc too tight for the distance vanishes), corners that open are
// filled with arcs about them, and all these pieces are cut where they cross one another, where they cross
// the axis, and where they come within |d| of the chain's free ends. A cut piece belongs to the offset when
// its middle is |d| from the chain; those pieces are then walked from the chain's start to its end.
//
// Trimming only neighbours is the cheap way. It fails as soon as an arc vanishes: the tip of a sharp-edged
// crown is then trimmed against the underside, two segments further on.
//
// Chains that start or end on the axis go on in their mirror image. Seen from r >= 0 the image is never
// nearer than the chain itself, so it enters only through the half corner at the axis.
#include "meridian/offset.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "base/numbers.h"
#include "meridian/crossing.h"
#include "meridian/plane.h"
#include "meridian/refusal.h"
#include "meridian/root.h"

namespace crownwright::meridian {
namespace {

/// Distances are good to about 1e-12 mm; what is nearer than this to |d| counts as at it.
constexpr double distance_slack = 1e-9;
constexpr double least_piece = 1e-9;
constexpr double axis_room = 1e-12;
/// Ends this near are one point: ten times what dropping the least pieces can leave open.
constexpr double join_slack = 1e-7;
/// Tails that cross at a flat angle pass the distance test for a little way (0.012 mm is the longest met in
/// 100 000 trials on chains with joints of micrometres); more than this is the outline of a lost room.
constexpr double lost_length = 0.1;

bool on_axis(Point p) { return std::abs(p.r) <= least_piece; }

/// Signed angle by which the walk turns left at a joint.
double turn_at(Point before, Point after) { return std::atan2(cross(before, after), dot(before, after)); }

std::optional<Segment> moved(const Segment& s, double d) {
  const Point from = s.from() + d * s.normal_at(0), to = s.to() + d * s.normal_at(s.length());
  if (!s.is_arc()) return Segment::line(from, to);
  const double radius = s.turn() > 0 ? s.radius() - d : s.radius() + d;
  if (radius * std::abs(s.turn()) < least_piece) return std::nullopt;
  return Segment::arc_about(from, s.centre(), s.turn()).with_ends(from, to);
}

/// Builds the raw pieces in walking order.
class Raw {
 public:
  explicit Raw(double distance) : d_(distance) {}

  /// An arc about the corner, where it opens.
  void add_corner(Point corner, Point before, Point after) {
    const double turn = turn_at(before, after);
    const bool opens = d_ > 0 ? turn < 0 : turn > 0;
    if (!opens || std::abs(d_ * turn) < least_piece) return;
    const Point from = corner + d_ * left(before), to = corner + d_ * left(after);
    add(Segment::arc_about(from, corner, turn).with_ends(from, to));
  }

  void add(const Segment& piece) { pieces_.push_back(piece); }

  std::vector<Segment> take() && { return std::move(pieces_); }

 private:
  double d_;
  std::vector<Segment> pieces_;
};

/// Half of the corner that a chain on the axis makes with its mirror image, there walked level.
void add_axis_start(Raw& raw, const Segment& first) {
  if (on_axis(first.from())) raw.add_corner(first.from(), {1, 0}, first.tangent_at(0));
}
void add_axis_end(Raw& raw, const Segment& last) {
  if (on_axis(last.to())) raw.add_corner(last.to(), last.tangent_at(last.length()), {-1, 0});
}

std::vector<Segment> raw_pieces(const Chain& chain, double d) {
  Raw raw(d);
  add_axis_start(raw, chain.front());
  for (std::size_t i = 0; i < chain.size(); ++i) {
    if (i > 0)
      raw.add_corner(chain[i].from(), chain[i - 1].tangent_at(chain[i - 1].length()), chain[i].tangent_at(0));
    if (const auto piece = moved(chain[i], d)) raw.add(*piece);
  }
  add_axis_end(raw, chain.back());
  return std::move(raw).take();
}

struct Cut {
  double s;
  Point at;
};

/// Circle of radius |d| about a free end, as two half turns.
void add_end_circle(std::vector<Segment>& cutters, Point end, double d) {
  if (on_axis(end)) return;
  for (const double side : {1.0, -1.0})
    cutters.push_back(Segment::arc_about({end.r, end.z + side * std::abs(d)}, end, pi));
}

/// A piece that lies on r = 0 within rounding where it meets the axis is put there exactly.
Point settled(Point p) { return on_axis(p) ? Point{0, p.z} : p; }

std::vector<Cut> cuts_of(const std::vector<Segment>& pieces, std::size_t i,
                         const std::vector<Segment>& end_circles) {
  const Segment& piece = pieces[i];
  std::vector<Cut> cuts = {{0, settled(piece.from())}, {piece.length(), settled(piece.to())}};
  const auto add = [&](const std::vector<Point>& points) {
    for (const Point& p : points)
      if (const double s = piece.nearest(p); s > least_piece && s < piece.length() - least_piece)
        cuts.push_back({s, settled(p)});
  };
  // Each pair is met in the same order from both sides, so that both are cut at the very same point.
  for (std::size_t j = 0; j < pieces.size(); ++j)
    if (j != i) add(crossings(pieces[std::min(i, j)], pieces[std::max(i, j)], join_slack / 10));
  for (const Segment& circle : end_circles) add(crossings(circle, piece, join_slack / 10));
  add(crossings_with_line(piece, {0, 0}, {0, 1}, join_slack / 10));
  std::sort(cuts.begin(), cuts.end(), [](const Cut& one, const Cut& two) { return one.s < two.s; });
  return cuts;
}

/// Part of a raw piece that is as far away as it should be.
struct Kept {
  std::size_t source;
  Cut from, to;

  Segment of(const std::vector<Segment>& raw) const {
    return raw[source].part(from.s, to.s).with_ends(from.at, to.at);
  }
  bool follows(const Kept& other) const {
    return source != other.source ? source > other.source : from.s >= other.to.s;
  }
};

/// In walking order of their sources.
std::vector<Kept> true_pieces(const std::vector<Segment>& raw, const Chain& chain, double d) {
  std::vector<Segment> end_circles;
  add_end_circle(end_circles, chain.front().from(), d);
  add_end_circle(end_circles, chain.back().to(), d);
  std::vector<Kept> kept;
  for (std::size_t i = 0; i < raw.size(); ++i) {
    const std::vector<Cut> cuts = cuts_of(raw, i, end_circles);
    for (std::size_t k = 1; k < cuts.size(); ++k) {
      if (cuts[k].s - cuts[k - 1].s < least_piece) continue;
      const Point middle = raw[i].at((cuts[k - 1].s + cuts[k].s) / 2);
      // A piece along the axis itself bounds no room.
      if (middle.r < axis_room || distance_to(chain, middle) < std::abs(d) - distance_slack) continue;
      kept.push_back({i, cuts[k - 1], cuts[k]});
    }
  }
  return kept;
}

/// Of the pieces that begin at p, the one furthest along the chain: a flat crossing may leave the tail of an
/// earlier piece that is too near by less than the slack.
std::optional<Kept> piece_from(const std::vector<Kept>& pieces, const Kept& current) {
  for (std::size_t i = pieces.size(); i-- > 0;)
    if (pieces[i].follows(current) && norm(pieces[i].from.at - current.to.at) <= join_slack) return pieces[i];
  return std::nullopt;
}

/// The next piece that p lies on. At a joint that closes by less than some 1e-6 radians, or where an arc
/// vanished that turned by no more, the pieces overlap and cross at no angle to speak of: entering the later
/// one where the earlier ends is then within the slack of both.
std::optional<Kept> piece_under(const std::vector<Kept>& pieces, const std::vector<Segment>& raw,
                                const Kept& current) {
  const Point p = current.to.at;
  for (Kept piece : pieces) {
    if (piece.source <= current.source || raw[piece.source].distance_to(p) > distance_slack) continue;
    piece.from = {raw[piece.source].nearest(p), p};
    if (piece.from.s < piece.to.s - least_piece) return piece;
  }
  return std::nullopt;
}

/// Whether the offset of a chain that ends at `end` may end at p.
bool may_end(Point p, Point end, double d) {
  if (on_axis(end)) return on_axis(p);
  return std::abs(norm(p - end) - std::abs(d)) <= join_slack;
}

/// The walk's next step: what a harmless cut parted is one piece again.
void append(std::vector<Kept>& path, Kept next) {
  if (!path.empty()) {
    Kept& last = path.back();
    if (last.source == next.source && last.to.s == next.from.s) {
      last.to = next.to;
      return;
    }
    next.from.at = last.to.at;
  }
  path.push_back(next);
}

double total(const std::vector<Kept>& pieces) {
  double sum = 0;
  for (const Kept& piece : pieces) sum += piece.to.s - piece.from.s;
  return sum;
}

/// The walk from the first piece that may begin to one that may end; nothing when it breaks off or leaves
/// a room behind that cannot be reached.
std::optional<std::vector<Kept>> walk(const std::vector<Kept>& pieces, const std::vector<Segment>& raw,
                                      const Chain& source, double d) {
  std::optional<Kept> at;
  for (std::size_t i = 0; i < pieces.size() && !at; ++i)
    if (may_end(pieces[i].from.at, source.front().from(), d)) at = pieces[i];
  std::vector<Kept> path;
  while (at) {
    const Kept current = *at;
    append(path, current);
    at = piece_from(pieces, current);
    if (!at) at = piece_under(pieces, raw, current);
  }
  if (path.empty() || !may_end(path.back().to.at, source.back().to(), d)) return std::nullopt;
  if (total(pieces) - total(path) > lost_length) return std::nullopt;
  return path;
}

std::optional<Chain> try_offset(const Chain& chain, double d) {
  const std::vector<Segment> raw = raw_pieces(chain, d);
  const auto path = walk(true_pieces(raw, chain, d), raw, chain, d);
  if (!path) return std::nullopt;
  Chain moved;
  for (const Kept& piece : *path) moved.push_back(piece.of(raw));
  return moved;
}

Fault no_room(const Chain& chain, double distance) {
  const auto works = [&](double x) { return x == 0 || try_offset(chain, std::copysign(x, distance)); };
  const double thickest = largest_that(works, 0.0, std::abs(distance));
  return impossible_fault(
      "a wall of " + mm_text(std::abs(distance)) + " leaves no room " + (distance < 0 ? "inside" : "outside"),
      "the thickest that leaves some is " + most_text(thickest));
}

}  // namespace

Result<Chain> offset(const Chain& chain, double distance) {
  if (chain.empty() || greatest_gap(chain) > least_piece)
    throw std::logic_error("only a chain without gaps can be offset");
  if (distance == 0) return chain;
  if (auto found = try_offset(chain, distance)) return std::move(*found);
  return no_room(chain, distance);
}

}  // namespace crownwright::meridian
