#pragma once
// A panel put together by hand from a line, an arc and a line, so that all its measures have closed forms.

#include <cmath>
#include <numbers>

#include "pattern/draft.h"
#include "pattern/plane.h"

namespace crownwright::test {

struct HandSeam {
  double beta = std::numbers::pi / 8;  ///< half angle at the tip
  double first = 110, radius = 70, last = 50;
  double turn = std::numbers::pi / 4;  ///< of the arc, towards the centre line
  double end_theta = -0.2;             ///< of the head line's arc

  double length() const { return first + radius * turn + last; }
  /// (x, y) at length s along the seam.
  pattern::Vec2 at(double s) const {
    const auto go = [](pattern::Vec2 p, double angle, double by) {
      return pattern::Vec2{p.x + by * std::sin(angle), p.y + by * std::cos(angle)};
    };
    if (s <= first) return go({0, 0}, beta, s);
    const pattern::Vec2 join = go({0, 0}, beta, first);
    const double turned = std::min((s - first) / radius, turn);
    const pattern::Vec2 on_arc{join.x + radius * (std::cos(beta - turned) - std::cos(beta)),
                               join.y + radius * (std::sin(beta) - std::sin(beta - turned))};
    return s <= first + radius * turn ? on_arc : go(on_arc, beta - turn, s - first - radius * turn);
  }
  /// Half width at a straight distance from the tip.
  double half_width(double y) const {
    const pattern::Vec2 a = at(first), b = at(first + radius * turn);
    if (y <= a.y) return y * std::tan(beta);
    if (y >= b.y) return b.x + (y - b.y) * std::tan(beta - turn);
    const double from_centre = y - (a.y + radius * std::sin(beta));
    return a.x - radius * std::cos(beta) + std::sqrt(radius * radius - from_centre * from_centre);
  }
};

/// Seam points no further apart than `step`.
inline pattern::PanelNet hand_net(const HandSeam& seam = {}, int panels = 8, double step = 0.25) {
  pattern::PanelNet net;
  net.panels = panels;
  const int count = static_cast<int>(std::ceil(seam.length() / step));
  for (int i = 0; i <= count; ++i) {
    const double s = seam.length() * i / count;
    const pattern::Vec2 p = seam.at(s);
    net.points.push_back({s, p.x, p.y, 0, 0});
  }
  pattern::PanelPoint& end = net.points.back();
  end.theta = seam.end_theta;
  end.bow = end.x * std::tan(end.theta / 2);
  net.seam_length = seam.length();
  net.centre_length = end.y + end.bow;
  return net;
}

}  // namespace crownwright::test
