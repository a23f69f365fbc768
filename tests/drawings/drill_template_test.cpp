// The drilling template printed by poppler at ten dots a millimetre, and measured.

#include <gtest/gtest.h>

#include <algorithm>

#include "drawings/milling_pages.h"
#include "drawings/milling_sheet.h"

namespace crownwright::drawings {
namespace {

using printed::PrintedSheet;
using test::GreyPicture;

DrillTemplate plan_of_rings(int rings, double apart) {
  DrillTemplate plan;
  plan.title = "Market beret, medium";
  plan.vent_diameter = 3;
  for (int i = 0; i < rings; ++i) {
    VentMarks ring;
    ring.along = 14 + apart * i;
    ring.radius = std::min(140.0, ring.along);
    ring.count = std::max(1, static_cast<int>(2 * pi * ring.radius / 25));
    ring.apart = 2 * pi * ring.radius / ring.count;
    ring.first = i % 2 ? 180.0 / ring.count : 0;
    ring.tilt = 3.0 * i;
    plan.rings.push_back(ring);
  }
  return plan;
}

DrillTemplate plan_of_holes(double face, double at) {
  DrillTemplate plan;
  plan.title = "Tier";
  plan.face = "tier 1, seen from its wide face";
  plan.face_radius = face;
  for (const double degrees : {0.0, 130.0, 250.0})
    plan.holes.push_back({at * std::cos(degrees * pi / 180), at * std::sin(degrees * pi / 180), 6, 13});
  return plan;
}

constexpr double strip_top = 26, a4_strip_left = 57.5, strip_middle = 11;  // mm

TEST(DrillTemplatePages, AreOfTheirPaper) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    DrillTemplate plan = plan_of_rings(9, 20);
    plan.holes = plan_of_holes(138, 60).holes;
    plan.face_radius = 138;
    const PrintedSheet sheet(drill_template_pdf(plan, paper));
    printed::expect_paper(sheet, paper);
    printed::expect_legible(sheet);
    EXPECT_EQ(sheet.pages().size(), 3u);
  }
}

TEST(DrillTemplateSize, ControlSquareIsFiftyMillimetres) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const PrintedSheet sheet(drill_template_pdf(plan_of_rings(9, 20), paper));
    const GreyPicture page = sheet.picture(1);
    EXPECT_NEAR(page.line_at(60, 40, false) - page.line_at(10, 40, false), 50, 0.05);
    EXPECT_NEAR(page.line_at(82, 20, true) - page.line_at(32, 20, true), 50, 0.05);
    EXPECT_NE(sheet.text().find("50 mm"), std::string::npos);
    // The rule at the foot of each page.
    const double rule = page.height / 10.0 - 17 + 5 - 0.8;
    EXPECT_NEAR(page.line_at(110, rule, false) - page.line_at(10, rule, false), 100, 0.05);
  }
}

TEST(DrillTemplateSize, RingsLieAsFarFromTheTipAsTheyShould) {
  const DrillTemplate plan = plan_of_rings(9, 20.3);
  const GreyPicture page = PrintedSheet(drill_template_pdf(plan, Paper::a4)).picture(2);
  const double tip = page.line_at(strip_top + 9, a4_strip_left + strip_middle - 5, true);
  for (const VentMarks& ring : plan.rings)
    EXPECT_NEAR(page.line_at(strip_top + 9 + ring.along, a4_strip_left + 4, true) - tip, ring.along, 0.1);
}

// Longer than a page: laid together at their dashed join lines, which are measured too (beside the strip,
// where no ring's line is).
TEST(DrillTemplateSize, StripIsTrueAcrossAJoin) {
  const DrillTemplate plan = plan_of_rings(20, 20);
  const GreyPicture page = PrintedSheet(drill_template_pdf(plan, Paper::a4)).picture(2);
  const double length = 297 - 17 - 4 - strip_top;  // 250
  const double second = 10 + 95;                   // its left edge
  // Ring 10 on the first length, ring 14 on the second.
  const double first_join = page.line_at(strip_top + length - 5, 10 + 22 + 1.5, true);
  const double second_join = page.line_at(strip_top + 5, second + 22 + 1.5, true);
  const double tenth = page.line_at(strip_top + 9 + 194, 10 + 4, true);
  const double fourteenth = page.line_at(strip_top + 274 - (length - 10) + 9, second + 4, true);
  EXPECT_NEAR((first_join - tenth) + (fourteenth - second_join), 80, 0.15);
}

// The whole face on one A4 page, in its middle: (91, 152) mm.
TEST(DrillTemplateSize, HolesLieWhereTheyShould) {
  const DrillTemplate plan = plan_of_holes(60, 40);
  const PrintedSheet sheet(drill_template_pdf(plan, Paper::a4));
  ASSERT_EQ(sheet.pages().size(), 2u);
  const GreyPicture page = sheet.picture(2);
  // On the crosses' arms, outside the rings round them.
  const double middle_x = page.line_at(91, 152 - 4, false), middle_y = page.line_at(152, 91 - 4, true);
  for (const DrillTemplate::Hole& hole : plan.holes) {
    const double x = 91 + hole.x, y = 152 - hole.y;
    EXPECT_NEAR(page.line_at(x, y - 4.5, false) - middle_x, hole.x, 0.1);
    EXPECT_NEAR(middle_y - page.line_at(y, x - 4.5, true), hole.y, 0.1);
    // Its own edge, between the arms.
    const double half = 3 * std::sqrt(0.5);
    EXPECT_NEAR(page.line_at(x + half, y + half, false) - x, half, 0.15);
  }
  EXPECT_NEAR(page.line_at(91 - 60, 152, false), 31, 0.15);
}

// Wider than a page: two holes on two pages, joined at the register crosses.
TEST(DrillTemplateSize, FaceIsTrueAcrossAJoin) {
  DrillTemplate plan;
  plan.face_radius = 200;
  plan.holes = {{150, 0, 6, 13}, {-100, 0, 6, 13}};
  const PrintedSheet sheet(drill_template_pdf(plan, Paper::a4));
  ASSERT_EQ(sheet.pages().size(), 3u);
  printed::expect_legible(sheet);
  const GreyPicture first = sheet.picture(2), second = sheet.picture(3);
  const double left = -100 - 3 - 14, y = 26 + 3 + 14;  // of the window; the holes' height on the page
  const double join_first = first.line_at(10 + 180, 26 + 2.5, false),
               join_second = second.line_at(10, 26 - 2.5, false);
  const double hole_first = first.line_at(10 - 100 - left, y - 4.5, false);
  const double hole_second = second.line_at(10 + 150 - left - 180, y - 4.5, false);
  EXPECT_NEAR((join_first - hole_first) + (hole_second - join_second), 250, 0.2);
}

// Dividers span the chord: 2 r sin(pi / n).
TEST(DrillTemplateTable, HoldsEveryRing) {
  DrillTemplate plan;
  plan.vent_diameter = 3;
  plan.rings = {{0, 0, 1, 0, 0, 0},
                {33.6, 33.5, 8, 2 * pi * 33.5 / 8, 22.5, 1.3},
                {160, 140, 35, 2 * pi * 140 / 35, 0, 105.6}};
  const PrintedSheet sheet(drill_template_pdf(plan, Paper::letter));
  const auto numbers_of = [&](const std::string& words) {
    std::vector<double> numbers;
    std::istringstream in(sheet.line_with(words));
    for (std::string one; in >> one;) numbers.push_back(std::atof(one.c_str()));
    return numbers;
  };
  const auto second = numbers_of("33.6"), third = numbers_of("105.6");
  ASSERT_EQ(second.size(), 8u);
  ASSERT_EQ(third.size(), 8u);
  const double expected_second[] = {
      2, 33.6, 33.5, 8, 2 * pi * 33.5 / 8, 2 * 33.5 * std::sin(pi / 8), 33.5 * pi / 8, 1.3};
  const double expected_third[] = {3, 160, 140, 35, 2 * pi * 140 / 35, 2 * 140 * std::sin(pi / 35), 0, 105.6};
  for (std::size_t i = 0; i < 8; ++i) {
    EXPECT_NEAR(second[i], expected_second[i], 0.051) << i;
    EXPECT_NEAR(third[i], expected_third[i], 0.051) << i;
  }
  EXPECT_NE(sheet.text().find("drill Ø 3 mm"), std::string::npos);
  EXPECT_EQ(sheet.text().find("leave out"), std::string::npos);
  plan.rings[2].places = 40;
  const PrintedSheet gaps(drill_template_pdf(plan, Paper::letter));
  printed::expect_legible(gaps);
  EXPECT_NE(gaps.line_with("105.6").find("35 of 40"), std::string::npos);
  EXPECT_NE(gaps.text().find("ring 3: 35 of 40 places"), std::string::npos);
  EXPECT_NE(gaps.text().find("leave out those that fall on a seam"), std::string::npos);
}

TEST(DrillTemplatePages, StayLegibleWhateverThePlan) {
  std::vector<DrillTemplate> plans = {DrillTemplate{},         plan_of_rings(60, 3.3), plan_of_rings(60, 0.5),
                                      plan_of_rings(20, 34),   plan_of_rings(1, 1),    plan_of_holes(5, 2),
                                      plan_of_holes(400, 350), plan_of_holes(0, 30)};
  plans[1].title = std::string(300, 'W') + " \xE6\x97\xA5 \xFF";
  plans[1].notes.assign(50, std::string(200, 'm') + " and on");
  plans[4].rings[0].along = 0;
  plans[5].holes.push_back({0, 0, 1, 0});
  plans[7].face = std::string(400, 'q');
  for (std::size_t i = 0; i < plans.size(); ++i) {
    SCOPED_TRACE(i);
    const PrintedSheet sheet(drill_template_pdf(plans[i], i % 2 ? Paper::letter : Paper::a4));
    printed::expect_legible(sheet);
    EXPECT_EQ(drill_template_pdf(plans[i], Paper::a4), drill_template_pdf(plans[i], Paper::a4));
  }
}

TEST(DrillTemplatePages, OfMilesAreABrokenPromise) {
  EXPECT_THROW(drill_template_pdf(plan_of_rings(2, 1e6), Paper::a4), std::logic_error);
  EXPECT_THROW(drill_template_pdf(plan_of_holes(0, 1e6), Paper::a4), std::logic_error);
}

}  // namespace
}  // namespace crownwright::drawings
