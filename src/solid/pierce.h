#pragma once
// Where the straight lines of a bore meet a revolved face.
//
// A bore's axis lies in a meridian plane. In that plane the frame is: the entry point, the direction d into
// the material, and e = (-dz, dr), which runs along the walk at the entry. The bore's line at angle phi and
// distance q from the axis is  entry + q (cos(phi) e + sin(phi) y) + depth d,  y being the direction of
// growing angle about z.

#include <vector>

#include "solid/solid.h"

namespace crownwright::solid {

struct Bore {
  meridian::Point entry;
  meridian::Point direction;
  meridian::Point along() const { return {-direction.z, direction.r}; }
};

struct Pierced {
  double depth = 0;            ///< along the bore from the entry
  double s = 0;                ///< arc length on the shell's walk
  double x = 0, y = 0, z = 0;  ///< in the frame whose x axis lies in the bore's meridian plane
  bool found = false;
};

/// Newton's method on the signed distance to the stretch `within` of the walk (which must be free of
/// corners), started at `guess`. found is false when it does not settle within the stretch.
Pierced pierce(const Shell& shell, Span within, const Bore& bore, double q, double phi, double guess);

/// Distance of a point (in the frame of its bore's meridian plane) from the true bore or, above its foot, the
/// true rim, which hangs from the mouth's edge at the point's own bore angle.
double distance_to_rim(const Solid& solid, const VentRing& ring, const Bore& bore, double x, double y,
                       double z);

/// First crossing of the bore's own axis with any shell at a depth beyond `least`; shell and arc length, or
/// found = false.
struct Crossing {
  std::size_t shell = 0, segment = 0;
  double depth = 0, s = 0;
  bool found = false;
};
Crossing first_crossing(const std::vector<Shell>& shells, const Bore& bore, double least);

/// The longest stretch of the walk round arc length s without a corner (joints whose tangents agree within
/// 1e-6), limited to segments whose role is accepted.
Span smooth_stretch(const Shell& shell, double s, bool (*accept)(Role));

}  // namespace crownwright::solid
