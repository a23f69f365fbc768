#include "mesh/patchwork.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "base/numbers.h"
#include "mesh/fill.h"
#include "mesh/plan_arcs.h"
#include "proof/any_mesh.h"
#include "support/mesh_facts.h"
#include "support/random_number.h"

namespace crownwright::mesh {
namespace {

EdgeLoop rectangle(Patchwork& work, double x0, double y0, double x1, double y1, double z) {
  return {work.add_vertex(x0, y0, z), work.add_vertex(x1, y0, z), work.add_vertex(x1, y1, z),
          work.add_vertex(x0, y1, z)};
}

test::MeshFacts proved_patchwork(const Patchwork& work) {
  const auto mesh = work.finish();
  EXPECT_TRUE(mesh.ok()) << mesh.fault().line();
  if (!mesh) return {};
  for (const auto& check : proof::prove_any(*mesh).checks)
    EXPECT_TRUE(check.passed) << check.name << ": " << check.detail;
  return test::facts_of(*mesh);
}

// A plate 40 x 30 x 5 with three bores through it and two blind holes: volumes of prisms over regular
// polygons, n r^2 sin(2 pi / n) / 2 each.
TEST(Patchwork, PlateWithBoresAndBlindHoles) {
  Patchwork work;
  const EdgeLoop bottom = rectangle(work, 0, 0, 40, 30, 0), top = rectangle(work, 0, 0, 40, 30, 5);
  std::vector<EdgeLoop> below{reversed_loop(bottom)}, above{top};
  work.add_strip(bottom, top);
  const Point3 x{1, 0, 0}, y{0, 1, 0};
  double holes = 0;
  const auto polygon = [](int n, double r) { return n * r * r * std::sin(2 * pi / n) / 2; };
  for (const double at : {8.0, 20.0, 32.0}) {
    const EdgeLoop mouth = add_circle(work, {at, 10, 5}, x, y, 3, 24),
                   end = add_circle(work, {at, 10, 0}, x, y, 3, 24);
    above.push_back(reversed_loop(mouth));
    below.push_back(end);
    work.add_strip(mouth, end);
    holes += polygon(24, 3) * 5;
  }
  for (const double at : {10.0, 30.0}) {
    const EdgeLoop mouth = add_circle(work, {at, 22, 5}, x, y, 2, 13);
    above.push_back(reversed_loop(mouth));
    ASSERT_TRUE(work.add_blind_hole(mouth, {0, 0, -3}).ok());
    holes += polygon(13, 2) * 3;
  }
  ASSERT_TRUE(work.add_plane_face(below).ok());
  ASSERT_TRUE(work.add_plane_face(above).ok());
  const auto facts = proved_patchwork(work);
  EXPECT_EQ(facts.genus, 3);
  EXPECT_EQ(facts.pieces, 1);
  EXPECT_NEAR(facts.volume, 40 * 30 * 5 - holes, 0.01);
}

// A ring sunk into a cube's face: its island stays.
TEST(Patchwork, RecessWithAnIsland) {
  Patchwork work;
  const EdgeLoop bottom = rectangle(work, 0, 0, 10, 10, 0), top = rectangle(work, 0, 0, 10, 10, 10);
  work.add_strip(bottom, top);
  const EdgeLoop outer = rectangle(work, 2, 2, 8, 8, 10), island = rectangle(work, 4, 4, 6, 6, 10);
  ASSERT_TRUE(work.add_plane_face({reversed_loop(bottom)}).ok());
  ASSERT_TRUE(work.add_plane_face({top, reversed_loop(outer), island}).ok());
  ASSERT_TRUE(work.add_recess({outer, reversed_loop(island)}, {0, 0, -1}).ok());
  const auto facts = proved_patchwork(work);
  EXPECT_NEAR(facts.volume, 1000 - (36 - 4), 1e-3);
  EXPECT_EQ(facts.genus, 0);
}

TEST(Patchwork, TiltedFacesCloseToo) {
  // A tetrahedron with corners on the axes: volume a b c / 6.
  Patchwork work;
  const auto o = work.add_vertex(0, 0, 0), a = work.add_vertex(3, 0, 0), b = work.add_vertex(0, 5, 0),
             c = work.add_vertex(0, 0, 7);
  for (const EdgeLoop& face : {EdgeLoop{o, b, a}, EdgeLoop{o, a, c}, EdgeLoop{o, c, b}, EdgeLoop{a, b, c}})
    ASSERT_TRUE(work.add_plane_face({face}).ok());
  EXPECT_NEAR(proved_patchwork(work).volume, 3 * 5 * 7 / 6.0, 1e-3);
}

TEST(Patchwork, SaysWhatIsOpenOrCrossing) {
  Patchwork open;
  const EdgeLoop loop = rectangle(open, 0, 0, 1, 1, 0);
  ASSERT_TRUE(open.add_plane_face({loop}).ok());
  const auto unfinished = open.finish();
  ASSERT_FALSE(unfinished.ok());
  EXPECT_EQ(unfinished.fault().exit, ExitCode::proof);
  Patchwork crossing;
  const EdgeLoop outer = rectangle(crossing, 0, 0, 4, 4, 0), out = rectangle(crossing, 3, 1, 6, 2, 0);
  EXPECT_FALSE(crossing.add_plane_face({outer, reversed_loop(out)}).ok());
  EXPECT_THROW(crossing.add_strip(outer, {0, 1, 2}), std::logic_error);
}

// A tetrahedron: whole it is closed; with a facet missing, turned round or given twice a side is not shared
// by two facets as it should be.
TEST(Patchwork, FinishRefusesSidesThatTwoFacetsDoNotShare) {
  const std::vector<Triangle> whole{{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}};
  const auto finished = [](const std::vector<Triangle>& facets) {
    Patchwork work;
    for (const Point3& p : {Point3{0, 0, 0}, Point3{1, 0, 0}, Point3{0, 1, 0}, Point3{0, 0, 1}})
      work.add_vertex(p);
    for (const Triangle& t : facets) work.add_triangle(t[0], t[1], t[2]);
    return work.finish();
  };
  EXPECT_TRUE(finished(whole));
  const auto missing = finished({whole[0], whole[1], whole[2]});
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.fault().exit, ExitCode::proof);
  EXPECT_NE(missing.fault().what.find("from (0, 0, 0) to (0, 1, 0)"), std::string::npos)
      << missing.fault().what;
  EXPECT_FALSE(finished({whole[0], whole[1], whole[2], {0, 2, 3}})) << "turned round";
  std::vector<Triangle> twice = whole;
  twice.insert(twice.end(), whole.begin(), whole.end());
  EXPECT_FALSE(finished(twice)) << "every facet twice: each side has its opposite";
  EXPECT_THROW(finished({}), std::logic_error) << "vertices that no facet uses";
}

TEST(FillBetween, CountsCrossings) {
  // Three nested squares: ring and innermost square are inside.
  std::vector<Plane> points;
  std::vector<std::array<std::uint32_t, 2>> sides;
  for (const double h : {3.0, 2.0, 1.0}) {
    const auto first = static_cast<std::uint32_t>(points.size());
    points.insert(points.end(), {{-h, -h}, {h, -h}, {h, h}, {-h, h}});
    for (std::uint32_t k = 0; k < 4; ++k) sides.push_back({first + k, first + (k + 1) % 4});
  }
  const auto triangles = fill_between(points, sides);
  ASSERT_TRUE(triangles.has_value());
  double area = 0;
  for (const auto& t : *triangles) {
    const auto &a = points[t[0]], &b = points[t[1]], &c = points[t[2]];
    area += ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
  }
  EXPECT_DOUBLE_EQ(area, 36 - 16 + 4);
}

// The arcs found against membership of points on the circle, for random regions of up to four lines.
TEST(PlanArcs, AgreeWithPointsOnTheCircle) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 300; ++trial) {
    std::vector<PlanLine> within, without;
    const auto line = [&](int plane) {
      const double angle = test::uniform(random, 0, 2 * pi);
      return PlanLine{plane, {std::cos(angle), std::sin(angle), test::uniform(random, -20, 40)}};
    };
    const int count = 1 + static_cast<int>(test::pick(random, 3));
    for (int k = 0; k < count; ++k) within.push_back(line(k));
    for (int k = 0; k < static_cast<int>(test::pick(random, 3)); ++k) without.push_back(line(10 + k));
    const PlanArcs arcs(within, without);
    const auto inside = [&](double x, double y) {
      const auto holds = [&](const PlanLine& l) { return l.half.nx * x + l.half.ny * y <= l.half.d; };
      return std::all_of(within.begin(), within.end(), holds) &&
             (without.empty() || !std::all_of(without.begin(), without.end(), holds));
    };
    for (int look = 0; look < 20; ++look) {
      const double r = test::uniform(random, 0.5, 90), theta = test::uniform(random, 0, 2 * pi);
      const auto& kind = arcs.at(r);
      bool found = kind.whole;
      for (const Arc& arc : kind.arcs) {
        const auto turn = [](double t) { return std::fmod(std::fmod(t, 2 * pi) + 2 * pi, 2 * pi); };
        const double from = arcs.angle(arc.from, r);
        found = found || turn(theta - from) < turn(arcs.angle(arc.to, r) - from);
      }
      EXPECT_EQ(found, inside(r * std::cos(theta), r * std::sin(theta))) << r << " " << theta;
    }
  }
}

}  // namespace
}  // namespace crownwright::mesh
