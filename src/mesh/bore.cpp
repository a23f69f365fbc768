#include "mesh/bore.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "solid/pierce.h"

namespace crownwright::mesh {

namespace {

bool is_round(const solid::VentShape& vent) { return vent.rim > 0 && vent.style == solid::RimStyle::round; }

// A curved rim shares the budget between its two directions.
double share(const solid::VentShape& vent, double budget) { return is_round(vent) ? budget / 2 : budget; }

int rim_parts(const solid::VentShape& vent, double budget) {
  if (vent.rim <= 0) return 0;
  if (!is_round(vent)) return 1;
  const double ratio = std::clamp(share(vent, budget) / vent.rim, 0.0, 1.0);
  return std::max(1, static_cast<int>(std::ceil(pi / 4 / std::acos(1 - ratio) - 1e-9)));
}
}  // namespace

int bore_sides(const solid::VentShape& vent, double budget) {
  const double ratio = std::clamp(share(vent, budget) / vent.mouth(), 0.0, 1.0);
  const int sides = static_cast<int>(std::ceil(pi / std::acos(1 - ratio) - 1e-9));
  return std::max(12, (sides + 1) / 2 * 2);
}

std::vector<std::vector<Spot>> rim_loops(const solid::VentShape& vent, const solid::VentRing& ring,
                                         const std::vector<Spot>& mouth, double budget) {
  const solid::VentShape& v = vent;
  const meridian::Point d = ring.direction, e{-d.z, d.r};
  std::vector<std::vector<Spot>> loops;
  const int parts = rim_parts(vent, budget);
  for (int k = 1; k <= parts; ++k) {
    const double turn = pi / 2 * k / parts;
    const double in = is_round(v) ? v.rim * std::sin(turn) : v.rim * k / parts;
    const double drop = is_round(v) ? v.rim * (1 - std::cos(turn)) : v.rim * k / parts;
    std::vector<Spot> loop;
    for (std::size_t j = 0; j < mouth.size(); ++j) {
      const double phi = 2 * pi * static_cast<double>(j) / static_cast<double>(mouth.size());
      const double off = -in * std::cos(phi);
      loop.push_back({mouth[j].x + off * e.r + drop * d.r, mouth[j].y - in * std::sin(phi),
                      mouth[j].z + off * e.z + drop * d.z});
    }
    loops.push_back(std::move(loop));
  }
  return loops;
}

double rim_chord_error(const solid::Solid& solid, const solid::VentRing& ring, const std::vector<Spot>& mouth,
                       const std::vector<std::vector<Spot>>& rim) {
  const solid::Bore bore{ring.entry, ring.direction};
  double worst = 0;
  const auto look_at = [&](const Spot& p) {
    worst = std::max(worst, solid::distance_to_rim(solid, ring, bore, p.x, p.y, p.z));
  };
  const auto look_at_facet = [&](const Spot& a, const Spot& b, const Spot& c) {
    look_at({(a.x + b.x) / 2, (a.y + b.y) / 2, (a.z + b.z) / 2});
    look_at({(b.x + c.x) / 2, (b.y + c.y) / 2, (b.z + c.z) / 2});
    look_at({(a.x + b.x + c.x) / 3, (a.y + b.y + c.y) / 3, (a.z + b.z + c.z) / 3});
  };
  const std::vector<Spot>* above = &mouth;
  const std::size_t n = mouth.size();
  for (const std::vector<Spot>& below : rim) {
    for (std::size_t j = 0; j < n; ++j) {
      const std::size_t k = (j + 1) % n;
      look_at_facet((*above)[j], (*above)[k], below[j]);
      look_at_facet(below[k], below[j], (*above)[k]);
    }
    above = &below;
  }
  return worst;
}

}  // namespace crownwright::mesh
