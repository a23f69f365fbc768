// Walls of rooms, grooves and pins, measured on the plan by sampled points.

#include "parts/puzzle_rooms.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "support/form_table.h"
#include "support/seed.h"

namespace crownwright::parts {
namespace {

double to_segment(PlanPoint p, PlanPoint a, PlanPoint b) {
  const double dx = b.x - a.x, dy = b.y - a.y;
  const double t = std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

double to_outline(PlanPoint p, const PlanPolygon& polygon) {
  double least = 1e9;
  for (std::size_t i = 0; i < polygon.size(); ++i)
    least = std::min(least, to_segment(p, polygon[i], polygon[(i + 1) % polygon.size()]));
  return least;
}

/// Least distance of a room's upright walls to the cell's joints, out to the widest circle.
double least_wall(const Room& room, const Cell& cell, double widest) {
  const PlanPolygon joints = outline(cell);
  double least = 1e9;
  for (const PlanEdge& e : section_within(outline(room, 4 * widest), widest)) {
    if (e.radius > 0) continue;
    for (int k = 0; k <= 400; ++k)
      least = std::min(least, to_outline({e.from.x + (e.to.x - e.from.x) * k / 400,
                                          e.from.y + (e.to.y - e.from.y) * k / 400},
                                         joints));
  }
  return least;
}

void expect_walls(const Cell& cell, const Furnishing& f, const CutForm& form, double wall, double c) {
  Cell bare = cell;
  for (auto& edge : bare.dovetails) edge.clear();
  for (const Room& room : f.rooms) {
    EXPECT_GE(least_wall(room, bare, 140), wall - 1e-9) << cell.name;
    EXPECT_GE(least_wall(room, cell, 140), std::min(wall, 3.0) - 1e-9) << cell.name;
  }
  if (!f.pin) return;
  const PlanPoint at{f.pin->x, f.pin->y};
  const double hole = f.pin->radius + c / 2;
  EXPECT_GE(to_outline(at, outline(cell)) - hole, pin_wall - 1e-9) << cell.name;
  EXPECT_GE(form.radius() - std::hypot(at.x, at.y) - hole, pin_wall - 0.05) << cell.name;
  for (const Room& room : f.rooms) {
    const PlanPolygon inside = outline(room, 999);
    EXPECT_GE(to_outline(at, inside) - hole, pin_wall - 1e-9) << cell.name;
  }
}

TEST(PuzzleRooms, WallsAreNowhereThinnerThanTheForms) {
  for (const double wall : {2.0, 4.0, 6.0}) {
    const auto block = solid::build_block(test::plain_block(test::worked_case(), wall)).value();
    const CutForm form = cut_form(block, ring_cut(block)).value();
    for (const int pieces : {5, 7, 9}) {
      const PuzzlePlan plan =
          plan_puzzle({140, 90.7, 0.4, pieces == 5 ? Cap::soft : Cap::stiff, pieces}).value();
      std::size_t rooms = 0;
      for (const Cell& cell : puzzle_cells(plan)) {
        const Furnishing f = furnish(cell, plan, form, wall);
        expect_walls(cell, f, form, wall, 0.4);
        EXPECT_EQ(f.pin.has_value(), cell.name != "key");
        EXPECT_TRUE(furnish(cell, plan, form, 0).rooms.empty());
        rooms += f.rooms.size();
      }
      EXPECT_GE(rooms, std::size_t(pieces));
    }
  }
}

// Small heads under wide crowns leave thin ends: pins get thinner, and then there are none.
TEST(PuzzleRooms, PinsShrinkWithTheEnds) {
  bool thin = false, none = false;
  for (double b = 30; b < 60; b += 1) {
    const double a = 2.05 * b;
    const PuzzlePlan plan = plan_puzzle({a, b, 0.4, Cap::soft, 5}).value();
    const auto block = solid::build_block(test::plain_block({a, b, 0.8 * b, 3, 8, 8}, 2)).value();
    const CutForm form = cut_form(block, ring_cut(block)).value();
    for (const Cell& cell : puzzle_cells(plan)) {
      const Furnishing f = furnish(cell, plan, form, 2);
      expect_walls(cell, f, form, 2, 0.4);
      if (!cell.name.starts_with("end")) continue;
      thin = thin || (f.pin && f.pin->radius < widest_pin);
      none = none || !f.pin;
    }
  }
  EXPECT_TRUE(thin);
  EXPECT_TRUE(none);
}

}  // namespace
}  // namespace crownwright::parts
