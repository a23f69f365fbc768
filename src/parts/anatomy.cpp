#include "parts/anatomy.h"

#include <algorithm>
#include <cmath>

#include "meridian/crossing.h"
#include "meridian/cut.h"
#include "meridian/offset.h"

namespace crownwright::parts {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

// A segment that starts beside the axis, begun on the axis instead.
Segment begun_on_axis(const Segment& segment) {
  if (!segment.is_arc()) {
    const Point t = segment.tangent_at(0), p = segment.from();
    return Segment::line({0, p.z - t.z / t.r * p.r}, segment.to());
  }
  const Point c = segment.centre(), p = segment.from();
  const double up = p.z > c.z ? 1 : -1;
  const Point start{0, c.z + up * std::sqrt(segment.radius() * segment.radius() - c.r * c.r)};
  const double ar = start.r - c.r, az = start.z - c.z, br = p.r - c.r, bz = p.z - c.z;
  return Segment::arc(start, segment.to(), c, segment.radius(),
                      segment.turn() + std::atan2(ar * bz - az * br, ar * br + az * bz));
}

void add(solid::Shell& shell, const Segment& segment, solid::Role role) {
  shell.walk.push_back(segment);
  shell.roles.push_back(role);
}

}  // namespace

solid::Solid without_pole_vent(const solid::Solid& solid) {
  if (!solid.pole_vent) return solid;
  const solid::Shell& shell = solid.shells.front();
  // The stretch before the vent ends at its bore, the one after it begins at its mouth; a closed walk begins
  // there.
  solid::Shell before, after;
  bool past = shell.closed;
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    if (shell.roles[i] == solid::Role::pole_vent) {
      past = true;
    } else {
      add(past ? after : before, shell.walk[i], shell.roles[i]);
    }
  }
  after.walk.front() = begun_on_axis(after.walk.front());
  Segment& last = shell.closed ? after.walk.back() : before.walk.back();
  last = begun_on_axis(last.reversed()).reversed();
  solid::Solid plain = solid;
  plain.pole_vent = false;
  plain.shells.clear();
  plain.shells.push_back(solid::make_shell(after.walk, after.roles, false));
  if (!before.walk.empty()) plain.shells.push_back(solid::make_shell(before.walk, before.roles, false));
  return plain;
}

double boss_top(const solid::Solid& solid) {
  double top = 0;
  if (solid.wall <= 0) return top;
  for (const solid::Shell& shell : solid.shells) {
    for (std::size_t i = 0; i < shell.walk.size(); ++i) {
      if (shell.roles[i] == solid::Role::socket)
        top = std::max({top, shell.walk[i].from().z, shell.walk[i].to().z});
    }
  }
  return top;
}

Anatomy take_apart(const solid::Solid& solid) {
  Anatomy anatomy;
  for (const solid::Shell& shell : solid.shells) {
    const auto first = std::find(shell.roles.begin(), shell.roles.end(), solid::Role::inner);
    if (first == shell.roles.end()) {
      anatomy.whole.push_back(shell.walk);
      continue;
    }
    const auto i = first - shell.roles.begin();
    const Segment& level = shell.walk[static_cast<std::size_t>(i) - 1];
    anatomy.ground = {level.to().z, level.from().r, level.to().r > level.from().r ? 1 : -1};
    if (i > 1) anatomy.outer = Chain(shell.walk.begin(), shell.walk.begin() + i - 1);
    anatomy.inner = Chain(shell.walk.begin() + i, shell.walk.end());
  }
  return anatomy;
}

Result<Chain> thickened_inner(const Anatomy& anatomy, double wall, double thickness) {
  const auto moved = meridian::offset(meridian::reversed(*anatomy.inner), wall - thickness);
  if (!moved) return moved.fault();
  auto ended = meridian::extended_to_z(*moved, anatomy.ground.z);
  if (!ended) return ended.fault();
  return meridian::reversed(*ended);
}

bool is_within(const std::vector<const Chain*>& chains, Point p) {
  bool inside = false;
  for (const Chain* chain : chains) {
    for (const Segment& segment : *chain) {
      const Point from = segment.from(), to = segment.to();
      if (!segment.is_arc()) {
        if ((from.z > p.z) == (to.z > p.z)) continue;
        if (from.r + (p.z - from.z) / (to.z - from.z) * (to.r - from.r) > p.r) inside = !inside;
        continue;
      }
      // Divided at its highest and lowest place: each piece then lies on one side of the centre and crosses
      // once or not at all.
      const Point c = segment.centre();
      const double reach = segment.radius();
      if (std::abs(p.z - c.z) > reach || std::max({from.r, to.r, c.r + reach}) <= p.r) continue;
      std::vector<double> parts{0, segment.length()};
      for (const double side : {-1.0, 1.0}) {
        const Point extreme{c.r, c.z + side * reach};
        if (segment.distance_to(extreme) < 1e-9) parts.push_back(segment.nearest(extreme));
      }
      std::sort(parts.begin(), parts.end());
      const double half = std::sqrt(std::max(0.0, reach * reach - (p.z - c.z) * (p.z - c.z)));
      for (std::size_t i = 1; i < parts.size(); ++i) {
        if ((segment.at(parts[i - 1]).z > p.z) == (segment.at(parts[i]).z > p.z)) continue;
        const double side = segment.at((parts[i - 1] + parts[i]) / 2).r > c.r ? 1 : -1;
        if (c.r + side * half > p.r) inside = !inside;
      }
    }
  }
  return inside;
}

}  // namespace crownwright::parts
