#include "parts/marks.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"
#include "parts/proved_part.h"
#include "parts/sectors.h"
#include "support/form_table.h"
#include "support/mesh_facts.h"

namespace crownwright::parts {
namespace {

MarkLoop square_at(double x, double y, double half) {
  return {{x - half, y - half}, {x + half, y - half}, {x + half, y + half}, {x - half, y + half}};
}

// A frame and a dot: the loops of an O and of a full stop, their directions muddled on purpose.
Marks some_marks(double r) {
  Marks marks;
  MarkLoop inner = square_at(r * std::cos(0.6), r * std::sin(0.6), 0.5);
  marks.foot.push_back({{square_at(r * std::cos(0.6), r * std::sin(0.6), 1.0), inner}});
  MarkLoop dot = square_at(-r, 1, 0.5);
  std::reverse(dot.begin(), dot.end());
  marks.foot.push_back({{dot}});
  marks.collar_lines = {0.1, pi / 2, 2.5};
  return marks;
}

// What is sunk: (4 - 1) + 1 mm2 in the foot by 0.6 mm; lines 1 mm wide on the collar.
TEST(Marks, TakeOutTheirOwnVolume) {
  auto plan = test::plain_block(test::worked_case(), 6);
  const auto solid = solid::build_block(plan).value();
  const Marks marks = some_marks(87.5);
  const auto plain = marked_form(solid, {}, 0.05);
  const auto marked = marked_form(solid, marks, 0.05);
  ASSERT_TRUE(plain.ok()) << plain.fault().line();
  ASSERT_TRUE(marked.ok()) << marked.fault().line();
  const double without = test::proved_facts(*plain).volume, with = test::proved_facts(*marked).volume;
  EXPECT_EQ(marked->genus, solid.expected_genus());
  const double lines = 3 * 1 * (14.5 - 2 * mark_margin) * 0.5;
  EXPECT_NEAR(without - with, 4 * 0.6 + lines, 0.2 * lines);
}

TEST(Marks, SitInSectorsAndOnVentedForms) {
  auto plan = test::plain_block(test::worked_case(), 6);
  const auto vented = test::vented(solid::build_block(plan).value(), test::vents(40));
  const Marks marks = some_marks(87.5);
  const auto whole = marked_form(vented, marks, 0.1);
  ASSERT_TRUE(whole.ok()) << whole.fault().line();
  (void)test::proved_facts(*whole);
  EXPECT_EQ(whole->genus, vented.expected_genus());
  SplitPlan split;
  split.sectors = 3;
  split.phase = 0.3;
  const auto made = split_form(vented, split, 0.1, {marks, {}});
  ASSERT_TRUE(made.ok()) << made.fault().line();
  int engraved = 0;
  for (const auto& part : made->parts) {
    (void)test::proved_facts(part.part);
    engraved += part.marks;
  }
  EXPECT_EQ(engraved, 5);
}

// A frame of 3 mm2 on the collar, half a millimetre deep, and what its flat bottom leaves under the collar's
// curve: the collar stands out over a chord of 2 mm by at most 1 / (2 r).
TEST(Marks, ShapesOnTheCollarTakeOutTheirOwnVolume) {
  const auto solid = solid::build_block(test::plain_block(test::worked_case(), 6)).value();
  const auto room = collar_room(solid);
  ASSERT_TRUE(room);
  EXPECT_NEAR(room->radius, 90.7, 1e-9);
  EXPECT_NEAR(room->high, solid.head_line.z - mark_margin, 1e-9);
  const double u = 40, v = (room->low + room->high) / 2;
  Marks marks;
  marks.collar = {{{square_at(u, v, 1), square_at(u, v, 0.5)}}};
  const auto plain = marked_form(solid, {}, 0.02), marked = marked_form(solid, marks, 0.02);
  ASSERT_TRUE(marked.ok()) << marked.fault().line();
  EXPECT_NEAR(test::proved_facts(*plain).volume - test::proved_facts(*marked).volume, 3 * 0.5, 0.02);
  // To the right as seen from outside: at angle u / r, counter-clockwise from above.
  double nearest = 1e9;
  for (const auto& vertex : marked->mesh.vertices) {
    if (std::hypot(vertex.x, vertex.y) > 90.3) continue;
    if (std::abs(vertex.z - v) > 1.01) continue;
    nearest = std::min(nearest, std::abs(std::atan2(vertex.y, vertex.x) - u / 90.7));
  }
  EXPECT_LT(nearest, 1.01 / 90.7);
  // Straight in through its middle: both sides of the bottom are equally far from the axis.
  for (const double side : {-1.0, 1.0}) {
    const double mouth = (u + side) / 90.7, middle = u / 90.7;
    const double x = 90.7 * std::cos(mouth) - 0.5 * std::cos(middle),
                 y = 90.7 * std::sin(mouth) - 0.5 * std::sin(middle);
    double off = 1e9;
    for (const auto& vertex : marked->mesh.vertices)
      off = std::min(off, std::hypot(vertex.x - x, vertex.y - y, vertex.z - (v + 1)));
    EXPECT_LT(off, 1e-4);
  }
  marks.collar = {{{square_at(u, room->high, 1)}}};
  const auto off = marked_form(solid, marks, 0.1);
  ASSERT_FALSE(off.ok());
  EXPECT_NE(off.fault().what.find("does not lie on the collar"), std::string::npos);
}

// A bar 12 mm wide, whose chord would leave the collar by 12^2 / (8 * 90.7) = 0.2 mm: no facet of the collar
// beside it does by more than the tolerance.
TEST(Marks, WideShapesFollowTheCollar) {
  const auto solid = solid::build_block(test::plain_block(test::worked_case(), 6)).value();
  const double v = collar_room(solid)->low + 3;
  Marks marks;
  marks.collar = {{{{{40, v}, {52, v}, {52, v + 4}, {40, v + 4}}}}};
  for (const double tolerance : {0.02, 0.1}) {
    const auto marked = marked_form(solid, marks, tolerance);
    ASSERT_TRUE(marked.ok()) << marked.fault().line();
    (void)test::proved_facts(*marked);
    int looked_at = 0;
    double worst = 0;
    for (const auto& t : marked->mesh.triangles) {
      const auto on_collar = [&](std::size_t k) {
        const auto& p = marked->mesh.vertices[t[k]];
        return std::abs(std::hypot(p.x, p.y) - 90.7) < 1e-4 && p.z < 15.01;
      };
      if (!on_collar(0) || !on_collar(1) || !on_collar(2)) continue;
      ++looked_at;
      for (std::size_t k = 0; k < 3; ++k) {
        const auto &p = marked->mesh.vertices[t[k]], &q = marked->mesh.vertices[t[(k + 1) % 3]];
        worst = std::max(worst, 90.7 - std::hypot((p.x + q.x) / 2, (p.y + q.y) / 2));
      }
    }
    EXPECT_GT(looked_at, 50);
    EXPECT_LE(worst, tolerance);
  }
}

// 1 mm beside a joint there is no room for a line 1 mm wide and its margin of 0.8 mm; 1.5 mm beside it there
// is.
TEST(Marks, InAJointAreLeftOut) {
  const auto solid = solid::build_block(test::plain_block(test::worked_case(), 6)).value();
  SplitPlan split;
  split.sectors = 2;
  for (const auto& [beside, engraved] : {std::pair{0.0, 0}, {1.0, 0}, {1.5, 1}}) {
    Marks marks;
    marks.collar_lines = {beside / 90.7};
    const auto made = split_form(solid, split, 0.1, {marks, {}});
    ASSERT_TRUE(made.ok()) << made.fault().line();
    EXPECT_EQ(made->parts[0].marks + made->parts[1].marks, engraved) << beside;
  }
}

TEST(Marks, OrientedByNesting) {
  const MarkShape shape = oriented({{square_at(0, 0, 1), square_at(0, 0, 3), square_at(0, 0, 2)}});
  const auto area = [](const MarkLoop& l) {
    double sum = 0;
    for (std::size_t i = 0; i < l.size(); ++i)
      sum += l[i][0] * l[(i + 1) % l.size()][1] - l[i][1] * l[(i + 1) % l.size()][0];
    return sum / 2;
  };
  EXPECT_DOUBLE_EQ(area(shape.loops[0]), 4);
  EXPECT_DOUBLE_EQ(area(shape.loops[1]), 36);
  EXPECT_DOUBLE_EQ(area(shape.loops[2]), -16);
}

TEST(Marks, RefusesWhatDoesNotLieOnTheFoot) {
  const auto solid = test::worked_block();  // wall 4: foot from 86.2 to 90.2
  Marks marks;
  marks.foot.push_back({{square_at(88, 0, 3)}});
  const auto wide = marked_form(solid, marks, 0.1);
  ASSERT_FALSE(wide.ok());
  EXPECT_NE(wide.fault().allowed.find("radii"), std::string::npos);
  Marks deep;
  deep.foot.push_back({{square_at(88, 0, 0.3)}});
  deep.foot_depth = 3;
  EXPECT_FALSE(marked_form(solid, deep, 0.1).ok());
  Marks lines;
  lines.collar_lines = {0};
  for (const auto& form : test::all_forms()) {
    if (form.name != "pad" && form.name != "collar 0") continue;
    EXPECT_FALSE(marked_form(form.solid, lines, 0.1).ok());
  }
}

}  // namespace
}  // namespace crownwright::parts
