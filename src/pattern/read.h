#pragma once
// From a drawn panel back to the crown it sews up to: the fixed point of the draft law. Never from slopes of
// the drawing.

#include <optional>

#include "base/result.h"
#include "pattern/draft.h"
#include "pattern/drawn_panel.h"

namespace crownwright::pattern {

/// More cloth than any round form takes: |r'| > 1, judged on r smoothed over at least the half width h.
struct TooMuchCloth {
  double at = 0;     ///< distance from the tip where most is too much, mm
  double from = 0;   ///< where the excess begins
  double girth = 0;  ///< mm of girth beyond what the meridian's length allows
};

struct ClothReading {
  Parallels cloth;    ///< the cloth's own girth / 2 pi at every distance along the meridian
  PanelNet net;       ///< the panel drafted anew from it
  double misfit = 0;  ///< greatest distance of that net's seam from the drawn one, mm
  std::optional<TooMuchCloth> too_much;
};

/// Faults (`impossible`): the law finds no crown (with the place).
Result<ClothReading> read_cloth(const DrawnPanel& drawn, LengthAlong along);

}  // namespace crownwright::pattern
