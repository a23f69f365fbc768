#include "meridian/beret.h"

#include <gtest/gtest.h>

#include <charconv>
#include <string>

#include "base/numbers.h"
#include "meridian/plane.h"
#include "meridian/random_beret.h"

namespace crownwright::meridian {
namespace {

constexpr double degree = pi / 180;

/// The family's worked case: crown 280 mm, head girth 569.9 mm, rise 75 mm, dome 6 mm, edges 20 mm.
BeretValues worked_case() { return {140, 90.7, 75, 6, 20, 20}; }

/// The number after `words` in a fault's line.
double number_after(const std::string& line, const std::string& words) {
  const auto at = line.find(words);
  EXPECT_NE(at, std::string::npos) << '"' << words << "\" is missing in: " << line;
  if (at == std::string::npos) return NAN;
  double value = NAN;
  std::from_chars(line.data() + at + words.size(), line.data() + line.size(), value);
  return value;
}

// The digits of the WorkedCase* tests were worked out apart from this program, before it was written.
TEST(Beret, WorkedCaseToTheDigitsPrinted) {
  const auto figures = solve_figures(worked_case());
  ASSERT_TRUE(figures.ok());
  EXPECT_NEAR(figures->f / degree, 5.6328, 5e-5);
  EXPECT_NEAR(figures->rho, 1242.582, 5e-4);
  EXPECT_NEAR(figures->top_length, 151.609, 5e-4);
  EXPECT_NEAR(75 - figures->z_equator, 25.903, 5e-4);
  EXPECT_NEAR(figures->psi / degree, 51.303, 5e-4);
  EXPECT_NEAR(figures->under_length, 71.471, 5e-4);
}

TEST(Beret, WorkedCaseLeastRise) {
  BeretValues v = worked_case();
  v.R = 45.9035;
  EXPECT_TRUE(solve_figures(v).ok());
  v.R = 45.9025;
  ASSERT_FALSE(solve_figures(v).ok());
  EXPECT_EQ(solve_figures(v).fault().exit, ExitCode::impossible);
}

TEST(Beret, WorkedCaseMovedInwardUnderFleece) {
  // 3 mm fleece, lengths of the cloth's middle: d = 1.5.
  const auto inner = moved_inward(worked_case(), 1.5);
  ASSERT_TRUE(inner.ok());
  EXPECT_NEAR(inner->e_u, 18.50, 5e-3);
  EXPECT_NEAR(inner->R, 72.78, 5e-3);
  EXPECT_EQ(inner->a, 138.5);
  EXPECT_EQ(inner->b, 89.2);
}

TEST(Beret, WorkedCaseMovingRadiiAloneWouldMislead) {
  // The same lengths laid over radii less 1.5 mm: e 22.62 and R 77.09, the error the true offset avoids.
  const auto figures = solve_figures(worked_case());
  const auto naive = solve_panel({138.5, 89.2, 6, figures->top_length, figures->under_length, false, 0});
  ASSERT_TRUE(naive.ok()) << naive.fault().line();
  EXPECT_NEAR(naive->e_u, 22.62, 5e-3);
  EXPECT_NEAR(naive->R, 77.09, 5e-3);
}

TEST(Beret, WorkedCaseRefusalNamesBothEnds) {
  const double top = top_length(140, 6, 20);
  const auto refused = solve_panel({140, 90.7, 6, top, 84, true, 95});
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
  EXPECT_EQ(refused.fault().line().rfind(
                "with this top, rise 95 mm needs an under-length of 84.9 to 90.6 mm; the panel has 84", 0),
            0U)
      << refused.fault().line();
}

TEST(Beret, HalfBallIsTheLimitOfDomeAndOfEdge) {
  // Archimedes: half a sphere has area 2 pi a^2 and volume 2/3 pi a^3 (straight side of 30 mm almost
  // upright).
  const double a = 100;
  EXPECT_DOUBLE_EQ(top_length(a, a, 20), a * pi / 2);
  EXPECT_DOUBLE_EQ(top_length(a, 0, a), a * pi / 2);
  EXPECT_DOUBLE_EQ(top_length(a, 0, 0), a);
  const double f0 = 2 * std::atan(0.06);  // sharp edge: cap of sagitta 6 on radius 100
  EXPECT_DOUBLE_EQ(top_length(a, 6, 0), a * f0 / std::sin(f0));
  for (const BeretValues& v : {BeretValues{a, 99, 130, a, 20, 0}, BeretValues{a, 99, 130, 0, a, 0}}) {
    const auto chain = crown_chain(v);
    ASSERT_TRUE(chain.ok());
    ASSERT_EQ(chain->size(), 2U);
    EXPECT_NEAR((*chain)[0].swept_area(), 2 * pi * a * a, 1e-8);
    EXPECT_NEAR((*chain)[0].swept_volume(), 2.0 / 3 * pi * a * a * a, 1e-6);
    EXPECT_NEAR(norm((*chain)[0].to() - Point{a, 30}), 0, 1e-12);
  }
}

TEST(Beret, SharpUnderEdgeIsACorner) {
  BeretValues v = worked_case();
  v.e_l = 0;
  const auto figures = solve_figures(v);
  ASSERT_TRUE(figures.ok());
  EXPECT_DOUBLE_EQ(figures->psi, std::atan2(49.3, figures->z_equator));
  EXPECT_DOUBLE_EQ(figures->under_length, std::hypot(49.3, figures->z_equator));
  const auto chain = crown_chain(v);
  ASSERT_TRUE(chain.ok());
  ASSERT_EQ(chain->size(), 3U);
  EXPECT_EQ((*chain)[2].from(), (Point{140, figures->z_equator}));
}

TEST(Beret, FlatSharpCrownIsThreeLinesAtMost) {
  const auto chain = crown_chain({100, 70, 40, 0, 0, 0});
  ASSERT_TRUE(chain.ok());
  ASSERT_EQ(chain->size(), 2U);  // flat top, straight underside
  EXPECT_DOUBLE_EQ(length(*chain), 100 + 50);
}

TEST(Beret, NearlyEqualGirthsStandUpright) {
  const auto figures = solve_figures({100, 99.999, 60, 0, 10, 10});
  ASSERT_TRUE(figures.ok());
  EXPECT_LT(figures->psi, 1e-4);
  EXPECT_NEAR(figures->under_length, 50, 1e-3);
}

bool is_smooth_at(const Chain& chain, std::size_t joint) {
  const Segment& before = chain[joint - 1];
  return norm(before.tangent_at(before.length()) - chain[joint].tangent_at(0)) < 1e-9;
}

TEST(Beret, RandomChainsKeepTheFamilysLaws) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 2000; ++i) {
    const BeretValues v = random_beret(random);
    SCOPED_TRACE(testing::Message() << i << ": " << v.a << ' ' << v.b << ' ' << v.R << ' ' << v.t << ' '
                                    << v.e_u << ' ' << v.e_l);
    const auto figures = solve_figures(v);
    ASSERT_TRUE(figures.ok()) << figures.fault().line();
    const Chain chain = crown_chain(v).value();
    EXPECT_EQ(chain.front().from(), (Point{0, v.R}));
    EXPECT_EQ(chain.back().to(), (Point{v.b, 0}));
    EXPECT_EQ(greatest_gap(chain), 0);
    EXPECT_NEAR(length(chain), figures->top_length + figures->under_length, 1e-8);
    EXPECT_LE(figures->psi, pi / 2 + 1e-6);
    // The tip equation itself.
    EXPECT_NEAR((v.a - v.e_u * (1 - std::sin(figures->f))) * std::tan(figures->f / 2), v.t, 1e-12 * v.a);
    double widest = 0;
    for (std::size_t k = 0; k < chain.size(); ++k) {
      for (int j = 0; j <= 8; ++j) widest = std::max(widest, chain[k].at(chain[k].length() * j / 8).r);
      if (k > 0 && v.e_u > 0.1 && v.e_l > 0.1 && chain[k].length() > 1e-3 && chain[k - 1].length() > 1e-3) {
        EXPECT_TRUE(is_smooth_at(chain, k)) << "joint " << k;
      }
    }
    EXPECT_NEAR(widest, v.a, 1e-9);
  }
}

TEST(MovedInward, ShortensByTheClosedForms) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 500; ++i) {
    const BeretValues v = random_beret(random);
    const double d = uniform(random, 0, 1) * std::min({v.e_u, v.e_l, 0.9 * v.b});
    SCOPED_TRACE(testing::Message() << i << " d " << d);
    const auto outer = solve_figures(v);
    const auto inner = moved_inward(v, d);
    ASSERT_TRUE(inner.ok()) << inner.fault().line();
    const auto figures = solve_figures(*inner);
    ASSERT_TRUE(figures.ok()) << figures.fault().line();
    EXPECT_NEAR(figures->f, outer->f, 1e-7);
    if (outer->rho < 1e6) {
      EXPECT_NEAR(figures->rho, outer->rho - d, 1e-6 * outer->rho);
    }
    EXPECT_NEAR(figures->top_length, outer->top_length - d * pi / 2, 1e-7);
    EXPECT_NEAR(figures->under_length, outer->under_length - d * (outer->psi - std::tan(outer->psi / 2)),
                1e-7);
  }
}

TEST(MovedInward, NeedsEdgesAsRoundAsItsDepth) {
  BeretValues v = worked_case();
  v.e_l = 2;
  const auto refused = moved_inward(v, 2.55);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
  EXPECT_EQ(number_after(refused.fault().line(), "least edge radius is "), 2.6);
  EXPECT_TRUE(moved_inward(v, 2).ok());
}

TEST(Panel, GivesBackTheValuesItsLengthsCameFrom) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 1000; ++i) {
    BeretValues v = random_beret(random);
    const bool has_rise = random() % 2;
    if (!has_rise) {
      v.e_l = v.e_u;
      v.R = pole_to_equator(v.a, v.t, v.e_u) + least_equator(v.a - v.b, v.e_l) + uniform(random, 0.1, 60);
    }
    SCOPED_TRACE(testing::Message() << i << ": " << v.a << ' ' << v.b << ' ' << v.R << ' ' << v.t << ' '
                                    << v.e_u << ' ' << v.e_l << " rise given " << has_rise);
    const auto figures = solve_figures(v);
    ASSERT_TRUE(figures.ok()) << figures.fault().line();
    const auto found = solve_panel(
        {v.a, v.b, v.t, figures->top_length, figures->under_length, has_rise, has_rise ? v.R : 0});
    ASSERT_TRUE(found.ok()) << found.fault().line();
    const auto back = solve_figures(*found);
    ASSERT_TRUE(back.ok()) << back.fault().line();
    EXPECT_NEAR(back->top_length, figures->top_length, 1e-9);
    EXPECT_NEAR(back->under_length, figures->under_length, 1e-8);
    if (has_rise) {
      EXPECT_EQ(found->R, v.R);
    }
    if (!has_rise) {
      EXPECT_EQ(found->e_l, found->e_u);
    }
    // A dome near half a ball hardly tells its edge radius.
    if (v.t < 0.5 * v.a) {
      EXPECT_NEAR(found->e_u, v.e_u, 1e-6);
    }
  }
}

TEST(Panel, TopLengthOutOfReachNamesBothEnds) {
  // Flat tip: from a (razor edge) to a pi / 2 (half a ball).
  const auto refused = solve_panel({100, 80, 0, 99, 40, false, 0});
  ASSERT_FALSE(refused.ok());
  EXPECT_NE(refused.fault().line().find("100 to 157.1 mm; the panel has 99 mm"), std::string::npos)
      << refused.fault().line();
  const auto hair = solve_panel({100, 80, 0, 99.99, 40, false, 0});
  EXPECT_NE(hair.fault().line().find("100 to 157.08 mm; the panel has 99.99 mm"), std::string::npos)
      << hair.fault().line();
}

TEST(Panel, RefusedUnderLengthNamesRisesThatWork) {
  const double top = top_length(140, 6, 20);
  const std::string line = solve_panel({140, 90.7, 6, top, 84, true, 95}).fault().line();
  const double low = number_after(line, "fits a rise of "), high = number_after(line, " to 93");
  EXPECT_FALSE(std::isnan(high));
  for (const double rise : {low, 93 + high})
    EXPECT_TRUE(solve_panel({140, 90.7, 6, top, 84, true, rise}).ok());
  for (const double rise : {low - 0.1, 93.1 + high})
    EXPECT_FALSE(solve_panel({140, 90.7, 6, top, 84, true, rise}).ok());
}

TEST(Panel, UnderLengthTooShortForItsEdge) {
  // 20 mm edge under w = 49.3: shortest when it ends flat on the head line, w + 20 (pi / 2 - 1) = 60.716.
  const double top = top_length(140, 6, 20);
  const auto refused = solve_panel({140, 90.7, 6, top, 60, false, 0});
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(number_after(refused.fault().line(), "under-length of at least "), 60.8);
  EXPECT_TRUE(solve_panel({140, 90.7, 6, top, 60.8, false, 0}).ok());
  EXPECT_FALSE(solve_panel({140, 90.7, 6, top, 49, false, 0}).ok());
  EXPECT_FALSE(solve_panel({140, 90.7, 6, top, 49, true, 70}).ok());
  EXPECT_FALSE(solve_panel({140, 90.7, 6, top, 60, true, 20}).ok());
}

TEST(Refusal, LeastRiseAndLargestRadiusWorkAsPrinted) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int refused = 0;
  for (int i = 0; i < 1000; ++i) {
    BeretValues v = random_beret(random);
    v.R = uniform(random, 0.2, 1) * v.R;
    const auto answer = solve_figures(v);
    if (answer.ok()) continue;
    ++refused;
    const std::string line = answer.fault().line();
    SCOPED_TRACE(line);
    ASSERT_EQ(answer.fault().exit, ExitCode::impossible);
    BeretValues raised = v, lower = v, rounder = v;
    raised.R = number_after(line, "must be at least ");
    EXPECT_TRUE(solve_figures(raised).ok());
    raised.R -= 0.1;
    EXPECT_FALSE(solve_figures(raised).ok());
    if (line.find("dome of at most") != std::string::npos) {
      lower.t = number_after(line, "a dome of at most ");
      lower.e_u = lower.e_l = 0;
      EXPECT_TRUE(lower.R <= 0.1 || solve_figures(lower).ok());
    } else if (line.find("an under edge") != std::string::npos) {
      rounder.e_l = number_after(line, "an under edge radius of at most ");
      EXPECT_TRUE(solve_figures(rounder).ok());
      rounder.e_l += 0.1;
      EXPECT_FALSE(solve_figures(rounder).ok());
    } else {
      rounder.e_u = rounder.e_l = number_after(line, "an edge radius of at most ");
      EXPECT_TRUE(solve_figures(rounder).ok());
      rounder.e_u = rounder.e_l += 0.1;
      EXPECT_FALSE(rounder.e_u <= rounder.a && solve_figures(rounder).ok());
    }
  }
  EXPECT_GT(refused, 100);
}

TEST(Refusal, HeadGirthLargerThanTheCrown) {
  BeretValues v = worked_case();
  for (const double b : {140.0, 150.0}) {
    v.b = b;
    const auto refused = solve_figures(v);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
    const std::string line = refused.fault().line();
    EXPECT_EQ(number_after(line, "largest head girth for this crown is "), 879.6)
        << line;  // pi 280 = 879.646
    EXPECT_EQ(number_after(line, "least crown diameter for this head girth "), 2 * b + 0.1) << line;
    BeretValues mended = v;
    mended.b = 879.6 / (2 * pi);
    EXPECT_TRUE(solve_figures(mended).ok());
    mended = v;
    mended.a = b + 0.05;
    EXPECT_TRUE(solve_figures(mended).ok());
  }
}

TEST(Refusal, ValuesOutsideTheirRange) {
  const auto is_refused = [](const BeretValues& v) {
    const auto answer = solve_figures(v);
    return !answer.ok() && answer.fault().exit == ExitCode::impossible && !crown_chain(v).ok() &&
           !moved_inward(v, 0).ok();
  };
  EXPECT_TRUE(is_refused({140, 90.7, 300, 141, 20, 20}));
  EXPECT_TRUE(is_refused({140, 90.7, 300, 6, 140.1, 20}));
  EXPECT_TRUE(is_refused({140, 90.7, 0, 6, 20, 20}));
  EXPECT_TRUE(is_refused({140, 90.7, 75, -1, 20, 20}));
  EXPECT_TRUE(is_refused({140, NAN, 75, 6, 20, 20}));
  EXPECT_TRUE(is_refused({INFINITY, 90, 75, 6, 20, 20}));
  EXPECT_TRUE(is_refused({140, 90, 6, 6, 0, 0}));
  EXPECT_THROW(tip_angle(100, 101, 0), std::logic_error);
}

}  // namespace
}  // namespace crownwright::meridian
