// What a form in pieces is made of, against the same form filled by Pappus' theorem and the triangles' own
// volume.

#include "report/matter.h"

#include <gtest/gtest.h>

#include "base/length.h"
#include "report/made_form.h"
#include "report/report_text.h"
#include "report/work_sheet.h"
#include "solid/solid.h"

namespace crownwright::report {
namespace {

using test::made;
using test::worked_case;

constexpr char vented[] =
    "[vents]\ndiameter = \"3 mm\"\nspacing = \"30 mm\"\n[mesh]\nchord_tolerance = \"0.3 mm\"\n";

making::Form puzzle_of(int pieces) {
  return made(
      worked_case("[form]\nwall = \"4 mm\"\n[puzzle]\npieces = " + std::to_string(pieces) + "\n" + vented));
}

// Divergence theorem: a sixth of the sum of the triangles' triple products.
double triangles_volume(const mesh::TriangleMesh& mesh) {
  double sum = 0;
  for (const auto& triangle : mesh.triangles) {
    const auto &a = mesh.vertices[triangle[0]], &b = mesh.vertices[triangle[1]],
               &c = mesh.vertices[triangle[2]];
    sum += double(a.x) * (double(b.y) * c.z - double(b.z) * c.y) +
           double(a.y) * (double(b.z) * c.x - double(b.x) * c.z) +
           double(a.z) * (double(b.x) * c.y - double(b.y) * c.x);
  }
  return sum / 6;
}

TEST(Matter, OfAPuzzleIsThatOfItsPieces) {
  const making::Form form = puzzle_of(5);
  const Matter matter = matter_of(form);
  double pieces = 0;
  for (const making::PrintedPart& part : form.printed.parts) pieces += triangles_volume(part.proven->mesh());
  EXPECT_NEAR(matter.volume, pieces, 1e-4 * pieces);
  EXPECT_NEAR(matter.mass, matter.volume / 1000 * form.material.density, 1e-6 * matter.mass);
  // A wall along every joint: more than the whole form's shell, less than the massive block.
  EXPECT_GT(matter.volume, 1.2 * form.proven.readings().volume);
  const double massive = solid::volume(
      made(worked_case("[form]\nwall = \"solid\"\n[mesh]\nchord_tolerance = \"0.3 mm\"\n")).solid);
  EXPECT_LT(matter.volume, 0.5 * massive);
}

TEST(Matter, CountsTheVentsThatArePierced) {
  const making::Form form = puzzle_of(5);
  const Matter matter = matter_of(form);
  ASSERT_LT(form.printed.vents, form.vents.count) << "joints take some away";
  EXPECT_EQ(matter.vents, form.released->vents);
  EXPECT_NEAR(matter.open_area, matter.vents * 3.14159265358979 * 1.5 * 1.5, 1e-6);
}

TEST(Matter, OfAWholeFormIsItsMesh) {
  const making::Form form = made(worked_case("[form]\nwall = \"4 mm\"\n" + std::string(vented)));
  const Matter matter = matter_of(form);
  EXPECT_NEAR(matter.volume, triangles_volume(form.proven.mesh()), 1e-4 * matter.volume);
  EXPECT_EQ(matter.vents, form.vents.count);
}

TEST(Matter, IsWhatReportAndSheetSay) {
  const making::Form form = puzzle_of(5);
  const Matter matter = matter_of(form);
  const std::string mass = number_text(matter.mass, 0) + " g when massive";
  const std::string text = report_text(form, {}, Paint(false));
  EXPECT_NE(text.find(mass), std::string::npos) << text;
  EXPECT_NE(text.find(std::to_string(matter.vents) + " steam vents"), std::string::npos) << text;
  const auto sheet = work_sheet(form, "worked", false, "");
  std::string words;
  for (const auto& chapter : sheet.chapters)
    for (const auto& line : chapter.lines) words += line.words + "\n";
  EXPECT_NE(words.find(mass), std::string::npos) << words;
  EXPECT_NE(words.find(std::to_string(matter.vents) + " steam vents"), std::string::npos) << words;
}

}  // namespace
}  // namespace crownwright::report
