// Where an order's posts stand, told from the drawing board: distances of points from lines and the closed
// forms of tests/press. That a post there can be made is checked in tests/parts.
#include "making/form_posts.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "making/printed_orders.h"

namespace crownwright::making {
namespace {

using std::numbers::pi;

constexpr double crown_of_posts = 140;  // mm, of test::pc_block

order::Order posted_order(int posts, double diameter) {
  return test::read_order(test::pc_block({}, "[form]\ncollar = \"15 mm\"\nposts = " + std::to_string(posts) +
                                                 "\npost_diameter = \"" + std::to_string(diameter) +
                                                 " mm\"\n"));
}

const solid::Solid& posted_block() {
  static const Form form = test::make(test::pc_block());
  return form.solid;
}

/// From the half plane through the axis at that angle.
double off_half_plane(const parts::Post& post, double angle) {
  const double along = post.x * std::cos(angle) + post.y * std::sin(angle);
  const double across = -post.x * std::sin(angle) + post.y * std::cos(angle);
  return along > 0 ? std::abs(across) : std::hypot(post.x, post.y);
}

double nearest_to_joints(const std::vector<parts::Post>& posts, int sectors) {
  double nearest = 1e9;
  for (const parts::Post& post : posts)
    for (int k = 0; k < sectors; ++k) nearest = std::min(nearest, off_half_plane(post, 2 * pi * k / sectors));
  return nearest;
}

double ring_of(const std::vector<parts::Post>& posts) { return std::hypot(posts[0].x, posts[0].y); }

/// The farthest from the joints that this many posts, evenly on a ring of that radius, can be turned: tried
/// all round in steps of a twentieth of a degree.
double best_turned(int posts, int sectors, double ring) {
  double best = 0;
  for (int step = 0; step < 7200; ++step) {
    std::vector<parts::Post> turned;
    for (int k = 0; k < posts; ++k) {
      const double at = pi * step / 3600 + 2 * pi * k / posts;
      turned.push_back({ring * std::cos(at), ring * std::sin(at), 0});
    }
    best = std::max(best, nearest_to_joints(turned, sectors));
  }
  return best;
}

// A post stands clear of a joint's flange: half its own thickness, the flange's width of 12 mm and a
// millimetre. Where the crown's edge keeps the ring from going as far out as that takes, no other turn of it
// does better.
TEST(FormPosts, KeepClearOfTheJointsOrAsFarAsTheyCan) {
  int clear_of_all = 0, as_far_as_they_can = 0;
  const double reach = parts::most_post_reach(posted_block());
  for (int sectors = 2; sectors <= 6; ++sectors) {
    for (const int posts : {3, 4, 5, 6, 8, 12}) {
      for (const double diameter : {4.0, 12.0}) {
        SCOPED_TRACE(std::to_string(posts) + " posts of " + std::to_string(diameter) + " in " +
                     std::to_string(sectors) + " sectors");
        const auto placed = form_posts(posted_order(posts, diameter), posted_block(), sectors);
        ASSERT_EQ(placed.size(), static_cast<std::size_t>(posts));
        const double nearest = nearest_to_joints(placed, sectors), ring = ring_of(placed);
        EXPECT_LE(ring + diameter / 2, reach);
        if (nearest >= diameter / 2 + 12 + 1) {
          ++clear_of_all;
        } else {
          ++as_far_as_they_can;
          EXPECT_GT(ring + diameter / 2, reach - 0.01) << "there was room further out";
          EXPECT_NEAR(nearest, best_turned(posts, sectors, ring), 1e-9 + ring * pi / 3600);
        }
        for (std::size_t k = 1; k < placed.size(); ++k)
          EXPECT_NEAR(std::hypot(placed[k].x, placed[k].y), ring, 1e-9) << "all on one ring";
      }
    }
  }
  // Both happen: 3 posts in 2 sectors are 30 degrees off at best, 8 in 5 only 4.5.
  EXPECT_GE(clear_of_all, 20);
  EXPECT_GE(as_far_as_they_can, 10);
}

// The bisector of two posts and a joint of the same count: 3 posts and 3 joints lie 60 degrees apart, 3 and 2
// joints 30, 4 and 3 joints 15, 6 and 4 joints 15.
TEST(FormPosts, AreTurnedByHalfTheLeastAngle) {
  for (const auto& [posts, sectors, degrees] :
       {std::tuple{3, 3, 60.0}, {6, 3, 30.0}, {3, 2, 30.0}, {4, 2, 45.0}, {4, 3, 15.0}, {6, 4, 15.0}}) {
    double least = 360;
    for (const parts::Post& post : form_posts(posted_order(posts, 6), posted_block(), sectors)) {
      for (int k = 0; k < sectors; ++k) {
        const double off = std::remainder(std::atan2(post.y, post.x) - 2 * pi * k / sectors, 2 * pi);
        least = std::min(least, std::abs(off) * 180 / pi);
      }
    }
    EXPECT_NEAR(least, degrees, 1e-9) << posts << " posts, " << sectors << " sectors";
  }
}

// Clear of the joints anyway, they stand where they leave the crown least to span: three at (2 - sqrt 3) of
// its radius, six at 1 / (1 + sqrt 3) (closed forms in tests/press), within the hundredth that is tried.
TEST(FormPosts, StandOnTheRingThatLeavesLeast) {
  const auto three = form_posts(posted_order(3, 4), posted_block(), 3);
  EXPECT_NEAR(ring_of(three) / crown_of_posts, 2 - std::sqrt(3), 0.01);
  const auto six = form_posts(posted_order(6, 4), posted_block(), 2);
  EXPECT_NEAR(ring_of(six) / crown_of_posts, 1 / (1 + std::sqrt(3)), 0.01);
}

TEST(FormPosts, OfAWholeFormAreNotTurned) {
  const auto whole = form_posts(posted_order(4, 6), posted_block(), 1);
  ASSERT_EQ(whole.size(), 4u);
  bool on_x = false;
  for (const parts::Post& post : whole) {
    on_x |= post.x > 1 && std::abs(post.y) < 1e-9;
    EXPECT_DOUBLE_EQ(post.radius, 3);
  }
  EXPECT_TRUE(on_x);
  const auto spots = post_spots(whole);
  ASSERT_EQ(spots.size(), 4u);
  EXPECT_EQ(spots[2], (press::Spot{whole[2].x, whole[2].y}));
}

TEST(FormPosts, AreNoneUnlessOrdered) {
  EXPECT_TRUE(form_posts(test::read_order(test::pc_block()), posted_block(), 3).empty());
  EXPECT_TRUE(form_posts(posted_order(0, 6), posted_block(), 3).empty());
}

// Made in three sectors, each has its own: no less plastic than its cylinder under the dome's lower rim.
TEST(FormPosts, GoIntoTheParts) {
  const std::string bed = test::on_bed("220x220x250");
  const Form bare = test::make(test::pc_block(bed)),
             posted = test::make(
                 test::pc_block(bed, "[form]\ncollar = \"15 mm\"\nposts = 3\npost_diameter = \"10 mm\"\n"));
  ASSERT_EQ(bare.printed.parts.size(), 3u);
  ASSERT_EQ(posted.printed.parts.size(), 3u);
  for (std::size_t k = 0; k < 3; ++k) {
    const double added =
        posted.printed.parts[k].figures.body.volume - bare.printed.parts[k].figures.body.volume;
    EXPECT_GT(added, 0.97 * pi * 25 * (90 - 4 - 6));
    EXPECT_LT(added, 1.01 * pi * 25 * (90 - 4));
  }
}

// From seven posts on one would stand best in the middle, where this form has a vent or a socket.
TEST(FormPosts, LeaveTheAxisToAVentOrSocket) {
  for (const char* taken : {"[vents]\ndiameter = \"3 mm\"\nspacing = \"25 mm\"\n", ""}) {
    const std::string socket = *taken == 0 ? "socket = \"20 mm\"\nfloor = \"6 mm\"\n" : "";
    const order::Order order = test::read_order(
        "[measure]\nhead_girth = \"570 mm\"\ncrown_diameter = \"280 mm\"\nrise = \"75 mm\"\n"
        "taken_at = \"form\"\n[form]\nwall = \"4 mm\"\nposts = 7\n" +
        socket + taken);
    const auto solid = plan_solid(order, test::own_profiles());
    ASSERT_TRUE(solid) << solid.fault().line();
    ASSERT_EQ(solid->pole_vent, *taken != 0);
    const auto posts = form_posts(order, *solid, 1);
    ASSERT_EQ(posts.size(), 7u);
    for (const parts::Post& post : posts) EXPECT_GT(std::hypot(post.x, post.y), 20);
  }
}

}  // namespace
}  // namespace crownwright::making
