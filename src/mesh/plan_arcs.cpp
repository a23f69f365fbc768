#include "mesh/plan_arcs.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/numbers.h"

namespace crownwright::mesh {
namespace {

double value_of(const HalfPlane& half, double x, double y) { return half.nx * x + half.ny * y - half.d; }

void add_corner_radius(const HalfPlane& a, const HalfPlane& b, std::vector<double>& radii) {
  const double det = a.nx * b.ny - a.ny * b.nx;
  if (std::abs(det) < 1e-9) return;
  radii.push_back(std::hypot((a.d * b.ny - b.d * a.ny) / det, (a.nx * b.d - b.nx * a.d) / det));
}

}  // namespace

PlanArcs::PlanArcs(std::vector<PlanLine> within, std::vector<PlanLine> without)
    : within_(std::move(within)), without_(std::move(without)), all_(within_) {
  all_.insert(all_.end(), without_.begin(), without_.end());
  std::vector<double> radii;
  for (std::size_t i = 0; i < all_.size(); ++i) {
    radii.push_back(std::abs(all_[i].half.d));
    for (std::size_t j = 0; j < i; ++j) add_corner_radius(all_[i].half, all_[j].half, radii);
  }
  std::sort(radii.begin(), radii.end());
  std::vector<double> apart{0};
  for (const double r : radii) {
    if (r > apart.back() + 1e-9) apart.push_back(r);
  }
  for (std::size_t k = 0; k < apart.size(); ++k) {
    const double r = k + 1 < apart.size() ? (apart[k] + apart[k + 1]) / 2 : apart[k] + 1000;
    ArcsOfRadius kind = look(r);
    if (k > 0) {
      if (kind == kinds_.back()) continue;
      changes_.push_back(apart[k]);
    }
    kinds_.push_back(std::move(kind));
  }
}

const HalfPlane& PlanArcs::half(int plane) const {
  for (const PlanLine& line : all_) {
    if (line.plane == plane) return line.half;
  }
  throw std::logic_error("an arc's end on a line that is not the region's");
}

double PlanArcs::angle(const ArcEnd& end, double r) const {
  const HalfPlane& line = half(end.plane);
  const double ratio = r - std::abs(line.d) < 1e-9 ? (line.d < 0   ? -1.0
                                                      : line.d > 0 ? 1.0
                                                                   : 0.0)
                                                   : line.d / r;
  return std::atan2(line.ny, line.nx) + end.side * std::acos(ratio);
}

bool PlanArcs::is_inside(double x, double y) const {
  const auto holds = [&](const PlanLine& line) { return value_of(line.half, x, y) <= 0; };
  return std::all_of(within_.begin(), within_.end(), holds) &&
         (without_.empty() || !std::all_of(without_.begin(), without_.end(), holds));
}

ArcsOfRadius PlanArcs::look(double r) const {
  struct Crossing {
    double angle;
    ArcEnd end;
  };
  std::vector<Crossing> crossings;
  for (const PlanLine& line : all_) {
    if (std::abs(line.half.d) >= r) continue;
    for (const int side : {-1, 1}) {
      const ArcEnd end{line.plane, side};
      const double turn = std::fmod(angle(end, r) + 4 * pi, 2 * pi);
      crossings.push_back({turn, end});
    }
  }
  const auto inside = [&](double theta) { return is_inside(r * std::cos(theta), r * std::sin(theta)); };
  if (crossings.empty()) return {inside(0), {}};
  std::sort(crossings.begin(), crossings.end(),
            [](const Crossing& a, const Crossing& b) { return a.angle < b.angle; });
  const std::size_t n = crossings.size();
  std::vector<bool> after(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double next = i + 1 < n ? crossings[i + 1].angle : crossings[0].angle + 2 * pi;
    after[i] = inside((crossings[i].angle + next) / 2);
  }
  ArcsOfRadius found;
  found.whole = std::all_of(after.begin(), after.end(), [](bool in) { return in; });
  for (std::size_t i = 0; i < n; ++i) {
    if (!after[i] || after[(i + n - 1) % n]) continue;
    std::size_t j = i;
    while (after[j % n] && j < i + n) ++j;
    if (j < i + n) found.arcs.push_back({crossings[i].end, crossings[j % n].end});
  }
  std::sort(found.arcs.begin(), found.arcs.end(), [](const Arc& a, const Arc& b) {
    return std::pair(a.from.plane, a.from.side) < std::pair(b.from.plane, b.from.side);
  });
  return found;
}

const ArcsOfRadius& PlanArcs::at(double r) const {
  const auto above = std::upper_bound(changes_.begin(), changes_.end(), r);
  return kinds_[static_cast<std::size_t>(above - changes_.begin())];
}

}  // namespace crownwright::mesh
