#include "report/length_words.h"

#include <gtest/gtest.h>

#include <numbers>

namespace crownwright::report {
namespace {

// 1 in = 25.4 mm exactly (international yard and pound agreement, 1959); sixteenths by hand.
TEST(InchText, GivesTheNearestFractionInLowestTerms) {
  EXPECT_EQ(inch_text(25.4, 16), "1 in");
  EXPECT_EQ(inch_text(9.525, 16), "3/8 in");  // 3/8 in exactly
  EXPECT_EQ(inch_text(266.7, 16), "10 1/2 in");
  EXPECT_EQ(inch_text(570, 16), "22 7/16 in");  // 22.4409 in: 7.05 sixteenths over 22
  EXPECT_EQ(inch_text(4, 32), "5/32 in");       // 5.04 thirty-seconds
}

TEST(InchText, CarriesAFractionThatRoundsToAWhole) {
  EXPECT_EQ(inch_text(25.4 * (2 - 1.0 / 64), 16), "2 in");
  EXPECT_EQ(inch_text(0.1, 16), "0 in");
}

TEST(InchText, KeepsTheSign) {
  EXPECT_EQ(inch_text(-9.525, 16), "-3/8 in");
  EXPECT_EQ(inch_text(-38.1, 16), "-1 1/2 in");
  EXPECT_EQ(inch_text(-0.1, 16), "0 in");
}

TEST(LengthWords, SpeakCentimetresForWhatATapeMeasures) {
  EXPECT_EQ(length_words(570), "57.0 cm (22 7/16 in)");
  EXPECT_EQ(length_words(100 * std::numbers::pi), "31.4 cm (12 3/8 in)");  // 12.368 in
  EXPECT_EQ(length_words(20), "2.0 cm (13/16 in)");                        // 12.6 sixteenths
}

TEST(LengthWords, SpeakMillimetresForSmallThings) {
  EXPECT_EQ(length_words(4), "4.0 mm (5/32 in)");
  EXPECT_EQ(length_words(0.25), "0.25 mm");
  EXPECT_EQ(length_words(0), "0 mm");
}

TEST(CountWords, GroupsLongCountsOnly) {
  EXPECT_EQ(count_words(0), "0");
  EXPECT_EQ(count_words(9999), "9999");
  EXPECT_EQ(count_words(10'000), "10 000");
  EXPECT_EQ(count_words(1'234'567), "1 234 567");
  EXPECT_EQ(count_words(-123'456), "-123 456");
}

TEST(Counted, TakesTheSingularForOneAlone) {
  EXPECT_EQ(counted(1, "vent", "vents"), "1 vent");
  EXPECT_EQ(counted(0, "vent", "vents"), "0 vents");
  EXPECT_EQ(counted(2, "vent", "vents"), "2 vents");
}

}  // namespace
}  // namespace crownwright::report
