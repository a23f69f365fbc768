#pragma once
// Getting the form out again. A flexible opening of girth G lets a body pass when every one of a family of
// parallel sections has a convex hull no longer than G (sufficient; collar and flange count).

#include <optional>

#include "meridian/chain.h"

namespace crownwright::fit {

struct Needed {
  double straight = 0;    ///< lifted along the axis: girth of the widest parallel, 2 pi a
  double edge_first = 0;  ///< tilted and drawn out edge first: hull of the meridian section and its mirror
  double least() const { return straight < edge_first ? straight : edge_first; }
};

/// Of the form's outer face, whole: crown, collar, flange (the chain from pole to foot; r >= 0).
/// Check (from the project's own mathematics, computed twice): crown 140 / 90.7 / 75, e 20, collar 30:
/// straight 879.6, edge first 672.3 mm; opening 569.9: stretch 18.0 %; collar 15: 13.8 %; none: 10.1 %.
Needed needed_girth(const meridian::Chain& outer);

struct OpeningQuestion {
  double girth = 0;  ///< of the sewn opening, at rest
  double cloth_stretch = 0;
  std::optional<double> band_girth;  ///< finished, at rest; nothing: no band
  double band_stretch = 0;           ///< of the band (0 for a band cut along the grain; elastic counts)
};

struct Opening {
  double girth = 0;
  Needed needed;
  double stretch_needed = 0;  ///< least needed / girth - 1; not below 0
  bool passes = false;        ///< without the band
  std::optional<double> band_stretch_needed;
  std::optional<bool> passes_with_band;
};

Opening judge_opening(const Needed& needed, const OpeningQuestion& question);

}  // namespace crownwright::fit
