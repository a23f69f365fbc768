#pragma once
// A form cut from sheets of one thickness with scissors or knife: discs stacked from the foot up, lined up on
// a skewer. Millimetres.
//
// Every sheet has one upright edge for its whole thickness, so between sheets there are steps. Where its edge
// lies is a choice:
//   inside   at the least radius that the form has within the sheet's height: the stack nowhere stands out
//   outside  at the greatest: the stack nowhere falls short
//   mean     at the mean of the radius over that height, (1/h) integral r dz
// so that the volume of inside <= the form's <= outside. Under an overhang a sheet is still a whole disc. A
// form that is hollow beneath (a pad over a raised dish) gets rings there.

#include <optional>
#include <vector>

#include "base/result.h"
#include "meridian/chain.h"
#include "solid/solid.h"

namespace crownwright::parts {

enum class SheetEdge { inside, outside, mean };

struct StackPlan {
  double sheet = 10;  ///< thickness, > 0
  SheetEdge edge = SheetEdge::mean;
  double hole = 4;  ///< for the skewer, diameter; 0: none
};

struct StackSheet {
  int number = 1;           ///< from the foot up
  double from = 0, to = 0;  ///< heights; the last one's may be less than a sheet apart
  double radius = 0;
  double inner = 0;  ///< of a ring's opening; 0: a disc
};

struct Stack {
  std::vector<StackSheet> sheets;
  double height = 0;          ///< of the form
  double last_thickness = 0;  ///< to which the last sheet is thinned; the sheet's own when it fits
  double worst_step = 0;      ///< greatest distance from a corner of the stack to the form's surface
  double worst_at = 0;        ///< its height
  double volume = 0;          ///< of the stack, skewer's hole left out
  double form_volume = 0;     ///< of the form without cavity, socket and vents
  double sheet_area = 0;      ///< of all discs, mm2
};

/// What the form shows outside, from the axis at its top round to the axis at its foot, as if it were
/// massive: cavity, socket and vents left out, a pole vent's mouth and an open foot closed level.
meridian::Chain outer_face(const solid::Solid& solid);

/// Preconditions: `face` as outer_face gives it; a sheet > 0, a hole >= 0. Sheets in which nothing, or less
/// than a rim of 3 mm round the skewer, is left are left out (a dome's top with edges inside). Faults
/// (impossible): no sheet is left, or more than 1,000 would be needed.
Result<Stack> stack_of(const meridian::Chain& face, const StackPlan& plan);

/// How long a sheet of that width is needed when the discs are laid in rows, largest first, 5 mm apart and
/// from the edges; nothing when the largest is wider than the sheet. Mm.
std::optional<double> sheet_length(const Stack& stack, double width);

}  // namespace crownwright::parts
