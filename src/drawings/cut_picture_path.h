#pragma once
// A path thinned to what can be seen: of passes that lie closer than can be told apart on paper, every so
// many are drawn.

#include <vector>

#include "drawings/chart_canvas.h"

namespace crownwright::drawings {

struct PaperBox {
  double left = 0, top = 0, right = 0, bottom = 0;
};

/// Takes the passes of one program in their order, in paper millimetres.
class PathThinner {
 public:
  /// Passes come no nearer than `gap` to those drawn before; what is outside the box is left out. `gap` > 0.
  PathThinner(const PaperBox& box, double gap);

  /// One pass (a turn of a spiral, a ring, a straight way): drawn whole where most of it is clear of the
  /// passes drawn before, else its long clear stretches. Points that are not finite break it.
  void add(const std::vector<ChartPoint>& pass);
  const std::vector<std::vector<ChartPoint>>& drawn() const { return drawn_; }
  /// True for a place that is no nearer than the gap to anything taken before; it is taken then.
  bool take_place(ChartPoint p);

 private:
  using Run = std::vector<ChartPoint>;
  std::vector<Run> runs_of(const std::vector<ChartPoint>& pass) const;
  void draw_run(const Run& run);
  bool is_clear(ChartPoint p) const;
  void take(const Run& run);

  PaperBox box_;
  double gap_;
  int columns_, rows_;
  std::vector<std::vector<ChartPoint>> cells_;
  std::vector<Run> drawn_;
};

}  // namespace crownwright::drawings
