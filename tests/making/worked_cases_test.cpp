// The worked case through whole orders: crown 280 mm, head radius 90.7 mm, rise 75 mm, dome 6 mm, edge radii
// 20 mm.
//
// Every figure stated here was worked out apart from the program in double precision from the plane geometry
// of tangent circles: the tip angle f by 200 bisections of (a - e (1 - sin f)) tan(f/2) = t, then rho = (a -
// e (1 - sin f)) / sin f and psi = asin(e/d) + atan2(w - e, z). Offsets follow from parallel curves having
// the same angles: radii less d; a point where two tangents meet at an angle moves by d tan(psi/2); arcs of
// turn q lose d q. All are given to the digits that the tolerance beside them asks for.
#include <cmath>
#include <numbers>

#include "making/form.h"
#include "making/orders.h"
#include "making/values.h"
#include "meridian/beret.h"

namespace crownwright::making {
namespace {

using test::make;
using test::own_profiles;
using test::read_order;

using std::numbers::pi;

// 2 pi 90.7 mm = 569.884907361 mm.
const char* const kFigures = R"([measure]
head_girth = "569.884907361 mm"
crown_diameter = "280 mm"
rise = "75 mm"
taken_at = "TAKEN"
[shape]
dome = "6 mm"
edge_radius = "20 mm"
[form]
wall = "4 mm"
[cloth]
name = "fleece"
thickness = "3 mm"
)";

std::string taken_at(const std::string& words, std::string text = kFigures) {
  return text.replace(text.find("TAKEN"), 5, words);
}

std::string before_steam(std::string text, const std::string& shrink) {
  text += "heat_shrink = " + shrink + "\n";
  return text.replace(text.find("[shape]"), 7, "before_steam = true\n[shape]");
}

struct Expected {
  double crown, girth, rise, edge, dome, top, under;
};

void expect_figures(const FormFigures& figures, const Expected& e) {
  EXPECT_NEAR(figures.crown_diameter, e.crown, 1e-6);
  EXPECT_NEAR(*figures.head_girth, e.girth, 1e-6);
  EXPECT_NEAR(figures.rise, e.rise, 5e-6);
  EXPECT_NEAR(figures.edge_radius, e.edge, 1e-6);
  EXPECT_NEAR(figures.under_edge_radius, e.edge, 1e-6);
  EXPECT_NEAR(figures.dome, e.dome, 5e-6);
  EXPECT_NEAR(figures.top_length, e.top, 5e-6);
  EXPECT_NEAR(*figures.under_length, e.under, 5e-6);
  EXPECT_NEAR(figures.meridian_length, e.top + e.under, 1e-5);
}

// Polycarbonate keeps its shape under steam, so no warning speaks of heat.
constexpr char bears_steam[] = "\n[print]\nmaterial = \"pc\"\n";

TEST(WorkedCase, FiguresOfTheFormStandAsTheyAre) {
  const Form form = make(taken_at("form") + bears_steam);
  expect_figures(form.figures, {280, 2 * pi * 90.7, 75, 20, 6, 151.609447, 71.470961});
  EXPECT_EQ(form.figures.moved_inward, 0);
  EXPECT_EQ(form.figures.heat_shrink, 0);
  EXPECT_TRUE(form.warnings.empty());
}

TEST(WorkedCase, FiguresOfTheOutsideLieTheClothsThicknessFurtherIn) {
  const Form form = make(taken_at("outside"));
  expect_figures(form.figures, {274, 2 * pi * 87.7, 70.559312, 17, 5.985514, 146.897058, 70.225411});
  EXPECT_EQ(form.figures.moved_inward, 3);
  EXPECT_EQ(form.figures.cloth_thickness, 3);
}

TEST(WorkedCase, FiguresOfTheClothsMiddleLieHalfOfItFurtherIn) {
  const Form form = make(taken_at("cloth middle"));
  expect_figures(form.figures, {277, 2 * pi * 89.2, 72.779656, 18.5, 5.992757, 149.253252, 70.848186});
  EXPECT_EQ(form.figures.moved_inward, 1.5);
}

TEST(WorkedCase, ClothThatStillShrinksIsTakenOffEveryLengthFirst) {
  const Form form = make(before_steam(taken_at("outside"), "0.02"));
  expect_figures(form.figures, {268.4, 2 * pi * 85.886, 69.059312, 16.6, 5.865514, 143.864869, 68.795992});
  EXPECT_EQ(form.figures.heat_shrink, 0.02);
}

TEST(WorkedCase, HeatShrinkCountsOnlyBeforeSteam) {
  const std::string text = taken_at("outside") + "heat_shrink = 0.02\n";
  EXPECT_EQ(make(text).figures.heat_shrink, 0);
  EXPECT_NEAR(make(text).figures.crown_diameter, 274, 1e-9);
}

// The fleece of the profile folder: 3 mm thick, 1 % heat shrink (profiles/cloth/fleece.toml).
TEST(WorkedCase, AClothsNameGivesItsThicknessAndShrink) {
  std::string text = taken_at("cloth middle");
  text.erase(text.find("thickness"));
  EXPECT_NEAR(make(text).figures.rise, 72.779656, 5e-6);
  text.replace(text.find("[shape]"), 7, "before_steam = true\n[shape]");
  EXPECT_NEAR(make(text).figures.crown_diameter, 0.99 * 280 - 3, 1e-9);
}

// Way 2: the panel's lengths alone tell edge and rise. Middle-of-cloth lengths and a fleece of 3 mm: e 18.50
// and R 72.78; taking the radii alone inward would give 22.62 and 77.09.
TEST(WorkedCase, APanelsLengthsTellEdgeAndRise) {
  const std::string text = R"([measure]
head_girth = "569.884907361 mm"
crown_diameter = "280 mm"
taken_at = "cloth middle"
[panel_lengths]
top = "151.609446525 mm"
under = "71.470960923 mm"
[shape]
dome = "6 mm"
[cloth]
thickness = "3 mm"
)";
  const Form form = make(text);
  EXPECT_NEAR(form.figures.edge_radius, 18.50, 5e-6);
  EXPECT_NEAR(form.figures.under_edge_radius, 18.50, 5e-6);
  EXPECT_NEAR(form.figures.rise, 72.779656, 5e-6);
  EXPECT_NEAR(form.figures.top_length, 149.253252, 5e-6);
  EXPECT_NEAR(*form.figures.under_length, 70.848186, 5e-6);
}

TEST(WorkedCase, ThePrintedDigitsOfTheCaseInHand) {
  const auto figures = meridian::solve_figures({140, 90.7, 75, 6, 20, 20});
  ASSERT_TRUE(figures);
  EXPECT_NEAR(figures->f * 180 / pi, 5.6328, 5e-5);
  EXPECT_NEAR(figures->rho, 1242.582, 5e-4);
  EXPECT_NEAR(75 - figures->z_equator, 25.903, 5e-4);
  EXPECT_NEAR(figures->psi * 180 / pi, 51.303, 5e-4);
}

// A rise too low by a hair is refused naming 45.903 mm rounded to the side that works: pole to equator 25.903
// and the edge's 20.
TEST(WorkedCase, TheLeastRiseOfThatTopIsNamed) {
  std::string text = taken_at("form");
  text.replace(text.find("\"75 mm\""), 7, "\"45.8 mm\"");
  const auto form = make_form(read_order(text), own_profiles());
  ASSERT_FALSE(form);
  EXPECT_EQ(form.fault().exit, ExitCode::impossible);
  EXPECT_NE(form.fault().allowed.find("at least 46 mm"), std::string::npos) << form.fault().line();
  text.replace(text.find("\"45.8 mm\""), 9, "\"46 mm\"");
  EXPECT_TRUE(make_form(read_order(text), own_profiles()));
}

std::string pad(const std::string& taken_at) {
  return "[measure]\ncrown_diameter = \"280 mm\"\nrise = \"40 mm\"\ntaken_at = \"" + taken_at +
         "\"\n[shape]\ndome = \"6 mm\"\nedge_radius = \"20 mm\"\n[cloth]\nthickness = \"3 mm\"\n[form]\nkind "
         "= \"pad\"\n";
}

// Only the pressing face lies under the cloth: a pad is as thick as was ordered.
TEST(WorkedCase, APadsRiseIsItsThickness) {
  for (const auto& [words, d] : {std::pair{"form", 0.0}, {"cloth middle", 1.5}, {"outside", 3.0}}) {
    SCOPED_TRACE(words);
    const Form form = make(pad(words));
    EXPECT_NEAR(form.figures.crown_diameter, 280 - 2 * d, 1e-9);
    EXPECT_NEAR(form.figures.edge_radius, 20 - d, 1e-9);
    EXPECT_EQ(form.figures.rise, 40);
    EXPECT_FALSE(form.figures.head_girth);
    EXPECT_FALSE(form.figures.under_length);
    float low = 1e9f, high = -1e9f;
    for (const auto& v : form.proven.mesh().vertices) low = std::min(low, v.z), high = std::max(high, v.z);
    EXPECT_EQ(low, 0.0f);
    EXPECT_EQ(high, 40.0f);
  }
}

TEST(WorkedCase, WithoutAClothNothingIsTakenOffAndThatIsSaid) {
  std::string text = taken_at("outside");
  text.erase(text.find("[cloth]"));
  const Form form = make(text + bears_steam);
  EXPECT_NEAR(form.figures.crown_diameter, 280, 1e-9);
  ASSERT_EQ(form.warnings.size(), 1u);
  EXPECT_NE(form.warnings[0].find("no cloth is named"), std::string::npos);
}

// PETG is 1.27 g/cm3 (common data sheets); the profile folder says the same.
TEST(WorkedCase, TheMassIsVolumeTimesDensity) {
  const Form form = make(taken_at("form"));
  EXPECT_EQ(form.material.name, "petg");
  EXPECT_NEAR(form.material.density, 1.27, 1e-12);
  EXPECT_NEAR(form.material.mass, form.proven.readings().volume * 1.27e-3, 1e-9);
}

}  // namespace
}  // namespace crownwright::making
