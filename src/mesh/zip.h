#pragma once
// Triangles between two rows.

#include <vector>

#include "mesh/rows.h"
#include "mesh/structure.h"

namespace crownwright::mesh {

/// Appends the triangles of the band from row a to row b (walked that way, air on the left), either of which
/// may be a point on the axis. Rows that agree in count and phase give a structured band; others are zipped,
/// always taking the edge whose middle comes first. Every triangle is written (a, b, next a) or (a, b, next
/// b), each going on from where the last one stopped, once round: the proof recognises such a band at a
/// glance.
void zip_rows(const Row& a, Cycle cycle_a, const Row& b, Cycle cycle_b, std::vector<Triangle>& out);

}  // namespace crownwright::mesh
