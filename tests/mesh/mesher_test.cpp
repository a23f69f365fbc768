// Whole meshes over a table of forms, tolerances and vents; what they are is worked out by tests/support
// alone.

#include "mesh/mesher.h"

#include <gtest/gtest.h>

#include <cstring>

#include "support/chord_audit.h"
#include "support/form_table.h"
#include "support/light.h"
#include "support/mesh_facts.h"

namespace crownwright::mesh {
namespace {

struct Case {
  std::string name;
  solid::Solid solid;
  double tolerance = 0;
};

std::vector<std::pair<std::string, solid::VentPlan>> vent_plans(bool small) {
  const double room = 2 * 2 + solid::least_web;
  auto chamfered = test::vents(small ? 9 : 30, small ? 2.5 : 6, 0.8);
  chamfered.shape.style = solid::RimStyle::chamfer;
  return {{"pole only", test::vents(500)},
          {"25 mm", test::vents(small ? 10 : 25)},
          {"sharp", test::vents(small ? 12 : 35, 2, 0)},
          {"chamfered", chamfered},
          {"panels", test::panel_vents(small ? 10 : 25, 8, small ? 2 : 3, 0.4)},
          {"nearly touching", test::vents(small ? room + 0.05 : 8)}};
}

/// Every form at one tolerance, plain and with every kind of vents; two of them at all tolerances.
std::vector<Case> cases() {
  std::vector<Case> all;
  for (const auto& form : test::all_forms()) {
    all.push_back({form.name, form.solid, 0.1});
    const bool massive = form.solid.has_head_line && form.solid.wall == 0;
    for (const auto& [kind, plan] : vent_plans(form.name == "small")) {
      if (massive || (test::light() && kind != "25 mm" && kind != "panels")) continue;
      all.push_back({form.name + ", " + kind, test::vented(form.solid, plan), 0.1});
    }
  }
  const std::vector<double> tolerances =
      test::light() ? std::vector{0.5, 0.02} : std::vector{0.5, 0.02, 0.005, 0.002};
  for (const double tolerance : tolerances) {
    all.push_back({"worked", test::worked_block(), tolerance});
    all.push_back({"small", test::small_block(), tolerance});
    for (const auto& [kind, plan] : vent_plans(true)) {
      all.push_back({"small, " + kind, test::vented(test::small_block(), plan), tolerance});
    }
    if (test::light()) continue;
    for (const auto& [kind, plan] : vent_plans(false)) {
      if (tolerance < 0.02 && kind != "25 mm" && kind != "panels") continue;
      all.push_back({"worked, " + kind, test::vented(test::worked_block(), plan), tolerance});
    }
  }
  return all;
}

/// A prime step that leaves about this many facets.
std::uint32_t prime_step(std::size_t facets, std::size_t wanted) {
  for (const std::uint32_t prime : {1u, 2u, 3u, 5u, 7u, 13u, 29u, 61u, 127u, 257u, 521u}) {
    if (facets / prime <= wanted) return prime;
  }
  return 1031;
}

test::Thinning thinning(const BuiltMesh& built) {
  std::size_t bores = 0;
  for (const VentMesh& vent : built.structure.vents) bores += vent.rim.count + vent.wall.count;
  const std::size_t scale = test::light() ? 10 : 1;
  return {prime_step(built.mesh.triangles.size(), 5000 / scale), prime_step(bores, 700 / scale)};
}

void expect_on_grid(const TriangleMesh& mesh) {
  bool on_grid = true, no_minus_zero = true;
  for (const Vertex& v : mesh.vertices) {
    for (const float x : {v.x, v.y, v.z}) {
      const double steps = double(x) * 32768;
      on_grid = on_grid && steps == std::nearbyint(steps);
      no_minus_zero = no_minus_zero && !(x == 0 && std::signbit(x));
    }
  }
  EXPECT_TRUE(on_grid);
  EXPECT_TRUE(no_minus_zero);
}

struct Worst {
  double face = 0, bore = 0, angle = 180, axis = 180, fan = 0;
  std::string angle_at, axis_at;
};

void look_at(const Case& c, Worst& worst) {
  const auto built = build_mesh(c.solid, c.tolerance);
  ASSERT_TRUE(built.ok()) << built.fault().line();
  expect_on_grid(built->mesh);
  const test::MeshFacts facts = test::facts_of(built->mesh);
  EXPECT_TRUE(facts.closed);
  EXPECT_EQ(facts.pieces, c.solid.expected_pieces());
  EXPECT_EQ(facts.genus, c.solid.expected_genus());
  const test::ChordAudit audit = test::audit_chords(c.solid, *built, thinning(*built));
  EXPECT_LE(audit.worst_face, c.tolerance);
  EXPECT_LE(audit.worst_bore, c.tolerance);
  // No point of the mesh is farther than the tolerance from the true surface: the volumes differ by less than
  // a skin of that thickness.
  EXPECT_NEAR(facts.volume, solid::volume(c.solid), facts.area * c.tolerance);
  EXPECT_GE(facts.smallest_axis_angle, 20) << "a needle at the axis";
  // Long thin facets lie on planes and cones between a small edge loop and a wide one, where one step would
  // do for the chord.
  EXPECT_GT(facts.smallest_angle, 0.2);
  worst.face = std::max(worst.face, audit.worst_face / c.tolerance);
  worst.bore = std::max(worst.bore, audit.worst_bore / c.tolerance);
  worst.fan = std::max(worst.fan, facts.greatest_axis_angle);
  if (facts.smallest_angle < worst.angle) worst.angle = facts.smallest_angle, worst.angle_at = c.name;
  if (facts.smallest_axis_angle < worst.axis) worst.axis = facts.smallest_axis_angle, worst.axis_at = c.name;
}

TEST(Mesher, TableOfFormsTolerancesAndVents) {
  Worst worst;
  const auto all = cases();
  for (const Case& c : all) {
    SCOPED_TRACE(testing::Message() << c.name << " at " << c.tolerance);
    look_at(c, worst);
  }
  std::cout << all.size() << " meshes: chord error / tolerance " << worst.face << " on faces, " << worst.bore
            << " in bores; smallest angle " << worst.angle << " (" << worst.angle_at << "), at the axis "
            << worst.axis << " (" << worst.axis_at << "), greatest at a pole " << worst.fan << " degrees\n";
}

TEST(Mesher, SameSolidSameBytes) {
  for (const auto& plan : {test::vents(25), test::panel_vents(25, 8)}) {
    const auto solid = test::vented(test::worked_block(), plan);
    const auto once = build_mesh(solid, 0.05).value(), again = build_mesh(solid, 0.05).value();
    ASSERT_EQ(once.mesh.vertices.size(), again.mesh.vertices.size());
    EXPECT_EQ(once.mesh.triangles, again.mesh.triangles);
    EXPECT_EQ(std::memcmp(once.mesh.vertices.data(), again.mesh.vertices.data(),
                          once.mesh.vertices.size() * sizeof(Vertex)),
              0);
  }
}

TEST(Mesher, FinerToleranceComesNearerToTheClosedForm) {
  // Massive and without vents: an inner face and the polygons of vents err to the other side and would hide
  // what the outer face misses.
  auto plan = test::plain_block(test::worked_case());
  plan.wall.reset();
  const auto solid = solid::build_block(plan).value();
  double before = INFINITY;
  for (const double tolerance : {0.2, 0.02, 0.002}) {
    const double error =
        std::abs(test::facts_of(build_mesh(solid, tolerance).value().mesh).volume - solid::volume(solid));
    EXPECT_LT(error, before / 4);
    before = error;
  }
}

// Every triangle belongs to one region or one bore, and the regions' cycles name the vertices of their rows.
TEST(Mesher, StructureDescribesTheMesh) {
  const auto solid = test::vented(test::worked_block(), test::vents(25));
  const BuiltMesh built = build_mesh(solid, 0.1).value();
  std::vector<int> owners(built.mesh.triangles.size(), 0);
  const auto own = [&](mesh::Run part) {
    for (std::uint32_t k = 0; k < part.count; ++k) ++owners.at(part.first + k);
  };
  for (const Region& region : built.structure.regions) {
    own(region.triangles);
    for (const auto& [cycle, s] :
         {std::pair{region.above, region.span.from}, {region.below, region.span.to}}) {
      const auto p = meridian::at(solid.shells[region.shell].walk, s);
      for (std::uint32_t k = 0; k < cycle.count; ++k) {
        const Vertex& v = built.mesh.vertices.at(cycle.first + k);
        EXPECT_NEAR(std::hypot(double(v.x), double(v.y)), p.r, 1e-4);
        EXPECT_NEAR(v.z, p.z, 1e-4);
      }
    }
  }
  EXPECT_EQ(static_cast<int>(built.structure.vents.size()), solid.vent_count() - 1) << "all but the pole's";
  for (const VentMesh& vent : built.structure.vents) own(vent.rim), own(vent.wall);
  EXPECT_EQ(std::count(owners.begin(), owners.end(), 1), static_cast<long>(owners.size()));
}

}  // namespace
}  // namespace crownwright::mesh
