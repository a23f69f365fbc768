// Every sample order, made and written in every kind of file, read back by others and proved again: Assimp
// reads, CGAL (exact predicates on the files' numbers) proves, admesh looks for anything to repair, and this
// test's own code measures.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <numbers>

#include "files/temp_folder.h"
#include "making/admesh.h"
#include "making/form.h"
#include "making/orders.h"
#include "making/read_back.h"
#include "making/write.h"

namespace crownwright::making {
namespace {

using test::Soup;
using test::Spot3;

using std::numbers::pi;

std::string plain_report(const std::vector<std::string>&) { return "{\"made_by\": \"crownwright test\"}\n"; }

class Sample : public testing::TestWithParam<const char*> {
 protected:
  // Made once for all tests of a sample; `ascii` says how its STL and PLY are to be written.
  static Form& made(bool ascii) {
    static std::map<std::string, Form> forms;
    const auto found = forms.find(GetParam());
    Form& form = found != forms.end() ? found->second
                                      : forms.emplace(GetParam(), test::make(in_all_formats())).first->second;
    form.order.mesh.ascii = ascii;
    return form;
  }
  std::string written(const Form& form, const std::string& ending) const {
    const auto paths = write_form(form, {folder_.path(), GetParam(), true}, plain_report);
    if (!paths) throw std::runtime_error(paths.fault().line());
    return folder_.file(std::string(GetParam()) + "/" + GetParam() + ending);
  }
  test::TempFolder folder_;

 private:
  static order::Order in_all_formats() {
    order::Order order = test::sample(GetParam());
    order.mesh.formats = {order::MeshFormat::stl, order::MeshFormat::obj, order::MeshFormat::ply};
    return order;
  }
};

double sides_deficit(const Form& form) {
  // Bores and rims are many-sided: their chords stand off the true circle by at most the tolerance.
  const double wall = form.order.form.wall ? form.order.form.wall->mm() : form.figures.rise;
  const solid::VentShape& vent = form.solid.vent;
  return form.vents.count * 2 * pi * vent.mouth() * (wall + vent.rim) * form.order.mesh.chord_tolerance.mm();
}

TEST_P(Sample, IsProvedAgainByCgalOnTheFilesNumbers) {
  const Form& form = made(false);
  const Soup soup = test::read_by_assimp(written(form, ".stl"));
  const test::ProofAgain proof = test::prove_again(soup);
  EXPECT_TRUE(proof.manifold);
  EXPECT_TRUE(proof.closed);
  EXPECT_TRUE(proof.outward);
  EXPECT_TRUE(proof.bounds_a_volume);
  EXPECT_FALSE(proof.crosses_itself);
  // Every vent adds a handle to a sphere; a floor without a socket parts the cavity off, and the first vent
  // joins it.
  const bool cavity = form.order.form.floor && !form.order.form.socket;
  EXPECT_EQ(proof.pieces, cavity && form.vents.count == 0 ? 2 : 1);
  EXPECT_EQ(proof.genus, cavity && form.vents.count > 0 ? form.vents.count - 1 : form.vents.count);
}

TEST_P(Sample, HoldsTheVolumeOfTheDrawnForm) {
  const Form& form = made(false);
  const Soup soup = test::read_by_assimp(written(form, ".stl"));
  const double allowed = form.figures.area * form.order.mesh.chord_tolerance.mm() + sides_deficit(form);
  // Posts stand between the foot plane and the inside of the crown, whose dome is all that their lengths
  // differ by.
  const double post = form.order.form.posts.value_or(0) * std::numbers::pi / 4 *
                      std::pow(form.order.form.post_diameter.mm(), 2);
  const double tallest = post > 0 ? test::top_of(soup) - form.order.form.wall->mm() : 0;
  const double added = test::volume_of(soup) - form.figures.volume;
  EXPECT_LE(added, post * tallest + allowed);
  EXPECT_GE(added, post * (tallest - form.figures.dome) - allowed);
  EXPECT_LE(std::abs(test::volume_of(soup) - form.proven.readings().volume) / form.figures.volume, 1e-9);
}

TEST_P(Sample, NeedsNoRepairInAdmesh) {
  for (const bool ascii : {false, true}) {
    SCOPED_TRACE(ascii ? "ascii" : "binary");
    const Form& form = made(ascii);
    const test::AdmeshFindings found = test::admesh_findings(written(form, ".stl"));
    SCOPED_TRACE(found.text);
    for (const char* name :
         {"Total disconnected facets", "Degenerate facets", "Edges fixed", "Facets removed", "Facets added",
          "Facets reversed", "Backwards edges", "Normals fixed"}) {
      ASSERT_TRUE(found.counts.contains(name)) << name;
      EXPECT_EQ(found.counts.at(name), 0) << name;
    }
    EXPECT_EQ(found.counts.at("Number of facets"), static_cast<long>(form.proven.mesh().triangles.size()));
    EXPECT_EQ(found.counts.at("Number of parts"), form.proven.verdict().shells);
  }
}

// Assimp's reader of text numbers is not rounded correctly: up to four units in float32's last place at 256
// mm.
void expect_same_mesh(const Soup& soup, const mesh::TriangleMesh& mesh, double slack) {
  ASSERT_EQ(soup.facets.size(), mesh.triangles.size());
  EXPECT_EQ(soup.corners.size(), mesh.vertices.size());
  double worst = 0;
  for (std::size_t i = 0; i < soup.facets.size(); ++i) {
    for (std::size_t k = 0; k < 3; ++k) {
      const Spot3& p = soup.corners[soup.facets[i][k]];
      const mesh::Vertex& v = mesh.vertices[mesh.triangles[i][k]];
      worst = std::max({worst, std::abs(p[0] - v.x), std::abs(p[1] - v.y), std::abs(p[2] - v.z)});
    }
  }
  EXPECT_LE(worst, slack);
}

TEST_P(Sample, IsTheSameInEveryKindOfFile) {
  for (const bool ascii : {false, true}) {
    const Form& form = made(ascii);
    const std::string stl = written(form, ".stl"), base = stl.substr(0, stl.size() - 4);
    for (const char* ending : {".stl", ".obj", ".ply"}) {
      SCOPED_TRACE(std::string(ending) + (ascii ? " ascii" : " binary"));
      const bool text = ascii || std::string_view(ending) == ".obj";
      expect_same_mesh(test::read_by_assimp(base + ending), form.proven.mesh(), text ? 1.3e-4 : 0);
    }
  }
}

TEST_P(Sample, MeasuresWhatWasOrdered) {
  const Form& form = made(false);
  const Soup soup = test::read_by_assimp(written(form, ".stl"));
  const double tolerance = form.order.mesh.chord_tolerance.mm();
  const bool pad = form.order.form.kind == order::FormKind::pad;
  const double head = pad ? 0 : form.order.form.collar.mm();
  EXPECT_LE(std::abs(test::top_of(soup) - head - form.figures.rise) / tolerance, 1);
  EXPECT_LE(
      std::abs(2 * test::widest_above(soup, head - 1e-4) - form.figures.crown_diameter) / (2 * tolerance), 1);
  if (pad) return;
  // The collar is as wide as the head line: cut it a hundredth below, inside the land above any groove.
  const double girth = test::section_length(soup, head - 0.01, *form.figures.head_girth / (2 * pi) - 0.5);
  EXPECT_LE(std::abs(girth - *form.figures.head_girth) / (2 * pi * tolerance), 1);
}

/// Vents, and the boss round a socket, which is no part of the wall.
bool is_left_out(const Form& form, const Spot3& p) {
  const order::Form& f = form.order.form;
  if (f.socket && test::radius_of(p) < f.socket->mm() / 2 + form.solid.wall + 1 &&
      p[2] < f.socket_depth->mm() + 1)
    return true;
  for (const solid::VentRing& ring : form.solid.rings) {
    for (int k = 0; k < ring.cells(); ++k) {
      if (!ring.has_vent[static_cast<std::size_t>(k)]) continue;
      const double angle = ring.phase + 2 * pi * k / ring.cells();
      const Spot3 entry{ring.entry.r * std::cos(angle), ring.entry.r * std::sin(angle), ring.entry.z};
      if (test::norm(p - entry) < form.solid.wall + form.solid.vent.mouth() + 2) return true;
    }
  }
  return form.solid.pole_vent && test::radius_of(p) < form.solid.vent.mouth() + 2;
}

/// Below the collar's face but no deeper than marks are, which is less than half the wall.
bool is_engraved(const Form& form, const Spot3& p) {
  if (!form.order.marks || p[2] > form.order.form.collar.mm()) return false;
  const double below = *form.figures.head_girth / (2 * pi) - test::radius_of(p);
  return below > form.order.marks->depth.mm() / 4 && below < form.order.form.wall->mm() * 3 / 4;
}

TEST_P(Sample, HasTheWallThatWasOrdered) {
  const Form& form = made(false);
  if (!form.order.form.wall) {
    EXPECT_FALSE(form.proven.readings().wall_min);
    return;
  }
  const Soup soup = test::read_by_assimp(written(form, ".stl"));
  const double tolerance = form.order.mesh.chord_tolerance.mm();
  const double wall = form.order.form.wall->mm();
  const std::size_t stride = std::max<std::size_t>(1, soup.facets.size() / 1500);
  const auto least_without = [&](auto leave_out) {
    return test::least_wall(soup, form.order.form.collar.mm(), stride,
                            [&](const Spot3& p) { return is_left_out(form, p) || leave_out(p); });
  };
  const double least = least_without([&](const Spot3& p) { return is_engraved(form, p); });
  EXPECT_LE(std::abs(least - wall) / tolerance, 1) << least << " mm of " << wall;
  if (form.order.marks) {
    // What is engraved in the collar is taken from its wall there, and there alone.
    const double collar = form.order.form.collar.mm();
    const double under_marks = least_without([&](const Spot3& p) { return p[2] > collar; });
    const double left = wall - form.order.marks->depth.mm();
    EXPECT_LE(std::abs(under_marks - left) / tolerance, 1) << under_marks << " mm of " << left;
  }
  EXPECT_LE(std::abs(*form.proven.readings().wall_min - form.order.form.wall->mm()) / tolerance, 1);
}

INSTANTIATE_TEST_SUITE_P(All, Sample, testing::ValuesIn(test::kSamples), [](const auto& which) {
  std::string name = which.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(Samples, AreAllListedHere) {
  std::vector<std::string> found;
  for (const auto& entry : std::filesystem::directory_iterator(CW_SOURCE_DIR "/samples")) {
    if (entry.path().extension() == ".toml") found.push_back(entry.path().stem());
  }
  std::sort(found.begin(), found.end());
  EXPECT_EQ(found, std::vector<std::string>(std::begin(test::kSamples), std::end(test::kSamples)));
}

// The tools above find what they are there to find.
TEST(Samples, AHoleAndACrossingWouldBeSeen) {
  const Form form = test::make(test::sample("table-pad"));
  const test::TempFolder folder;
  const auto paths = write_form(form, {folder.path(), "pad", false}, plain_report);
  ASSERT_TRUE(paths);
  Soup soup = test::read_by_assimp(paths->front());
  Soup holed = soup;
  holed.facets.pop_back();
  EXPECT_FALSE(test::prove_again(holed).closed);
  // The tip pushed down through the foot.
  *std::max_element(soup.corners.begin(), soup.corners.end(), [](const Spot3& a, const Spot3& b) {
    return a[2] - test::radius_of(a) < b[2] - test::radius_of(b);
  }) = {0, 0, -50};
  EXPECT_TRUE(test::prove_again(soup).crosses_itself);
  std::string bytes = test::content_of(paths->front());
  bytes.resize(bytes.size() - 50);
  const auto facets = static_cast<std::uint32_t>(form.proven.mesh().triangles.size() - 1);
  for (unsigned k = 0; k < 4; ++k) bytes[80 + k] = static_cast<char>(facets >> (8 * k) & 255);
  const auto found = test::admesh_findings(folder.put("holed.stl", bytes));
  EXPECT_GT(found.counts.at("Total disconnected facets"), 0) << found.text;
}

}  // namespace
}  // namespace crownwright::making
