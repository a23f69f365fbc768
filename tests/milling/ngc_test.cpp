// Programs as written: every line by the rules of NISTIR 6556 and the promises of milling/ngc.h, and read
// back to where the path goes.

#include "milling/ngc.h"

#include <gtest/gtest.h>

#include <limits>
#include <numbers>
#include <stdexcept>

#include "milling/ngc_lines.h"
#include "milling/ngc_note.h"
#include "support/light.h"
#include "support/random_number.h"
#include "support/seed.h"

using namespace crownwright;
using namespace crownwright::milling;
using test::NgcLines;
using test::SaidMove;
using test::SaidProgram;

namespace {

constexpr double tau = 2 * std::numbers::pi;
constexpr Dialect both_dialects[] = {Dialect::rs274, Dialect::plain};

Move rapid_to(double x, double y, double z) { return {MoveKind::rapid, x, y, z, 0, 0, 0}; }
Move cut_to(double x, double y, double z, double feed = 1200) {
  return {MoveKind::line, x, y, z, 0, 0, feed};
}
Move bend_to(MoveKind kind, double x, double y, double z, double cx, double cy, double feed = 1200) {
  return {kind, x, y, z, cx, cy, feed};
}

/// A path that begins and ends as paths do, with `moves` from (x, y) and height 5 on.
Path whole_path(double x, double y, const Path& moves) {
  Path path = {rapid_to(0, 0, 30), rapid_to(x, y, 30), cut_to(x, y, 5, 300)};
  path.insert(path.end(), moves.begin(), moves.end());
  path.push_back(rapid_to(path.back().x, path.back().y, 30));
  return path;
}

SaidProgram said(const Path& path, Dialect dialect, const std::vector<std::string>& notes = {}) {
  ProgramHead head;
  head.notes = notes;
  const SaidProgram program = NgcLines::read(ngc_text(head, path, dialect), dialect == Dialect::plain);
  EXPECT_EQ(program.fault, "");
  return program;
}

std::vector<SaidMove> arcs_of(const SaidProgram& program) {
  std::vector<SaidMove> arcs;
  for (const SaidMove& move : program.moves) {
    if (move.code >= 2) arcs.push_back(move);
  }
  return arcs;
}

}  // namespace

// The form that NISTIR 6556 and the plain dialect allow, typed out.
TEST(Ngc, IsWrittenLikeThis) {
  ProgramHead head;
  head.notes = {"Stock 60 x 60 x 25 mm", "6 mm ball"};
  head.spindle = 12000;
  const Path path = {rapid_to(0, 0, 30),
                     rapid_to(10, 0, 30),
                     rapid_to(10, 0, 5),
                     cut_to(10, 0, -0.25, 300),
                     cut_to(12.34567, 0, -1),
                     bend_to(MoveKind::arc_ccw, 0, 12.34567, -1, 0, 0),
                     cut_to(0, -0.00004, -1, 1000.5),
                     rapid_to(0, -0.00004, 30)};
  const std::string text =
      "(Stock 60 x 60 x 25 mm)\n"
      "(6 mm ball)\n"
      "G21 G17 G90 G94\n"
      "G0 Z30.0000\n"
      "G0 X10.0000 Y0.0000\n"
      "M3 S12000\n"
      "G0 Z5.0000\n"
      "G1 Z-0.2500 F300\n"
      "G1 X12.3457 Y0.0000 Z-1.0000 F1200\n"
      "G3 X0.0000 Y12.3457 I-12.3457 J0.0000\n"
      "G1 X0.0000 Y0.0000 F1000.5\n"
      "G0 Z30.0000\n"
      "M5\n"
      "M2\n";
  EXPECT_EQ(ngc_text(head, path, Dialect::rs274), text);
  EXPECT_EQ(ngc_text(head, path, Dialect::plain), text);
}

TEST(Ngc, WritesNoArcWithAChordUnderAHundredth) {
  for (const Dialect dialect : both_dialects) {
    const auto program = [&](double turn) {
      return said(
          whole_path(5, 0, {bend_to(MoveKind::arc_ccw, 5 * std::cos(turn), 5 * std::sin(turn), 5, 0, 0)}),
          dialect);
    };
    EXPECT_TRUE(arcs_of(program(0.0019)).empty());
    EXPECT_EQ(program(0.0019).moves.size(), 5u) << "a line in its place";
    EXPECT_EQ(arcs_of(program(0.0021)).size(), 1u);
    // Just a hundredth, and a ten-thousandth less.
    const Path full = whole_path(-0.005, 0, {bend_to(MoveKind::arc_ccw, 0.005, 0, 5, 0, 0.5)});
    EXPECT_EQ(arcs_of(said(full, dialect)).size(), 1u);
    const Path less = whole_path(-0.005, 0, {bend_to(MoveKind::arc_ccw, 0.0049, 0, 5, -0.00005, 0.5)});
    EXPECT_TRUE(arcs_of(said(less, dialect)).empty());
  }
}

// The end of an arc that comes back almost to its start must not become a line, nor a whole turn nothing.
TEST(Ngc, WritesArcsOfMoreThanHalfATurnAsTwo) {
  for (const Dialect dialect : both_dialects) {
    for (const double missing : {0.00001, 0.0001, 0.001, 0.1, 3.0}) {
      for (const MoveKind kind : {MoveKind::arc_ccw, MoveKind::arc_cw}) {
        const double turn = (kind == MoveKind::arc_ccw ? 1 : -1) * (tau - missing);
        const auto arcs = arcs_of(said(
            whole_path(25, 3, {bend_to(kind, 20 + 5 * std::cos(turn), 3 + 5 * std::sin(turn), 5, 20, 3)}),
            dialect));
        ASSERT_EQ(arcs.size(), 2u) << missing;
        EXPECT_NEAR(NgcLines::turn_of(arcs[0]) + NgcLines::turn_of(arcs[1]), turn, 1e-4);
      }
    }
  }
}

TEST(Ngc, KeepsHalfATurnWhole) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 2000; ++trial) {
    const double radius = test::uniform(random, 0.02, trial % 2 == 0 ? 1 : 200);
    const double cx = test::uniform(random, -100, 100), cy = test::uniform(random, -100, 100);
    const double angle = test::uniform(random, 0, tau);
    const double dx = radius * std::cos(angle), dy = radius * std::sin(angle);
    const MoveKind kind = test::pick(random, 2) == 0 ? MoveKind::arc_ccw : MoveKind::arc_cw;
    const Path path =
        whole_path(cx + dx, cy + dy,
                   {bend_to(kind, cx - dx, cy - dy, 5, cx, cy), bend_to(kind, cx + dx, cy + dy, 5, cx, cy)});
    const auto arcs = arcs_of(said(path, Dialect::plain));
    ASSERT_FALSE(HasFailure()) << radius;
    ASSERT_EQ(arcs.size(), 2u);
    for (const SaidMove& arc : arcs) EXPECT_NEAR(std::abs(NgcLines::turn_of(arc)), tau / 2, 4e-4 / radius);
  }
}

// Chords of a circle of 20 mm whose sagitta is 0.005 mm: 2 acos(1 - 0.005 / 20) = 0.04472 each, 71 for half a
// turn.
TEST(Ngc, WritesAHelixAsItsDialectCan) {
  const Path path = whole_path(20, 0, {bend_to(MoveKind::arc_cw, -20, 0, -1, 0, 0)});
  const auto whole = arcs_of(said(path, Dialect::rs274));
  ASSERT_EQ(whole.size(), 1u);
  EXPECT_NEAR(NgcLines::turn_of(whole[0]), -tau / 2, 1e-9);
  EXPECT_NEAR(whole[0].z, -1, 1e-9);
  const SaidProgram chords = said(path, Dialect::plain);
  EXPECT_TRUE(arcs_of(chords).empty());
  int lines = 0;
  for (const SaidMove& move : chords.moves) {
    if (move.code != 1 || move.x == move.from_x) continue;
    ++lines;
    const double sagitta = 20 - std::hypot(move.x + move.from_x, move.y + move.from_y) / 2;
    EXPECT_LE(sagitta, 0.005 + 1e-4);
    EXPECT_LE(move.y, 1e-9) << "clockwise, from above, is through -y";
    const double share = -std::atan2(move.y - 1e-12, move.x) / (tau / 2);
    EXPECT_NEAR(move.z, 5 - 6 * share, 2e-4);
  }
  EXPECT_EQ(lines, 71);
}

// Every move is found again, in order and to half of the last decimal (0.00005 mm); arcs about the same
// centre.
TEST(Ngc, ReadsBackToRandomPaths) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto between = [&](double low, double high) { return test::uniform(random, low, high); };
  for (int trial = 0; trial < (test::light() ? 40 : 200); ++trial) {
    const Dialect dialect = both_dialects[trial % 2];
    Path moves;
    double x = between(-150, 150), y = between(-150, 150), z = 5;
    const double x0 = x, y0 = y;
    for (int i = 0; i < 60; ++i) {
      const double feed = test::pick(random, 3) == 0 ? between(10, 5000) : 1200;
      if (test::pick(random, 2) == 0) {
        const double reach = test::pick(random, 2) == 0 ? 0.1 : 50;
        x += between(0.01, reach), y -= between(-reach, reach), z = between(-3, 20);
        moves.push_back(cut_to(x, y, z, feed));
        continue;
      }
      const double radius = std::pow(10, between(-1, 2.5)), begin = between(0, tau);
      const double turn = between(0.2, tau - 0.2) * (test::pick(random, 2) == 0 ? 1 : -1);
      const double cx = x - radius * std::cos(begin), cy = y - radius * std::sin(begin);
      x = cx + radius * std::cos(begin + turn), y = cy + radius * std::sin(begin + turn);
      if (dialect == Dialect::rs274 && test::pick(random, 3) == 0) z += between(-1, 1);
      moves.push_back(bend_to(turn > 0 ? MoveKind::arc_ccw : MoveKind::arc_cw, x, y, z, cx, cy, feed));
    }
    const Path path = whole_path(x0, y0, moves);
    const SaidProgram program = said(path, dialect);
    std::size_t at = 1;
    for (std::size_t i = 1; i < path.size(); ++i) {
      const Move& move = path[i];
      const bool is_arc = move.kind == MoveKind::arc_cw || move.kind == MoveKind::arc_ccw;
      double turn = 0;
      for (bool there = false; !there; ++at) {
        ASSERT_LT(at, program.moves.size());
        const SaidMove& one = program.moves[at];
        ASSERT_EQ(one.code, static_cast<int>(move.kind)) << program.lines.back();
        ASSERT_NEAR(one.code > 0 ? one.feed : move.feed, move.feed, 0.0006);
        there = std::abs(one.x - move.x) < 6e-5 && std::abs(one.y - move.y) < 6e-5 &&
                std::abs(one.z - move.z) < 6e-5;
        ASSERT_TRUE(there || is_arc);
        if (!is_arc) continue;
        ASSERT_NEAR(one.from_x + one.i, move.cx, 2.2e-4);
        ASSERT_NEAR(one.from_y + one.j, move.cy, 2.2e-4);
        turn += NgcLines::turn_of(one);
        ASSERT_LT(std::abs(turn), tau);
      }
      if (!is_arc) continue;
      const double ax = path[i - 1].x - move.cx, ay = path[i - 1].y - move.cy;
      const double bx = move.x - move.cx, by = move.y - move.cy;
      double meant = std::atan2(ax * by - ay * bx, ax * bx + ay * by);
      if (move.kind == MoveKind::arc_ccw && meant < 0) meant += tau;
      if (move.kind == MoveKind::arc_cw && meant > 0) meant -= tau;
      ASSERT_NEAR(turn, meant, 1e-3 / std::hypot(bx, by) + 1e-5);
    }
    EXPECT_EQ(at, program.moves.size());
  }
}

// Far from the grid, on it, and just between two of its points.
TEST(Ngc, KeepsTheRadiiOfArcsTogetherAsTheyAreWritten) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 1);
  double worst = 0;
  for (int trial = 0; trial < 5000; ++trial) {
    const double radius = std::pow(10, test::uniform(random, -1.7, 3)), begin = test::uniform(random, 0, tau);
    const double turn = std::pow(10, test::uniform(random, -2, 0.49));
    if (2 * radius * std::sin(turn / 2) < 0.012) continue;
    const double cx = test::uniform(random, -50, 50),
                 cy = 0.00005 * static_cast<double>(test::pick(random, 99));
    const auto on = [&](double angle) {
      return std::pair(cx + radius * std::cos(angle), cy + radius * std::sin(angle));
    };
    const auto [x, y] = on(begin + turn);
    const Path path =
        whole_path(on(begin).first, on(begin).second, {bend_to(MoveKind::arc_ccw, x, y, 5, cx, cy)});
    for (const SaidMove& arc : arcs_of(said(path, Dialect::rs274))) {
      worst = std::max(worst, std::abs(std::hypot(arc.i, arc.j) -
                                       std::hypot(arc.x - arc.from_x - arc.i, arc.y - arc.from_y - arc.j)));
      EXPECT_NEAR(NgcLines::turn_of(arc), turn, 5e-4 / radius) << radius;
    }
    ASSERT_FALSE(HasFailure());
  }
  EXPECT_LT(worst, 0.00015) << "the centre is chosen for it; without that 0.0003 is met";
}

TEST(Ngc, LeavesOutMovesThatRoundToNothing) {
  const SaidProgram program =
      said(whole_path(1, 1,
                      {cut_to(1.00004, 1, 5), cut_to(1.00004, 0.99996, 5), cut_to(2, 1, 5), cut_to(2, 1, 5)}),
           Dialect::rs274);
  EXPECT_EQ(program.moves.size(), 5u);
}

TEST(Ngc, LiftsTheToolInTheEnd) {
  const Path path = {rapid_to(0, 0, 30), rapid_to(1, 0, 30), cut_to(1, 0, 2, 300)};
  const SaidProgram program = said(path, Dialect::plain);
  ASSERT_EQ(program.moves.size(), 4u);
  EXPECT_EQ(program.moves.back().code, 0);
  EXPECT_EQ(program.moves.back().z, 30);
  EXPECT_EQ(said({rapid_to(0, 0, 30)}, Dialect::plain).moves.size(), 1u);
}

TEST(Ngc, PlacesTheToolThoughItSeemsToBeThere) {
  EXPECT_EQ(said({rapid_to(0, 0, 30), rapid_to(0, 0, 30), cut_to(0, 0, 1, 9)}, Dialect::plain).moves.size(),
            4u);
}

TEST(Ngc, IsTheSameEveryTime) {
  const Path path = whole_path(20, 0, {bend_to(MoveKind::arc_cw, -20, 0, -1, 0, 0), cut_to(-0.0, -0.0, -1)});
  for (const Dialect dialect : both_dialects) {
    const std::string text = ngc_text(ProgramHead(), path, dialect);
    EXPECT_EQ(text, ngc_text(ProgramHead(), path, dialect));
    EXPECT_EQ(text.find("-0.0000"), std::string::npos);
  }
}

TEST(Ngc, RefusesPathsThatAreNone) {
  const auto refused = [](const Path& path) {
    try {
      ngc_text(ProgramHead(), path, Dialect::rs274);
      ADD_FAILURE() << "was taken";
    } catch (const std::logic_error& fault) {
      EXPECT_EQ(std::string(fault.what()).rfind("a path for a program: ", 0), 0u) << fault.what();
    }
  };
  refused({});
  refused({cut_to(0, 0, 5)});
  refused({rapid_to(0, 0, 5), cut_to(1, 0, 5)});
  refused({rapid_to(0, 0, 5), rapid_to(1, 0, 4)});
  refused({rapid_to(0, 0, 5), rapid_to(1, 0, 5), rapid_to(1, 1, 4)});
  refused({rapid_to(0, 0, 5), rapid_to(1, 0, 5), cut_to(1, 0, 1, 0)});
  refused({rapid_to(0, 0, 5), rapid_to(1, 0, 5), bend_to(MoveKind::arc_ccw, 0, 1.0023, 5, 0, 0)});
  refused({rapid_to(0, 0, 5), rapid_to(std::numeric_limits<double>::quiet_NaN(), 0, 5)});
  refused({rapid_to(0, 0, 5), rapid_to(1e9, 0, 5)});
  EXPECT_NO_THROW(ngc_text(
      ProgramHead(), {rapid_to(0, 0, 5), rapid_to(1, 0, 5), bend_to(MoveKind::arc_ccw, 0, 1.0018, 5, 0, 0)},
      Dialect::rs274));
}

// ---- comments --------------------------------------------------------------------------------

TEST(NgcNote, IsWrappedAtSeventyCharacters) {
  const std::string text =
      "Wear eye protection and a mask; keep dust away from sparks; try the program in air first and stay "
      "with it.";
  const auto lines = ngc_comments(text);
  ASSERT_EQ(lines.size(), 2u);
  std::string again;
  for (const std::string& line : lines) {
    EXPECT_LE(line.size(), 70u);
    EXPECT_EQ(line.rfind("(.. ", 0) == 0, !again.empty()) << line;
    again += again.empty() ? line.substr(1, line.size() - 2) : line.substr(3, line.size() - 4);
  }
  EXPECT_EQ(again, text);
  EXPECT_EQ(ngc_comments(std::string(200, 'x')).size(), 4u);
  EXPECT_TRUE(ngc_comments("").empty());
  EXPECT_TRUE(ngc_comments(" \n ").empty());
}

TEST(NgcNote, TakesAccentsOffAndKeepsToAscii) {
  const auto line = [](const std::string& note) { return ngc_comments(note).at(0); };
  EXPECT_EQ(line("Béret d'été"), "(Beret d'ete)");
  EXPECT_EQ(line("Größe 57, Über Ärger, Öl"), "(Groesse 57, Ueber Aerger, Oel)");
  EXPECT_EQ(line("łódź Žižka Ōsaka Œuvre"), "(lodz Zizka Osaka OEuvre)");
  EXPECT_EQ(line("ÿ ż ž ſ ŵ ŷ Ź Ŀ ŉ Đ þ"), "(y z z s w y Z L n D th)");
  EXPECT_EQ(line("90° ± ½ – “a”"), "(90 deg +- 1/2 - 'a')");
  EXPECT_EQ(line("ベレー"), "(" + std::string(3, '?') + ")");
  EXPECT_EQ(line("a\tb\nc\x01"
                 "d\x7f"),
            "(a b c?d?)");
  EXPECT_EQ(line("cut \xc3"), "(cut ?)");
  EXPECT_EQ(line("\xff\xfe x \xe2\x82"), "(?? x ?)");
}

TEST(NgcNote, CannotBeBrokenOutOfNorMadeToAct) {
  EXPECT_EQ(ngc_comments("a) G0 Z-50 (b").at(0), "(a- G0 Z-50 -b)");
  EXPECT_EQ(ngc_comments("x)\nG0 Z-50\n(").at(0), "(x- G0 Z-50 -)");
  EXPECT_EQ(ngc_comments("[#1] {2}").at(0), "(-#1- -2-)");
  EXPECT_EQ(ngc_comments("MSG, hello").at(0), "(MSG - hello)");
  EXPECT_EQ(ngc_comments(" m s g,hello").at(0), "(m s g -hello)");
  EXPECT_EQ(ngc_comments("L O G A P P E N D , x").at(0), "(L O G A P P E N D  - x)");
  EXPECT_EQ(ngc_comments("LOGOPEN,/tmp/x").at(0), "(LOGOPEN -/tmp/x)");
  EXPECT_EQ(ngc_comments("Size 57, market").at(0), "(Size 57, market)");
  EXPECT_EQ(ngc_comments(std::string(60, 'x') + " LOGOPEN, file").at(1), "(.. LOGOPEN, file)");
}

// Whatever an order is called, the program stays the same but for its comments.
TEST(NgcNote, HostileNamesChangeNothingElse) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const Path path = whole_path(20, 0, {cut_to(10, 0, 2)});
  const std::vector<std::string> parts = {"(",
                                          ")",
                                          "%",
                                          ";",
                                          "\n",
                                          "\r",
                                          "M2",
                                          "G0 Z-9",
                                          "MSG,",
                                          "debug,",
                                          "\xc3\xa9",
                                          "\xe2\x80\xa8",
                                          "\xf0\x9f\x98\x80",
                                          "\xff",
                                          " ",
                                          "PRINT,",
                                          "#1=",
                                          "/",
                                          std::string(1, '\0'),
                                          std::string(80, 'a')};
  const auto bare = said(path, Dialect::plain).lines;
  for (int trial = 0; trial < 500; ++trial) {
    std::string note;
    for (std::size_t n = 1 + test::pick(random, 30); n > 0; --n)
      note += parts[test::pick(random, parts.size())];
    const SaidProgram program = said(path, both_dialects[trial % 2], {note, "ok"});
    ASSERT_FALSE(HasFailure()) << note;
    EXPECT_EQ(std::vector<std::string>(program.lines.begin() + static_cast<long>(program.comments.size()),
                                       program.lines.end()),
              bare);
  }
}
