#include "solid/solid.h"

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <numbers>
#include <numeric>
#include <set>
#include <stdexcept>

#include "solid/pierce.h"

namespace crownwright::solid {

const char* role_name(Role role) {
  switch (role) {
    case Role::crown:
      return "crown";
    case Role::collar:
      return "collar";
    case Role::groove:
      return "cord groove";
    case Role::flange:
      return "flange";
    case Role::foot:
      return "foot";
    case Role::socket:
      return "socket";
    case Role::floor:
      return "floor";
    case Role::inner:
      return "inner face";
    case Role::side:
      return "side";
    case Role::under:
      return "under face";
    case Role::pole_vent:
      return "pole vent";
  }
  return "face";
}

Shell make_shell(meridian::Chain walk, std::vector<Role> roles, bool closed) {
  if (walk.size() != roles.size() || walk.empty()) throw std::logic_error("a shell needs one role a segment");
  if (meridian::greatest_gap(walk) > 0) throw std::logic_error("a shell's walk has a gap");
  Shell shell{std::move(walk), std::move(roles), {0.0}, closed};
  for (const auto& segment : shell.walk) shell.starts.push_back(shell.starts.back() + segment.length());
  return shell;
}

int VentRing::count() const { return static_cast<int>(std::count(has_vent.begin(), has_vent.end(), 1)); }

int Solid::vent_count() const {
  int count = pole_vent ? 1 : 0;
  for (const auto& ring : rings) count += ring.count();
  return count;
}

int Solid::expected_pieces() const {
  const bool joined = std::any_of(rings.begin(), rings.end(), [](const VentRing& ring) {
    return ring.count() > 0 && ring.outer.shell != ring.inner.shell;
  });
  return static_cast<int>(shells.size()) - (joined && shells.size() == 2 ? 1 : 0);
}

// Each bore takes a disc from both ends and adds a tube: the Euler characteristic falls by 2 a vent.
int Solid::expected_genus() const {
  int euler = 0;
  for (const auto& shell : shells) euler += shell.closed ? 0 : 2;
  for (const auto& ring : rings) euler -= 2 * ring.count();
  return expected_pieces() - euler / 2;
}

double unpierced_volume(const Solid& solid) {
  double sum = 0;
  for (const auto& shell : solid.shells) sum += meridian::swept_volume(shell.walk);
  return sum;
}

double unpierced_area(const Solid& solid) {
  double sum = 0;
  for (const auto& shell : solid.shells) sum += meridian::swept_area(shell.walk);
  return sum;
}

namespace {

// Depth of the rim below the pressing face at distance q from the bore's axis, measured from the mouth's
// edge: the mesh's rim hangs from the mouth's edge at the same angle (see mesh/bore.h).
double rim_drop(const VentShape& vent, double q) {
  const double in = vent.mouth() - q;
  if (vent.style == RimStyle::chamfer) return in;
  const double c = vent.rim;
  return c - std::sqrt(std::max(0.0, c * c - in * in));
}

constexpr int bore_turns = 24;
double bore_angle(int k) { return 2 * std::numbers::pi * (k + 0.5) / bore_turns; }

// Sum over bore angles at distance q from the axis of the bore, times q, of the bore between the faces.
double bore_ring(const Solid& solid, const VentRing& ring, double q) {
  const Shell& near = solid.shells[ring.outer.shell];
  const Shell& far = solid.shells[ring.inner.shell];
  const Bore bore{ring.entry, ring.direction};
  double sum = 0;
  for (int k = 0; k < bore_turns; ++k) {
    const double phi = bore_angle(k), top = pierce(near, ring.outer.strip, bore, q, phi, 0).depth;
    sum += pierce(far, ring.inner.strip, bore, q, phi, ring.depth).depth - top;
  }
  return q * sum * 2 * std::numbers::pi / bore_turns;
}

// Depths of the mouth's edge at the bore angles: the same at every distance.
std::array<double, bore_turns> mouth_edge(const Solid& solid, const VentRing& ring) {
  std::array<double, bore_turns> depths{};
  const Bore bore{ring.entry, ring.direction};
  for (int k = 0; k < bore_turns; ++k)
    depths[static_cast<std::size_t>(k)] =
        pierce(solid.shells[ring.outer.shell], ring.outer.strip, bore, solid.vent.mouth(), bore_angle(k), 0)
            .depth;
  return depths;
}

// The same sum of the rim, below the mouth's edge.
double rim_ring(const Solid& solid, const VentRing& ring, const std::array<double, bore_turns>& edge,
                double q) {
  const Bore bore{ring.entry, ring.direction};
  double sum = 0;
  for (int k = 0; k < bore_turns; ++k) {
    const double top =
        pierce(solid.shells[ring.outer.shell], ring.outer.strip, bore, q, bore_angle(k), 0).depth;
    sum += edge[static_cast<std::size_t>(k)] + rim_drop(solid.vent, q) - top;
  }
  return q * sum * 2 * std::numbers::pi / bore_turns;
}

}  // namespace

double vent_volume(const Solid& solid, const VentRing& ring) {
  using Gauss = boost::math::quadrature::gauss<double, 15>;
  const VentShape& vent = solid.vent;
  const double bore = Gauss::integrate([&](double q) { return bore_ring(solid, ring, q); }, 0, vent.radius);
  if (vent.rim <= 0) return bore;
  // By the turn along the round: its slope is endless at the bore, where q itself would be a poor variable.
  const auto edge = mouth_edge(solid, ring);
  const auto at_turn = [&](double turn) {
    return vent.rim * std::cos(turn) * rim_ring(solid, ring, edge, vent.mouth() - vent.rim * std::sin(turn));
  };
  return bore + Gauss::integrate(at_turn, 0, std::numbers::pi / 2);
}

double volume(const Solid& solid) {
  double sum = unpierced_volume(solid);
  for (const auto& ring : solid.rings) sum -= ring.count() * vent_volume(solid, ring);
  return sum;
}

}  // namespace crownwright::solid
