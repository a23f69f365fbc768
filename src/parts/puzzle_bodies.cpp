#include "parts/puzzle_bodies.h"

#include <algorithm>
#include <cmath>

#include "meridian/refusal.h"
#include "parts/puzzle_piece.h"
#include "parts/puzzle_ring.h"

namespace crownwright::parts {
namespace {

std::vector<Cell> cells_for(const PuzzlePlan& plan, const CutForm& form) {
  std::vector<Cell> cells = puzzle_cells(plan, form.neck());
  if (tongue_top(cells, form, plan.c) >= form.cut + least_tongue) return cells;
  for (Cell& cell : cells)
    for (auto& edge : cell.dovetails) edge.clear();
  return cells;
}

/// A corner whose joints meet within the cord groove would leave a chip below it.
bool is_chipped(const Cell& cell, const CutForm& form) {
  constexpr double least_neck = 1;  // mm2
  return area(section_within(outline(cell), form.neck())) < least_neck;
}

}  // namespace

Result<Puzzle> build_puzzle(const solid::Solid& block, const PuzzlePlan& plan, double opening,
                            double tolerance) {
  const double cut = ring_cut(block);
  if (cut < least_plate) {
    return impossible_fault(
        "the collar of " + meridian::mm_text(block.head_line.z) +
            " has no room for the ring that holds a puzzle block's pieces",
        "a collar of at least " + meridian::least_text(block.head_line.z - cut + least_plate));
  }
  const auto form = cut_form(block, cut);
  if (!form) return form.fault();
  const auto at_head = cut_form(block, block.head_line.z);
  if (!at_head) return at_head.fault();
  Puzzle puzzle;
  puzzle.plan = plan;
  const std::vector<Cell> cells = cells_for(plan, *form);
  const double top = tongue_top(cells, *form, plan.c);
  RingQuestion ring{*form, {}, {}, block.wall, tolerance};
  for (const Cell& cell : cells) {
    const bool chipped = is_chipped(cell, *form);
    const Furnishing furnishing = chipped ? Furnishing{} : furnish(cell, plan, *form, block.wall);
    auto piece = build_piece({block, chipped ? *at_head : *form, cell, furnishing, plan.c, top, tolerance});
    if (!piece) return piece.fault();
    puzzle.vents += piece->genus;
    puzzle.parts.push_back(std::move(*piece));
    if (furnishing.pin) ring.pins.push_back(*furnishing.pin);
    if (!furnishing.pin && cell.name != "key") puzzle.unpinned.push_back(cell.name);
    ring.openings.insert(ring.openings.end(), furnishing.rooms.begin(), furnishing.rooms.end());
  }
  auto made = build_ring(ring);
  if (!made) return made.fault();
  puzzle.parts.insert(puzzle.parts.begin(), std::move(*made));
  puzzle.steps = taking_out(plan, form->outer, opening);
  puzzle.steps.insert(puzzle.steps.begin(), ring_off(plan.b, opening));
  return puzzle;
}

}  // namespace crownwright::parts
