#pragma once
// The outside of a form as the mill sees it.

#include <optional>
#include <vector>

#include "base/result.h"
#include "solid/solid.h"

namespace crownwright::milling {

struct Outline {
  meridian::Chain outer;  ///< from the pole (0, height) to the foot's outer edge at z = 0, form coordinates
  double height = 0;
  std::optional<double> head_line;  ///< its z; none for a pad
  double head_radius = 0;           ///< there
  double widest = 0;                ///< crown radius
  double equator = 0;               ///< the greatest z at which the form is that wide
  double lower_edge_radius = 0;     ///< of the arc that begins below the equator; 0: a corner or a wall
  double foot_radius = 0;           ///< of the outermost point of the foot's plane z = 0
  bool pad = false;
};

/// `outer` never rises; a vent at the pole is closed by carrying the tip on to the axis. Fault (impossible):
/// the form does not stand on a flat face (a pad that follows a dish), or its underside turns up again before
/// the head line.
Result<Outline> outline_of(const solid::Solid& solid);

}  // namespace crownwright::milling
