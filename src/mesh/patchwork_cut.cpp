// Along one chain: break points (corners, ends of level segments) carry rows, the arcs of a parallel that lie
// in the region. Between them the chain is smooth; there the planes' edges run from row to row, or end
// where r(s) passes one of the radii at which the region's arcs change (plan_arcs.h). Such a place is a node:
// where one line's two edges meet it is a turning point, where two lines' edges meet a corner of both planes.

#include "mesh/patchwork_cut.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "base/length.h"
#include "base/numbers.h"
#include "meridian/crossing.h"

namespace crownwright::mesh {

using meridian::Chain;
using meridian::Point;
using meridian::PreparedChain;
using meridian::Segment;

namespace {

constexpr double touching = 1e-4;        // mm
constexpr double same_place = 1e-5;      // mm
constexpr double shortest_piece = 1e-3;  // mm of a curve between two joints
constexpr double edge_share = 0.75;      // of the budget: the facets beside an edge bulge as well
constexpr double corner_turn = 1e-6;     // as solid/pierce.cpp

Fault touching_fault(double r, double z) {
  return impossible_fault("a cut only just touches the form at radius " + number_text(r, 3) + ", height " +
                              number_text(z, 3) + " mm",
                          "a cut at least 0.001 mm away from there");
}

Fault open_fault(const char* what, const Point3& p) {
  return impossible_fault(std::string(what) + "(" + number_text(p.x, 3) + ", " + number_text(p.y, 3) + ", " +
                              number_text(p.z, 3) + ") mm",
                          "other figures for what is cut there");
}

bool is_level(const Segment& segment) {
  return !segment.is_arc() && std::abs(segment.from().z - segment.to().z) < 1e-9;
}

bool joins_smoothly(const Segment& a, const Segment& b) {
  const Point t = a.tangent_at(a.length()), u = b.tangent_at(0);
  return std::abs(t.r * u.z - t.z * u.r) < corner_turn && t.r * u.r + t.z * u.z > 0;
}

}  // namespace

struct NodeAt {
  double theta = 0;
  std::uint32_t vertex = 0;
  std::vector<int> planes;
};

// The marks of one parallel, arc by arc.
struct CutRow {
  double r = 0, z = 0;
  std::vector<std::vector<Mark>> arcs;  // by growing angle; a whole circle repeats its first vertex
  std::vector<NodeAt> nodes;
};

struct DensePlaces;

class CutRun {
 public:
  CutRun(CutBody& body, const CutChain& run)
      : body_(body), run_(run), arcs_(body.lines(run.region.within), body.lines(run.region.without)) {}

  Result<Done> make();

 private:
  struct Stretch {
    Chain chain;
    double start = 0;  // arc length on the whole chain
    bool level = false;
  };

  void divide();
  std::optional<Fault> refuse_touching(const Stretch& stretch) const;
  void make_row(std::size_t k);
  std::size_t planes_through_axis() const;
  int row_chords(std::size_t k) const;
  void give_row(int plane, const CutRow& row, bool growing);
  std::optional<Fault> add_stretch(std::size_t k);
  void add_level(std::size_t k);
  NodeAt& node_at(std::vector<NodeAt>& nodes, Point p, double theta, int plane);
  void note_node_corners(const std::vector<NodeAt>& nodes, std::optional<int> level);
  std::vector<Mark> curve(const PreparedChain& chain, const DensePlaces& between, const ArcEnd& end,
                          Mark first, Mark last);
  const CutRow& row_before(std::size_t k) const { return rows_[k]; }
  const CutRow& row_after(std::size_t k) const { return rows_[closed() ? (k + 1) % rows_.size() : k + 1]; }
  bool closed() const { return run_.chain.front().from() == run_.chain.back().to(); }

  CutBody& body_;
  const CutChain& run_;
  PlanArcs arcs_;
  std::vector<Stretch> stretches_;
  std::vector<CutRow> rows_;  // row k before stretch k
};

void CutRun::divide() {
  double start = 0;
  const Chain& chain = run_.chain;
  double lowest = chain.front().from().z;
  for (const Segment& segment : chain) lowest = std::min(lowest, segment.to().z);
  for (std::size_t i = 0; i < chain.size(); ++i) {
    const bool after_level = i > 0 && !stretches_.empty() && stretches_.back().level;
    const bool smooth = i > 0 && !after_level && joins_smoothly(chain[i - 1], chain[i]);
    // A level segment between corners (floor) or at the foot is a plane face; one that runs on smoothly
    // elsewhere (a flat tip) belongs to its face: vents may lie across its end.
    const bool on = i + 1 < chain.size() && joins_smoothly(chain[i], chain[i + 1]);
    const bool foot = is_level(chain[i]) && chain[i].from().z < lowest + 1e-9;
    const bool level = is_level(chain[i]) && (foot || (!smooth && !on));
    const bool two_poles = i + 1 == chain.size() && chain[i].to().r <= 0 && smooth && !stretches_.empty() &&
                           stretches_.back().chain.front().from().r <= 0;
    if (i == 0 || level || !smooth || two_poles) {
      stretches_.push_back({{chain[i]}, start, level});
    } else {
      stretches_.back().chain.push_back(chain[i]);
    }
    start += chain[i].length();
  }
}

int CutRun::row_chords(std::size_t k) const {
  const double budget = edge_share * chord_budget(body_.tolerance_);
  double across = std::numeric_limits<double>::infinity();
  const std::size_t n = stretches_.size();
  const bool round = closed();
  if (k < n && !stretches_[k].level)
    across = std::min(across, even_steps_at(PreparedChain(stretches_[k].chain), 0, budget).across);
  if (k > 0 || round) {
    const Stretch& before = stretches_[(k + n - 1) % n];
    if (!before.level)
      across = std::min(
          across, even_steps_at(PreparedChain(before.chain), meridian::length(before.chain), budget).across);
  }
  return chords_round(rows_[k].r, across, budget);
}

NodeAt& CutRun::node_at(std::vector<NodeAt>& nodes, Point p, double theta, int plane) {
  for (NodeAt& node : nodes) {
    if (p.r > 0 && p.r * std::abs(std::remainder(node.theta - theta, 2 * pi)) > same_place) continue;
    node.planes.push_back(plane);
    return node;
  }
  nodes.push_back(
      {theta, body_.work_.add_vertex(p.r * std::cos(theta), p.r * std::sin(theta), p.z), {plane}});
  return nodes.back();
}

void CutRun::note_node_corners(const std::vector<NodeAt>& nodes, std::optional<int> level) {
  for (const NodeAt& node : nodes) {
    std::vector<int> planes = node.planes;
    std::sort(planes.begin(), planes.end());
    planes.erase(std::unique(planes.begin(), planes.end()), planes.end());
    for (std::size_t i = 0; i < planes.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) body_.note_corner(planes[j], planes[i], node.vertex);
      if (level) body_.note_corner(planes[i], *level, node.vertex);
    }
  }
}

std::size_t CutRun::planes_through_axis() const {
  std::set<int> planes;
  for (const Arc& arc : arcs_.kind(0).arcs) planes.insert({arc.from.plane, arc.to.plane});
  return planes.size();
}

void CutRun::make_row(std::size_t k) {
  CutRow& row = rows_[k];
  if (row.r <= 0) {
    // A level face that a single plane cuts through the axis goes straight across it.
    const bool level = stretches_[k < stretches_.size() ? k : k - 1].level;
    if (level && planes_through_axis() < 2) return;
    for (const Arc& arc : arcs_.kind(0).arcs) {
      for (const ArcEnd& end : {arc.from, arc.to}) node_at(row.nodes, {0, row.z}, 0, end.plane);
    }
    note_node_corners(row.nodes, std::nullopt);
    return;
  }
  const int chords = row_chords(k);
  const ArcsOfRadius& kind = arcs_.at(row.r);
  const auto vertex = [&](double theta) {
    return body_.work_.add_vertex(row.r * std::cos(theta), row.r * std::sin(theta), row.z);
  };
  if (kind.whole) {
    std::vector<Mark> marks;
    for (int i = 0; i < chords; ++i) marks.push_back({vertex(2 * pi * i / chords), 0, 2 * pi * i / chords});
    marks.push_back({marks.front().vertex, 0, 2 * pi});
    row.arcs.push_back(std::move(marks));
  }
  for (const Arc& arc : kind.arcs) {
    const double from = arcs_.angle(arc.from, row.r);
    double to = arcs_.angle(arc.to, row.r);
    to = from + std::fmod(to - from + 8 * pi, 2 * pi);
    const int parts = std::max(1, static_cast<int>(std::ceil((to - from) * chords / (2 * pi) - 1e-9)));
    std::vector<Mark> marks{{node_at(row.nodes, {row.r, row.z}, from, arc.from.plane).vertex, 0, from}};
    for (int i = 1; i < parts; ++i) {
      const double theta = from + (to - from) * i / parts;
      marks.push_back({vertex(theta), 0, theta});
    }
    marks.push_back({node_at(row.nodes, {row.r, row.z}, to, arc.to.plane).vertex, 0, to});
    row.arcs.push_back(std::move(marks));
  }
}

// Hands the row's arcs to a level plane, in the direction in which that plane's face walks them.
void CutRun::give_row(int plane, const CutRow& row, bool growing) {
  for (const auto& arc : row.arcs) {
    EdgeLine line;
    for (const Mark& mark : arc) line.push_back(mark.vertex);
    if (!growing) std::reverse(line.begin(), line.end());
    body_.planes_[static_cast<std::size_t>(plane)].lines.push_back(std::move(line));
  }
  note_node_corners(row.nodes, plane);
}

// The region's changes must be passed with some slope, apart from each other and from corners.
std::optional<Fault> CutRun::refuse_touching(const Stretch& stretch) const {
  for (const Segment& segment : stretch.chain) {
    std::vector<Point> ends{segment.from(), segment.to()};
    if (segment.is_arc()) {
      for (const double side : {-1.0, 1.0}) {
        const Point extreme{segment.centre().r + side * segment.radius(), segment.centre().z};
        if (segment.distance_to(extreme) < 1e-9) ends.push_back(extreme);
      }
    }
    for (const double change : arcs_.changes()) {
      for (const Point& p : ends) {
        if (std::abs(p.r - change) < touching) return touching_fault(p.r, p.z);
      }
    }
  }
  return std::nullopt;
}

// Places on a smooth stretch between two others, close together, and the face's steps half-way between them:
// the same for all planes that cut it there.
struct DensePlaces {
  struct Place {
    double s = 0;
    Point p;
    Steps steps;  // before it
  };
  static constexpr int parts = 96;  // of each piece
  std::vector<double> breaks;
  std::vector<Place> places;

  DensePlaces(const Chain& whole, const PreparedChain& chain, double from, double to, double budget);
};

DensePlaces::DensePlaces(const Chain& whole, const PreparedChain& chain, double from, double to,
                         double budget)
    : breaks{from} {
  double at = 0;
  for (const Segment& segment : whole) {
    at += segment.length();
    if (at > breaks.back() + shortest_piece && at < to - shortest_piece) breaks.push_back(at);
  }
  breaks.push_back(to);
  places.push_back({from, chain.at(from), {}});
  for (std::size_t b = 1; b < breaks.size(); ++b) {
    // Close together at both ends: where the circle only touches the line, the angle goes as a root.
    for (int i = 1; i <= parts; ++i) {
      const double share = (1 - std::cos(pi * i / parts)) / 2;
      const double s = breaks[b - 1] + (breaks[b] - breaks[b - 1]) * share;
      places.push_back({s, chain.at(s), even_steps_at(chain, (places.back().s + s) / 2, budget)});
    }
  }
}

// Samples between two ends such that neither the face's steps nor the plane curve's own sagitta suffer.
std::vector<Mark> CutRun::curve(const PreparedChain& chain, const DensePlaces& between, const ArcEnd& end,
                                Mark first, Mark last) {
  const double budget = edge_share * chord_budget(body_.tolerance_);
  struct Dense {
    double s, theta, t, z, r, run;
  };
  std::vector<Dense> dense;
  constexpr int parts = DensePlaces::parts;
  const HalfPlane half = body_.planes_[static_cast<std::size_t>(end.plane)].half;
  const std::vector<double>& breaks = between.breaks;
  for (const DensePlaces::Place& place : between.places) {
    const Point p = place.p;
    const double theta = arcs_.angle(end, std::max(p.r, 1e-12));
    const double x = p.r * std::cos(theta), y = p.r * std::sin(theta);
    dense.push_back({place.s, theta, half.nx * y - half.ny * x, p.z, p.r, 0});
  }
  for (std::size_t i = 1; i < dense.size(); ++i) {
    const Dense& a = dense[i - 1];
    Dense& b = dense[i];
    const Steps steps = between.places[i].steps;
    const double step_across = std::max((a.r + b.r) / 2, 1e-9) * std::remainder(b.theta - a.theta, 2 * pi);
    double run = std::hypot((b.s - a.s) / steps.along, step_across / steps.across);
    if (i + 1 < dense.size()) {
      const Dense& c = dense[i + 1];
      const double ux = b.t - a.t, uz = b.z - a.z, vx = c.t - b.t, vz = c.z - b.z;
      const double lu = std::hypot(ux, uz), lv = std::hypot(vx, vz);
      const double turn = std::abs(std::atan2(ux * vz - uz * vx, ux * vx + uz * vz));
      if (lu > 1e-9 && lv > 1e-9 && turn < 1)
        run = std::max(run, lu * std::sqrt(turn / ((lu + lv) / 2) / (8 * budget)));
    }
    b.run = a.run + run;
  }
  // Every joint gets a vertex: a chord from one straight line to another across a short arc would cut its
  // corner.
  std::vector<Mark> marks{first};
  for (std::size_t piece = 1; piece < breaks.size(); ++piece) {
    const std::size_t from = (piece - 1) * parts, to = piece * parts;
    const double start = dense[from].run, whole = dense[to].run - start;
    const int count = std::max(1, static_cast<int>(std::ceil(whole - 1e-9)));
    std::size_t i = from + 1;
    for (int k = 1; k <= count; ++k) {
      if (k == count && piece + 1 == breaks.size()) break;
      const double run = start + whole * k / count;
      while (i < to && dense[i].run < run) ++i;
      const Dense &a = dense[i - 1], &b = dense[i];
      const double share = b.run > a.run ? std::clamp((run - a.run) / (b.run - a.run), 0.0, 1.0) : 1.0;
      const double s = k == count ? dense[to].s : a.s + (b.s - a.s) * share;
      const Point p = chain.at(s);
      const double theta = arcs_.angle(end, p.r);
      marks.push_back({body_.work_.add_vertex(p.r * std::cos(theta), p.r * std::sin(theta), p.z), s, theta});
    }
  }
  marks.push_back(last);
  return marks;
}

std::optional<Fault> CutRun::add_stretch(std::size_t k) {
  const Stretch& stretch = stretches_[k];
  const double length = meridian::length(stretch.chain);
  if (auto fault = refuse_touching(stretch)) return fault;
  struct Stop {
    double s;
    Point p;
    std::vector<NodeAt> nodes;
  };
  std::vector<Stop> stops{{0, stretch.chain.front().from(), row_before(k).nodes},
                          {length, stretch.chain.back().to(), row_after(k).nodes}};
  double start = 0;
  for (const Segment& segment : stretch.chain) {
    for (const double change : arcs_.changes()) {
      for (const Point& p : meridian::crossings_with_line(segment, {change, 0}, {0, 1}, 1e-9))
        stops.push_back({start + segment.nearest(p), {change, p.z}, {}});
    }
    start += segment.length();
  }
  std::sort(stops.begin(), stops.end(), [](const Stop& a, const Stop& b) { return a.s < b.s; });
  for (std::size_t i = 1; i < stops.size(); ++i) {
    if (stops[i].s - stops[i - 1].s < touching) return touching_fault(stops[i].p.r, stops[i].p.z);
  }
  std::vector<FaceEdge> edges;
  const PreparedChain chain(stretch.chain);
  for (std::size_t i = 1; i < stops.size(); ++i) {
    const ArcsOfRadius& kind = arcs_.at(meridian::at(stretch.chain, (stops[i - 1].s + stops[i].s) / 2).r);
    if (kind.arcs.empty()) continue;
    const DensePlaces between(stretch.chain, chain, stops[i - 1].s, stops[i].s,
                              edge_share * chord_budget(body_.tolerance_));
    for (const Arc& arc : kind.arcs) {
      for (const bool lower : {true, false}) {
        const ArcEnd& end = lower ? arc.from : arc.to;
        const auto mark = [&](Stop& stop) {
          const double theta = arcs_.angle(end, std::max(stop.p.r, 1e-12));
          return Mark{node_at(stop.nodes, stop.p, theta, end.plane).vertex, stop.s, theta};
        };
        const Mark first = mark(stops[i - 1]), last = mark(stops[i]);
        edges.push_back({curve(chain, between, end, first, last), end.plane});
        EdgeLine line;
        for (const Mark& m : edges.back().marks) line.push_back(m.vertex);
        // The face walks its lower edge onwards; the plane's face walks it back.
        if (lower) std::reverse(line.begin(), line.end());
        body_.planes_[static_cast<std::size_t>(end.plane)].lines.push_back(std::move(line));
      }
    }
  }
  for (std::size_t i = 1; i + 1 < stops.size(); ++i) note_node_corners(stops[i].nodes, std::nullopt);
  const auto add_row = [&](const CutRow& row, double s, int tag) {
    for (std::vector<Mark> marks : row.arcs) {
      for (Mark& mark : marks) mark.s = s;
      edges.push_back({std::move(marks), tag});
    }
  };
  constexpr int row_tag = 1 << 20;
  add_row(row_before(k), 0, row_tag);
  add_row(row_after(k), length, row_tag + 1);
  for (const FaceHole& hole : run_.holes) {
    const double s = hole.marks.front().s - stretch.start;
    if (s < 0 || s >= length) continue;
    FaceEdge edge;
    for (const Mark& m : hole.marks) edge.marks.push_back({m.vertex, m.s - stretch.start, m.theta});
    edge.marks.push_back(edge.marks.front());
    edges.push_back(std::move(edge));
  }
  if (edges.empty()) return std::nullopt;
  const auto added = add_revolved_face(body_.work_, stretch.chain, edges, body_.tolerance_);
  if (!added) return added.fault();
  return std::nullopt;
}

void CutRun::add_level(std::size_t k) {
  const Stretch& stretch = stretches_[k];
  const double z = stretch.chain.front().from().z;
  const double step = stretch.chain.back().to().r - stretch.chain.front().from().r;
  const int plane = body_.level(z, step > 0 ? 1 : -1);
  give_row(plane, row_before(k), false);
  give_row(plane, row_after(k), true);
  const double r0 = stretch.chain.front().from().r, r1 = stretch.chain.back().to().r;
  for (const FaceHole& hole : run_.holes) {
    const double s = hole.marks.front().s - stretch.start;
    if (s < 0 || s >= stretch.chain.front().length()) continue;
    EdgeLoop loop;
    for (const Mark& m : hole.marks) loop.push_back(m.vertex);
    // Clockwise seen from the air.
    const bool outer = body_.runs_right(body_.planes_[static_cast<std::size_t>(plane)], loop);
    body_.add_loop(plane, outer ? reversed_loop(loop) : loop);
  }
  // A corner on the axis is in the row already.
  body_.add_level_corners(plane, run_.region, std::max(1e-9, std::min(r0, r1)), std::max(r0, r1));
}

Result<Done> CutRun::make() {
  divide();
  for (const Stretch& stretch : stretches_) {
    const Point p = stretch.chain.front().from();
    rows_.push_back({p.r, p.z, {}, {}});
  }
  if (!closed()) rows_.push_back({run_.chain.back().to().r, run_.chain.back().to().z, {}, {}});
  for (std::size_t k = 0; k < stretches_.size(); ++k) {
    if (auto fault = refuse_touching(stretches_[k])) return *fault;
  }
  for (std::size_t k = 0; k < rows_.size(); ++k) make_row(k);
  for (std::size_t k = 0; k < stretches_.size(); ++k) {
    if (stretches_[k].level) {
      add_level(k);
    } else if (auto fault = add_stretch(k)) {
      return *fault;
    }
  }
  if (closed()) return Done{};
  // The stretch after a row walks it backwards, the one before it forwards; the plane's face does the other.
  if (run_.first_plane) give_row(*run_.first_plane, rows_.front(), true);
  if (run_.last_plane) give_row(*run_.last_plane, rows_.back(), false);
  return Done{};
}

CutBody::CutBody(double tolerance) : tolerance_(tolerance) {}

int CutBody::half_plane(const HalfPlane& plane, int facing) {
  planes_.push_back({true, plane, 0, facing, {}});
  return static_cast<int>(planes_.size()) - 1;
}

int CutBody::level(double z, int facing) {
  planes_.push_back({false, {}, z, facing, {}});
  return static_cast<int>(planes_.size()) - 1;
}

std::optional<int> CutBody::level_at(double z, int facing) const {
  for (std::size_t k = 0; k < planes_.size(); ++k) {
    const PlaneRecord& plane = planes_[k];
    if (!plane.upright && plane.facing == facing && std::abs(plane.z - z) < 1e-9) return static_cast<int>(k);
  }
  return std::nullopt;
}

std::vector<PlanLine> CutBody::lines(const std::vector<int>& planes) const {
  std::vector<PlanLine> found;
  for (const int plane : planes) found.push_back({plane, planes_[static_cast<std::size_t>(plane)].half});
  return found;
}

Result<Done> CutBody::add(const CutChain& run) { return CutRun(*this, run).make(); }

void CutBody::note_corner(int one, int other, std::uint32_t vertex) {
  auto& found = corners_[std::minmax(one, other)];
  if (std::find(found.begin(), found.end(), vertex) == found.end()) found.push_back(vertex);
}

void CutBody::add_level_corners(int level, const PlanRegion& region, double r0, double r1) {
  const PlanArcs arcs(lines(region.within), lines(region.without));
  const double z = planes_[static_cast<std::size_t>(level)].z;
  const auto look_at = [&](double r, const std::vector<const ArcsOfRadius*>& kinds) {
    struct Found {
      double theta;
      std::vector<int> planes;
    };
    std::vector<Found> found;
    for (const ArcsOfRadius* kind : kinds) {
      for (const Arc& arc : kind->arcs) {
        for (const ArcEnd& end : {arc.from, arc.to}) {
          const double theta = r > 0 ? arcs.angle(end, r) : 0;
          auto same = std::find_if(found.begin(), found.end(), [&](const Found& f) {
            return r * std::abs(std::remainder(f.theta - theta, 2 * pi)) < same_place;
          });
          if (same == found.end()) same = found.insert(same, {theta, {}});
          if (std::find(same->planes.begin(), same->planes.end(), end.plane) == same->planes.end())
            same->planes.push_back(end.plane);
        }
      }
    }
    for (const Found& f : found) {
      if (f.planes.size() < 2) continue;
      const std::uint32_t vertex = work_.add_vertex(r * std::cos(f.theta), r * std::sin(f.theta), z);
      for (std::size_t i = 0; i < f.planes.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) note_corner(f.planes[j], f.planes[i], vertex);
        note_corner(f.planes[i], level, vertex);
      }
    }
  };
  if (r0 <= 0) look_at(0, {&arcs.kind(0)});
  for (std::size_t k = 0; k < arcs.changes().size(); ++k) {
    const double r = arcs.changes()[k];
    if (r > r0 && r < r1) look_at(r, {&arcs.kind(k), &arcs.kind(k + 1)});
  }
}

void CutBody::add_loop(int plane, EdgeLoop loop) {
  loop.push_back(loop.front());
  planes_[static_cast<std::size_t>(plane)].lines.push_back(std::move(loop));
}

// Straight edges on the lines where a plane meets others: between the first and second vertex on such a line,
// the third and fourth, and so on.
Result<std::vector<CutBody::Straight>> CutBody::straights_of(int plane) const {
  std::vector<Straight> straights;
  for (const auto& [pair, vertices] : corners_) {
    if (pair.first != plane && pair.second != plane) continue;
    const auto &one = planes_[static_cast<std::size_t>(pair.first)],
               &other = planes_[static_cast<std::size_t>(pair.second)];
    const HalfPlane& half = one.upright ? one.half : other.half;
    const bool upright_line = one.upright && other.upright;
    const auto along = [&](std::uint32_t v) {
      const Point3 p = work_.at(v);
      return upright_line ? p.z : half.nx * p.y - half.ny * p.x;
    };
    std::vector<std::uint32_t> sorted = vertices;
    std::sort(sorted.begin(), sorted.end(),
              [&](std::uint32_t a, std::uint32_t b) { return along(a) < along(b); });
    if (sorted.size() % 2 != 0)
      return open_fault("two cuts meet at an edge without an end at ", work_.at(sorted.front()));
    for (std::size_t i = 0; i + 1 < sorted.size(); i += 2)
      straights.push_back({sorted[i], sorted[i + 1], false});
  }
  return straights;
}

bool CutBody::runs_right(const PlaneRecord& plane, const EdgeLoop& loop) const {
  double area = 0;
  const auto flat = [&](std::uint32_t v) -> std::pair<double, double> {
    const Point3 p = work_.at(v);
    if (!plane.upright) return {p.x, p.y};
    return {plane.half.nx * p.y - plane.half.ny * p.x, p.z};
  };
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const auto a = flat(loop[i]), b = flat(loop[(i + 1) % loop.size()]);
    area += a.first * b.second - a.second * b.first;
  }
  return area * plane.facing > 0;
}

Result<std::vector<EdgeLoop>> CutBody::outline(int plane) const {
  auto straights = straights_of(plane);
  if (!straights) return straights.fault();
  const PlaneRecord& record = planes_[static_cast<std::size_t>(plane)];
  const auto& lines = record.lines;
  std::vector<bool> used(lines.size(), false);
  std::vector<EdgeLoop> loops;
  const auto follow = [&](EdgeLoop loop, std::uint32_t at) -> Result<EdgeLoop> {
    while (at != loop.front()) {
      std::size_t next = 0;
      while (next < lines.size() && (used[next] || lines[next].front() != at)) ++next;
      if (next < lines.size()) {
        used[next] = true;
        loop.insert(loop.end(), lines[next].begin(), lines[next].end() - 1);
        at = lines[next].back();
        continue;
      }
      const auto straight = std::find_if(straights->begin(), straights->end(), [&](const Straight& s) {
        return !s.used && (s.a == at || s.b == at);
      });
      if (straight == straights->end())
        return open_fault("the outline of a cut face breaks off at ", work_.at(at));
      straight->used = true;
      loop.push_back(at);
      at = straight->a == at ? straight->b : straight->a;
    }
    return loop;
  };
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (used[i]) continue;
    used[i] = true;
    auto loop = follow(EdgeLoop(lines[i].begin(), lines[i].end() - 1), lines[i].back());
    if (!loop) return loop.fault();
    loops.push_back(std::move(*loop));
  }
  for (Straight& straight : *straights) {
    if (straight.used) continue;
    straight.used = true;
    auto loop = follow({straight.a}, straight.b);
    if (!loop) return loop.fault();
    loops.push_back(runs_right(record, *loop) ? *loop : reversed_loop(*loop));
  }
  return loops;
}

Result<TriangleMesh> CutBody::finish() {
  for (std::size_t k = 0; k < planes_.size(); ++k) {
    const auto loops = outline(static_cast<int>(k));
    if (!loops) return loops.fault();
    const auto added = work_.add_plane_face(*loops);
    if (!added) return added.fault();
  }
  return work_.finish();
}

namespace {

Result<std::vector<ChainPart>> part_beside(const Chain& chain, double z, double sign) {
  std::vector<ChainPart> parts;
  bool open = false;
  const auto add = [&](const Segment& piece, bool first_cut) {
    if (!open) parts.push_back({{}, first_cut, false});
    open = true;
    parts.back().chain.push_back(piece);
  };
  for (const Segment& segment : chain) {
    std::vector<double> cuts{0};
    for (const Point& p : meridian::crossings_with_line(segment, {0, z}, {1, 0}, 1e-9)) {
      const double s = segment.nearest(p);
      if (s < touching || s > segment.length() - touching || std::abs(segment.tangent_at(s).z) < 1e-4)
        return touching_fault(p.r, p.z);
      cuts.push_back(s);
    }
    std::sort(cuts.begin(), cuts.end());
    cuts.push_back(segment.length());
    for (std::size_t i = 1; i < cuts.size(); ++i) {
      const double middle = segment.at((cuts[i - 1] + cuts[i]) / 2).z - z;
      if (std::abs(middle) < touching && cuts.size() == 2 && is_level(segment))
        return touching_fault(segment.from().r, z);
      const bool cut_here = i > 1;
      if (cut_here && open) parts.back().last_cut = true, open = false;
      if (sign * middle <= 0) continue;
      Segment piece = segment.part(cuts[i - 1], cuts[i]);
      const Point from{piece.from().r, cut_here ? z : piece.from().z};
      const Point to{piece.to().r, i + 1 < cuts.size() ? z : piece.to().z};
      add(piece.with_ends(from, to), cut_here);
    }
  }
  // A closed chain's beginning and end are one piece.
  const bool closed = chain.front().from() == chain.back().to();
  if (closed && parts.size() > 1 && !parts.front().first_cut && !parts.back().last_cut) {
    ChainPart joined{parts.back().chain, parts.back().first_cut, parts.front().last_cut};
    joined.chain.insert(joined.chain.end(), parts.front().chain.begin(), parts.front().chain.end());
    parts.front() = std::move(joined);
    parts.pop_back();
  }
  return parts;
}

}  // namespace

Result<std::vector<ChainPart>> part_above(const Chain& chain, double z) { return part_beside(chain, z, 1); }
Result<std::vector<ChainPart>> part_below(const Chain& chain, double z) { return part_beside(chain, z, -1); }

}  // namespace crownwright::mesh
