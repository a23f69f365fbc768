// One panel as four people might draw it: its seam runs straight from the tip (0, 0) to (40, 96) and on to
// the head line's corner (32, 170), millimetres.

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "drawings/read_drawing.h"
#include "pattern/drawn_panel.h"

namespace crownwright::drawings {
namespace {

std::string contents(const std::string& name) {
  std::ifstream in(std::string(CW_TEST_DIR) + "/cases/drawings/" + name, std::ios::binary);
  EXPECT_TRUE(in.good()) << name;
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

void expect_the_panel(const pattern::Outline& outline) {
  const auto panel = pattern::panel_from_outline(8, outline);
  ASSERT_TRUE(panel.ok()) << panel.fault().line();
  EXPECT_NEAR(panel->stations.back().y, 170, 0.001);
  EXPECT_NEAR(*panel->bow, 0, 0.001);
  for (const pattern::Station& s : panel->stations) {
    const double expected = s.y < 96 ? s.y * 40 / 96 : 40 - 8 * (s.y - 96) / 74;
    EXPECT_NEAR(s.half_width, expected, 0.001) << s.y;
  }
}

TEST(DrawnCases, AreTheSamePanel) {
  const struct {
    const char* file;
    DrawingRules rules;
  } cases[] = {{"panel_layers_px.svg", {"sew line", {}, 0.001}},
               {"panel_layers_px.svg", {"path7", {}, 0.001}},
               {"panel_r12_cm.dxf", {"sew", 10.0, 0.001}},
               {"panel_2000_in.dxf", {"14", {}, 0.001}},
               {"panel_2000_in.dxf", {"", {}, 0.001}}};
  for (const auto& c : cases) {
    SCOPED_TRACE(c.file);
    const auto outline = read_outline(contents(c.file), c.file, c.rules);
    ASSERT_TRUE(outline.ok()) << outline.fault().line();
    expect_the_panel(*outline);
  }
}

TEST(DrawnCases, HalfOnAFoldUnfolds) {
  const auto half = read_outline(contents("half_on_fold_in.svg"), "half_on_fold_in.svg", {});
  ASSERT_TRUE(half.ok()) << half.fault().line();
  const auto whole = pattern::unfold(*half, pattern::Fold::left);
  ASSERT_TRUE(whole.ok()) << whole.fault().line();
  expect_the_panel(*whole);
}

TEST(DrawnCases, AskForWhatTheyDoNotSay) {
  const auto no_units = read_outline(contents("panel_r12_cm.dxf"), "panel_r12_cm.dxf", {"SEW", {}, 0.001});
  ASSERT_FALSE(no_units.ok());
  EXPECT_NE(no_units.fault().line().find("does not say its units"), std::string::npos);
  const auto layers = read_outline(contents("panel_r12_cm.dxf"), "panel_r12_cm.dxf", {"", 10.0, 0.001});
  ASSERT_FALSE(layers.ok());
  EXPECT_NE(layers.fault().line().find("2 closed outlines"), std::string::npos) << layers.fault().line();
}

}  // namespace
}  // namespace crownwright::drawings
