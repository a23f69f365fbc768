#include "parts/release.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "meridian/extent.h"
#include "parts/puzzle_cells.h"

namespace crownwright::parts {
namespace {

std::string way(double distance, const char* positive, const char* negative) {
  return std::string(distance > 0 ? positive : negative) + " " + number_text(std::abs(distance), 1) + " mm";
}

/// "south 51.9 mm, then down"
std::string words(const std::vector<Move>& moves, Exit exit) {
  std::string text;
  for (const Move& move : moves) {
    std::string word = "down";
    if (move.x != 0) word = way(move.x, "east", "west");
    if (move.y != 0) word = way(move.y, "north", "south");
    if (move.y != 0 && move.down > 0) word += ", sinking " + number_text(move.down, 1) + " mm on the way";
    text += (text.empty() ? "" : ", then ") + word;
  }
  return exit == Exit::drop ? text
                            : text + ", then turned on end (by feel: not replayed) and drawn out lengthwise";
}

/// n, s, e, w in the piece's name after its dash.
double sign_of(const std::string& name, char positive, char negative) {
  const std::string where = name.substr(name.find('-') + 1);
  if (where.find(positive) != std::string::npos) return 1;
  return where.find(negative) != std::string::npos ? -1 : 0;
}

struct Slide {
  double x = 0, y = 0;  ///< amounts
};

Slide slide_of(const PuzzlePlan& plan, const std::string& name) {
  if (name == "key") return {};
  if (name.starts_with("end")) return {0, end_slide(plan)};
  if (plan.pieces == 5 || name == "side-e" || name == "side-w") return {side_slide(plan), 0};
  if (plan.pieces == 9) return {side_slide(plan), end_slide(plan)};
  // Half a side: the middle of its smallest circle comes onto the axis.
  return {(plan.a + plan.u) / 2, std::sqrt(plan.a * plan.a - plan.u * plan.u) / 2};
}

double height_of(const meridian::Chain& outer) {
  const meridian::Extent extent = meridian::extent_of(outer);
  return extent.high - extent.low;
}

/// The height of the crown's upper face at a radius, and how deep a half side has to sink under it.
class Dome {
 public:
  explicit Dome(const meridian::Chain& outer) {
    for (const meridian::Segment& s : outer) {
      const int parts = 1 + static_cast<int>(s.length() / 0.5);
      for (int k = 0; k <= parts; ++k) {
        const meridian::Point p = s.at(s.length() * k / parts);
        if (!face_.empty() && p.r < face_.back().r) return;
        face_.push_back(p);
      }
    }
  }

  double height(double r) const {
    const auto beyond = std::lower_bound(face_.begin(), face_.end(), r,
                                         [](const meridian::Point& p, double at) { return p.r < at; });
    if (beyond == face_.end()) return face_.back().z;
    if (beyond == face_.begin() || beyond->r == r) return beyond->z;
    const meridian::Point &p = *(beyond - 1), &q = *beyond;
    return p.z + (q.z - p.z) * (r - p.r) / (q.r - p.r);
  }

  /// Slid along the slab, a half side's points near the axis move outwards, under a face that falls: the
  /// least sinking, in step with the slide, that keeps them below it. The points of its two joint edges are
  /// the nearest to the axis.
  double sinking(const PuzzlePlan& plan, Slide slide) const {
    const double half = plan.c / 2, u = plan.u + half;
    double least = 0;
    const auto ask = [&](double x, double y) {
      constexpr int shares = 16;
      for (int k = 1; k <= shares; ++k) {
        const double share = double(k) / shares;
        const double over = height(std::hypot(x, y)) - height(std::hypot(x - slide.x, y - share * slide.y));
        least = std::max(least, (over + spare) / share);
      }
    };
    for (double t = 0; t < plan.a; t += 2) {
      if (std::hypot(u, half + t) <= plan.a) ask(u, half + t);
      if (u + t <= plan.a) ask(u + t, half);
    }
    return least;
  }

 private:
  static constexpr double spare = 0.005;  // mm: the face is read off chords
  std::vector<meridian::Point> face_;
};

std::vector<Move> moves_of(const PuzzlePlan& plan, const std::string& name, const meridian::Chain& outer,
                           Exit exit) {
  const Slide slide = slide_of(plan, name);
  std::vector<Move> moves;
  const bool halved = plan.pieces == 7 && slide.y > 0 && slide.x > 0;
  const double sinking = halved ? Dome(outer).sinking(plan, slide) : 0;
  if (slide.x > 0) moves.push_back({-sign_of(name, 'e', 'w') * slide.x, 0, 0});
  if (slide.y > 0) moves.push_back({0, -sign_of(name, 'n', 's') * slide.y, sinking});
  if (exit == Exit::drop) moves.push_back({0, 0, height_of(outer)});
  return moves;
}

/// Points on a chain, no arc left by more than 1e-5 mm.
std::vector<PlanPoint> dense_points(const meridian::Chain& chain) {
  std::vector<PlanPoint> points;
  for (const meridian::Segment& s : chain) {
    int parts = 1;
    if (s.is_arc())
      parts += static_cast<int>(std::abs(s.turn()) / (2 * std::acos(1 - std::min(1.0, 1e-5 / s.radius()))));
    for (int k = 0; k <= parts; ++k) {
      const meridian::Point p = s.at(s.length() * k / parts);
      points.push_back({p.r, p.z});
    }
  }
  return points;
}

}  // namespace

const char* exit_name(Exit exit) { return exit == Exit::drop ? "drop" : "lengthwise"; }

double lengthwise_girth(const meridian::Chain& outer, double u) {
  std::vector<PlanPoint> points;
  const std::vector<PlanPoint> all = dense_points(outer);
  // The plane r = u cuts the face above and the foot plane below.
  points.push_back({u, all.back().y});
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].x >= u) points.push_back(all[i]);
    if (i + 1 == all.size() || (all[i].x < u) == (all[i + 1].x < u)) continue;
    const double t = (u - all[i].x) / (all[i + 1].x - all[i].x);
    points.push_back({u, all[i].y + t * (all[i + 1].y - all[i].y)});
  }
  return hull_girth(points);
}

std::vector<Step> taking_out(const PuzzlePlan& plan, const meridian::Chain& outer, double opening) {
  std::vector<Step> steps;
  for (const Cell& cell : puzzle_cells(plan)) {
    Step step;
    step.piece = cell.name;
    step.exit = plan.pieces == 5 && cell.name.starts_with("side") ? Exit::lengthwise : Exit::drop;
    step.moves = moves_of(plan, cell.name, outer, step.exit);
    step.direction = words(step.moves, step.exit);
    step.needed_girth = step.exit == Exit::drop ? hull_girth(section_within(outline(cell), plan.a))
                                                : lengthwise_girth(outer, plan.u + plan.c / 2);
    step.opening_girth = opening;
    steps.push_back(std::move(step));
  }
  return steps;
}

Step ring_off(double head_radius, double opening) {
  return {"ring", "down", {{0, 0, 0}}, Exit::drop, 2 * pi * head_radius, opening};
}

Step block_out(double needed, double opening) {
  return {"block", "tilted and drawn out edge first", {}, Exit::lengthwise, needed, opening};
}

Proposal propose(double whole, double without_ring, double opening, double stretch) {
  const double most = opening * (1 + stretch);
  if (whole <= most) return Proposal::whole;
  return without_ring <= most ? Proposal::loose_ring : Proposal::puzzle;
}

}  // namespace crownwright::parts
