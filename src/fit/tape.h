#pragma once
// What a tape sewn over every seam adds to the girth the cloth has to go round.
//
// The tape lies between cloth and form, n strips of it round a parallel of girth 2 pi r. Cut square to the
// surface along the parallel, the form is nearly a circle whose radius is that of the surface's curvature
// there: R = r / sin, the distance to the axis along the normal (Meusnier), sin = sqrt(1 - r'^2), 1 where the
// side stands upright and 0 on a flat top. On this circle the strips are flat humps of the tape's thickness
// and width, and the cloth lies taut over them:
//   over a hump         its width at radius R + thickness
//   beside it           straight down to the circle, on which it then lies; or, where the humps stand so near
//                       that they keep it off, straight over to the next one.
// On a flat top the cloth loses nothing, on an upright side most. The tape's own length is taken along the
// form, which is where it lies.

#include "fit/fit.h"

namespace crownwright::fit {

/// Girth / 2 pi to be added to a parallel of radius r >= 0 where dr/ds = slope, with `count` strips, mm.
/// Where the strips are wider than their share of the girth they lie edge to edge.
double taped_growth(double r, double slope, int count, const Tape& tape);

}  // namespace crownwright::fit
