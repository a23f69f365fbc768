#include "pattern/pieces.h"

#include <algorithm>
#include <numbers>

#include "base/length.h"
#include "pattern/allowance.h"

namespace crownwright::pattern {
namespace {

constexpr double chord_within = 0.0005;  // mm, arcs of our own drawing
constexpr double longest_notch = 5.0;    // mm
constexpr double mark_without_allowance = 2.0;

// How far a notch is cut: enough to see, and never to the sew line.
double notch_length(double allowance) {
  return allowance > 0 ? std::min(longest_notch, 0.6 * allowance) : mark_without_allowance;
}

Notch notch_at(Vec2 sewn, Vec2 outward, double allowance, std::string says) {
  return {sewn + allowance * outward, -notch_length(allowance) * outward, std::move(says)};
}

std::string allowance_note(double allowance) {
  return allowance > 0 ? "seam allowance " + number_text(allowance, 1) + " mm" : "no seam allowance";
}

Outline circle(double radius) {
  const double step = std::acos(std::max(0.0, 1 - chord_within / radius));
  const int count = 8 * std::max(3, static_cast<int>(std::ceil(std::numbers::pi / step / 8)));
  Outline points;
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * std::numbers::pi * i / count;
    points.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return points;
}

Polyline closed_line(Outline outline) {
  outline.push_back(outline.front());
  return outline;
}

Outline rectangle(double left, double top, double right, double bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}};
}

// --- panel

// The head line's edge between its corners, from right to left, without them: an arc of half angle theta.
Polyline head_edge(const PanelPoint& end) {
  if (std::abs(end.theta) < 1e-9) return {};
  const double radius = end.x / std::sin(end.theta);  // signed
  const double step = std::acos(std::max(0.0, 1 - chord_within / std::abs(radius)));
  const int count = 2 * std::max(1, static_cast<int>(std::ceil(std::abs(end.theta) / step)));
  const double middle = end.y - radius * std::cos(end.theta);  // centre of the arc, on the centre line
  Polyline line;
  for (int i = 1; i < count; ++i) {
    const double angle = end.theta * (1 - 2.0 * i / count);
    line.push_back({radius * std::sin(angle), middle + radius * std::cos(angle)});
  }
  return line;
}

Outline sew_line(const PanelNet& net) {
  Outline outline;
  for (const PanelPoint& p : net.points) outline.push_back({p.x, p.y});
  const Polyline edge = head_edge(net.points.back());
  outline.insert(outline.end(), edge.begin(), edge.end());
  for (std::size_t i = net.points.size() - 1; i > 0; --i) {
    outline.push_back({-net.points[i].x, net.points[i].y});
  }
  return outline;
}

struct OnSeam {
  Vec2 at, outward;
};

// A place between points i and i + 1 of the right seam.
OnSeam between(const PanelNet& net, std::size_t i, double f) {
  const PanelPoint& a = net.points[i];
  const PanelPoint& b = net.points[i + 1];
  const Vec2 side{b.x - a.x, b.y - a.y};
  const Vec2 along = (1 / norm(side)) * side;
  return {{a.x + f * side.x, a.y + f * side.y}, {along.y, -along.x}};
}

std::optional<OnSeam> seam_at(const PanelNet& net, double s) {
  for (std::size_t i = 0; i + 1 < net.points.size(); ++i) {
    const double from = net.points[i].s, to = net.points[i + 1].s;
    if (s > 0 && s >= from && s < to) return between(net, i, (s - from) / (to - from));
  }
  return std::nullopt;
}

// Half the seam's own length.
OnSeam mid_seam(const PanelNet& net) {
  double whole = 0;
  const auto side = [&](std::size_t i) {
    return std::hypot(net.points[i + 1].x - net.points[i].x, net.points[i + 1].y - net.points[i].y);
  };
  for (std::size_t i = 0; i + 1 < net.points.size(); ++i) whole += side(i);
  double left = whole / 2;
  for (std::size_t i = 0; i + 1 < net.points.size(); ++i) {
    if (left <= side(i)) return between(net, i, left / side(i));
    left -= side(i);
  }
  return between(net, net.points.size() - 2, 1);
}

void notch_both_seams(Piece& piece, const OnSeam& place, double allowance, const std::string& says) {
  const auto mirror = [](Vec2 v) { return Vec2{-v.x, v.y}; };
  piece.notches.push_back(notch_at(place.at, place.outward, allowance, says));
  piece.notches.push_back(notch_at(mirror(place.at), mirror(place.outward), allowance, says));
}

// Quarters of the opening lie at k n / 4 panels: on seams when 4 divides n, else some fall in the middle of a
// panel (n even: a quarter; n odd: the half, opposite a seam).
void notch_head_line(Piece& piece, const PanelNet& net, double allowance) {
  if (net.panels % 4 == 0) return;
  const PanelPoint& end = net.points.back();
  piece.notches.push_back(
      notch_at({0, end.y + end.bow}, {0, 1}, allowance, net.panels % 2 == 0 ? "quarter" : "half"));
}

// --- discs

void notch_quarters(Piece& piece, double sewn, double allowance, bool of_hole) {
  const double side = of_hole ? -1 : 1;
  for (const Vec2 out : {Vec2{0, -1}, Vec2{1, 0}, Vec2{0, 1}, Vec2{-1, 0}}) {
    piece.notches.push_back(notch_at(sewn * out, side * out, allowance, "quarter"));
  }
}

Piece top_piece(const DiscPlan& plan) {
  Piece piece;
  piece.name = "Top";
  piece.size = plan.size;
  piece.cut = circle(plan.top + plan.allowance);
  piece.sew = {circle(plan.top)};
  notch_quarters(piece, plan.top, plan.allowance, false);
  piece.grain_from = {0, -0.75 * plan.top};
  piece.grain_to = {0, -0.15 * plan.top};
  piece.text_at = {0, 0.15 * plan.top};
  piece.notes = {allowance_note(plan.allowance), "sewn diameter " + number_text(2 * plan.top, 1) + " mm"};
  return piece;
}

Piece ring_piece(const DiscPlan& plan) {
  Piece piece;
  piece.name = "Ring";
  piece.size = plan.size;
  const double wide = plan.ring_outer - plan.ring_inner;
  piece.cut = circle(plan.ring_outer + plan.allowance);
  piece.sew = {circle(plan.ring_outer), circle(plan.ring_inner)};
  const double opening = plan.ring_inner - plan.allowance;
  if (opening > 0) piece.cut_holes = {circle(opening)};
  notch_quarters(piece, plan.ring_outer, plan.allowance, false);
  if (opening > 0) notch_quarters(piece, plan.ring_inner, plan.allowance, true);
  const double middle = (plan.ring_outer + plan.ring_inner) / 2;
  const double reach = 0.8 * std::sqrt(plan.ring_outer * plan.ring_outer - middle * middle);
  piece.grain_from = {middle, -std::min(reach, wide)};
  piece.grain_to = {middle, std::min(reach, wide)};
  piece.text_at = {0, plan.ring_inner + 0.25 * wide};
  piece.notes = {allowance_note(plan.allowance), "sewn diameters " + number_text(2 * plan.ring_outer, 1) +
                                                     " and " + number_text(2 * plan.ring_inner, 1) + " mm"};
  return piece;
}

// --- band

Result<Done> check_band(const BandPlan& plan) {
  if (!(plan.head_girth > 0) || !(plan.depth > 0)) {
    return order_fault({},
                       "a band of " + number_text(plan.head_girth, 1) + " mm by " +
                           number_text(plan.depth, 1) + " mm cannot be cut",
                       "a length and a depth above 0");
  }
  if (plan.allowance < 0) return order_fault({}, "the band's allowance is negative", "0 or more");
  if (plan.strips < 1 || plan.strips > 12) {
    return order_fault({}, "a band of " + std::to_string(plan.strips) + " strips", "1 to 12 strips");
  }
  if (!plan.elastic) return Done{};
  const double strip = plan.head_girth / plan.strips;
  if (!(plan.elastic->relaxed > 0) || plan.elastic->stretched < plan.elastic->relaxed) {
    return order_fault({},
                       "the elastic is " + number_text(plan.elastic->relaxed, 1) + " mm relaxed and " +
                           number_text(plan.elastic->stretched, 1) + " mm stretched",
                       "a relaxed length above 0 and no longer than the stretched one");
  }
  if (plan.elastic->stretched > strip) {
    return order_fault({},
                       "the elastic section of " + number_text(plan.elastic->stretched, 1) +
                           " mm is longer than the strip it sits in",
                       "at most " + number_text(strip, 1) + " mm");
  }
  return Done{};
}

void notch_band(Piece& piece, const BandPlan& plan, double strip, double wide) {
  std::vector<double> places;
  if (plan.strips == 1) places = {0.25, 0.5, 0.75};
  if (plan.strips == 2) places = {0.5};
  for (const double f : places) {
    const std::string says = f == 0.5 && plan.strips == 1 ? "half" : "quarter";
    piece.notches.push_back(notch_at({f * strip, 0}, {0, -1}, plan.allowance, says));
    piece.notches.push_back(notch_at({f * strip, wide}, {0, 1}, plan.allowance, says));
  }
}

void mark_elastic(Piece& piece, const BandPlan::Elastic& elastic, double strip, double wide) {
  const double ends[] = {0.5 * (strip - elastic.stretched), 0.5 * (strip + elastic.stretched)};
  for (const double x : ends) piece.marks.push_back({{{x, 0}, {x, wide}}, "elastic"});
  piece.notes.push_back("elastic " + number_text(elastic.relaxed, 1) + " mm between the marks,");
  piece.notes.push_back("stretched to " + number_text(elastic.stretched, 1) + " mm");
}

Piece strip_piece(const BandPlan& plan, int count, bool elastic) {
  const double a = plan.allowance, strip = plan.head_girth / plan.strips, wide = 2 * plan.depth;
  Piece piece;
  piece.name = elastic && plan.strips > 1 ? "Band with elastic" : "Band";
  piece.size = plan.size;
  piece.count = count;
  piece.cut = rectangle(-a, -a, strip + a, wide + a);
  piece.sew = {rectangle(0, 0, strip, wide)};
  piece.marks = {{{{0, plan.depth}, {strip, plan.depth}}, "fold"}};
  notch_band(piece, plan, strip, wide);
  piece.grain_from = {0.05 * strip, 0.5 * plan.depth};
  piece.grain_to = {0.22 * strip, 0.5 * plan.depth};
  const double beside_elastic = elastic ? (strip - plan.elastic->stretched) / 4 : 0.37 * strip;
  piece.text_at = {beside_elastic, 1.12 * plan.depth};
  piece.notes = {"sewn " + number_text(strip, 1) + " mm, folded depth " + number_text(plan.depth, 1) + " mm",
                 allowance_note(a)};
  if (elastic) mark_elastic(piece, *plan.elastic, strip, wide);
  return piece;
}

}  // namespace

Piece panel_piece(const PanelNet& net, const PanelPlan& plan) {
  Piece piece;
  piece.name = "Panel";
  piece.size = plan.size;
  piece.count = net.panels;
  piece.sew = {sew_line(net)};
  piece.cut = add_allowance(piece.sew.front(), plan.allowance);
  if (const auto edge = seam_at(net, plan.crown_edge)) {
    notch_both_seams(piece, *edge, plan.allowance, "crown edge");
  }
  notch_both_seams(piece, mid_seam(net), plan.allowance, "middle");
  notch_head_line(piece, net, plan.allowance);
  const double end = net.points.back().y;
  piece.grain_from = {0, 0.14 * end};
  piece.grain_to = {0, 0.5 * end};
  piece.text_at = {0, 0.58 * end};
  piece.notes = {allowance_note(plan.allowance), "sewn seam " + number_text(net.seam_length, 1) + " mm",
                 "centre " + number_text(net.centre_length, 1) + " mm"};
  return piece;
}

std::vector<Piece> disc_pieces(const DiscPlan& plan) { return {top_piece(plan), ring_piece(plan)}; }

Result<std::vector<Piece>> band_pieces(const BandPlan& plan) {
  if (const auto checked = check_band(plan); !checked) return checked.fault();
  std::vector<Piece> pieces;
  const int plain = plan.strips - (plan.elastic ? 1 : 0);
  if (plan.elastic) pieces.push_back(strip_piece(plan, 1, true));
  if (plain > 0) pieces.push_back(strip_piece(plan, plain, false));
  return pieces;
}

double joined_length(const std::vector<double>& cut_lengths, double allowance) {
  double sum = 0;
  for (const double cut : cut_lengths) sum += cut - 2 * allowance;
  return sum;
}

Piece cover_piece(const CoverPlan& plan) {
  Piece piece;
  piece.name = "Cover";
  const double folded = plan.face_length + plan.tuck;
  piece.cut = circle(folded + plan.casing);
  const double stitched = folded - plan.casing;
  piece.sew = {circle(plan.casing > 0 && stitched > 0 ? stitched : folded)};
  if (plan.casing > 0) piece.marks.push_back({closed_line(circle(folded)), "fold"});
  if (plan.tuck > 0) piece.marks.push_back({closed_line(circle(plan.face_length)), "edge of the pad"});
  piece.grain_from = {0, -0.7 * plan.face_length};
  piece.grain_to = {0, -0.15 * plan.face_length};
  piece.text_at = {0, 0.15 * plan.face_length};
  piece.notes = {"cut diameter " + number_text(2 * (folded + plan.casing), 1) + " mm"};
  if (plan.casing > 0) {
    piece.notes.push_back("casing for the draw cord " + number_text(plan.casing, 1) +
                          " mm: turn in at the fold, stitch on the dashed line");
  }
  return piece;
}

}  // namespace crownwright::pattern
