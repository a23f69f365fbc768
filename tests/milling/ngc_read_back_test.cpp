// Programs read back by the simulation's reader, which shares no code with the writer but the reading of
// numbers.

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "milling/ngc.h"
#include "simulation/ngc_reader.h"
#include "support/random_number.h"
#include "support/seed.h"

using namespace crownwright;
using namespace crownwright::milling;

namespace {

// A pad's kind of path: rings and ramps, arcs and a spiral of short moves.
Path ring_path(std::mt19937_64& random) {
  Path path = {{MoveKind::rapid, 0, 0, 40, 0, 0, 0}, {MoveKind::rapid, 100, 0, 40, 0, 0, 0}};
  for (int ring = 0; ring < 5; ++ring) {
    const double r = test::uniform(random, 3, 150), z = test::uniform(random, -3, 35),
                 feed = 600.0 + 100 * ring;
    path.push_back({MoveKind::line, r, 0, z, 0, 0, feed});
    const MoveKind kind = ring % 2 == 0 ? MoveKind::arc_ccw : MoveKind::arc_cw;
    path.push_back({kind, -r, 0, z, 0, 0, feed});
    path.push_back({kind, r, 0, z - 1, 0, 0, feed});
    for (int i = 1; i < 50; ++i) {
      const double angle = 0.03 * i;
      path.push_back({MoveKind::line, (r + 0.01 * i) * std::cos(angle), (r + 0.01 * i) * std::sin(angle),
                      z - 1 - 0.01 * i, 0, 0, feed});
    }
  }
  path.push_back({MoveKind::rapid, path.back().x, path.back().y, 40, 0, 0, 0});
  return path;
}

}  // namespace

TEST(NgcReadBack, GivesThePathAgain) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 20; ++trial) {
    const Path path = ring_path(random);
    ProgramHead head;
    head.notes = {"a trial"};
    const auto program = simulation::read_program(ngc_text(head, path, Dialect::rs274), "trial.ngc");
    ASSERT_TRUE(program.ok()) << program.fault().line();
    EXPECT_EQ(program->comments, std::vector<std::string>{"a trial"});
    ASSERT_EQ(program->strokes.size(), path.size());
    for (std::size_t i = 1; i < path.size(); ++i) {
      const simulation::Stroke& stroke = program->strokes[i];
      ASSERT_EQ(static_cast<int>(stroke.motion == simulation::Motion::clockwise          ? MoveKind::arc_cw
                                 : stroke.motion == simulation::Motion::counterclockwise ? MoveKind::arc_ccw
                                 : stroke.motion == simulation::Motion::feed             ? MoveKind::line
                                                                                         : MoveKind::rapid),
                static_cast<int>(path[i].kind));
      ASSERT_NEAR(stroke.x, path[i].x, 6e-5);
      ASSERT_NEAR(stroke.y, path[i].y, 6e-5);
      ASSERT_NEAR(stroke.z, path[i].z, 6e-5);
      ASSERT_NEAR(stroke.feed, path[i].feed, 6e-4);
      if (path[i].kind < MoveKind::arc_cw) continue;
      ASSERT_NEAR(stroke.cx, path[i].cx, 2.2e-4);
      ASSERT_NEAR(stroke.cy, path[i].cy, 2.2e-4);
      ASSERT_NEAR(std::abs(stroke.turn), std::numbers::pi, 1e-3);
    }
  }
}

TEST(NgcReadBack, TakesThePlainDialectToTheSameEnds) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 1);
  const Path path = ring_path(random);
  const auto program = simulation::read_program(ngc_text(ProgramHead(), path, Dialect::plain), "trial.ngc");
  ASSERT_TRUE(program.ok()) << program.fault().line();
  std::size_t at = 0;
  for (const simulation::Stroke& stroke : program->strokes) {
    const bool there = std::abs(stroke.x - path[at].x) < 6e-5 && std::abs(stroke.y - path[at].y) < 6e-5 &&
                       std::abs(stroke.z - path[at].z) < 6e-5;
    if (there) ++at;
    EXPECT_TRUE(there || stroke.motion == simulation::Motion::feed) << "only a helix has moves between";
    if (at == path.size()) break;
  }
  EXPECT_EQ(at, path.size());
}
