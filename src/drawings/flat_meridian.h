#pragma once
// A meridian made ready for a drawing: as points, cut into layers, and the round scale it is drawn at.

#include <string>

#include "meridian/chain.h"
#include "pattern/plane.h"

namespace crownwright::drawings {

/// x = r, y = z, both mm of the form; chords within `tolerance`. Empty for an empty chain.
pattern::Polyline flat_meridian(const meridian::Chain& chain, double tolerance);

struct MeridianSize {
  double radius = 0, low = 0, high = 0;
};
MeridianSize size_of_meridian(const pattern::Polyline& meridian);

/// The whole section, left and right of the axis, between two heights: closed, x across, y up. Empty where
/// the form is not.
pattern::Polyline section_between(const pattern::Polyline& meridian, double bottom, double top);

/// The greatest radius of the meridian at a height; 0 where it is not.
double radius_at_height(const pattern::Polyline& meridian, double z);

/// A scale people can reckon with (1 : 2, 1 : 2.5, 2 : 1, ...), the greatest that is at most `most` mm of
/// paper a mm.
struct DrawingScale {
  double factor = 1;
  std::string says;  ///< "1 : 2"
};
DrawingScale round_scale(double most);

}  // namespace crownwright::drawings
