#pragma once
// What turns in the spindle. Millimetres; the tip, the lowest point on the tool's axis, is what programs
// move.

namespace crownwright::milling {

enum class ToolShape { ball, flat };

/// Ball: a half ball of the tool's diameter at its end. Flat: square-ended. Above the flute (cutting edges)
/// the shank is as thick as the cutter; above the stick-out stands the holder, a cylinder.
struct Tool {
  ToolShape shape = ToolShape::ball;
  double diameter = 6;
  double flute = 25;      ///< height of the cutting edges above the tip
  double stick_out = 60;  ///< height of the holder's lower face above the tip
  double holder = 25;     ///< diameter
  int edges = 2;          ///< cutting edges round the tool

  double radius() const { return diameter / 2; }
};

/// A twist drill; it only goes straight down and up.
struct Drill {
  double diameter = 3, flute = 25, stick_out = 60, holder = 25;
  double radius() const { return diameter / 2; }
};

}  // namespace crownwright::milling
