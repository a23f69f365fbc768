#include "pattern/read.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "drawn.h"
#include "support/light.h"
#include "support/seed.h"

namespace crownwright::pattern {
namespace {

using meridian::BeretValues;
using test::pi;

const int beret_count = test::light() ? 6 : 25, read_every = test::light() ? 10 : 1;

constexpr int drawings = 100;

using test::laws;
const BeretValues flat_tip{135, 91, 62, 0, 22, 22};

/// Greatest hoop strain of the form on the cloth, from `from` mm on.
double greatest_strain(const Parallels& form, const Parallels& cloth, double from) {
  double worst = 0;
  for (double s = from; s <= form.length(); s += 0.5)
    worst = std::max(worst, std::abs(form.r(s) / cloth.r(s * cloth.length() / form.length()) - 1));
  return worst;
}

// A form against its own draft: the form's radii are the answer.
TEST(Read, CrownFromItsOwnDraftWithin005PerCent) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int read = 0;
  for (int i = 0; i < beret_count; ++i) {
    const Parallels form = test::parallels_of(test::ordinary_beret(random));
    const LengthAlong along = laws[random() % 3];
    const int panels = 4 + static_cast<int>(random() % 21);
    const auto net = draft_panel(form, {panels, along, 0.001});
    if (!net) continue;
    const auto reading = read_cloth(test::outline_of(*net), along);
    ASSERT_TRUE(reading.ok()) << reading.fault().line();
    ++read;
    EXPECT_LE(greatest_strain(form, reading->cloth, 0.5), 0.0005) << panels << " panels";
    EXPECT_NEAR(reading->cloth.length(), form.length(), 0.05);
    EXPECT_LE(reading->misfit, 0.02);
    EXPECT_FALSE(reading->too_much);
    EXPECT_NEAR(reading->net.seam_length, net->seam_length, 0.05);
    EXPECT_NEAR(reading->net.centre_length, net->centre_length, 0.05);
  }
  EXPECT_GT(read, beret_count / 2);
}

// Berets that the law can just draft with four panels along the seam: full steps run away from them.
TEST(Read, CrownsHardlyDraftedWithFourPanels) {
  const BeretValues hard[] = {{128.141, 84.648, 55.138, 10.499, 21.542, 21.542},
                              {135.854, 98.905, 48.522, 0, 22.829, 22.829},
                              {107.5, 77.619, 48.997, 6.742, 19.583, 19.583},
                              {135.089, 92.325, 74.903, 11.390, 20.513, 20.513}};
  for (const BeretValues& values : hard) {
    SCOPED_TRACE(values.a);
    const Parallels form = test::parallels_of(values);
    const auto net = draft_panel(form, {4, LengthAlong::seam, 0.001});
    ASSERT_TRUE(net.ok()) << net.fault().line();
    const auto reading = read_cloth(test::outline_of(*net), LengthAlong::seam);
    ASSERT_TRUE(reading.ok()) << reading.fault().line();
    EXPECT_LE(greatest_strain(form, reading->cloth, 0.5), 0.0005);
    EXPECT_NEAR(reading->cloth.length(), form.length(), 0.05);
    EXPECT_LE(reading->misfit, 0.02);
  }
}

TEST(Read, StationsFourMillimetresApart) {
  const Parallels form = test::parallels_of(flat_tip);
  const PanelNet net = draft_panel(form, {8, LengthAlong::shared, 0.001}).value();
  const auto reading = read_cloth(test::stations_of(net, 4), LengthAlong::shared);
  ASSERT_TRUE(reading.ok());
  EXPECT_LE(greatest_strain(form, reading->cloth, 0.5), 0.002);
}

/// The greatest r(s) - r(s0) - (s - s0) of the bare half widths, girth in mm; distances straight down, which
/// for a flat pie's seam are s cos(pi / n).
double excess_of_bare_widths(const DrawnPanel& drawn) {
  double greatest = 0, lowest = 0;
  for (const Station& station : drawn.stations) {
    const double over = drawn.panels / pi * station.half_width - station.y / std::cos(pi / drawn.panels);
    lowest = std::min(lowest, over);
    greatest = std::max(greatest, over - lowest);
  }
  return 2 * pi * greatest;
}

// 0.2 mm of noise at 4 mm stations feigns some 10 mm of girth, at times 14, in the bare widths of a
// flat-tipped panel of eight; the reading must not see any.
TEST(Read, NoiseAloneFeignsNoExcess) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const PanelNet net = draft_panel(test::parallels_of(flat_tip), {8, LengthAlong::shared, 0.001}).value();
  const DrawnPanel exact = test::stations_of(net, 4);
  double feigned = 0;
  for (int i = 0; i < drawings; ++i) {
    const DrawnPanel drawn = test::noisy(exact, 0.2, random);
    feigned += excess_of_bare_widths(drawn) / drawings;
    if (i % read_every != 0) continue;
    const auto reading = read_cloth(drawn, LengthAlong::shared);
    ASSERT_TRUE(reading.ok()) << reading.fault().line();
    EXPECT_FALSE(reading->too_much) << reading->too_much->girth << " mm at " << reading->too_much->at;
    EXPECT_LE(reading->misfit, 1.0);
  }
  EXPECT_GE(feigned, 8);
}

/// r = s, but `girth` mm more is let in evenly between two distances.
Parallels with_more_cloth(double girth, double from, double to, double length) {
  std::vector<double> s, r;
  for (double at = 0; at <= length; at += 1) {
    s.push_back(at);
    r.push_back(at + girth / (2 * pi) * std::clamp((at - from) / (to - from), 0.0, 1.0));
  }
  return Parallels::through(s, r);
}

// 14 mm too much, let in between 70 and 96 mm: the sum is the panel's own.
TEST(Read, TooMuchClothWithItsPlaceAndAmount) {
  const Parallels cloth = with_more_cloth(14, 70, 96, 150);
  for (const LengthAlong along : laws) {
    const PanelNet net = draft_unasked(cloth, {8, along, 0.001});
    for (const bool measured : {false, true}) {
      const auto reading = read_cloth(measured ? test::stations_of(net, 4) : test::outline_of(net), along);
      ASSERT_TRUE(reading.ok()) << reading.fault().line();
      ASSERT_TRUE(reading->too_much);
      EXPECT_NEAR(reading->too_much->girth, 14, 1);
      // Smoothed over the half width, some 37 mm there: half of that to either side.
      EXPECT_NEAR(reading->too_much->at, 96, 25);
      EXPECT_NEAR(reading->too_much->from, 70, 25);
      EXPECT_LT(reading->too_much->from, reading->too_much->at);
    }
  }
}

TEST(Read, TooMuchClothShowsThroughNoise) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const PanelNet net = draft_unasked(with_more_cloth(14, 70, 96, 150), {8, LengthAlong::shared, 0.001});
  const auto reading = read_cloth(test::noisy(test::stations_of(net, 4), 0.2, random), LengthAlong::shared);
  ASSERT_TRUE(reading.ok());
  ASSERT_TRUE(reading->too_much);
  EXPECT_NEAR(reading->too_much->girth, 14, 5);
}

// The other sense: the girth falls faster than a flat ring's does, so the wider place has too much. The flat
// ring is r' = -1; here 12 mm of girth are taken away beyond that between 125 and 145 mm.
TEST(Read, GirthFallingTooFastIsTooMuchToo) {
  std::vector<double> s, r;
  for (double at = 0; at <= 165; at += 1) {
    s.push_back(at);
    r.push_back((at < 90 ? at : 180 - at) - 12 / (2 * pi) * std::clamp((at - 125) / 20, 0.0, 1.0));
  }
  const PanelNet net = draft_unasked(Parallels::through(s, r), {12, LengthAlong::shared, 0.001});
  const auto reading = read_cloth(test::outline_of(net), LengthAlong::shared);
  ASSERT_TRUE(reading.ok()) << reading.fault().line();
  ASSERT_TRUE(reading->too_much);
  EXPECT_NEAR(reading->too_much->girth, 12, 1);
  EXPECT_NEAR(reading->too_much->from, 145, 20);
  EXPECT_NEAR(reading->too_much->at, 125, 20);
}

TEST(Read, FaultsInsteadOfNonsense) {
  const auto refused = [](DrawnPanel drawn) { return !read_cloth(drawn, LengthAlong::shared).ok(); };
  const DrawnPanel good{8, {{0, 0}, {50, 20}, {100, 40}, {130, 50}, {200, 35}}, {}, 0.2};
  EXPECT_FALSE(refused(good));
  DrawnPanel bad = good;
  bad.stations.resize(3);
  EXPECT_TRUE(refused(bad));
  bad = good;
  bad.stations[2].y = 10;
  EXPECT_TRUE(refused(bad));
  bad = good;
  bad.stations[2].half_width = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(refused(bad));
  bad = good;
  bad.stations.back().half_width = 0;
  EXPECT_TRUE(refused(bad));
  bad = good;
  bad.panels = 2;
  EXPECT_TRUE(refused(bad));
}

// Whatever is drawn: a reading or a fault, never a crash.
TEST(Read, AnyWildPanelIsReadOrRefused) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < beret_count; ++i) {
    DrawnPanel drawn{3 + static_cast<int>(random() % 46), {{0, 0}}, {}, test::uniform(random, 0, 1)};
    double y = 0;
    for (int k = 3 + static_cast<int>(random() % 30); k > 0; --k)
      drawn.stations.push_back({y += test::uniform(random, 0.01, 20), test::uniform(random, 0, 80)});
    const auto reading = read_cloth(drawn, laws[random() % 3]);
    if (reading.ok())
      EXPECT_TRUE(std::isfinite(reading->misfit));
    else
      EXPECT_EQ(reading.fault().exit, ExitCode::impossible);
  }
}

}  // namespace
}  // namespace crownwright::pattern
