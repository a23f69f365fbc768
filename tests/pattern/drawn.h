#pragma once
// Panels as someone would have drawn them, from nets.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "meridian/beret.h"
#include "meridian/underside.h"
#include "pattern/draft.h"
#include "pattern/drawn_panel.h"

namespace crownwright::test {

inline constexpr double pi = std::numbers::pi;
inline constexpr double degree = pi / 180;

inline constexpr pattern::LengthAlong laws[] = {pattern::LengthAlong::seam, pattern::LengthAlong::centre,
                                                pattern::LengthAlong::shared};
/// The beret most drawings of these tests are of.
inline const meridian::BeretValues study{135, 91, 62, 5, 22, 22};

inline pattern::Parallels parallels_of(const meridian::BeretValues& values) {
  return pattern::Parallels::of(meridian::crown_chain(values).value());
}

/// The seam's own points, as an outline gives them.
inline pattern::DrawnPanel outline_of(const pattern::PanelNet& net) {
  pattern::DrawnPanel drawn;
  drawn.panels = net.panels;
  for (const pattern::PanelPoint& point : net.points) drawn.stations.push_back({point.y, point.x});
  drawn.bow = net.points.back().bow;
  return drawn;
}

inline double half_width_at(const pattern::PanelNet& net, double y) {
  std::size_t i = 1;
  while (i + 1 < net.points.size() && net.points[i].y < y) ++i;
  const pattern::PanelPoint &p = net.points[i - 1], &q = net.points[i];
  return p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y);
}

/// Half widths every `step` mm and at the end, measured without error.
inline pattern::DrawnPanel stations_of(const pattern::PanelNet& net, double step) {
  pattern::DrawnPanel drawn;
  drawn.panels = net.panels;
  const double end = net.points.back().y;
  for (double y = 0; y < end - step / 2; y += step) drawn.stations.push_back({y, half_width_at(net, y)});
  drawn.stations.push_back({end, net.points.back().x});
  return drawn;
}

/// Uniform in [low, high), the same on every system.
inline double uniform(std::mt19937_64& random, double low, double high) {
  return low + (high - low) * (static_cast<double>(random() >> 11) * 0x1p-53);
}

/// Head girths 480 to 640 mm, crowns 215 to 330 mm, edges 3 to 30 mm, domes to 14 mm.
inline meridian::BeretValues ordinary_beret(std::mt19937_64& random) {
  meridian::BeretValues v;
  v.b = uniform(random, 480, 640) / (2 * pi);
  v.a = std::max(v.b / uniform(random, 0.55, 0.9), 107.5);
  v.t = random() % 8 == 0 ? 0 : uniform(random, 0, 14);
  v.e_u = v.e_l = uniform(random, 3, 30);
  v.R = meridian::pole_to_equator(v.a, v.t, v.e_u) + meridian::least_equator(v.a - v.b, v.e_l) +
        uniform(random, 1, 40);
  return v;
}

/// Normal, one sigma 1 (Box and Muller), the same on every system.
inline double normal(std::mt19937_64& random) {
  const double u = 1 - uniform(random, 0, 1), v = uniform(random, 0, 1);
  return std::sqrt(-2 * std::log(u)) * std::cos(2 * pi * v);
}

/// Every half width but the tip's wrong by one sigma of `noise`.
inline pattern::DrawnPanel noisy(pattern::DrawnPanel drawn, double noise, std::mt19937_64& random) {
  drawn.noise = noise;
  for (std::size_t i = 1; i < drawn.stations.size(); ++i) {
    double& width = drawn.stations[i].half_width;
    width = std::max(0.0, width + noise * normal(random));
  }
  return drawn;
}

}  // namespace crownwright::test
