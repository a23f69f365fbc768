// What is engraved in an order's form: letters are counted as a person counts them (connected pieces and the
// holes in them), lines and places come from the order's own numbers.
#include "making/marks_of.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "drawings/text_outline.h"
#include "making/printed_orders.h"

namespace crownwright::making {
namespace {

using std::numbers::pi;

std::string marked_text(const std::string& text, const std::string& more = {}) {
  return test::pc_block({}, more + "[marks]\n" + (text.empty() ? "" : "text = \"" + text + "\"\n"));
}

/// Marks of the order on the form it asks for (made without them, which is quicker and the same solid).
struct Engraved {
  order::Order order;
  solid::Solid solid;
  Result<std::optional<parts::Marks>> answer;
  const parts::Marks& marks() const { return **answer; }
  parts::CollarRoom room() const { return parts::collar_room(solid).value(); }
};
Engraved engrave(const std::string& text, int sectors = 1, double phase = 0) {
  Engraved engraved{test::read_order(text), {}, std::optional<parts::Marks>()};
  order::Order plain = engraved.order;
  plain.marks.reset();
  engraved.solid = test::make(plain).solid;
  engraved.answer = marks_of(engraved.order, engraved.solid, {sectors, phase});
  return engraved;
}

struct Extent {
  double left = 1e9, right = -1e9, low = 1e9, high = -1e9;
  double middle() const { return (left + right) / 2; }
};
Extent extent_of(const std::vector<parts::MarkShape>& shapes) {
  Extent extent;
  for (const parts::MarkShape& shape : shapes) {
    for (const parts::MarkLoop& loop : shape.loops) {
      for (const auto& [u, v] : loop) {
        extent.left = std::min(extent.left, u), extent.right = std::max(extent.right, u);
        extent.low = std::min(extent.low, v), extent.high = std::max(extent.high, v);
      }
    }
  }
  return extent;
}

std::size_t holes_in(const std::vector<parts::MarkShape>& shapes) {
  std::size_t holes = 0;
  for (const parts::MarkShape& shape : shapes) holes += shape.loops.size() - 1;
  return holes;
}

// ---- lines -----------------------------------------------------------------------------------

std::vector<double> line_degrees(const std::string& pattern) {
  const Engraved engraved = engrave(marked_text("X", pattern));
  std::vector<double> degrees;
  for (const double angle : engraved.marks().collar_lines)
    degrees.push_back(std::round(angle * 180 / pi * 1e6) / 1e6);
  std::sort(degrees.begin(), degrees.end());
  return degrees;
}

// Centre front at 0, quarters at 90 degrees, seams of n panels at 360 / n; one that is both stands once.
TEST(MarksOf, LinesAtCentreFrontQuartersAndSeams) {
  using Degrees = std::vector<double>;
  EXPECT_EQ(line_degrees(""), (Degrees{0, 90, 180, 270}));
  EXPECT_EQ(line_degrees("[pattern]\npanels = 6\n"), (Degrees{0, 60, 90, 120, 180, 240, 270, 300}));
  EXPECT_EQ(line_degrees("[pattern]\npanels = 8\n"), (Degrees{0, 45, 90, 135, 180, 225, 270, 315}));
  EXPECT_EQ(line_degrees("[pattern]\npanels = 5\n"), (Degrees{0, 72, 90, 144, 180, 216, 270, 288}));
}

// The worked collar: 15 mm high, on a radius of 90.7, its foot's edge half a millimetre; 0.8 mm are kept at
// both ends. Lines above, text below, nothing of it above where the lines end.
TEST(MarksOf, TextStandsBelowTheLines) {
  const Engraved engraved = engrave(marked_text("HX", "[form]\ncollar = \"15 mm\"\n"));
  const parts::Marks& marks = engraved.marks();
  const Extent text = extent_of(marks.collar);
  ASSERT_TRUE(marks.lines_from);
  EXPECT_GE(text.low, 0.5 + 0.8);
  EXPECT_LE(text.high, *marks.lines_from - 0.8 + 1e-9);
  EXPECT_LT(*marks.lines_from, 15 - 0.8);
  EXPECT_NEAR(15 - 0.8 - *marks.lines_from, 0.35 * (15 - 0.5 - 2 * 0.8), 1e-9) << "a third and a little";
  EXPECT_GE(text.high - text.low, 3);
  EXPECT_LE(text.high - text.low, 6);
  EXPECT_TRUE(marks.foot.empty());
  EXPECT_DOUBLE_EQ(marks.line_depth, 0.6) << "as [marks] depth is when nobody says";
}

TEST(MarksOf, AreAsDeepAsOrdered) {
  const Engraved engraved = engrave(marked_text("X") + "depth = \"0.4 mm\"\n");
  EXPECT_DOUBLE_EQ(engraved.marks().line_depth, 0.4);
}

TEST(MarksOf, NothingUnlessOrdered) {
  const Engraved engraved = engrave(test::pc_block());
  ASSERT_TRUE(engraved.answer);
  EXPECT_FALSE(*engraved.answer);
}

// ---- text ------------------------------------------------------------------------------------

// An X has no hole, an O one, an i two pieces, a B two holes.
TEST(MarksOf, EngravesTheOrdersOwnText) {
  const Engraved engraved = engrave(marked_text("XOiB"));
  EXPECT_EQ(engraved.marks().collar.size(), 5u);
  EXPECT_EQ(holes_in(engraved.marks().collar), 3u);
}

// Behind, at half the collar's girth; in the middle of the first sector of several, wherever they begin, and
// no nearer than a flange of 12 mm to its joints.
TEST(MarksOf, TextStandsBehindOrInTheFirstSector) {
  const Engraved whole = engrave(marked_text("MILL"));
  EXPECT_NEAR(extent_of(whole.marks().collar).middle(), pi * 90.7, 1e-3);
  for (int sectors = 2; sectors <= 6; ++sectors) {
    for (const double phase : {0.0, 0.4}) {
      SCOPED_TRACE(sectors);
      const Engraved part = engrave(marked_text("MILL"), sectors, phase);
      ASSERT_TRUE(part.answer) << part.answer.fault().line();
      const Extent text = extent_of(part.marks().collar);
      EXPECT_NEAR(text.middle() / 90.7, phase + pi / sectors, 1e-4);
      EXPECT_GT(90.7 * std::sin(text.left / 90.7 - phase), 12);
      EXPECT_GT(90.7 * std::sin(phase + 2 * pi / sectors - text.right / 90.7), 12);
    }
  }
}

/// Pieces and holes of a text, as one counts them on paper.
struct Inked {
  std::size_t pieces, holes;
  friend bool operator==(const Inked&, const Inked&) = default;
};
Inked inked(const std::vector<parts::MarkShape>& shapes) { return {shapes.size(), holes_in(shapes)}; }

// "57 cm, crown 28 cm, Worked": the girth has four signs and no hole; a comma; crown five and one, 28 cm four
// and two (the 8's); a comma; the name six and three (o, e, d).
constexpr Inked girth_alone{4, 0}, figures_alone{4 + 1 + 9, 3}, all_of_it{4 + 1 + 9 + 1 + 6, 6};

double inked_width(const std::string& text, double letters) {
  drawings::TextStyle style;
  style.cap_height = letters;
  return drawings::text_outline(text, style).value().width;
}

// "auto" says less where there is less room, and no less than there is room for: a sector's share of the
// collar, less 16 mm at each joint.
TEST(MarksOf, AutoSaysAsMuchAsThereIsRoomFor) {
  const std::string order = marked_text("");
  std::vector<Inked> seen;
  for (int sectors = 1; sectors <= 12; ++sectors) {
    SCOPED_TRACE(sectors);
    const Engraved engraved = engrave(order, sectors);
    const double room = 2 * pi * 90.7 / sectors - 32;
    if (!engraved.answer) {
      EXPECT_EQ(engraved.answer.fault().exit, ExitCode::impossible);
      EXPECT_LT(room, inked_width("57 cm", 3));
      continue;
    }
    const Inked now = inked(engraved.marks().collar);
    ASSERT_TRUE(now == all_of_it || now == figures_alone || now == girth_alone)
        << now.pieces << " " << now.holes;
    if (seen.empty() || !(seen.back() == now)) seen.push_back(now);
    if (sectors == 1) continue;
    const Extent text = extent_of(engraved.marks().collar);
    EXPECT_LE(text.right - text.left, room + 1e-6);
    // What is left out had no room even in letters of 3 mm.
    const double more = now == all_of_it       ? 1e9
                        : now == figures_alone ? inked_width("57 cm, crown 28 cm, Worked", 3)
                                               : inked_width("57 cm, crown 28 cm", 3);
    EXPECT_GT(more, room);
  }
  EXPECT_EQ(seen, (std::vector<Inked>{all_of_it, figures_alone, girth_alone}));
}

// The hat size as it was ordered comes first, then the girth that it stands for.
TEST(MarksOf, AutoBeginsWithTheHatSize) {
  const std::string sized =
      "name = \"X\"\n[measure]\ncrown_diameter = \"280 mm\"\nhat_size = \"EU 57\"\nrise = \"75 mm\"\n"
      "[mesh]\nchord_tolerance = \"0.2 mm\"\n[marks]\n";
  const Engraved engraved = engrave(sized);
  ASSERT_TRUE(engraved.answer) << engraved.answer.fault().line();
  const Inked now = inked(engraved.marks().collar);
  // "EU 57, 57 cm, crown 28 cm, X": 4 + 1 + 4 + 1 + 9 + 1 + 1 signs; holes in o and 8 (two).
  EXPECT_EQ(now, (Inked{21, 3})) << now.pieces << " " << now.holes;
}

// ---- the foot --------------------------------------------------------------------------------

constexpr const char* padded =
    "name = \"Table\"\n[measure]\ncrown_diameter = \"24 cm\"\nrise = \"3 cm\"\ntaken_at = \"form\"\n"
    "[form]\nkind = \"pad\"\n[mesh]\nchord_tolerance = \"0.2 mm\"\n[marks]\n";

// Straight across the middle of a full disc, letters of 6 mm at most. H and I are as high as capitals are.
TEST(MarksOf, APadHasItsTextOnTheFoot) {
  const Engraved engraved = engrave(padded + std::string("text = \"HI\"\ndepth = \"0.5 mm\"\n"));
  ASSERT_TRUE(engraved.answer) << engraved.answer.fault().line();
  EXPECT_TRUE(engraved.marks().collar.empty());
  EXPECT_TRUE(engraved.marks().collar_lines.empty());
  EXPECT_DOUBLE_EQ(engraved.marks().foot_depth, 0.5);
  ASSERT_EQ(engraved.marks().foot.size(), 2u);
  const Extent text = extent_of(engraved.marks().foot);
  EXPECT_NEAR(text.middle(), 0, 1e-3);
  EXPECT_NEAR(text.low, -3, 1e-3);
  EXPECT_NEAR(text.high, 3, 1e-3);
}

// "crown 24 cm, Table": a pad has no girth. Pieces: 5 + 4 + 1 + 5; holes: o, 4, a, b, e.
TEST(MarksOf, AutoOnAPadHasNoGirth) {
  const Engraved engraved = engrave(padded);
  ASSERT_TRUE(engraved.answer) << engraved.answer.fault().line();
  const Inked now = inked(engraved.marks().foot);
  EXPECT_EQ(now, (Inked{15, 5})) << now.pieces << " " << now.holes;
}

// ---- refusals --------------------------------------------------------------------------------

TEST(MarksOf, RefusesWhatHasNoRoomOrNoLetter) {
  const auto refused = [](const std::string& text, ExitCode exit, const std::string& said, int sectors = 1) {
    SCOPED_TRACE(text);
    const Engraved engraved = engrave(text, sectors);
    ASSERT_FALSE(engraved.answer);
    EXPECT_EQ(engraved.answer.fault().exit, exit);
    EXPECT_NE(engraved.answer.fault().line().find(said), std::string::npos) << engraved.answer.fault().line();
  };
  refused(marked_text(std::string(120, 'W')), ExitCode::impossible, "no room on the collar", 3);
  // 4 mm of foot round a head of 90.7 mm, and no collar to write on.
  refused(marked_text("X", "[form]\ncollar = \"0 mm\"\n"), ExitCode::impossible,
          "no room on the foot, a ring without a collar");
  refused(padded + std::string("text = \"") + std::string(120, 'W') + "\"\n", ExitCode::impossible,
          "no room on the foot");
  refused(marked_text("\xF0\x9F\x8E\xA9"), ExitCode::order, "marks.text");
  // 0.6 mm is more than half of a wall of 1 mm.
  refused(marked_text("X", "[form]\nwall = \"1 mm\"\n"), ExitCode::impossible, "0.5 mm");
}

}  // namespace
}  // namespace crownwright::making
