// The reader against NISTIR 6556 (Kramer, Proctor, Messina, The NIST RS274NGC Interpreter - Version 3, 2000):
// its worked arc and its error rules. Tests are named with the sections.

#include "simulation/ngc_reader.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace {

using namespace crownwright;
using simulation::Motion;
using simulation::Program;

constexpr double reader_pi = std::numbers::pi;

Program good(const std::string& text) {
  auto program = simulation::read_program(text, "a.ngc");
  EXPECT_TRUE(program.ok()) << (program.ok() ? "" : program.fault().line());
  return program.ok() ? *program : Program{};
}

/// The fault's one line; empty when there is none.
std::string fault_of(const std::string& text) {
  const auto program = simulation::read_program(text, "a.ngc");
  if (program.ok()) return {};
  EXPECT_EQ(program.fault().exit, ExitCode::order);
  EXPECT_FALSE(program.fault().allowed.empty()) << program.fault().line();
  return program.fault().line();
}

void expect_fault(const std::string& text, const std::string& part) {
  const std::string line = fault_of(text);
  EXPECT_NE(line.find(part), std::string::npos) << "of " << text << " it says: " << line;
}

const std::string begin = "G21 G17 G90 G94\nG0 Z20\nX7 Y7\nF600\nG1 Z9\n";
const std::string end = "\nM2\n";

// The arc of 3.5.3.2: "G17 G2 x 10 y 16 i 3 j 4 z 9", from X=7, Y=7: centre X=10, Y=11, radius 5.
TEST(NgcReader, WorkedArcOfSection3_5_3_2) {
  const Program program = good(begin + "G17 G2 x 10 y 16 i 3 j 4 z 9" + end);
  ASSERT_EQ(program.strokes.size(), 4u);
  const auto& arc = program.strokes.back();
  EXPECT_EQ(arc.motion, Motion::clockwise);
  EXPECT_DOUBLE_EQ(arc.cx, 10);
  EXPECT_DOUBLE_EQ(arc.cy, 11);
  EXPECT_DOUBLE_EQ(std::hypot(arc.x - arc.cx, arc.y - arc.cy), 5);
  EXPECT_DOUBLE_EQ(arc.z, 9);
  // From (-3, -4) clockwise to (0, 5): by way of -x, less than half a turn.
  EXPECT_NEAR(arc.turn, -(reader_pi - std::atan2(3, 4)), 1e-12);
  EXPECT_EQ(arc.line, 6);
}

TEST(NgcReader, RadiiMayDifferBy0_002AndNoMore_3_5_3_2) {
  EXPECT_EQ(fault_of(begin + "G2 X10 Y16.0019 I3 J4" + end), "");
  expect_fault(begin + "G2 X10 Y16.0021 I3 J4" + end,
               "a.ngc:6: the arc's radii at its start and end, 5 and 5.0021 mm");
  // In inches: 0.0002.
  const std::string inches = "G20\nG0 Z1\nX0 Y0\nF10\n";
  EXPECT_EQ(fault_of(inches + "G2 X2.00019 Y0 I1" + end), "");
  expect_fault(inches + "G2 X2.00021 Y0 I1" + end, "disagree");
}

TEST(NgcReader, ArcsNeedXOrYAndIOrJ_3_5_3_2) {
  expect_fault(begin + "G2 Z5 I3 J4" + end, "neither X nor Y");
  expect_fault(begin + "G2 X10 Y16" + end, "neither I nor J");
  EXPECT_EQ(fault_of(begin + "G2 X7 I3" + end), "");
  expect_fault(begin + "G2 X7 Y7 I0 J0" + end, "no radius");
  expect_fault(begin + "G2 X10 Y16 I3 J4 R5" + end, "R beside I or J");
}

TEST(NgcReader, SameEndIsAWholeTurn_3_5_3_2) {
  const Program program = good(begin + "G2 X7 I3 J4\nG3 Y7 I3 J4" + end);
  ASSERT_EQ(program.strokes.size(), 5u);
  EXPECT_DOUBLE_EQ(program.strokes[3].turn, -2 * reader_pi);
  EXPECT_DOUBLE_EQ(program.strokes[4].turn, 2 * reader_pi);
}

TEST(NgcReader, RadiusFormat_3_5_3_1) {
  // A quarter about (0, 0) and its long sister about (10, 10).
  const std::string start = "G0 Z5\nX10 Y0\nF100\n";
  const Program program = good(start + "G3 X0 Y10 R10\nG2 X10 Y0 R10\nG3 X0 Y10 R-10\nG2 X10 Y0 R-10" + end);
  ASSERT_EQ(program.strokes.size(), 6u);
  const double centre[] = {0, 0, 10, 10}, turn[] = {0.5, -0.5, 1.5, -1.5};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(program.strokes[2 + i].cx, centre[i], 1e-12) << i;
    EXPECT_NEAR(program.strokes[2 + i].cy, centre[i], 1e-12) << i;
    EXPECT_NEAR(program.strokes[2 + i].turn, turn[i] * reader_pi, 1e-12) << i;
  }
  expect_fault(start + "G3 X10 Y0 R10" + end, "ends where it starts");
  expect_fault(start + "G3 Z0 R10" + end, "neither X nor Y");
  expect_fault(start + "G3 X-10 Y0 R9" + end, "does not reach");
}

TEST(NgcReader, MovesNeedAnAxisWord_3_5_1_And_3_5_2) {
  expect_fault("G0\nM2\n", "no axis word");
  expect_fault("F1 G1\nM2\n", "no axis word");
  expect_fault("X1\nM2\n", "no motion is in force");
  expect_fault("G0 X1\nG80\nX2\nM2\n", "no motion is in force");
  expect_fault("G0 X1 I2\nM2\n", "without an arc");
}

TEST(NgcReader, FeedMovesNeedAFeed) {
  expect_fault("G0 Z5\nG1 Z1\nM2\n", "a.ngc:2: a feed move has no feed");
  expect_fault("G0 Z5\nG1 Z1 F0\nM2\n", "no feed");
  expect_fault("G0 Z5\nG1 Z1 F-100\nM2\n", "F is negative");
  EXPECT_EQ(good("G0 Z5\nG1 Z1 F120\nM2\n").strokes.back().feed, 120);
}

// 3.3: "g0x +0. 12 34y 7" is equivalent to "g0 x+0.1234 y7".
TEST(NgcReader, BlanksAndCaseMeanNothing_3_3) {
  const Program program = good("g0x +0. 12\t34y 7\nm2");
  ASSERT_EQ(program.strokes.size(), 1u);
  EXPECT_DOUBLE_EQ(program.strokes[0].x, 0.1234);
  EXPECT_DOUBLE_EQ(program.strokes[0].y, 7);
  EXPECT_TRUE(program.strokes[0].known_x && program.strokes[0].known_y);
  EXPECT_FALSE(program.strokes[0].known_z);
}

TEST(NgcReader, LineNumbers_3_3_1) {
  EXPECT_EQ(good("N00010 G0 X1\n/ n5 X2\nN5X3\nM2").strokes.size(), 3u);
  for (const char* wrong : {"N000009 G0 X1", "N-1 G0 X1", "N1.5 G0 X1", "G0 N1 X1", "N", "N1 N2 G0 X1"})
    expect_fault(std::string(wrong) + end, "line number is wrong");
}

TEST(NgcReader, Numbers_3_3_2_1) {
  const Program program = good("G0 X-.5\nX5.\nX+0005.500\nG00 X1\nG1. F1 X2\nM02");
  ASSERT_EQ(program.strokes.size(), 5u);
  EXPECT_EQ(program.strokes[0].x, -0.5);
  EXPECT_EQ(program.strokes[1].x, 5);
  EXPECT_EQ(program.strokes[2].x, 5.5);
  EXPECT_EQ(program.strokes[4].motion, Motion::feed);
  expect_fault("G0 X" + end, "no number");
  expect_fault("G0 X-" + end, "no number");
  expect_fault("G0 X." + end, "no number");
  expect_fault("G0 X1.2.3" + end, "two points");
  expect_fault("G0 12" + end, "G0");
  expect_fault("12 X3" + end, "no letter");
  expect_fault("G0 X--1" + end, "no number");
  expect_fault("G0 X1e308" + end, "letter E");
  expect_fault("G0 X100001" + end, "too large");
  expect_fault("G0 X" + std::string(240, '9') + end, "too large");
  expect_fault("G0 Xinf" + end, "no number");
  expect_fault("G0 Xnan" + end, "no number");
  expect_fault("G0 X0x10" + end, "twice");
}

TEST(NgcReader, Comments_3_3_4) {
  const Program program = good("(one)\nG0 (two) X1 ( Three)\nM2 (end)");
  EXPECT_EQ(program.comments, (std::vector<std::string>{"one", "two", " Three", "end"}));
  expect_fault("(a (b) c)" + end, "stands inside another");
  expect_fault("G0 X1 (open" + end, "not closed");
  expect_fault("G0 X1 )" + end, "closes no comment");
  expect_fault("G0 X1 ; more" + end, "begins with ;");
}

TEST(NgcReader, WordsOnceALine_3_3_5) {
  expect_fault("G0 X1 X2" + end, "the letter X stands twice");
  expect_fault("G0 G1 X1 F1" + end, "two G words of one group");
  expect_fault("G90 G90" + end, "two G words of one group");
  expect_fault("M3 M5 S1" + end, "two M words of one group");
  EXPECT_EQ(fault_of("M7 M8" + end), "");
  expect_fault("M0 M6 M3 M7 M8" + end, "more than four M words");
}

TEST(NgcReader, CodesThatAreTakenAndNot_Table5) {
  EXPECT_EQ(fault_of("G17 G21 G40 G49 G54 G61 G80 G90 G94\nG64\nT1 M6\nS9000 M3\nM8\nM0\nM1\nM9\nM5" + end),
            "");
  for (const char* code : {"G18", "G19", "G91", "G93", "G41", "G43", "G55", "G59.1", "G4 ", "G92", "G28",
                           "G53", "G38.2", "G81", "G5", "G17.5"})
    expect_fault(code + end, "is not taken; taken are");
  expect_fault("M48" + end, "M48 is not taken");
  expect_fault("G0 A1" + end, "axis A");
  expect_fault("G0 X1 K1" + end, "letter K");
  expect_fault("#1=5" + end, "parameters and expressions");
  expect_fault("G0 X#1" + end, "parameters and expressions");
  expect_fault("G0 X[1+2]" + end, "parameters and expressions");
  expect_fault("T1.5" + end, "not whole");
}

TEST(NgcReader, Units_3_5_7) {
  const Program program = good("G20\nG0 Z1\nX-2 Y0.5\nG1 Z0 F10\nG3 X-2 Y1.5 J.5 \nM2");
  ASSERT_EQ(program.strokes.size(), 4u);
  EXPECT_DOUBLE_EQ(program.strokes[0].z, 25.4);
  EXPECT_DOUBLE_EQ(program.strokes[1].x, -50.8);
  EXPECT_DOUBLE_EQ(program.strokes[2].feed, 254);
  EXPECT_DOUBLE_EQ(program.strokes[3].cy, 25.4);
  expect_fault("G21\nG0 X1\nG20\nM2", "a.ngc:3: the unit changes");
  expect_fault("G0 X1\nG20 X2\nM2", "the unit changes");
  EXPECT_EQ(fault_of("G20\nG21\nG0 X1\nG21\nM2"), "");
}

TEST(NgcReader, EndOfProgram_3_6_1) {
  EXPECT_EQ(good("G0 X1\nM2\nthis is not read").strokes.size(), 1u);
  EXPECT_EQ(good("G0 X1 M30").strokes.size(), 1u);
  EXPECT_EQ(good("%\nG0 X1\n%\n???").strokes.size(), 1u);
  EXPECT_EQ(good(" \n % \r\nG0 X1\r\nM2").strokes.size(), 1u);
  expect_fault("G0 X1\nX2\n", "a.ngc:2: the program does not end");
  expect_fault("", "does not end");
  expect_fault("%\nG0 X1\n", "does not end");
  expect_fault("G0 X1\n%\n", "middle of the program");
  expect_fault("% G0 X1\n%", "alone");
}

TEST(NgcReader, ArcsFromNowhereAreRefused) {
  expect_fault("G0 Z5\nF1 G2 X1 Y1 I1" + end, "not yet known");
  expect_fault("G0 Z5\nX1\nF1 G2 X1 Y1 R3" + end, "not yet known");
}

TEST(NgcReader, HostileText) {
  expect_fault("G0 X1 (" + std::string(10'000, 'a') + ")\nM2", "a.ngc:1: the line has 10008 characters");
  EXPECT_EQ(fault_of("(" + std::string(254, 'a') + ")\nM2"), "");
  expect_fault("(" + std::string(255, 'a') + ")\nM2", "257 characters");
  expect_fault(std::string("G0 X1\0\nM2", 9), "no text");
  expect_fault("(\xff\xfe)\nM2", "no text");
  expect_fault("G0 \xc3\xa9\nM2", "unexpected");
  expect_fault(
      "\x7f"
      "ELF\nM2",
      "no text");
  std::string zeros(100'000, '\0');
  expect_fault(zeros, "characters");
}

TEST(NgcReader, KeepsOnlySoManyComments) {
  std::string text;
  for (int i = 0; i < 10'100; ++i) text += "()\n";
  EXPECT_EQ(good(text + "M2").comments.size(), 10'000u);
}

TEST(NgcReader, TooManyLines) {
  const std::string text(simulation::most_lines + 1, '\n');
  expect_fault(text + "M2", "too long");
}

}  // namespace
