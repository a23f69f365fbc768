#pragma once

#include "proof/proven.h"
#include "solid/solid.h"

namespace crownwright::proof {

/// What was read back from the triangles against the solid: crown diameter, rise, girth at the head line,
/// wall, chord error, each as a check of its own.
void add_reading_checks(const Readings& readings, const solid::Solid& solid, double tolerance,
                        Verdict& verdict);

}  // namespace crownwright::proof
