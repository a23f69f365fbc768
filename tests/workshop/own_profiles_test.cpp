// The profiles that come with the program, against what others say of the same things.

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "workshop/cloth.h"
#include "workshop/material.h"
#include "workshop/shape_profile.h"

using namespace crownwright;
using namespace crownwright::workshop;

namespace {

const ProfileFolder own{CW_SOURCE_DIR "/profiles"};

struct Bounds {
  double low, high;
};

void expect_within(double value, const Bounds& bounds) {
  EXPECT_GE(value, bounds.low);
  EXPECT_LE(value, bounds.high);
}

}  // namespace

TEST(Shapes, AreAtLeastSixAndEachSaysWhatItIsFor) {
  const auto shapes = list_shapes(own);
  ASSERT_TRUE(shapes.ok()) << shapes.fault().line();
  EXPECT_GE(shapes->size(), 6u);
  for (const ShapeProfile& shape : *shapes) {
    SCOPED_TRACE(shape.name);
    EXPECT_GE(shape.summary.size(), 20u);
    for (const auto* value : {&shape.dome_of_radius, &shape.edge_of_radius, &shape.under_edge_of_radius}) {
      EXPECT_FALSE(value->source.empty());
    }
  }
}

// The shape of the contract's own example: dome 6 mm and edge 20 mm at a crown of 280 mm, to half a
// millimetre.
TEST(Shapes, SoftDomeIsTheContractsExample) {
  const auto shape = find_shape(own, "soft-dome");
  ASSERT_TRUE(shape.ok()) << shape.fault().line();
  EXPECT_NEAR(shape->dome(140), 6, 0.5);
  EXPECT_NEAR(shape->edge_radius(140), 20, 0.5);
  EXPECT_NEAR(shape->under_edge_radius(140), 20, 0.5);
}

// The tip arc must reach its height before the edge arc begins. With f the tip angle, the sagitta
// (a - e (1 - sin f)) tan(f/2) rises from 0 at f = 0 to a at f = 90 degrees, so a solution with f well below
// 90 degrees is a crown; the whole top must also leave room for an underside within the usual rise of half
// the crown radius and more (common practice, no source).
TEST(Shapes, MakeCrownsOfEverySize) {
  const auto shapes = list_shapes(own);
  ASSERT_TRUE(shapes.ok()) << shapes.fault().line();
  for (const ShapeProfile& shape : *shapes) {
    SCOPED_TRACE(shape.name);
    for (const double a : {60.0, 120.0, 140.0, 200.0}) {
      const double t = shape.dome(a), e = shape.edge_radius(a), f = std::acos(-1.0) / 4;
      EXPECT_LT(t, (a - e * (1 - std::sin(f))) * std::tan(f / 2)) << "tip angle below 45 degrees";
      EXPECT_LE(t + e + shape.under_edge_radius(a), 0.7 * a);
    }
  }
}

// Ranges of thickness, steam shrink and stretch: common practice, no source.
TEST(Cloths, LieWithinWhatIsUsual) {
  struct Usual {
    Bounds thickness, shrink, stretch;
  };
  const std::map<std::string, Usual> usual = {
      {"fleece", {{2, 4}, {0, 0.02}, {0.15, 0.5}}},
      {"wool-felt", {{1, 3}, {0.02, 0.05}, {0.1, 0.3}}},
      {"melton", {{1.5, 3}, {0.01, 0.03}, {0.05, 0.15}}},
      {"boiled-wool", {{1.5, 3}, {0.02, 0.05}, {0.1, 0.5}}},
      {"knit", {{1, 3}, {0.02, 0.05}, {0.15, 0.5}}},
      {"cotton", {{0.3, 1.5}, {0.03, 0.05}, {0, 0.15}}},
  };
  const auto cloths = list_cloths(own);
  ASSERT_TRUE(cloths.ok()) << cloths.fault().line();
  ASSERT_EQ(cloths->size(), usual.size());
  for (const ClothProfile& cloth : *cloths) {
    SCOPED_TRACE(cloth.name);
    const Usual& is_usual = usual.at(cloth.name);
    expect_within(cloth.thickness.value.mm(), is_usual.thickness);
    expect_within(cloth.heat_shrink.value, is_usual.shrink);
    expect_within(cloth.stretch.value, is_usual.stretch);
    for (const auto* value : {&cloth.heat_shrink, &cloth.stretch, &cloth.ease})
      EXPECT_FALSE(value->source.empty());
  }
}

// g/cm3. PLA, PETG and PC: spread over makers' sheets in open filament libraries. ABS, ASA, PA12, PP and TPU:
// makers' sheets, two digits. PP-GF: rule of mixture of PP 0.90 and glass 2.56 with 20 to 40 % of weight.
// Foams, boards, cork: common practice, no source; PE foam: the 33 kg/m3 of its own data sheet. Beech:
// air-dry density of European beech, from memory of wood handbooks. Boards named by their density: that one.
TEST(Materials, AreAsDenseAsOthersSay) {
  const auto mixture = [](double glass) { return 1 / (glass / 2.56 + (1 - glass) / 0.90); };
  const std::map<std::string, Bounds> dense = {
      {"abs", {1.03, 1.06}},          {"asa", {1.05, 1.08}},
      {"beech", {0.68, 0.75}},        {"cork", {0.12, 0.25}},
      {"eps", {0.015, 0.03}},         {"eva-foam", {0.04, 0.25}},
      {"mdf", {0.6, 0.85}},           {"pa12", {1.00, 1.03}},
      {"pc", {1.18, 1.22}},           {"pe-foam", {0.033, 0.033}},
      {"petg", {1.25, 1.29}},         {"pla", {1.22, 1.26}},
      {"pp", {0.89, 0.92}},           {"pp-gf", {mixture(0.2), mixture(0.4)}},
      {"pu-board", {0.08, 0.80}},     {"pu-board-200", {0.2, 0.2}},
      {"pu-board-450", {0.45, 0.45}}, {"pu-board-700", {0.7, 0.7}},
      {"tpu", {1.18, 1.23}},          {"xps", {0.03, 0.045}},
  };
  const auto materials = list_materials(own);
  ASSERT_TRUE(materials.ok()) << materials.fault().line();
  ASSERT_EQ(materials->size(), dense.size());
  for (const MaterialProfile& material : *materials) {
    SCOPED_TRACE(material.name);
    ASSERT_TRUE(dense.count(material.name)) << "a new material wants its bounds here";
    expect_within(material.density.value, dense.at(material.name));
    EXPECT_FALSE(material.density.source.empty());
    EXPECT_TRUE(material.kind.has_value());
    EXPECT_FALSE(material.burn.empty());
  }
}

// mm for each edge and turn. Foam and polyurethane board: 0.1 to 0.5, common practice, no source. Wood with a
// 1/4 in tool: hardwood 0.005 to 0.010 in, MDF no more than 0.015 to 0.025 in
// (costcalculator.calculator.city), taken down to 6 mm; 2 % for rounding.
TEST(Materials, AreCutAsOthersSay) {
  constexpr double to_6_mm = 25.4 * 6 / 6.35;
  const std::map<std::string, Bounds> chips = {
      {"eps", {0.1, 0.5}},
      {"xps", {0.1, 0.5}},
      {"pu-board", {0.1, 0.5}},
      {"pu-board-200", {0.1, 0.5}},
      {"pu-board-450", {0.1, 0.5}},
      {"pu-board-700", {0.1, 0.5}},
      {"mdf", {0.1, 0.025 * to_6_mm}},
      {"beech", {0.98 * 0.005 * to_6_mm, 0.010 * to_6_mm}},
      {"cork", {0.05, 0.5}},
  };
  const auto materials = list_materials(own);
  ASSERT_TRUE(materials.ok()) << materials.fault().line();
  std::size_t cut = 0;
  for (const MaterialProfile& material : *materials) {
    SCOPED_TRACE(material.name);
    ASSERT_EQ(material.cutting.has_value(), chips.count(material.name) == 1);
    if (!material.cutting) continue;
    ++cut;
    expect_within(material.cutting->chip_load.value, chips.at(material.name));
    // Common practice of hobby routers: two edges of 6 mm at these turns ask for no more than they can feed.
    expect_within(2 * material.cutting->chip_load.value * material.cutting->spindle.value, {600, 3000});
    // Nothing is cut deeper at first than the tool is wide (am.co.za, router and material).
    expect_within(material.cutting->step_down.value, {0.1, 1});
    expect_within(material.cutting->step_over.value, {0.1, 0.5});
    for (const auto* figure :
         {&material.cutting->chip_load, &material.cutting->spindle, &material.cutting->step_down,
          &material.cutting->step_over, &material.cutting->plunge, &material.cutting->leave}) {
      EXPECT_FALSE(figure->source.empty());
    }
  }
  EXPECT_EQ(cut, chips.size());
}

// What is milled gives off dust, and says so.
TEST(Materials, WarnOfDustWhereTheyAreCut) {
  const auto materials = list_materials(own);
  ASSERT_TRUE(materials.ok()) << materials.fault().line();
  for (const MaterialProfile& material : *materials) {
    if (!material.cutting) continue;
    EXPECT_TRUE(material.fume.find("ust") != std::string::npos) << material.name;
    EXPECT_TRUE(material.fume.find("mask") != std::string::npos) << material.name;
  }
}
