#pragma once
// A form as a solid of revolution: its walk round the half plane, and the vents that pierce it.
//
// A shell is one connected boundary surface before vents are cut: a chain in (r, z), mm, walked with the air
// on its left (see meridian/chain.h), foot at z = 0. An open walk starts and ends on the axis (a sphere once
// revolved); a closed walk returns to its start away from the axis (a torus: the form has a vent at its
// pole). A hollow form with a closed floor has two shells, the second round its cavity.

#include <cstddef>
#include <cstdint>
#include <vector>

#include "meridian/chain.h"

namespace crownwright::solid {

/// What a stretch of the walk is for.
enum class Role : std::uint8_t {
  crown,
  collar,
  groove,
  flange,
  foot,
  socket,
  floor,
  inner,
  side,
  under,
  pole_vent
};
const char* role_name(Role role);

struct Shell {
  meridian::Chain walk;
  std::vector<Role> roles;     ///< one for each segment
  std::vector<double> starts;  ///< arc length at which each segment starts; one more entry: the whole length
  bool closed = false;

  double length() const { return starts.back(); }
};

/// Precondition: walk and roles have equal size and the walk has no gaps.
Shell make_shell(meridian::Chain walk, std::vector<Role> roles, bool closed);

/// A stretch of arc length on a shell's walk.
struct Span {
  double from = 0, to = 0;
};

enum class RimStyle : std::uint8_t { round, chamfer };

struct VentShape {
  double radius = 0;  ///< of the bore
  double rim = 0;     ///< depth and width of the rim's round or chamfer on the pressing face; 0: sharp
  RimStyle style = RimStyle::round;
  double mouth() const { return radius + rim; }  ///< radius at the pressing face
};

/// Where the bores of a ring break through a shell.
struct Opening {
  std::size_t shell = 0;
  Span loop;              ///< stretch of the walk that the opening covers
  Span strip;             ///< stretch kept for it: strips of different rings never overlap
  double half_angle = 0;  ///< radians: the opening seen from the axis, half of it
};

/// One ring of equal vents about the axis. The circle is divided into equal cells; cell i has its centre at
/// angle phase + 2 pi i / cells and carries a vent or not.
struct VentRing {
  meridian::Point entry;      ///< on the pressing face, at the cell's centre
  meridian::Point direction;  ///< unit vector (dr, dz), from the pressing face into the material
  double depth = 0;           ///< from entry to the far face along the bore's axis
  double phase = 0;
  std::vector<std::uint8_t> has_vent;  ///< one for each cell
  Opening outer, inner;

  int cells() const { return static_cast<int>(has_vent.size()); }
  int count() const;
};

struct Solid {
  std::vector<Shell> shells;
  meridian::Point head_line;  ///< where crown meets collar; a pad has none: then (0, 0), the foot plane
  bool has_head_line = true;
  VentShape vent;
  std::vector<VentRing> rings;
  bool pole_vent = false;
  double wall = 0;  ///< ordered wall; 0: solid

  int vent_count() const;
  /// 2 handles counted once: genus of the whole boundary summed over its pieces, and the number of pieces,
  /// after the vents are cut. Follows from the shells and the number of vents alone.
  int expected_pieces() const;
  int expected_genus() const;
};

/// Closed form (Pappus-Guldinus), ring vents not taken off.
double unpierced_volume(const Solid& solid);
double unpierced_area(const Solid& solid);
/// Volume taken out by one vent of the ring, rim included, by quadrature to about 1e-9 relative.
double vent_volume(const Solid& solid, const VentRing& ring);
/// Closed form less all vents.
double volume(const Solid& solid);

}  // namespace crownwright::solid
