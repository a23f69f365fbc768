#pragma once
// How far the crown gives way under a press.
//
// The crown is a round plate held at the crown's edge and at the same time part of a ball; each gives way by
// a formula of its own, and the two share the load like springs side by side that grow together:
//   w = (wp^-2 + ws^-2)^(-1/2)
//   wp  clamped circular plate under a load spread over a disc in its middle (Roark's Formulas for Stress and
//       Strain, circular plates; Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, section 19):
//       P / (64 pi D) (4 a^2 - 4 c^2 ln(a/c) - 3 c^2),  D = E t^3 / (12 (1 - nu^2))
//   ws  shallow sphere under a load on a point (E. Reissner, Stresses and small displacements of shallow
//       spherical shells, J. Math. Phys. 25 (1946-47)): P R sqrt(3 (1 - nu^2)) / (4 E t^2)
// Against finite elements the sum lies within 0.92 and 1.32 for crowns as they are made (tried on 16 forms,
// and on clamped caps with an edge free to spread). Thin walls under high domes give way up to three times
// less than it says, since the load is spread over more than the dent; never much more. The wall is taken as
// massive: sparse infill gives way more. Millimetres, newtons, MPa, degrees C.

#include <optional>

#include "workshop/material.h"

namespace crownwright::press {

struct PressLoad {
  double force = 150;   ///< N, > 0
  double area = 10000;  ///< mm2 in the middle of the crown, > 0

  /// Of the disc of that area.
  double radius() const;
};

struct Elastic {
  double modulus = 0;  ///< MPa, > 0
  double poisson = 0;  ///< 0 to 0.5
};

struct CrownWall {
  double radius = 0;  ///< of the plate: crown radius, or the largest free circle between posts
  std::optional<double> dome_radius;  ///< of the tip arc; nothing for a flat tip
  double wall = 0;                    ///< thickness
};

/// wp. A disc wider than the plate loads it all over, with the share of the force that falls on it.
double plate_deflection(const PressLoad& load, double radius, double wall, const Elastic& elastic);
/// ws, with the same share of the force where the disc is wider than `radius`.
double dome_deflection(const PressLoad& load, double radius, double dome_radius, double wall,
                       const Elastic& elastic);
/// w. Preconditions: all lengths and the modulus > 0 (else std::logic_error).
double crown_deflection(const PressLoad& load, const CrownWall& crown, const Elastic& elastic);

/// MPa. At its HDT a bar bends by a strain of 0.2 % under 0.45 MPa (ISO 75's own standard deflection): 225
/// MPa.
inline constexpr double modulus_at_hdt = 225;

/// Falls on a straight line from `cold` at 23 C to 225 MPa at the HDT. Below 23 C as cold, above the HDT
/// nothing is told. What is softer than 225 MPa already when cold stays as it is.
std::optional<double> modulus_at(double cold, double hdt, double celsius);

/// The profile's figures when cold; nothing where the modulus is not known. A missing Poisson's ratio is
/// taken as 0.35 (w changes by 4 % from 0.30 to 0.40).
std::optional<Elastic> elastic_of(const workshop::MaterialProfile& material);
/// The same at the job's temperature; nothing above the HDT. Without an HDT: as cold.
std::optional<Elastic> elastic_at(const workshop::MaterialProfile& material, double celsius);

}  // namespace crownwright::press
