// Meridians kept as text in tests/golden, the name telling the case. A change that moves one by more than a
// millionth of a millimetre shows here.
//   CW_RENEW_GOLDEN=1   writes the files anew instead of comparing
//
// The files are the program's own output; what makes them more than that are the figures known from
// elsewhere, looked for in them below.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <numbers>

#include "files/temp_folder.h"
#include "making/form.h"
#include "making/orders.h"

namespace crownwright::making {
namespace {

std::string number(double value) { return number_text(value, 6); }
std::string point(meridian::Point p) { return number(p.r) + " " + number(p.z); }

/// A line a segment: its role, line or arc, where from and to; of an arc its centre, radius and turn in
/// degrees.
std::string meridian_text(const solid::Solid& solid) {
  std::string text =
      "# role, line or arc, from r z to r z (mm); arcs: about r z, radius (mm), turn (degrees)\n";
  for (const solid::Shell& shell : solid.shells) {
    text += shell.closed ? "closed walk\n" : "walk\n";
    for (std::size_t i = 0; i < shell.walk.size(); ++i) {
      const meridian::Segment& s = shell.walk[i];
      text += std::string(solid::role_name(shell.roles[i])) + (s.is_arc() ? ": arc " : ": line ") +
              point(s.from()) + " to " + point(s.to());
      if (s.is_arc())
        text += " about " + point(s.centre()) + " radius " + number(s.radius()) + " turn " +
                number(s.turn() * 180 / std::numbers::pi);
      text += "\n";
    }
  }
  return text;
}

std::string meridian_of(const std::string& order) {
  const auto solid = plan_solid(test::read_order(order), test::own_profiles());
  if (!solid) throw std::runtime_error(solid.fault().line());
  return meridian_text(*solid);
}

void expect_golden(const std::string& name, const std::string& text) {
  const std::string path = CW_TEST_DIR "/golden/" + name + ".meridian.txt";
  if (std::getenv("CW_RENEW_GOLDEN") != nullptr) {
    std::ofstream(path, std::ios::binary) << text;
    return;
  }
  EXPECT_EQ(test::content_of(path), text)
      << "if the change is meant, run once with CW_RENEW_GOLDEN=1 and read the difference";
}

void expect_has(const std::string& text, const std::string& words) {
  EXPECT_NE(text.find(words), std::string::npos) << words << " in\n" << text;
}

std::string golden_block(const std::string& edge) {
  return "[measure]\nhead_girth = \"569.884907361 mm\"\ncrown_diameter = \"280 mm\"\nrise = \"75 "
         "mm\"\ntaken_at = \"form\"\n"
         "[shape]\ndome = \"6 mm\"\nedge_radius = \"" +
         edge + "\"\n[form]\nwall = \"4 mm\"\ncollar = \"15 mm\"\n";
}

// Crown radius 140: the edge's arc is centred at r = 120 and meets the vertical at z = 15 + 75 - 25.903427
// (worked out apart from the program, see worked_cases_test.cpp).
TEST(Golden, BlockWithRoundEdge) {
  const std::string text = meridian_of(golden_block("20 mm"));
  expect_golden("block_g570_d280_r75_dome6_edge20_wall4", text);
  expect_has(text, " to 140 64.096573 about 120 64.096573 radius 20 ");
  expect_has(text, " to 90.7 15\n");
}

// An edge tighter than the wall: inside, tip arc and underside meet in a corner at (134.2556, 65.3217) above
// the head line, worked out apart from the program as the crossing of the circle 4 mm within the tip arc and
// the line 4 mm within the underside; the collar lifts it by 15 mm.
TEST(Golden, BlockWithEdgeTighterThanTheWall) {
  const std::string text = meridian_of(golden_block("2 mm"));
  expect_golden("block_g570_d280_r75_dome6_edge2_wall4", text);
  expect_has(text, "134.255");
  expect_has(text, "80.321");
}

TEST(Golden, PadOnADish) {
  const std::string text = meridian_of(test::content_of(CW_SOURCE_DIR "/samples/dish-pad.toml"));
  expect_golden("pad_d260_r55_dome6_edge18_dish_gap3", text);
  expect_has(text, "crown: arc 0 55 to ");
  expect_has(text, " about 112 ");
}

// The comparison is not blind: a thousandth of a millimetre shows.
TEST(Golden, AThousandthShows) {
  EXPECT_NE(meridian_of(golden_block("20 mm")), meridian_of(golden_block("20.001 mm")));
}

}  // namespace
}  // namespace crownwright::making
