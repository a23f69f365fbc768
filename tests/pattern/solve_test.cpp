#include "pattern/solve.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
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

const int noisy_drawings = test::light() ? 15 : 200, wild_drawings = test::light() ? 15 : 60;
// One sigma of a scatter from 200 is 5 %; from 15 it is 18 %.
const double scatter_within = test::light() ? 0.6 : 0.2;

using test::laws;
using test::study;

PanelNet net_of(const BeretValues& values, int panels, LengthAlong along) {
  return draft_panel(test::parallels_of(values), {panels, along, 0.001}).value();
}

FitQuestion question(double dome, LengthAlong along = LengthAlong::shared) {
  FitQuestion q;
  q.along = along;
  q.dome = dome;
  return q;
}

// One trade panel of eight, tip 45 degrees (a flat tip), 106 mm wide at 135, 71 at 205, reads a rise of 75,
// 59 and 46 mm for seam, shared and centre (worked out apart from this program, where the panel's curve
// between those places is not told: here it is the one whose edge lies where it must along the seam, which
// leaves a millimetre or so). Any beret reads so: the panel is only told apart by the law it was cut by.
TEST(Solve, OneTradePanelUnderThreeLaws) {
  const PanelNet net = net_of({135, 91.4, 75, 0, 20, 20}, 8, LengthAlong::seam);
  const auto widest = std::max_element(net.points.begin(), net.points.end(),
                                       [](const PanelPoint& p, const PanelPoint& q) { return p.x < q.x; });
  ASSERT_NEAR(2 * widest->x, 106, 0.1);
  ASSERT_NEAR(widest->y, 135, 1.5);
  ASSERT_NEAR(2 * net.points.back().x, 71, 0.2);
  ASSERT_NEAR(net.points.back().y, 205, 0.5);
  const auto fit = fit_panel(test::outline_of(net), question(0, LengthAlong::seam));
  ASSERT_TRUE(fit.ok()) << fit.fault().line();
  const double rises[] = {75, 46, 59};
  for (std::size_t law = 0; law < 3; ++law) {
    ASSERT_TRUE(fit->by_law[law]);
    EXPECT_EQ(fit->by_law[law]->along, laws[law]);
    EXPECT_NEAR(fit->by_law[law]->rise, rises[law], 1.5);
  }
  EXPECT_NEAR(fit->rise_spread, 75 - 46, 1.5);
}

struct Scatter {
  double sum = 0, squares = 0, sigmas = 0;
  void add(double value, double sigma) {
    sum += value;
    squares += value * value;
    sigmas += sigma;
  }
  double mean(int n) const { return sum / n; }
  double sigma(int n) const { return std::sqrt(std::max(0.0, squares / n - mean(n) * mean(n))); }
};

// Stations every 4 mm, 0.2 mm of noise, 8 panels: one sigma of a is 0.21 mm and of e 0.53 mm (worked out
// apart from this program, for a dome that is known and a form that is not named). The sigmas reported are
// judged by the scatter of the fits themselves. (That working-out also has b 0.14 and R 0.53 mm, which half
// widths alone do not tell: 0.24 and 0.58 mm for a crown of 280 mm and a rise of 75, worked with its dome
// known; only a head girth known within 1 mm besides makes them 0.14 and 0.53.)
TEST(Solve, SigmasAreThoseOfRepeatedDrawings) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const DrawnPanel exact = test::stations_of(net_of(study, 8, LengthAlong::shared), 4);
  Scatter a, b, e;
  for (int i = 0; i < noisy_drawings; ++i) {
    const auto fit = fit_panel(test::noisy(exact, 0.2, random), question(5));
    ASSERT_TRUE(fit.ok()) << fit.fault().line();
    a.add(fit->values.a, fit->sigma.a);
    b.add(fit->values.b, fit->sigma.b);
    e.add(fit->values.e_u, fit->sigma.e_u);
    EXPECT_NEAR(fit->rms, 0.2, 0.1);
  }
  const int n = noisy_drawings;
  for (const Scatter* scatter : {&a, &b, &e})
    EXPECT_NEAR(scatter->sigma(n) / (scatter->sigmas / n), 1, scatter_within);
  EXPECT_NEAR(a.mean(n), study.a, 3 * 0.21 / std::sqrt(n));
  EXPECT_NEAR(b.mean(n), study.b, 3 * 0.3 / std::sqrt(n));
  EXPECT_NEAR(a.sigmas / n, 0.21, 0.03);
  EXPECT_NEAR(e.sigmas / n, 0.53, 0.08);
}

// What is stated is held, exactly, and has no sigma.
TEST(Solve, StatedValuesAreHeld) {
  const DrawnPanel drawn = test::outline_of(net_of(study, 8, LengthAlong::shared));
  FitQuestion stated = question(5);
  stated.rise = 64;
  auto fit = fit_panel(drawn, stated);
  ASSERT_TRUE(fit.ok()) << fit.fault().line();
  EXPECT_EQ(fit->values.R, 64);
  EXPECT_EQ(fit->sigma.R, 0);
  EXPECT_GT(fit->sigma.a, 0);
  EXPECT_NEAR(fit->values.a, study.a, 1);
  EXPECT_EQ(fit->rise_spread, 0);

  stated = question(5);
  stated.head_radius = 91;
  stated.crown_radius = 135;
  fit = fit_panel(drawn, stated);
  ASSERT_TRUE(fit.ok()) << fit.fault().line();
  EXPECT_EQ(fit->values.a, 135);
  EXPECT_EQ(fit->values.b, 91);
  EXPECT_NEAR(fit->values.R, 62, 0.3);
  EXPECT_NEAR(fit->values.e_u, 22, 0.1);
}

TEST(Solve, EdgesApartComeBackApart) {
  const BeretValues unlike{140, 92, 70, 4, 26, 14};
  FitQuestion apart = question(4);
  apart.apart = true;
  const auto fit = fit_panel(test::outline_of(net_of(unlike, 8, LengthAlong::shared)), apart);
  ASSERT_TRUE(fit.ok()) << fit.fault().line();
  EXPECT_NEAR(fit->values.e_u, 26, 0.3);
  EXPECT_NEAR(fit->values.e_l, 14, 0.3);
  EXPECT_NEAR(fit->values.R, 70, 0.5);
  EXPECT_GT(fit->sigma.e_l, 0);
}

TEST(Solve, DomeAsAShareOfTheCrown) {
  FitQuestion share;
  share.dome_share = 0.04;
  const auto fit = fit_panel(test::outline_of(net_of(study, 8, LengthAlong::shared)), share);
  ASSERT_TRUE(fit.ok());
  EXPECT_NEAR(fit->values.t, 5, 0.5);
  EXPECT_NEAR(fit->values.R, 62, 0.5);
}

// The end of the drafted panel is the drawn one's: the total length is held though every width is wrong.
TEST(Solve, TotalLengthIsHeld) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const DrawnPanel drawn =
      test::noisy(test::stations_of(net_of(study, 8, LengthAlong::shared), 4), 0.5, random);
  const auto fit = fit_panel(drawn, question(5));
  ASSERT_TRUE(fit.ok());
  const PanelNet net = net_of(fit->values, 8, LengthAlong::shared);
  EXPECT_NEAR(net.points.back().y, drawn.stations.back().y, 0.01);
}

TEST(Solve, ResidualsAreTheDraftsDistanceFromTheDrawing) {
  DrawnPanel drawn = test::stations_of(net_of(study, 8, LengthAlong::shared), 4);
  // 23 stations of 4 mm: on the straight side at 92 mm; 0.5 mm wider there.
  drawn.stations[23].half_width += 0.5;
  const auto fit = fit_panel(drawn, question(5));
  ASSERT_TRUE(fit.ok());
  const auto worst = std::max_element(
      fit->residuals.begin(), fit->residuals.end(),
      [](const Residual& p, const Residual& q) { return std::abs(p.distance) < std::abs(q.distance); });
  EXPECT_EQ(worst->y, drawn.stations[23].y);
  // The draft lies inside the drawn point; a side of 22.5 degrees shows 0.5 mm as 0.5 cos(22.5 deg), and the
  // fit follows it a little.
  EXPECT_NEAR(worst->distance, -0.5 * std::cos(22.5 * test::degree), 0.06);
  EXPECT_EQ(fit->worst, std::abs(worst->distance));
  EXPECT_EQ(fit->residuals.size(), drawn.stations.size() - 1);
}

/// A pie that suddenly flares: 150 mm of girth more between 70 and 96 mm than a flat disc takes.
DrawnPanel flaring() {
  std::vector<double> s, r;
  for (double at = 0; at <= 200; at += 1) {
    s.push_back(at);
    r.push_back((at < 150 ? at : 300 - at) + 150 / (2 * pi) * std::clamp((at - 70) / 26, 0.0, 1.0));
  }
  return test::outline_of(draft_unasked(Parallels::through(s, r), {8, LengthAlong::shared, 0.001}));
}

TEST(Solve, RefusesWhatNoBeretComesNearAndSaysWhy) {
  const auto fit = fit_panel(flaring(), question(5));
  ASSERT_FALSE(fit.ok());
  EXPECT_EQ(fit.fault().exit, ExitCode::impossible);
  const std::string line = fit.fault().line();
  EXPECT_NE(line.find("no beret comes near"), std::string::npos) << line;
  EXPECT_NE(line.find(" mm too much cloth at "), std::string::npos) << line;
}

TEST(Solve, RefusesStatedValuesThatExcludeEachOther) {
  const DrawnPanel drawn = test::outline_of(net_of(study, 8, LengthAlong::shared));
  FitQuestion stated = question(5);
  stated.crown_radius = 90;
  stated.head_radius = 91;
  EXPECT_FALSE(fit_panel(drawn, stated).ok());
  stated = question(5);
  stated.rise = 0;
  EXPECT_FALSE(fit_panel(drawn, stated).ok());
  // A rise the panel is far too short for.
  stated.rise = 300;
  const auto fit = fit_panel(drawn, stated);
  ASSERT_FALSE(fit.ok());
  EXPECT_EQ(fit.fault().exit, ExitCode::impossible);
}

TEST(Solve, RefusesWhatIsNoPanel) {
  const DrawnPanel good{8, {{0, 0}, {50, 20}, {100, 40}, {130, 50}, {200, 35}}, {}, 0.2};
  EXPECT_TRUE(fit_panel(good, question(5)).ok());
  DrawnPanel bad = good;
  bad.stations[3].half_width = std::numeric_limits<double>::infinity();
  EXPECT_FALSE(fit_panel(bad, question(5)).ok());
  bad = good;
  std::swap(bad.stations[1], bad.stations[2]);
  EXPECT_FALSE(fit_panel(bad, question(5)).ok());
}

void random_statement(std::mt19937_64& random, FitQuestion& q) {
  q.along = laws[random() % 3];
  q.apart = random() % 2 == 0;
  q.dome_share = test::uniform(random, 0, 1);
  if (random() % 4 == 0) q.rise = test::uniform(random, 1, 200);
  if (random() % 4 == 0) q.head_radius = test::uniform(random, 1, 200);
  if (random() % 4 == 0) q.crown_radius = test::uniform(random, 1, 200);
}

// Whatever is drawn and stated: values a beret can be made from, or a fault; never a crash.
TEST(Solve, AnyWildPanelIsFittedOrRefused) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < wild_drawings; ++i) {
    DrawnPanel drawn{3 + static_cast<int>(random() % 46), {{0, 0}}, {}, test::uniform(random, 0, 1)};
    double y = 0, slope = 0.4;
    for (int k = 3 + static_cast<int>(random() % 30); k > 0; --k) {
      slope -= test::uniform(random, 0, 0.06);
      const double step = test::uniform(random, 0.01, 15);
      const double width = drawn.stations.back().half_width + slope * step + test::uniform(random, -2, 2);
      drawn.stations.push_back({y += step, std::max(0.2, width)});
    }
    FitQuestion q;
    random_statement(random, q);
    const auto fit = fit_panel(drawn, q);
    if (!fit) {
      EXPECT_EQ(fit.fault().exit, ExitCode::impossible) << fit.fault().line();
      continue;
    }
    EXPECT_TRUE(meridian::solve_figures(fit->values).ok());
    EXPECT_LE(fit->rms, far_off);
    for (const double sigma : {fit->sigma.a, fit->sigma.b, fit->sigma.R, fit->sigma.t, fit->sigma.e_u})
      EXPECT_TRUE(std::isfinite(sigma) && sigma >= 0);
  }
}

}  // namespace
}  // namespace crownwright::pattern
