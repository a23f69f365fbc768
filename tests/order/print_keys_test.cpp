// [print], [puzzle], [stack], [marks], [press] and posts as they are read. Defaults are those of the keys'
// contract; 1 in = 25.4 mm exactly (1959).

#include <gtest/gtest.h>

#include "order/order_support.h"
#include "order/reader.h"

using namespace crownwright;
using namespace crownwright::order;

namespace {

Order printed(const std::string& lines) {
  const auto order = read_order_text(test::plain_block + lines, "test.toml");
  EXPECT_TRUE(order.ok()) << (order.ok() ? "" : order.fault().line()) << "\n" << lines;
  return order.ok() ? *order : Order();
}

Bed bed_of(const std::string& text) {
  return printed("[print]\nbed = \"" + text + "\"\n").print.bed.value_or(Bed());
}

double load_of(const std::string& text) { return printed("[press]\nload = \"" + text + "\"\n").press->load; }

std::string refused(const std::string& lines) {
  const auto order = read_order_text(test::plain_block + lines, "test.toml");
  return order.ok() ? "taken" : order.fault().line();
}

}  // namespace

TEST(PrintKeys, HaveTheirDefaults) {
  const Print print = printed("").print;
  EXPECT_EQ(print.material, "petg");
  EXPECT_FALSE(print.bed);
  EXPECT_EQ(print.printer, "");
  EXPECT_EQ(print.nozzle, Length(4, 10));
  EXPECT_EQ(print.dowel, Length(6, 1));
  EXPECT_EQ(print.dowel_clearance, Length(2, 10));
  EXPECT_EQ(print.glue_gap, Length(1, 10));
  EXPECT_EQ(print.split, Split::automatic);
  EXPECT_EQ(print.infill, 0.2);
  EXPECT_EQ(print.licence, "");
}

TEST(PrintKeys, BringTheirTablesOnlyWhereTheyStand) {
  const Order none = printed("");
  EXPECT_FALSE(none.puzzle || none.stack || none.marks || none.press || none.form.posts);
  const Order all = printed("[puzzle]\n[stack]\n[marks]\n[press]\n");
  EXPECT_EQ(all.puzzle, (Puzzle{std::nullopt, Cap::soft, Length(4, 10)}));
  EXPECT_EQ(all.stack, (Stack{Length(10, 1), StackOutline::mean, Length(4, 1)}));
  EXPECT_EQ(all.marks, (Marks{"auto", Length(6, 10)}));
  EXPECT_EQ(all.press, (Press{Heat::steam, std::nullopt, std::nullopt, 30, 150, ""}));
}

TEST(PrintKeys, TakeABedHoweverItIsWritten) {
  const Bed wide = {Length(220, 1), Length(220, 1), Length(250, 1)};
  for (const char* text : {"220x220x250 mm", "220 x 220 x 250 mm", "22X22X25cm", "220×220×250 mm",
                           "220*220*250 mm", " 0.22 x .22 x 0.25 m "})
    EXPECT_EQ(bed_of(text), wide) << text;
  EXPECT_EQ(bed_of("8½x8½x10½in"), (Bed{Length(2159, 10), Length(2159, 10), Length(2667, 10)}));
  EXPECT_EQ(bed_of("8.5x8 1/2x10 in"), (Bed{Length(2159, 10), Length(2159, 10), Length(254, 1)}));
}

TEST(PrintKeys, KeepAThousandthOfAFlowAndAForce) {
  EXPECT_EQ(load_of("150 N"), 150);
  EXPECT_EQ(load_of("150N"), 150);
  EXPECT_EQ(load_of(" 1 1/2 N "), 1.5);
  EXPECT_EQ(load_of("1/3 N"), 0.333);
  EXPECT_EQ(load_of("0.3335 N"), 0.334) << "halves go up";
  EXPECT_EQ(load_of("½ N"), 0.5);
  EXPECT_EQ(printed("[press]\nsteam_flow = \"27.5 g/min\"\n").press->steam_flow, 27.5);
}

TEST(PrintKeys, TakeACountOfPiecesOrTheWord) {
  for (const int count : {2, 5, 7, 9})
    EXPECT_EQ(printed("[puzzle]\npieces = " + std::to_string(count) + "\n").puzzle->pieces, count);
  EXPECT_EQ(printed("[puzzle]\npieces = \"auto\"\n").puzzle->pieces, std::nullopt);
}

TEST(PrintKeys, TakeEveryWordForWhatItSays) {
  const Press press = *printed("[press]\nheat = \"dry\"\niron = \"110\"\npress_cloth = \"1 mm\"\n").press;
  EXPECT_EQ(press.heat, Heat::dry);
  EXPECT_EQ(press.iron, Iron::at_110);
  EXPECT_EQ(press.press_cloth, Length(1, 1));
  EXPECT_EQ(printed("[press]\nheat = \"dry\"\niron = \"200\"\n").press->iron, Iron::at_200);
  EXPECT_EQ(printed("[press]\nheat = \"cold\"\n").press->heat, Heat::cold);
  EXPECT_EQ(printed("[puzzle]\ncap = \"stiff\"\n").puzzle->cap, Cap::stiff);
  EXPECT_EQ(printed("[stack]\noutline = \"inside\"\n").stack->outline, StackOutline::inside);
  EXPECT_EQ(printed("[stack]\noutline = \"outside\"\n").stack->outline, StackOutline::outside);
  EXPECT_EQ(printed("[print]\nsplit = \"none\"\n").print.split, Split::none);
}

TEST(PrintKeys, TakePostsOfNoneOrAtLeastThree) {
  EXPECT_EQ(printed("[form]\nposts = 0\n").form.posts, 0);
  for (const int posts : {3, 12})
    EXPECT_EQ(printed("[form]\nposts = " + std::to_string(posts) + "\n").form.posts, posts);
  EXPECT_EQ(printed("[form]\nposts = 3\npost_diameter = \"8 mm\"\n").form.post_diameter, Length(8, 1));
  EXPECT_NE(refused("[form]\nposts = 1\n").find("form.posts: on one post"), std::string::npos);
}

TEST(PrintKeys, WarnOfADryIronThatIsNoneWithoutRefusingIt) {
  const auto warnings = [](const std::string& lines) { return printed("[press]\n" + lines).warnings; };
  EXPECT_TRUE(warnings("heat = \"dry\"\niron = \"150\"\npress_cloth = \"1 mm\"\n").empty());
  EXPECT_TRUE(warnings("").empty());
  ASSERT_EQ(warnings("heat = \"cold\"\niron = \"150\"\npress_cloth = \"1 mm\"\n").size(), 2u);
  EXPECT_EQ(warnings("iron = \"150\"\n")[0].rfind("press.iron", 0), 0u);
}

TEST(PrintKeys, SayThePlaceOfAFault) {
  EXPECT_EQ(refused("[print]\nbed = \"220x20x250 mm\"\n").rfind("test.toml:6:7: print.bed: a bed's depth", 0),
            0u)
      << refused("[print]\nbed = \"220x20x250 mm\"\n");
  EXPECT_NE(refused("[press]\nload = \"" + std::string(5000, '9') + " N\"\n").find("5002 bytes"),
            std::string::npos);
  EXPECT_NE(refused("[print]\nbed = \"" + std::string(5000, 'x') + "\"\n").find("5000 bytes"),
            std::string::npos);
}

TEST(PrintKeys, AreGivenOnTheCommandLineToo) {
  const std::vector<WrittenKey> options = {{"measure.head_girth", "57 cm", "--head-girth"},
                                           {"measure.crown_diameter", "28 cm", "--crown-diameter"},
                                           {"measure.rise", "75 mm", "--rise"},
                                           {"print.bed", "220x220x250 mm", "--set print.bed"},
                                           {"puzzle.pieces", "5", "--set puzzle.pieces"},
                                           {"press.load", "200 N", "--set press.load"},
                                           {"press.iron", "110", "--set press.iron"}};
  const auto order = order_from_options(options, {}, "beret");
  ASSERT_TRUE(order.ok()) << order.fault().line();
  EXPECT_EQ(order->puzzle->pieces, 5);
  EXPECT_EQ(order->press->load, 200);
  EXPECT_EQ(order->press->iron, Iron::at_110);
  EXPECT_TRUE(order->print.bed);
}
