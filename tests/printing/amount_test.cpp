#include "printing/amount.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "printing/print.h"
#include "printing/solids.h"

using namespace crownwright;
using namespace crownwright::printing;

// A spool of 1 kg of PLA (1.24 g/cm3) of 1.75 mm holds 330 to 335 m: printed on spools, common knowledge.
TEST(Amounts, AKilogramIsASpool) {
  const PrintAmount spool = amount_of(1e6 / 1.24, 1, 1.24, {0.4, 3, 1, 1.75});
  EXPECT_NEAR(spool.massive_mass, 1000, 1e-9);
  EXPECT_NEAR(spool.printed_mass, 1000, 1e-9);
  EXPECT_GE(spool.filament_length, 330);
  EXPECT_LE(spool.filament_length, 336);
}

// By hand: a cube of 40 mm has 64 000 mm3 and 9600 mm2; a skin of 3 x 0.4 takes 11 520, a fifth of the rest
// 10 496. 22 016 mm3 of 1.27 g/cm3 weigh 27.960 g; over 2.405282 mm2 of strand that is 9.1532 m.
TEST(Amounts, AreWorkedByHand) {
  const PrintAmount cube = amount_of(64000, 9600, 1.27, {});
  EXPECT_NEAR(cube.printed_volume, 22016, 1e-9);
  EXPECT_NEAR(cube.printed_mass, 27.960, 5e-4);
  EXPECT_NEAR(cube.filament_length, 9.1532, 5e-5);
  EXPECT_NEAR(cube.massive_mass, 81.28, 1e-9);
  // 40^3 less a hollow of 37.6^3 is 10 842: the skin is said a little too large, by less than 7 %.
  EXPECT_NEAR(amount_of(64000, 9600, 1.27, {0.4, 3, 0, 1.75}).printed_volume, 64000 - 37.6 * 37.6 * 37.6,
              0.07 * 10842);
}

TEST(Amounts, OfAThinWallAreTheWholeWall) {
  // A tube wall of 2 mm is thinner than two skins of 1.2.
  const Body pipe = body_of(test::tube(50, 48, 30, 360));
  EXPECT_EQ(amount_of(pipe.volume, pipe.area, 1, {0.4, 3, 0.1, 1.75}).printed_volume, pipe.volume);
  EXPECT_LT(amount_of(pipe.volume, pipe.area, 1, {0.4, 1, 0.1, 1.75}).printed_volume, pipe.volume);
  EXPECT_THROW(amount_of(0, 1, 1, {}), std::logic_error);
  EXPECT_THROW(amount_of(1, 1, 1, {0.4, 3, 1.1, 1.75}), std::logic_error);
}

// Least wall 0.8 mm for a nozzle of 0.4, whole multiples preferred: several published printing guides.
TEST(Walls, WantTwoLinesAndWholeOnes) {
  EXPECT_FALSE(wall_lines(0.7, 0.4).enough);
  EXPECT_NE(wall_lines(0.7, 0.4).note.find("at least 0.8 mm"), std::string::npos);
  EXPECT_TRUE(wall_lines(0.8, 0.4).enough);
  EXPECT_TRUE(wall_lines(0.8, 0.4).note.empty());
  EXPECT_TRUE(wall_lines(0.795, 0.4).enough) << "a mesh tolerance is no gap";
  EXPECT_NE(wall_lines(1.0, 0.4).note.find("1.2 mm would print without gaps"), std::string::npos);
  EXPECT_TRUE(wall_lines(4, 0.4).note.empty());
  EXPECT_TRUE(wall_lines(4.2, 0.4).note.empty()) << "room for infill";
  EXPECT_FALSE(wall_lines(0.8, 0.6).enough);
}

TEST(Prints, AreJudgedTogether) {
  const PrintJudgement cone = judge_print(test::cone(40, 60, 360), {1.2, 4, {}});
  EXPECT_NEAR(cone.size.x, 80, 1e-4);
  EXPECT_NEAR(cone.size.z, 60, 1e-4);
  EXPECT_EQ(cone.overhang.area, 0);
  // pi (40 x 59.9/60)^2 = 5009.8; 360 sides have 0.005 % less.
  EXPECT_NEAR(cone.first_layer_area, 5009.8, 0.5);
  EXPECT_TRUE(cone.stand.stands);
  EXPECT_NEAR(cone.amount.massive_mass, 1.2e-3 * cone.body.volume, 1e-9);
  EXPECT_EQ(cone.wall.lines, 10);
  const PrintJudgement turned = judge_print(test::cone(40, 60, 360), {1.2, 4, {}},
                                            mesh::turned_x(3.14159265358979).then(mesh::moved(0, 0, 60)));
  EXPECT_LT(turned.first_layer_area, 1);
  EXPECT_NEAR(turned.body.centre.z, 45, 1e-3);
}
