// How the form of an order comes out of the beret. Plans and replays are checked in tests/parts; here what an
// order gets.
#include "making/released.h"

#include <gtest/gtest.h>

#include "making/printed_orders.h"

namespace crownwright::making {
namespace {

using PieceNames = std::vector<std::string>;

const std::string deep_collar = "[form]\ncollar = \"30 mm\"\n";

std::string block(const std::string& more) { return test::pc_block("", more); }

PieceNames names_of(const Form& form) {
  PieceNames names;
  for (const PrintedPart& part : form.printed.parts) names.push_back(part.name);
  return names;
}
PieceNames order_of(const Form& form) {
  PieceNames names;
  for (const parts::Step& step : form.released->steps) names.push_back(step.piece);
  return names;
}

bool warns(const Form& form, const std::string& words) {
  for (const std::string& warning : form.warnings)
    if (warning.find(words) != std::string::npos) return true;
  return false;
}

// Figures of 140 / 90.7 / 75, e 20, collar 30 (computed twice, independently): 672 mm edge first, 627 mm
// without the collar; of an opening of 570 mm 18 % and 10 %.
TEST(ReleasedWhole, NeedsWhatStandsInTheOpening) {
  const Form form = test::make(block(deep_collar));
  EXPECT_TRUE(form.released->pieces.empty());
  ASSERT_EQ(form.released->steps.size(), 1u);
  const parts::Step& step = form.released->steps[0];
  EXPECT_EQ(step.piece, "form");
  EXPECT_EQ(step.direction, "edge first");
  EXPECT_NEAR(step.needed_girth, 672, 0.5);
  EXPECT_NEAR(step.opening_girth, 570, 0.5);
  EXPECT_NEAR(step.needed_girth / step.opening_girth - 1, 0.18, 0.002);
  EXPECT_EQ(names_of(form), PieceNames{"form"});
}

TEST(ReleasedRing, TakesTheCollarOffTheNeed) {
  const Form form = test::make(block(deep_collar + "[puzzle]\npieces = 2\n"));
  EXPECT_EQ(names_of(form), (PieceNames{"ring", "block"}));
  EXPECT_EQ(order_of(form), (PieceNames{"ring", "block"}));
  const parts::Step& step = form.released->steps[1];
  EXPECT_NEAR(step.needed_girth, 627, 1);
  EXPECT_NEAR(step.needed_girth / step.opening_girth - 1, 0.10, 0.002);
  EXPECT_TRUE(form.warnings.empty()) << testing::PrintToString(form.warnings);
}

// Crown 140, head 90.7: five pieces serve (a <= 7b/3 = 211.6).
TEST(ReleasedPuzzle, OfFivePiecesComesOutRingFirst) {
  const Form form = test::make(block("[puzzle]\npieces = 5\n"));
  const PieceNames five = {"ring", "key", "end-n", "end-s", "side-e", "side-w"};
  EXPECT_EQ(names_of(form), five);
  EXPECT_EQ(order_of(form), five);
  for (const parts::Step& step : form.released->steps) {
    SCOPED_TRACE(step.piece);
    const bool side = step.piece.starts_with("side");
    EXPECT_EQ(step.exit, side ? parts::Exit::lengthwise : parts::Exit::drop);
    EXPECT_LE(step.needed_girth, step.opening_girth) << "no cloth need stretch";
    if (side) {
      EXPECT_NEAR(step.needed_girth, 338, 0.5);
    }
  }
  EXPECT_NE(form.released->steps[2].direction.find("south"), std::string::npos);
  EXPECT_NE(form.released->steps[3].direction.find("north"), std::string::npos);
  EXPECT_NE(form.released->steps[4].direction.find("west"), std::string::npos);
  EXPECT_NE(form.released->steps[5].direction.find("east"), std::string::npos);
  EXPECT_DOUBLE_EQ(form.released->joint_clearance, form.order.puzzle->clearance.mm());
}

TEST(ReleasedPuzzle, AStiffCapTakesSevenOrNineThatAllDrop) {
  const PieceNames seven = {"ring", "key", "end-n", "end-s", "side-ne", "side-se", "side-nw", "side-sw"};
  const PieceNames nine = {"ring",   "key",       "end-n",     "end-s",     "side-e",
                           "side-w", "corner-ne", "corner-se", "corner-nw", "corner-sw"};
  const std::string stiff = "[puzzle]\ncap = \"stiff\"\n";
  for (const auto& [pieces, expected] : {std::pair{"\"auto\"", seven}, {"7", seven}, {"9", nine}}) {
    SCOPED_TRACE(pieces);
    const Form form = test::make(block(stiff + "pieces = " + pieces + "\n"));
    EXPECT_EQ(names_of(form), expected);
    EXPECT_EQ(order_of(form), expected);
    for (const parts::Step& step : form.released->steps) {
      EXPECT_EQ(step.exit, parts::Exit::drop) << step.piece;
      EXPECT_LE(step.needed_girth, step.opening_girth) << step.piece;
    }
  }
}

// Fleece takes 20 % (profiles/cloth), melton 8 %: 10 % with the ring off is enough for the one alone.
TEST(ReleasedAuto, MakesTheLeastThatServes) {
  const std::string asked = deep_collar + "[puzzle]\npieces = \"auto\"\n";
  EXPECT_EQ(names_of(test::make(block("[cloth]\nname = \"fleece\"\n" + asked))),
            (PieceNames{"ring", "block"}));
  EXPECT_EQ(names_of(test::make(block("[cloth]\nname = \"melton\"\n" + asked))).size(), 6u);
  EXPECT_EQ(names_of(test::make(block(asked))).size(), 6u) << "nothing is known of the cloth";
}

TEST(ReleasedProposal, NamesTheRingBeforeThePuzzle) {
  const Form melton = test::make(block("[cloth]\nname = \"melton\"\n" + deep_collar));
  EXPECT_TRUE(warns(melton, "a puzzle block")) << testing::PrintToString(melton.warnings);
  EXPECT_FALSE(warns(melton, "pieces = 2"));
  EXPECT_EQ(names_of(melton), PieceNames{"form"}) << "proposed, not made";
  const Form fleece = test::make(block("[cloth]\nname = \"fleece\"\n" + deep_collar));
  EXPECT_FALSE(warns(fleece, "to take")) << testing::PrintToString(fleece.warnings);
}

// A ring asked for where its block does not come off: it is made, and said.
TEST(ReleasedRing, SaysWhereTheClothDoesNotStretchSoFar) {
  const Form form =
      test::make(block("[cloth]\nname = \"melton\"\n" + deep_collar + "[puzzle]\npieces = 2\n"));
  EXPECT_TRUE(warns(form, "to take out block the opening must stretch 10.1 %, and it gives 8 %"))
      << testing::PrintToString(form.warnings);
}

TEST(ReleasedPad, NeedsNoRelease) {
  const std::string pad =
      "[measure]\ncrown_diameter = \"24 cm\"\nrise = \"3 cm\"\n[form]\nkind = "
      "\"pad\"\n[mesh]\nchord_tolerance = "
      "\"0.2 mm\"\n";
  EXPECT_FALSE(test::make(pad).released);
  const auto refused = order::read_order_text(pad + "[puzzle]\n", "pad.toml");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.fault().exit, ExitCode::order);
  EXPECT_NE(refused.fault().line().find("pad"), std::string::npos);
}

TEST(ReleasedRefusals, SayWhatIsAllowed) {
  const auto refuses = [](const std::string& more, ExitCode exit, const std::string& words) {
    SCOPED_TRACE(more);
    const auto order = order::read_order_text(block(more), "block.toml");
    const Fault fault = order ? test::refusal_of(block(more)) : order.fault();
    EXPECT_EQ(fault.exit, exit);
    EXPECT_NE(fault.line().find(words), std::string::npos) << fault.line();
    EXPECT_FALSE(fault.allowed.empty());
  };
  refuses("[puzzle]\nclearance = \"0 mm\"\n", ExitCode::order, "puzzle.clearance");
  refuses("[puzzle]\npieces = 6\n", ExitCode::order, "2, 5, 7, 9");
  refuses("[puzzle]\npieces = 5\ncap = \"stiff\"\n", ExitCode::order, "7, 9");
  refuses("[puzzle]\npieces = 2\n[form]\ncollar = \"0 mm\"\n", ExitCode::order, "collar");
  refuses("[puzzle]\npieces = 5\n[form]\nfloor = \"4 mm\"\n", ExitCode::order, "floor");
}

// a = 150 beyond 7b/3 of a girth of 390 mm (b = 62.07): no five pieces come out of that.
TEST(ReleasedRefusals, ACrownTooWideForItsHead) {
  const Fault fault = test::refusal_of(
      "[measure]\ncrown_diameter = \"300 mm\"\nhead_girth = \"390 mm\"\nrise = \"75 mm\"\ntaken_at = "
      "\"form\"\n[print]\nmaterial = \"pc\"\n[puzzle]\npieces = 5\n");
  EXPECT_EQ(fault.exit, ExitCode::impossible);
  EXPECT_NE(fault.allowed.find("mm"), std::string::npos) << fault.line();
}

}  // namespace
}  // namespace crownwright::making
