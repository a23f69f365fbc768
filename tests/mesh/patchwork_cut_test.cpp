#include "mesh/patchwork_cut.h"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <functional>
#include <iostream>

#include "base/numbers.h"
#include "proof/any_mesh.h"
#include "support/chord_audit.h"
#include "support/form_table.h"
#include "support/mesh_facts.h"
#include "support/random_number.h"

namespace crownwright::mesh {
namespace {

using IsInPlan = std::function<bool(double, double)>;

// Length of the arc of radius r inside the plan's region, by counting 1/20000 turns would be too coarse: the
// changes between in and out are bisected.
double arc_inside(const IsInPlan& inside, double r) {
  constexpr int looks = 180;
  const auto at = [&](double t) { return inside(r * std::cos(t), r * std::sin(t)); };
  double sum = 0;
  for (int k = 0; k < looks; ++k) {
    const double from = 2 * pi * (k + 0.123) / looks, to = 2 * pi * (k + 1.123) / looks;
    const bool a = at(from), b = at(to);
    if (a == b) {
      sum += a ? to - from : 0;
      continue;
    }
    double low = from, high = to;
    for (int i = 0; i < 40; ++i) {
      const double middle = (low + high) / 2;
      (at(middle) == a ? low : high) = middle;
    }
    sum += a ? low - from : to - low;
  }
  return sum * r;
}

// Signed volume under a walk within the region: the integral of r times arc over the half plane, by Green's
// theorem  - G(r) dz  along the walk, G(r) being the plan's area within radius r.
class PlanVolume {
 public:
  PlanVolume(IsInPlan inside, double reach) : inside_(std::move(inside)), step_(reach / cells) {
    using Rule = boost::math::quadrature::gauss_kronrod<double, 15>;
    area_.push_back(0);
    for (int k = 0; k < cells; ++k) {
      const double a = Rule::integrate([&](double r) { return arc_inside(inside_, r); }, k * step_,
                                       (k + 1) * step_, 4, 1e-7);
      area_.push_back(area_.back() + a);
    }
  }
  double of(const meridian::Chain& walk) const {
    double sum = 0;
    for (const auto& segment : walk) {
      constexpr int parts = 4000;
      for (int i = 0; i < parts; ++i) {
        const auto a = segment.at(segment.length() * i / parts),
                   b = segment.at(segment.length() * (i + 1) / parts);
        sum -= within((a.r + b.r) / 2) * (b.z - a.z);
      }
    }
    return sum;
  }

 private:
  double within(double r) const {
    const double x = r / step_;
    const int k = std::min(cells - 1, static_cast<int>(x));
    const double t = x - k;
    return area_[std::size_t(k)] + t * (area_[std::size_t(k) + 1] - area_[std::size_t(k)]);
  }
  static constexpr int cells = 200;
  IsInPlan inside_;
  double step_;
  std::vector<double> area_;
};

struct Made {
  TriangleMesh mesh;
  test::MeshFacts facts;
};

Made expect_proved(CutBody& body) {
  Made made;
  const auto mesh = body.finish();
  EXPECT_TRUE(mesh.ok()) << mesh.fault().line();
  if (!mesh) return made;
  made.mesh = *mesh;
  const auto verdict = proof::prove_any(*mesh);
  for (const auto& check : verdict.checks) EXPECT_TRUE(check.passed) << check.name << ": " << check.detail;
  made.facts = test::facts_of(*mesh);
  return made;
}

// Greatest distance of facet samples from walks and planes.
double chord_error(const TriangleMesh& mesh, const solid::Solid& solid,
                   const std::vector<HalfPlane>& planes) {
  double worst = 0;
  for (const Triangle& t : mesh.triangles) {
    test::each_sample(mesh, t, [&](double x, double y, double z) {
      double best = test::distance_to_walks(solid, x, y, z);
      for (const HalfPlane& p : planes) best = std::min(best, std::abs(p.nx * x + p.ny * y - p.d));
      worst = std::max(worst, best);
    });
  }
  return worst;
}

HalfPlane facing(double angle, double d) { return {std::cos(angle), std::sin(angle), d}; }

// A wedge from angle 0 to angle `width` < pi, each side moved in by half the gap.
std::vector<HalfPlane> wedge(double width, double gap, double from = 0) {
  return {facing(from - pi / 2, -gap / 2), facing(from + width + pi / 2, -gap / 2)};
}

Made cut_whole(const solid::Solid& solid, const std::vector<HalfPlane>& planes, double tolerance) {
  CutBody body(tolerance);
  PlanRegion region;
  for (const HalfPlane& plane : planes) region.within.push_back(body.half_plane(plane));
  for (const auto& shell : solid.shells) {
    const auto added = body.add({shell.walk, region});
    EXPECT_TRUE(added.ok()) << added.fault().line();
    if (!added) return {};
  }
  return expect_proved(body);
}

TEST(CutBody, SectorsOfEveryFormHaveTheirShareOfPappusVolume) {
  std::size_t facets = 0, count = 0;
  for (const auto& form : test::all_forms()) {
    for (const int n : {2, 3}) {
      SCOPED_TRACE(form.name + " in " + std::to_string(n));
      auto planes = wedge(2 * pi / n, 0, 0.3);
      if (n == 2) planes.pop_back();
      const double tolerance = 0.1;
      const Made made = cut_whole(form.solid, planes, tolerance);
      EXPECT_NEAR(made.facts.volume, solid::unpierced_volume(form.solid) / n, made.facts.area * tolerance);
      EXPECT_EQ(made.facts.pieces, 1);
      EXPECT_EQ(made.facts.genus, 0);
      facets += made.mesh.triangles.size(), ++count;
    }
  }
  std::cout << count << " sectors, " << facets / std::max<std::size_t>(count, 1) << " facets each\n";
}

TEST(CutBody, FacetsStayWithinTheTolerance) {
  for (const double tolerance : {0.1, 0.03}) {
    const auto planes = wedge(pi / 2, 0.1);
    const Made made = cut_whole(test::worked_block(), planes, tolerance);
    const double worst = chord_error(made.mesh, test::worked_block(), planes);
    std::cout << made.mesh.triangles.size() << " facets, chord error / tolerance " << worst / tolerance
              << "\n";
    EXPECT_LE(worst, tolerance);
  }
}

TEST(CutBody, KeysUnderACrownTopMatchQuadrature) {
  // A solid block cut to |x| <= u, |y| <= k: circles become arcs, arcs vanish in the four corners.
  const auto solid = test::all_forms()[3].solid;
  ASSERT_EQ(test::all_forms()[3].name, "solid");
  for (const auto& [u, k] : {std::pair{45.0, 60.0}, {90.0, 30.0}, {45.0, 200.0}, {60.0, 60.0}}) {
    SCOPED_TRACE(std::to_string(u) + " by " + std::to_string(k));
    std::vector<HalfPlane> planes{{1, 0, u}, {-1, 0, u}};
    if (k < 140) planes.insert(planes.end(), {{0, 1, k}, {0, -1, k}});
    const Made made = cut_whole(solid, planes, 0.02);
    const PlanVolume volume(
        [&, u = u, k = k](double x, double y) { return std::abs(x) <= u && std::abs(y) <= k; }, 140);
    EXPECT_NEAR(made.facts.volume, volume.of(solid.shells[0].walk), made.facts.area * 0.02);
    EXPECT_EQ(made.facts.pieces, 1);
    EXPECT_EQ(made.facts.genus, 0);
    EXPECT_LE(chord_error(made.mesh, solid, planes), 0.02);
  }
}

TEST(CutBody, SidesAndEndsMatchQuadrature) {
  const auto solid = test::all_forms()[3].solid;
  const PlanVolume side([](double x, double) { return x >= 47; }, 140);
  const Made made_side = cut_whole(solid, {{-1, 0, -47}}, 0.02);
  EXPECT_NEAR(made_side.facts.volume, side.of(solid.shells[0].walk), made_side.facts.area * 0.02);
  const PlanVolume end([](double x, double y) { return std::abs(x) <= 47 && y >= 33; }, 140);
  const Made made_end = cut_whole(solid, {{-1, 0, 47}, {1, 0, 47}, {0, -1, -33}}, 0.02);
  EXPECT_NEAR(made_end.facts.volume, end.of(solid.shells[0].walk), made_end.facts.area * 0.02);
}

}  // namespace
}  // namespace crownwright::mesh
