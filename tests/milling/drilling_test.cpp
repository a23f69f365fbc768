#include "milling/drilling.h"

#include <gtest/gtest.h>

#include <cmath>

#include "milling/finish_shapes.h"

namespace crownwright::milling {
namespace {

Setup drilled_pad(const std::vector<Hole>& holes) {
  Setup setup = shapes::setup_of(shapes::pad_125(), shapes::plain_job());
  setup.holes = holes;
  return setup;
}

Job drilling_job() {
  Job job = shapes::plain_job();
  job.drill = Drill{};
  return job;
}

/// How deep each hole is while the path is walked; what is wrong in words.
std::string wrong_with(const Setup& setup, const Job& job, const Path& path) {
  if (path.size() < 3 || path[0].kind != MoveKind::rapid || path[0].z != setup.safe) return "no safe start";
  if (path.back().kind != MoveKind::rapid || path.back().z != setup.safe) return "no safe end";
  Move at = path[0];
  double bottom = 1e9;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const Move& move = path[i];
    const bool across = move.x != at.x || move.y != at.y;
    if (move.kind != MoveKind::rapid && move.kind != MoveKind::line) return "an arc";
    if (across && (move.kind != MoveKind::rapid || move.z != setup.safe || at.z != setup.safe) && i > 1)
      return "goes across below the safe height";
    if (across) bottom = 1e9;
    if (bottom == 1e9 && move.kind == MoveKind::line) bottom = at.z - 1;  // the surface
    if (move.kind == MoveKind::rapid && move.z < bottom + 0.5 - 1e-9 && bottom < 1e9)
      return "a rapid too low";
    if (move.kind == MoveKind::line && bottom - move.z > job.drill->diameter + 1e-9) return "a peck too deep";
    if (move.kind == MoveKind::line) bottom = std::min(bottom, move.z);
    at = move;
  }
  return "";
}

double lowest_at(const Path& path, const Hole& hole) {
  double lowest = 1e9;
  for (const Move& move : path)
    if (move.x == hole.x && move.y == hole.y) lowest = std::min(lowest, move.z);
  return lowest;
}

const std::vector<Hole> three_holes = {{100, 0, 1.5, -1}, {0, 0, 1.5, 10}, {30, 40, 1.5, -1}};

TEST(Drilling, PecksEveryHole) {
  const auto setup = drilled_pad(three_holes);
  const Path path = drill_path(setup, drilling_job());
  EXPECT_EQ(wrong_with(setup, drilling_job(), path), "");
  for (const Hole& hole : three_holes) EXPECT_DOUBLE_EQ(lowest_at(path, hole), hole.bottom);
}

TEST(Drilling, DrawnBackClearBetweenPecks) {
  const auto setup = drilled_pad({{0, 0, 1.5, -1}});
  const Path path = drill_path(setup, drilling_job());
  // Surface 30 mm, 31 mm deep: 11 pecks of 2.82 mm; between them up over the surface.
  int pecks = 0;
  for (std::size_t i = 1; i + 1 < path.size(); ++i)
    if (path[i].kind == MoveKind::line) {
      ++pecks;
      EXPECT_EQ(path[i].feed, drilling_job().drill_feeds.plunge);
      EXPECT_EQ(path[i + 1].kind, MoveKind::rapid);
      EXPECT_GT(path[i + 1].z, 30);
    }
  EXPECT_EQ(pecks, 11);
}

TEST(Drilling, StartsOverWhatStandsThere) {
  // The drill's edge nearest to the axis, at 98.5 mm, meets the tip arc first.
  const auto setup = drilled_pad({{100, 0, 1.5, -1}});
  const Path path = drill_path(setup, drilling_job());
  const auto& tip = setup.target.front();
  const double surface = tip.centre().z + std::sqrt(tip.radius() * tip.radius() - 98.5 * 98.5);
  ASSERT_EQ(path[2].kind, MoveKind::rapid);
  EXPECT_NEAR(path[2].z, surface + 1, 1e-6);
}

TEST(Drilling, ShortWays) {
  const Path path = drill_path(drilled_pad(three_holes), drilling_job());
  std::vector<double> order;
  for (const Move& move : path)
    if (order.empty() || order.back() != move.x) order.push_back(move.x);
  EXPECT_EQ(order, (std::vector<double>{0, 30, 100}));
}

TEST(Drilling, NothingToDrill) {
  EXPECT_TRUE(drill_path(drilled_pad({}), drilling_job()).empty());
  EXPECT_TRUE(drill_path(drilled_pad(three_holes), shapes::plain_job()).empty());
}

}  // namespace
}  // namespace crownwright::milling
