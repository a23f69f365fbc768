#pragma once
// Rim and wall of a vent between its two openings.

#include <vector>

#include "mesh/cell.h"

namespace crownwright::mesh {

/// Vertices round a bore such that neither its wall nor its rim leaves the true one by more than the budget.
int bore_sides(const solid::VentShape& vent, double budget);

/// The loops between mouth and bore that divide the rim; the last one is the rim's foot on the bore. Empty
/// for a sharp rim. `mouth` is the opening on the pressing face. Each point hangs below its own mouth point:
/// depth q-dependent, same bore angle.
std::vector<std::vector<Spot>> rim_loops(const solid::VentShape& vent, const solid::VentRing& ring,
                                         const std::vector<Spot>& mouth, double budget);

/// Greatest distance found between the rim's facets and the true rim, which hangs from the mouth's true edge.
double rim_chord_error(const solid::Solid& solid, const solid::VentRing& ring, const std::vector<Spot>& mouth,
                       const std::vector<std::vector<Spot>>& rim);

}  // namespace crownwright::mesh
