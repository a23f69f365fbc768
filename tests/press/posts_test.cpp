#include "press/posts.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "press/stiffen.h"
#include "support/random_number.h"

using namespace crownwright;
using namespace crownwright::press;

namespace {

double free_within(const std::vector<Spot>& posts, double radius) {
  return largest_free_circle(posts, radius).radius;
}

StiffnessQuestion weak_crown() {
  StiffnessQuestion q;
  q.elastic = {2000, 0.35};
  q.crown_radius = 140;
  q.edge_radius = 20;
  q.dome = 6;
  q.wall = 3;
  return q;
}

}  // namespace

// Closed forms on a crown of radius 1. No post: 1. One in the middle: half. One at distance d: the circle
// opposite, (1 + d)/2. On the rim: 1 - 0 still (1 + 1)/2 = 1. Three at distance d: the middle d, or towards
// the rim between two posts (x on the bisector): x^2 - x d + d^2 = (1 - x)^2, x = (1 - d^2)/(2 - d), free 1 -
// x.
TEST(FreeCircles, HaveClosedForms) {
  EXPECT_EQ(free_within({}, 140), 140);
  EXPECT_NEAR(free_within({{0, 0}}, 1), 0.5, 1.5e-4);
  EXPECT_NEAR(free_within({{0.4, 0}}, 1), 0.7, 1.5e-4);
  EXPECT_NEAR(free_within({{0, -1}}, 1), 1, 1.5e-4);
  for (const double d : {0.3, 0.5, 0.7, 0.9}) {
    const double between = 1 - (1 - d * d) / (2 - d);
    EXPECT_NEAR(free_within(ring_of_posts(3, d, false), 1), std::max(d, between), 1.5e-4) << d;
  }
  EXPECT_THROW(largest_free_circle({}, 0), std::logic_error);
}

// Whatever is answered must be free, and nothing on a fine raster may be freer by more than the tolerance and
// the raster's own coarseness.
TEST(FreeCircles, AreFreeAndLargest) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto anywhere = [&] { return test::uniform(random, -140, 140); };
  for (int trial = 0; trial < 20; ++trial) {
    std::vector<Spot> posts;
    for (int k = 0; k <= trial; ++k) posts.push_back({anywhere(), anywhere()});
    const auto free_at = [&](double x, double y) {
      double free = 140 - std::hypot(x, y);
      for (const Spot& post : posts) free = std::min(free, std::hypot(x - post.x, y - post.y));
      return free;
    };
    const FreeCircle best = largest_free_circle(posts, 140);
    EXPECT_NEAR(free_at(best.centre.x, best.centre.y), best.radius, 1e-9);
    double raster = 0;
    for (double x = -140; x <= 140; x += 2)
      for (double y = -140; y <= 140; y += 2) raster = std::max(raster, free_at(x, y));
    EXPECT_GE(best.radius, raster - 0.02);
    EXPECT_LE(best.radius, raster + 1.42);
  }
}

TEST(RingsOfPosts, AreEven) {
  const auto posts = ring_of_posts(4, 50, true);
  ASSERT_EQ(posts.size(), 5u);
  EXPECT_EQ(posts[0], (Spot{0, 0}));
  EXPECT_NEAR(posts[2].y, 50, 1e-12);
  EXPECT_NEAR(posts[3].x, -50, 1e-12);
}

// Grades at 1 and 2 mm.
TEST(Stiffening, GradesByTheMillimetre) {
  StiffnessQuestion q = weak_crown();
  q.wall = 6;
  EXPECT_EQ(judge_stiffness(q).grade, StiffnessGrade::good);
  EXPECT_FALSE(judge_stiffness(q).least_wall || judge_stiffness(q).posts);
  q.wall = 4;
  EXPECT_EQ(judge_stiffness(q).grade, StiffnessGrade::note);
  q.wall = 3;
  EXPECT_EQ(judge_stiffness(q).grade, StiffnessGrade::weak);
}

// Each proposal, followed, gives 1 mm: judged again as a crown of its own.
TEST(Stiffening, ProposalsWork) {
  const StiffnessQuestion q = weak_crown();
  const StiffnessAnswer answer = judge_stiffness(q);
  ASSERT_TRUE(answer.least_wall && answer.least_dome && answer.posts);

  StiffnessQuestion thicker = q;
  thicker.wall = *answer.least_wall;
  EXPECT_NEAR(judge_stiffness(thicker).deflection, 1, 1e-6);
  EXPECT_LE(judge_stiffness(thicker).deflection, 1);

  StiffnessQuestion domed = q;
  domed.dome = *answer.least_dome;
  EXPECT_NEAR(judge_stiffness(domed).deflection, 1, 1e-6);
  EXPECT_GT(domed.dome, q.dome);

  StiffnessQuestion propped = q;
  propped.posts = answer.posts->spots();
  EXPECT_EQ(judge_stiffness(propped).grade, StiffnessGrade::good);
  EXPECT_NEAR(judge_stiffness(propped).deflection, answer.posts->deflection, 1e-9);
  EXPECT_NEAR(judge_stiffness(propped).plate_radius, answer.posts->free_radius, 1e-9);
}

// No ring of as many posts on a raster of ring radii leaves a smaller free circle than the proposed one, and
// one post less does not do.
TEST(Stiffening, ProposesTheFewestPosts) {
  for (const double wall : {2.2, 2.5, 3.0}) {
    StiffnessQuestion q = weak_crown();
    q.wall = wall;
    const auto plan = judge_stiffness(q).posts;
    ASSERT_TRUE(plan) << wall;
    const int count = static_cast<int>(plan->spots().size());
    for (int on_ring = std::max(count - 2, 3); on_ring <= count; ++on_ring) {
      for (const bool in_middle : {false, true}) {
        const int posts = on_ring + (in_middle ? 1 : 0);
        if (posts > count) continue;
        for (double ring = 20; ring < 130; ring += 7) {
          q.posts = ring_of_posts(on_ring, ring, in_middle);
          const StiffnessAnswer other = judge_stiffness(q);
          EXPECT_TRUE(posts == count || other.deflection > 1) << posts << " posts at " << ring;
          if (on_ring == plan->on_ring && in_middle == plan->in_middle) {
            EXPECT_GE(other.plate_radius, plan->free_radius - 1);
          }
        }
      }
    }
  }
}

TEST(Stiffening, LeavesATakenAxisFree) {
  bool one_alone = false, one_amid = false;
  for (double wall = 1.4; wall < 3.7; wall += 0.1) {
    StiffnessQuestion q = weak_crown();
    q.wall = wall;
    const auto anywhere = judge_stiffness(q).posts;
    if (anywhere && anywhere->in_middle) (anywhere->on_ring == 0 ? one_alone : one_amid) = true;
    q.axis_taken = true;
    const auto plan = judge_stiffness(q).posts;
    if (!plan) continue;
    EXPECT_FALSE(plan->in_middle) << wall;
    q.posts = plan->spots();
    EXPECT_LE(judge_stiffness(q).deflection, 1 + 1e-9) << wall;
  }
  EXPECT_TRUE(one_alone && one_amid) << "no wall for which a post in the middle is best";
}

// Two sheets of paper: no dome and no number of posts up to 13 makes a crown of it, but a thicker wall does.
TEST(Stiffening, ProposesNothingThatDoesNotHelp) {
  StiffnessQuestion paper = weak_crown();
  paper.wall = 0.2;
  const StiffnessAnswer answer = judge_stiffness(paper);
  EXPECT_EQ(answer.grade, StiffnessGrade::weak);
  EXPECT_FALSE(answer.least_dome || answer.posts);
  EXPECT_TRUE(answer.least_wall);
  paper.load.force = 1e6;
  EXPECT_FALSE(judge_stiffness(paper).least_wall);
}

TEST(Stiffening, AFlatTipIsOnlyAPlate) {
  StiffnessQuestion flat = weak_crown();
  flat.dome = 0;
  flat.wall = 4;
  EXPECT_FALSE(dome_radius_of(140, 20, 0).has_value());
  EXPECT_NEAR(judge_stiffness(flat).deflection, plate_deflection(flat.load, 140, 4, flat.elastic), 1e-12);
  ASSERT_TRUE(judge_stiffness(flat).least_dome);
  EXPECT_GT(*judge_stiffness(flat).least_dome, 0);
}

// Against every ring radius in steps of a hundredth, each judged by the search for the largest free circle.
TEST(BestSpots, NoOtherRingLeavesLess) {
  for (const int count : {3, 4, 6, 7, 10, 12}) {
    const std::vector<Spot> best = best_spots(count, 100);
    EXPECT_EQ(best.size(), static_cast<std::size_t>(count));
    double least = 100;
    for (int step = 1; step < 100; ++step) {
      least = std::min({least, free_within(ring_of_posts(count, step, false), 100),
                        free_within(ring_of_posts(count - 1, step, true), 100)});
    }
    EXPECT_LT(free_within(best, 100), least + 0.5) << count;
  }
  EXPECT_EQ(best_spots(1, 100), (std::vector<Spot>{{0, 0}}));
  EXPECT_THROW(best_spots(0, 100), std::logic_error);
}

// Six round one in the middle leave a third of the crown, where the hexagon's triangles (ring / sqrt 3 at
// 1 / sqrt 3) are as large as what is beside the ring; seven on a ring alone leave 1 / (1 + 2 cos(pi / 7)).
TEST(BestSpots, OneInTheMiddleWhereThatIsBetter) {
  const std::vector<Spot> seven = best_spots(7, 100);
  EXPECT_EQ(seven.front(), (Spot{0, 0}));
  EXPECT_NEAR(free_within(seven, 100), 100.0 / 3, 0.4);
  EXPECT_GT(100 / (1 + 2 * std::cos(std::numbers::pi / 7)), 35.6);
}

// The free circles beside a ring of n posts touch each other where they are largest for their ring, so that
// the least is the radius of n equal circles in a ring within a circle, s / (1 + s) with s = sin(pi / n), and
// the posts stand where they touch, at c / (1 + s) with c = cos(pi / n). From five posts on the circle in the
// middle, as large as the ring, comes first: they are equal at d = 1 / (1 + 2 c). Two posts are best at
// nothing but a pair in the middle. (By hand, from (1 - x)^2 = x^2 - 2 x d c + d^2 on the bisector.)
TEST(BestRingSpots, HaveClosedForms) {
  constexpr double crown = 120;
  for (int count = 3; count <= 12; ++count) {
    SCOPED_TRACE(count);
    const double pi = std::numbers::pi, s = std::sin(pi / count), c = std::cos(pi / count);
    const double ring = count <= 4 ? c / (1 + s) : 1 / (1 + 2 * c);
    const double least = count <= 4 ? s / (1 + s) : ring;
    const std::vector<Spot> spots = best_ring_spots(count, crown);
    ASSERT_EQ(spots.size(), static_cast<std::size_t>(count));
    for (int k = 0; k < count; ++k) {
      const Spot& spot = spots[static_cast<std::size_t>(k)];
      // Rings are tried in hundredths of the crown's radius.
      EXPECT_NEAR(std::hypot(spot.x, spot.y), ring * crown, 0.01 * crown) << "none in the middle";
      EXPECT_NEAR(std::remainder(std::atan2(spot.y, spot.x) - 2 * pi * k / count, 2 * pi), 0, 1e-9);
    }
    const double free = free_within(spots, crown);
    EXPECT_GT(free, (least - 1e-4) * crown);
    EXPECT_LT(free, (least + 0.006) * crown) << "half a step of the ring and a little";
  }
  EXPECT_LT(free_within(best_ring_spots(2, crown), crown), 0.51 * crown);
  EXPECT_LT(free_within(best_ring_spots(1, crown), crown), 0.51 * crown);
  EXPECT_THROW(best_ring_spots(0, 100), std::logic_error);
  EXPECT_THROW(best_ring_spots(3, 0), std::logic_error);
}
