// What a program's head says of it, read back; and what the bench gets besides the programs.
#include "making/mill_program.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <numbers>

#include "files/temp_folder.h"
#include "making/mill_files.h"
#include "making/milled_orders.h"
#include "support/outside_program.h"

namespace crownwright::making {
namespace {

TEST(MillProgram, ItsPassIsTheWholeComment) {
  EXPECT_TRUE(pass_of({"pass: rough"}) == Pass::rough);
  EXPECT_TRUE(pass_of({"crownwright 1", "pass: finish"}) == Pass::finish);
  EXPECT_TRUE(pass_of({"set-up: tier-2, lies", "pass: drill", "pass: rough"}) == Pass::drill);
  for (const char* other : {"pass: finishing", "pass: roughly", "pass: drill 3 mm", "bypass: rough",
                            "order: a pass: finish", "pass:rough", "Pass: rough", "rough", "pass: ", ""})
    EXPECT_FALSE(pass_of({other})) << other;
  EXPECT_FALSE(pass_of({}));
}

TEST(MillProgram, ItsSetUpIsToldUpToTheComma) {
  EXPECT_EQ(setup_of({"crownwright 1", "set-up: tier-2, lies foot side down", "set-up: one, lies"}),
            "tier-2");
  EXPECT_EQ(setup_of({"set-up: one"}), "one");
  for (const char* other : {"order: set-up: tier-9, x", "set-up tier-1", "setup: one", ""})
    EXPECT_EQ(setup_of({other}), "") << other;
}

/// A pad with upright vents that the drill makes, one vent left in each ring, clear of the x axis; and holes
/// for them in the machine's own place, as they lie when the piece is turned over or not.
struct LoneVents {
  order::Order order;
  solid::Solid solid;
  Milled made;
};

LoneVents lone_vents(bool flipped, bool mirrored) {
  const std::string text =
      std::string(test::milled_pad)
          .insert(test::milled_pad.find("[mill]"), "[vents]\ndiameter = \"3 mm\"\nspacing = \"30 mm\"\n")
          .append("drill = \"3 mm\"\ndrill_flute = \"30 mm\"\ncell = \"0.5 mm\"\n");
  LoneVents all{test::read_order(text), {}, **test::milled(text)};
  all.solid = plan_solid(all.order, test::own_profiles()).value();
  milling::Setup& setup = all.made.setups.front().setup;
  const milling::Hole like = setup.holes.front();
  setup.flipped = flipped;
  setup.holes = {{0, 0, like.radius, like.bottom}};
  for (solid::VentRing& ring : all.solid.rings) {
    const auto cells = ring.has_vent.size();
    ring.has_vent.assign(cells, 0);
    ring.has_vent[1] = 1;
    const double at = ring.phase + 2 * std::numbers::pi / static_cast<double>(cells);
    const double y = ring.entry.r * std::sin(at);
    setup.holes.push_back({ring.entry.r * std::cos(at), mirrored ? -y : y, like.radius, like.bottom});
  }
  return all;
}

bool is_templated(const LoneVents& all) {
  const auto files = mill_files(all.order, all.solid, all.made);
  return std::any_of(files.begin(), files.end(),
                     [](const ExtraFile& file) { return file.ending == ".drilling.a4.pdf"; });
}

// A piece that lies upside down is turned over about x (milling/setup.h): what is at (x, -y) there is at
// (x, y) in the form.
TEST(MillFiles, HolesOfAPieceTurnedOverAreLookedForInTheForm) {
  EXPECT_FALSE(is_templated(lone_vents(false, false)));
  EXPECT_TRUE(is_templated(lone_vents(false, true)));
  EXPECT_FALSE(is_templated(lone_vents(true, true)));
  EXPECT_TRUE(is_templated(lone_vents(true, false)));
}

const std::string& file_of(const std::vector<ExtraFile>& files, const std::string& ending) {
  const auto file =
      std::find_if(files.begin(), files.end(), [&](const ExtraFile& one) { return one.ending == ending; });
  if (file == files.end()) throw std::runtime_error("no file " + ending);
  return file->bytes;
}

/// The words of the drilling template as poppler reads them.
std::string template_words(const std::string& pdf) {
  const test::TempFolder folder;
  std::ofstream(folder.file("t.pdf"), std::ios::binary) << pdf;
  return test::output_of("pdftotext -layout " + folder.file("t.pdf") + " -");
}

// The tier at the tip is drilled as deep as the plan says there is room: no deeper, or the drill comes out of
// the pressing face; and nowhere where there is none.
TEST(MillFiles, BlindHolesAreAsDeepAsThePlanSays) {
  const order::Order order = test::read_order(test::milled_block);
  const auto solid = plan_solid(order, test::own_profiles()).value();
  Milled made = **test::milled(test::milled_block);
  ASSERT_EQ(made.plan.stock.dowel_depth, 15);  // tip tier of 25 mm, at most 15 (milling/dowels.h)
  auto files = mill_files(order, solid, made);
  EXPECT_NE(template_words(file_of(files, ".drilling.a4.pdf")).find("6, 15 deep"), std::string::npos);
  EXPECT_NE(file_of(files, ".glue-up.svg").find("80 mm long, from 0 to 80 above"), std::string::npos);
  EXPECT_EQ(template_words(file_of(files, ".drilling.a4.pdf")).find("right through"), std::string::npos);
  made.plan.stock.dowel_depth = 4.2;
  for (MilledSetup& setup : made.setups) setup.setup.holes.clear();
  files = mill_files(order, solid, made);
  const std::string by_hand = template_words(file_of(files, ".drilling.a4.pdf"));
  EXPECT_NE(by_hand.find("6, 4.2 deep"), std::string::npos) << by_hand;
  EXPECT_NE(by_hand.find("right through the other tiers"), std::string::npos) << by_hand;
  made.plan.stock.dowel_depth = 0;
  files = mill_files(order, solid, made);
  const std::string through = template_words(file_of(files, ".drilling.a4.pdf"));
  EXPECT_NE(through.find("all tiers but tier 1"), std::string::npos) << through;
  EXPECT_NE(through.find("through"), std::string::npos) << through;
  EXPECT_EQ(through.find("deep"), std::string::npos) << through;
  for (MilledSetup& setup : made.setups)
    for (const milling::Hole& dowel : made.plan.stock.dowels)
      setup.setup.holes.push_back({dowel.x, setup.setup.flipped ? -dowel.y : dowel.y, dowel.radius, -1});
  const auto nothing = mill_files(order, solid, made);
  EXPECT_TRUE(std::none_of(nothing.begin(), nothing.end(),
                           [](const ExtraFile& file) { return file.ending == ".drilling.a4.pdf"; }));
}

std::size_t times_said(const std::string& text, const std::string& words) {
  std::size_t times = 0;
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++times;
  return times;
}

// The SVG has every line as text of its own.
TEST(MillFiles, TheGlueUpSheetSaysEveryCautionOnce) {
  for (const std::string& text : {test::milled_pad, test::milled_block}) {
    const order::Order order = test::read_order(text);
    const auto solid = plan_solid(order, test::own_profiles()).value();
    const auto files = mill_files(order, solid, **test::milled(text));
    const auto sheet = std::find_if(files.begin(), files.end(),
                                    [](const ExtraFile& file) { return file.ending == ".glue-up.svg"; });
    ASSERT_NE(sheet, files.end());
    for (const char* words :
         {"Dust of ", "mask", "eye protection", "machine's manual", "fingers", "saw maker's"})
      EXPECT_EQ(times_said(sheet->bytes, words), 1u) << words;
    // Once in the order of work, once among what stands above the sheet.
    EXPECT_EQ(times_said(sheet->bytes, "glue's data sheet"), 2u);
    const std::size_t lump = text == test::milled_pad ? 1 : 0;
    EXPECT_EQ(times_said(sheet->bytes, "mills as easily"), lump);
    EXPECT_EQ(times_said(sheet->bytes, "turns the cutter aside"), 0u);
  }
}

}  // namespace
}  // namespace crownwright::making
