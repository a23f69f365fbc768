// The roughing path judged by what it leaves standing. All its cuts but the ways in are whole rings, so what
// stands can be told in the half plane.
#include "milling/rough.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"
#include "meridian/plane.h"
#include "milling/finish_shapes.h"
#include "support/light.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Point;
using shapes::Shape;

/// A whole turn at one height, or a ramp of a whole turn down.
struct Ring {
  double radius, above, z;
};

/// Something that the path must not do, in words; empty when it does none of it.
class RoughWalk {
 public:
  explicit RoughWalk(const Shape& shape) : shape_(shape) {}

  std::string walk(const Path& path) {
    if (path.size() < 4) return "too short";
    if (path[0].kind != MoveKind::rapid || path[0].z != shape_.setup.safe) return "does not rise first";
    if (path.back().kind != MoveKind::rapid || path.back().z != shape_.setup.safe)
      return "does not rise last";
    at_ = path[0];
    for (std::size_t i = 1; i < path.size() && trouble_.empty(); ++i) {
      take(path[i]);
      at_ = path[i];
    }
    return trouble_;
  }
  const std::vector<Ring>& rings() const { return rings_; }

 private:
  void take(const Move& move) {
    if (move.kind == MoveKind::rapid)
      rapid(move);
    else if (move.kind == MoveKind::line)
      line(move);
    else
      half_ring(move);
  }

  void rapid(const Move& move) {
    const bool across = move.x != at_.x || move.y != at_.y;
    if (across && move.z != at_.z) trouble_ = "a slanting rapid";
    if (move.feed != 0) trouble_ = "a rapid with a feed";
    if (move.z < at_.z && move.z < shape_.setup.stock.z1) trouble_ = "a rapid down into the stock";
    if (across && move.z < shape_.setup.stock.z1 && !was_cut(move)) trouble_ = "a rapid through stock";
  }

  /// Rapids across go back over lines that were cut at the same height.
  bool was_cut(const Move& move) const {
    if (move.y != 0 || at_.y != 0 || lines_z_ != at_.z) return false;
    return std::min(move.x, at_.x) >= lines_low_ && std::max(move.x, at_.x) <= lines_high_;
  }

  void line(const Move& move) {
    if (move.feed <= 0) trouble_ = "a line without a feed";
    if (move.z != at_.z && (move.x != at_.x || move.z < shape_.setup.stock.z1)) trouble_ = "a plunge";
    if (move.y != 0 || at_.y != 0) trouble_ = "a line that leaves the way in";
    if (lines_z_ != move.z) {
      lines_z_ = move.z;
      lines_high_ = at_.x;
    }
    lines_low_ = move.x;
  }

  void half_ring(const Move& move) {
    if (move.kind != MoveKind::arc_cw) trouble_ = "the wrong way round";
    if (move.x != -at_.x || move.y != 0 || move.cx != 0 || move.cy != 0) trouble_ = "not half a turn";
    if (move.z > at_.z) trouble_ = "a ramp up";
    const Feeds& feeds = shape_.job.rough_feeds;
    if (move.feed != (move.z < at_.z ? feeds.plunge : feeds.cut)) trouble_ = "the wrong feed";
    if (move.z < at_.z) lines_high_ = lines_low_ = std::abs(move.x), lines_z_ = move.z;
    half_ = !half_;
    if (half_)
      above_ = at_.z;
    else
      rings_.push_back({std::abs(move.x), above_, move.z});
  }

  const Shape& shape_;
  std::string trouble_;
  std::vector<Ring> rings_;
  Move at_;
  bool half_ = false;
  double above_ = 0, lines_z_ = 1e9, lines_low_ = 0, lines_high_ = 0;
};

/// Height over the target's own at radius r: above it stands nothing of the target.
double target_height(const Chain& target, double r) {
  double height = -1e9;
  for (const auto& s : target) {
    if (s.to().r < r) continue;
    double low = 0, high = s.length();
    for (int i = 0; i < 60; ++i) ((s.at((low + high) / 2).r < r) ? low : high) = (low + high) / 2;
    height = s.at(low).z;
    break;
  }
  return height;
}

double signed_distance(const Chain& target, Point at) {
  const double d = distance_to(target, at);
  return at.z < target_height(target, at.r) ? -d : d;
}

/// Distance of the tool on this ring from the target, negative inside.
double clearance(const Shape& shape, const Ring& ring) {
  const Chain& target = shape.setup.target;
  const double R = shape.job.rough.radius();
  if (shape.job.rough.shape == ToolShape::ball) return signed_distance(target, {ring.radius, ring.z + R}) - R;
  double least = 1e9;
  for (int i = -40; i <= 40; ++i)
    least = std::min(least, signed_distance(target, {std::abs(ring.radius + R * i / 40.0), ring.z}));
  return least;
}

/// What stands at radius r when all rings are cut.
double left_standing(const Shape& shape, const std::vector<Ring>& rings, double r) {
  double height = shape.setup.stock.z1;
  const Tool& tool = shape.job.rough;
  const double R = tool.radius();
  for (const Ring& ring : rings) {
    const double off = std::abs(r - ring.radius);
    if (off > R) continue;
    height =
        std::min(height, ring.z + (tool.shape == ToolShape::ball ? R - std::sqrt(R * R - off * off) : 0));
  }
  return height;
}

void expect_rings_sound(const Shape& shape, const std::vector<Ring>& rings) {
  const Job& job = shape.job;
  const double widest = shape.setup.trench - job.rough.radius();
  for (std::size_t i = 0; i < rings.size(); ++i) {
    const Ring& ring = rings[i];
    ASSERT_LE(ring.radius, widest + 1e-9);
    ASSERT_GE(ring.z, shape.setup.lowest - 1e-9);
    ASSERT_LT(ring.z, shape.setup.stock.z1);
    ASSERT_GE(clearance(shape, ring), job.leave - 1e-6) << "ring " << ring.radius << " at " << ring.z;
    if (ring.above > ring.z) {  // a ramp, and its ring made whole
      ASSERT_LE(ring.above - ring.z, job.step_down + 1e-6);
      ASSERT_GE(ring.radius, widest - 0.31);
      ASSERT_LT(i + 1, rings.size());
      ASSERT_EQ(rings[i + 1].z, ring.z);
      ASSERT_EQ(rings[i + 1].radius, ring.radius);
    } else {
      ASSERT_GT(i, 0u);
      ASSERT_EQ(rings[i - 1].z, ring.z);
      ASSERT_LE(std::abs(rings[i - 1].radius - ring.radius), job.step_over + 1e-9);
    }
    const bool last = i + 1 == rings.size() || rings[i + 1].above > rings[i + 1].z;
    // The last ring of a level stands just the leave off, unless nothing stands there.
    if (last && ring.radius > job.step_over + 1e-9) {
      ASSERT_LE(clearance(shape, ring), job.leave + (ring.z < 0 ? 1e9 : 1e-5))
          << "ring " << ring.radius << " at " << ring.z;
    }
  }
}

/// Over the target stands no more than the finishing tool may meet.
void expect_little_left(const Shape& shape, const std::vector<Ring>& rings) {
  using namespace meridian;
  const Job& job = shape.job;
  const double R = job.rough.radius(), half = job.step_over / 2;
  const double cusp = job.rough.shape == ToolShape::ball ? R - std::sqrt(R * R - half * half) : 0;
  const double end = shape.setup.target.back().to().r;
  const double face = shape.setup.top_is_face ? shape.setup.target.front().to().r + job.leave : 0;
  double most = 0;
  for (double r = face; r < shape.setup.trench - R; r += 0.2) {
    const double height = left_standing(shape, rings, r);
    const double over = r <= end ? distance_to(shape.setup.target, Point{r, height}) : 0;
    most = std::max(most, over);
    ASSERT_LE(over, job.step_down + job.leave + cusp) << "at " << r;
    if (r > end + job.leave + R) {
      ASSERT_LE(height, -job.finish.radius() + cusp + 1e-6);
    }
  }
}

void expect_rough_sound(const Shape& shape) {
  SCOPED_TRACE(shape.name);
  RoughWalk walk(shape);
  ASSERT_EQ(walk.walk(rough_path(shape.setup, shape.job)), "");
  expect_rings_sound(shape, walk.rings());
  expect_little_left(shape, walk.rings());
}

Shape with_flat(Shape shape) {
  shape.name += ", flat tool";
  shape.job.rough.shape = ToolShape::flat;
  return shape;
}

TEST(Rough, KeepsOffTheFormAndCutsAllElse) {
  for (const Shape& shape : shapes::all()) {
    expect_rough_sound(shape);
    expect_rough_sound(with_flat(shape));
  }
}

TEST(Rough, RandomShapes) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < (test::light() ? 10 : 60); ++i) {
    Job job = shapes::plain_job(test::uniform(random, 3, 10), 0.1);
    job.rough.diameter = test::uniform(random, 3, 12);
    job.step_over = 0.4 * job.rough.diameter;
    job.step_down = test::uniform(random, 2, 8);
    job.leave = test::uniform(random, 0, 1);
    const Shape shape = shapes::shape_of("shape " + std::to_string(i), shapes::random_target(random), job);
    expect_rough_sound(test::pick(random, 2) ? shape : with_flat(shape));
    if (testing::Test::HasFatalFailure()) return;
  }
}

TEST(Rough, OneLevelStandsJustOverTheTop) {
  const Shape shape = shapes::shape_of("pad", shapes::pad_125(), shapes::plain_job());
  RoughWalk walk(shape);
  ASSERT_EQ(walk.walk(rough_path(shape.setup, shape.job)), "");
  // Stock 35 mm, top 30 mm, leave 0.5 mm: 4.5 mm down in one step, then 33.5 mm to 3 mm under the foot in
  // six of at most 6 mm.
  std::vector<double> levels;
  for (const Ring& ring : walk.rings())
    if (levels.empty() || levels.back() != ring.z) levels.push_back(ring.z);
  ASSERT_EQ(levels.size(), 7u);
  EXPECT_DOUBLE_EQ(levels[0], 30.5);
  EXPECT_DOUBLE_EQ(levels[1], 30.5 - 33.5 / 6);
  EXPECT_DOUBLE_EQ(levels[6], -3);
}

TEST(Rough, OneLevelStandsJustOverAShelf) {
  const Shape shape = shapes::shape_of("flange", shapes::flanged(), shapes::plain_job());
  RoughWalk walk(shape);
  ASSERT_EQ(walk.walk(rough_path(shape.setup, shape.job)), "");
  int over = 0;
  for (const Ring& ring : walk.rings()) over += ring.z == 8.5 && ring.radius < 60;
  EXPECT_GE(over, 2);
}

TEST(Rough, StockAtTheTopGetsATrenchAlone) {
  Shape shape = shapes::shape_of("collar", shapes::polyline({{0, 25}, {90.7, 25}, {90.7, 0}}),
                                 shapes::plain_job(), true);
  RoughWalk walk(shape);
  ASSERT_EQ(walk.walk(rough_path(shape.setup, shape.job)), "");
  for (const Ring& ring : walk.rings()) EXPECT_GE(ring.radius, 90.7 + 3 + 0.5 - 1e-9);
}

TEST(Rough, NothingToTakeIsNoPath) {
  Shape shape = shapes::shape_of("nothing", shapes::polyline({{0, 25}, {90.7, 25}, {90.7, 0}}),
                                 shapes::plain_job(), true);
  shape.setup.lowest = 25;
  EXPECT_TRUE(rough_path(shape.setup, shape.job).empty());
}

TEST(Rough, ATrenchTooNarrowIsRefused) {
  Shape shape = shapes::shape_of("pad", shapes::pad_125(), shapes::plain_job());
  shape.setup.trench = 130;
  EXPECT_THROW(rough_path(shape.setup, shape.job), std::logic_error);
}

}  // namespace
}  // namespace crownwright::milling
