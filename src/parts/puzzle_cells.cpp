#include "parts/puzzle_cells.h"

#include <algorithm>
#include <cmath>

namespace crownwright::parts {
namespace {

constexpr double flare = 0.5;          // half widths grow by this share of the depth
constexpr double widest_tongue = 12;   // mm, chosen: a fingernail wide
constexpr double share_of_face = 0.4;  // of the face it stands on
constexpr double least_hold = 0.2;     // mm by which a tongue is wider than its groove's mouth

/// A tongue for a face of this length; nothing where it would not hold.
std::optional<Dovetail> tongue_for(double face, double clearance) {
  const double width = std::min(widest_tongue, share_of_face * face), depth = width / 3;
  const Dovetail tongue{0, width / 2 - flare * depth, width / 2, depth};
  const double mouth = tongue.half_mouth + clearance * (flare + std::hypot(1, flare));
  if (tongue.half_far - mouth < least_hold) return std::nullopt;
  return tongue;
}

/// The groove that keeps the clearance from the tongue on every side; its edge lies a clearance further.
Dovetail groove_for(const Dovetail& tongue, double clearance) {
  const double beside = clearance * std::hypot(1, flare);
  return {tongue.at, tongue.half_mouth + flare * clearance + beside,
          tongue.half_far + flare * clearance + beside, -tongue.depth};
}

Cell cell(std::string name, double x0, double x1, double y0, double y1, double far) {
  Cell made{std::move(name), x0, x1, y0, y1, {}, {}};
  if (y0 > -far) made.joint[south] = y0;
  if (x1 < far) made.joint[east] = x1;
  if (y1 < far) made.joint[north] = y1;
  if (x0 > -far) made.joint[west] = x0;
  return made;
}

std::vector<Cell> bare_cells(const PuzzlePlan& plan) {
  const double far = 4 * plan.a, half = plan.c / 2;
  const double ui = plan.u - half, uo = plan.u + half, ki = plan.k - half, ko = plan.k + half;
  std::vector<Cell> cells;
  const auto add = [&](const char* name, double x0, double x1, double y0, double y1) {
    cells.push_back(cell(name, x0, x1, y0, y1, far));
  };
  add("key", -ui, ui, -ki, ki);
  add("end-n", -ui, ui, ko, far);
  add("end-s", -ui, ui, -far, -ko);
  if (plan.pieces == 5) {
    add("side-e", uo, far, -far, far);
    add("side-w", -far, -uo, -far, far);
  } else if (plan.pieces == 7) {
    add("side-ne", uo, far, half, far);
    add("side-se", uo, far, -far, -half);
    add("side-nw", -far, -uo, half, far);
    add("side-sw", -far, -uo, -far, -half);
  } else {
    add("side-e", uo, far, -ki, ki);
    add("side-w", -far, -uo, -ki, ki);
    add("corner-ne", uo, far, ko, far);
    add("corner-se", uo, far, -far, -ko);
    add("corner-nw", -far, -uo, ko, far);
    add("corner-sw", -far, -uo, -far, -ko);
  }
  return cells;
}

struct Joint {
  Edge of_key;
  Edge of_neighbour;
  double along_low, along_high;  // the neighbour's stretch of the key's face
};

std::optional<Joint> joint_with_key(const Cell& key, const Cell& other, double c) {
  const auto shared = [](double a0, double a1, double b0, double b1) {
    return std::pair{std::max(a0, b0), std::min(a1, b1)};
  };
  const auto [x0, x1] = shared(key.x0, key.x1, other.x0, other.x1);
  const auto [y0, y1] = shared(key.y0, key.y1, other.y0, other.y1);
  const auto meets = [&](double one, double two) { return std::abs(one - two) < 1.5 * c; };
  if (x0 < x1 && meets(other.y0, key.y1)) return Joint{north, south, x0, x1};
  if (x0 < x1 && meets(other.y1, key.y0)) return Joint{south, north, x0, x1};
  if (y0 < y1 && meets(other.x0, key.x1)) return Joint{east, west, y0, y1};
  if (y0 < y1 && meets(other.x1, key.x0)) return Joint{west, east, y0, y1};
  return std::nullopt;
}

void add_dovetails(std::vector<Cell>& cells, const PuzzlePlan& plan, double neck) {
  std::vector<Cell> made = cells;
  Cell& key = made.front();
  for (std::size_t i = 1; i < made.size(); ++i) {
    const auto joint = joint_with_key(cells.front(), cells[i], plan.c);
    if (!joint) continue;
    auto tongue = tongue_for(joint->along_high - joint->along_low, plan.c);
    if (!tongue) return;
    tongue->at = (joint->along_low + joint->along_high) / 2;
    const Dovetail groove = groove_for(*tongue, plan.c);
    const double bottom = std::abs(*cells[i].joint[joint->of_neighbour]) + std::abs(groove.depth);
    if (std::hypot(bottom, std::abs(groove.at) + groove.half_far) > neck - groove_wall) continue;
    key.dovetails[joint->of_key].push_back(*tongue);
    made[i].dovetails[joint->of_neighbour].push_back(groove);
  }
  for (auto& edge : key.dovetails)
    std::sort(edge.begin(), edge.end(), [](const Dovetail& p, const Dovetail& q) { return p.at < q.at; });
  for (const PlanPoint& p : outline(key))
    if (std::hypot(p.x, p.y) > plan.b - plan.c) return;
  cells = std::move(made);
}

}  // namespace

std::vector<Cell> puzzle_cells(const PuzzlePlan& plan, std::optional<double> neck) {
  std::vector<Cell> cells = bare_cells(plan);
  add_dovetails(cells, plan, neck.value_or(plan.b));
  return cells;
}

PlanPolygon outline(const Cell& cell) {
  const std::array<PlanPoint, 4> corners{
      {{cell.x0, cell.y0}, {cell.x1, cell.y0}, {cell.x1, cell.y1}, {cell.x0, cell.y1}}};
  const std::array<PlanPoint, 4> along{{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};
  PlanPolygon polygon;
  for (std::size_t e = 0; e < 4; ++e) {
    const PlanPoint start = corners[e], d = along[e], out{d.y, -d.x};
    polygon.push_back(start);
    std::vector<Dovetail> row = cell.dovetails[e];
    if (d.x + d.y < 0) std::reverse(row.begin(), row.end());
    for (const Dovetail& tail : row) {
      const PlanPoint foot = d.x != 0 ? PlanPoint{tail.at, start.y} : PlanPoint{start.x, tail.at};
      const auto add = [&](double t, double off) {
        polygon.push_back({foot.x + t * d.x + off * out.x, foot.y + t * d.y + off * out.y});
      };
      add(-tail.half_mouth, 0);
      add(-tail.half_far, tail.depth);
      add(tail.half_far, tail.depth);
      add(tail.half_mouth, 0);
    }
  }
  return polygon;
}

}  // namespace crownwright::parts
