#include "press/steam.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

using namespace crownwright::press;

namespace {

double vents_of(int count, double diameter) { return count * std::numbers::pi / 4 * diameter * diameter; }

}  // namespace

// Worked outside the program: 0.5 g/s of steam (steam table, IAPWS-IF97, saturated at 1.01325 bar: 1.6720
// m3/kg) through 96 holes of 3 mm: 8.36e-4 m3/s over 6.7858e-4 m2 = 1.232 m/s; 0.5 x 0.59809 kg/m3 x
// (1.232/0.62)^2 = 1.181 Pa.
TEST(Steam, IsWorkedByHand) {
  const SteamAnswer answer = judge_steam({30, vents_of(96, 3), true});
  EXPECT_NEAR(answer.speed.value(), 1.232, 5e-4);
  EXPECT_NEAR(answer.pressure.value(), 1.181, 5e-4);
  EXPECT_TRUE(answer.enough);
  EXPECT_TRUE(answer.warnings.empty());
}

// Ideal gas: water vapour of 18.015 g/mol at 373.15 K and 101325 Pa fills 1.70 m3/kg; steam is a little
// denser.
TEST(Steam, IsNearlyAnIdealGas) {
  const double ideal = 8.314462 * 373.15 / 101325 / 0.018015;
  EXPECT_LT(steam_specific_volume, ideal);
  EXPECT_GT(steam_specific_volume, 0.98 * ideal);
}

// 5 Pa is the weight of cloth of 0.5 kg/m2 (0.5 x 9.81 = 4.905 Pa).
TEST(Steam, MustNotLiftTheCloth) {
  EXPECT_NEAR(most_pressure, 0.5 * 9.80665, 0.1);
  const double least = least_open_area(30);
  const SteamAnswer just = judge_steam({30, least * 1.0001, true});
  EXPECT_NEAR(just.pressure.value(), 5, 1e-2);
  EXPECT_TRUE(just.enough);
  const SteamAnswer few = judge_steam({30, least * 0.999, true});
  EXPECT_FALSE(few.enough);
  ASSERT_EQ(few.warnings.size(), 1u);
  EXPECT_NE(few.warnings[0].find("330 mm2"), std::string::npos) << few.warnings[0];
  // Pressure goes with the square of flow over area.
  EXPECT_NEAR(judge_steam({60, 500, true}).pressure.value() / judge_steam({30, 500, true}).pressure.value(),
              4, 1e-9);
}

TEST(Steam, NeedsAWayOut) {
  const SteamAnswer closed = judge_steam({30, vents_of(96, 3), false});
  EXPECT_FALSE(closed.enough);
  ASSERT_EQ(closed.warnings.size(), 1u);
  EXPECT_NE(closed.warnings[0].find("no way out"), std::string::npos);
  const SteamAnswer none = judge_steam({30, 0, true});
  EXPECT_FALSE(none.enough);
  EXPECT_FALSE(none.speed.has_value() || none.pressure.has_value());
  ASSERT_EQ(none.warnings.size(), 1u);
  EXPECT_NE(none.warnings[0].find("no vents"), std::string::npos);
  EXPECT_THROW(judge_steam({0, 100, true}), std::logic_error);
  EXPECT_THROW(judge_steam({30, -1, true}), std::logic_error);
}
