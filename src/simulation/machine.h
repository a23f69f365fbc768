#pragma once
// The machine that runs the programs, one after the other, on one stock.

#include <vector>

#include "simulation/extent.h"
#include "simulation/height_map.h"
#include "simulation/simulate.h"
#include "simulation/standing.h"
#include "simulation/sweep.h"

namespace crownwright::simulation {

class Machine {
 public:
  /// `findings` is filled while programs run; all must outlive the machine.
  Machine(const Bench& bench, const Limits& limits, double cell, Findings& findings);
  void run(const Cut& cut);
  /// After the last program: extents, first lines.
  void finish();
  const HeightMap& map() const { return map_; }

 private:
  void run_stroke(const Stroke& before, const Stroke& stroke);
  void look_for_blind(const Stroke& before, const Stroke& stroke);
  void note_extent(const Stroke& before, const Stroke& stroke);
  double run_piece(const Piece& piece);
  void look_for_holder(const Piece& piece);
  void look_for_plunge(const Piece& piece);
  void look_at_drill(const Piece& piece, const Bite& bite);
  void count_length(const Stroke& stroke, const Piece& piece, double depth);
  void note(Trouble kind, const std::string& words);

  const Bench& bench_;
  const Limits& limits_;
  Findings& findings_;
  HeightMap map_;
  Standing standing_;
  Extent extent_;
  double lowest_tip_, lowest_drill_;
  double dive_ = 0;  // solid gone through since the tool last moved sideways
  // Of the program and the line in hand.
  const Cut* cut_ = nullptr;
  int line_ = 0;
};

}  // namespace crownwright::simulation
