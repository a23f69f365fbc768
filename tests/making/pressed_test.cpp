// What heat, steam and press do to the form of an order. Limits and formulas are checked in tests/press; here
// that the order's own figures reach them and what follows for the making.
#include "making/pressed.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "making/printed_orders.h"

namespace crownwright::making {
namespace {

using std::numbers::pi;
using test::says;

order::Order pressed_order(const std::string& material, const std::string& press,
                           const std::string& form = {}) {
  return test::read_order(
      "[measure]\ncrown_diameter = \"280 mm\"\nhead_girth = \"570 mm\"\nrise = \"75 mm\"\n" + form +
      "[print]\nmaterial = \"" + material + "\"\n" + press);
}

/// The worked block's crown; cloth 0: none is named.
Result<Pressed> judged(const order::Order& order, double cloth = 0) {
  auto pressed = pressed_of(order, cloth, test::own_profiles());
  if (!pressed) return pressed;
  if (const auto done = judge_crown(order, {140, 6, 20}, test::own_profiles(), *pressed); !done)
    return done.fault();
  return pressed;
}
Pressed judged(const std::string& material, const std::string& press, double cloth = 0) {
  auto pressed = judged(pressed_order(material, press), cloth);
  if (!pressed) throw std::runtime_error(pressed.fault().line());
  return *std::move(pressed);
}

const char steam[] = "[press]\nheat = \"steam\"\n";

// ---- posts -------------------------------------------------------------------------------------

TEST(PressedCrown, AVentAtThePoleKeepsThePostsOutOfTheMiddle) {
  const std::string thin = "[form]\nwall = \"3.6 mm\"\n";
  const auto posts_of = [&](const std::string& more) {
    const auto form =
        make_form(pressed_order("pc", "[press]\nheat = \"cold\"\n" + more, thin), test::own_profiles());
    if (!form) throw std::runtime_error(form.fault().line());
    return form->pressed.stiffness->posts;
  };
  ASSERT_TRUE(posts_of(""));
  EXPECT_TRUE(posts_of("")->in_middle);
  ASSERT_TRUE(posts_of("[vents]\n"));
  EXPECT_FALSE(posts_of("[vents]\n")->in_middle);
}

// ---- heat --------------------------------------------------------------------------------------

// HDT or Tg of PLA 55 to 60, PETG 70, ABS 85 to 98, ASA 90 to 100 C (low ends under 100 in every source that
// profiles/materials names): none lies 0 K above saturated steam at 1 atm.
TEST(PressedHeat, SteamRefusesWhatItSoftens) {
  for (const char* material : {"pla", "petg", "abs", "asa"}) {
    SCOPED_TRACE(material);
    const auto refused = judged(pressed_order(material, steam));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
    EXPECT_NE(refused.fault().what.find(material), std::string::npos);
    for (const char* serves : {"pc", "pa12", "pp-gf", "accept_risk"})
      EXPECT_NE(refused.fault().allowed.find(serves), std::string::npos) << refused.fault().allowed;
  }
}

TEST(PressedHeat, SteamPassesWhatStandsIt) {
  for (const char* material : {"pc", "pa12", "pp-gf"}) {
    SCOPED_TRACE(material);
    const Pressed pressed = judged(material, steam);
    EXPECT_EQ(pressed.heat.verdict, press::Verdict::fit) << pressed.heat.reason;
    EXPECT_DOUBLE_EQ(pressed.heat.job.celsius, 100);
    EXPECT_GE(pressed.heat.limit->celsius, 110);
    EXPECT_TRUE(pressed.instead.empty());
    EXPECT_FALSE(says(pressed.warnings, "shape"));
  }
}

TEST(PressedHeat, AnAcceptedRiskIsMadeAndStaysNo) {
  const Pressed pressed = judged("pla", std::string(steam) + "accept_risk = \"one trial only\"\n");
  EXPECT_EQ(pressed.heat.verdict, press::Verdict::no);
  EXPECT_TRUE(says(pressed.warnings, "pla loses its shape"));
  EXPECT_TRUE(says(pressed.warnings, "accepts the risk"));
  EXPECT_TRUE(says(pressed.instead, "pc"));
  // Words for nothing change nothing.
  EXPECT_EQ(judged("pc", std::string(steam) + "accept_risk = \"one trial only\"\n").heat.verdict,
            press::Verdict::fit);
}

TEST(PressedHeat, WithoutAPressSteamIsJudgedAndNothingRefused) {
  const Pressed pressed = judged("pla", "");
  EXPECT_FALSE(pressed.asked);
  EXPECT_EQ(pressed.heat.verdict, press::Verdict::no);
  EXPECT_DOUBLE_EQ(pressed.heat.job.celsius, 100);
  ASSERT_EQ(pressed.warnings.size(), 1u);
  EXPECT_TRUE(says(pressed.warnings, "pla loses its shape under open steam"));
  EXPECT_EQ(judged("pc", "").warnings.size(), 0u);
}

// rest = 0.12 / (0.124 + s / 0.05), s = 0.6 of the thickness in m; job = 20 + 0.67 rest (iron - 20), 0.75
// where s < 1.5 mm: s = 1.2 mm gives 0.810811, s = 1.8 mm 0.75, s = 0.6 mm 0.882353, by hand.
TEST(PressedHeat, ADryIronComesThroughTheClothsOfTheOrder) {
  const Pressed usual = judged("pc", "[press]\nheat = \"dry\"\niron = \"110\"\n");
  EXPECT_NEAR(usual.heat.job.celsius, 20 + 0.75 * 0.810811 * 90, 1e-3);
  EXPECT_NEAR(usual.heat.job.standing, 20 + 0.810811 * 90, 1e-3);
  EXPECT_EQ(usual.heat.job.celsius,
            judged("pc", "[press]\nheat = \"dry\"\niron = \"110\"\n", 2).heat.job.celsius)
      << "2 mm where no cloth is named";
  const Pressed covered =
      judged("pc", "[press]\nheat = \"dry\"\niron = \"150\"\npress_cloth = \"1 mm\"\n", 2);
  EXPECT_NEAR(covered.heat.job.celsius, 20 + 0.67 * 0.75 * 130, 1e-3);
  const Pressed thin =
      judged("pc", "[press]\nheat = \"dry\"\niron = \"200\"\naccept_risk = \"one trial only\"\n", 1);
  EXPECT_NEAR(thin.heat.job.celsius, 20 + 0.75 * 0.882353 * 180, 1e-3);
  EXPECT_EQ(thin.heat.verdict, press::Verdict::no) << "139 C; polycarbonate keeps its shape to 135";
}

// Cold is 30 C: under every limit by more than 10 K. 110 through 1.2 mm of pressed cloth is 74.7 C: PETG (70)
// is refused, ASA is not.
TEST(PressedHeat, TheJobDecides) {
  for (const char* material : {"pla", "petg", "abs", "asa", "pc"})
    EXPECT_EQ(judged(material, "[press]\nheat = \"cold\"\n").heat.verdict, press::Verdict::fit) << material;
  const std::string dry = "[press]\nheat = \"dry\"\niron = \"110\"\n";
  const auto refused = judged(pressed_order("petg", dry));
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.fault().what.find("dry iron"), std::string::npos) << refused.fault().what;
  EXPECT_NE(judged("asa", dry).heat.verdict, press::Verdict::no);
}

TEST(PressedHeat, AnUnknownMaterialIsTheOrdersFault) {
  const auto unknown = judged(pressed_order("unobtainium", steam));
  ASSERT_FALSE(unknown);
  EXPECT_EQ(unknown.fault().exit, ExitCode::order);
  EXPECT_NE(unknown.fault().allowed.find("petg"), std::string::npos) << unknown.fault().line();
}

// ---- steam -------------------------------------------------------------------------------------

press::SteamAnswer steam_of(const order::Order& order, double area, std::vector<std::string>* warnings = {}) {
  auto pressed = judged(order);
  judge_vents(order, area, *pressed);
  if (warnings != nullptr) *warnings = pressed->warnings;
  return pressed->steam;
}

// 30 g/min of 1.672 m3/kg (steam table, 100 C) through 96 bores of 3 mm: 8.36e-4 m3/s / 6.786e-4 m2; the drop
// by the orifice law with Cd 0.62 (both computed by hand).
TEST(PressedSteam, GoesThroughTheVentsOfTheForm) {
  const double area = 96 * pi * 1.5 * 1.5;
  const auto answer = steam_of(pressed_order("pc", steam), area);
  EXPECT_NEAR(*answer.speed, 1.232, 5e-4);
  EXPECT_NEAR(*answer.pressure, 1.181, 1e-3);
  EXPECT_TRUE(answer.enough);
  const auto more = steam_of(pressed_order("pc", "[press]\nsteam_flow = \"90 g/min\"\n"), area);
  EXPECT_NEAR(*more.speed, 3 * 1.232, 2e-3);
  EXPECT_NEAR(*more.pressure, 9 * 1.181, 1e-2);
  EXPECT_FALSE(more.enough) << "over 5 Pa";
}

TEST(PressedSteam, AClosedFootIsNoWayOut) {
  const double area = 96 * pi * 1.5 * 1.5;
  std::vector<std::string> warnings;
  const std::string floor = "[form]\nfloor = \"4 mm\"\n";
  EXPECT_FALSE(steam_of(pressed_order("pc", steam, floor), area, &warnings).enough);
  EXPECT_TRUE(says(warnings, "floor") || says(warnings, "foot")) << testing::PrintToString(warnings);
  EXPECT_TRUE(steam_of(pressed_order("pc", steam, floor + "socket = \"25 mm\"\n"), area, &warnings).enough);
  EXPECT_FALSE(steam_of(pressed_order("pc", steam, "[form]\nwall = \"solid\"\n"), area).enough);
  // Nobody asked, or nothing steams: judged, but not warned of.
  for (const char* press : {"", "[press]\nheat = \"cold\"\n"}) {
    EXPECT_FALSE(steam_of(pressed_order("pc", press, floor), area, &warnings).enough);
    EXPECT_FALSE(says(warnings, "foot") || says(warnings, "floor")) << press;
  }
  EXPECT_FALSE(steam_of(pressed_order("pc", steam), 0, &warnings).speed.has_value());
  EXPECT_TRUE(says(warnings, "no vents"));
}

// ---- stiffness ---------------------------------------------------------------------------------

// Computed by independent prototypes of Roark's plate and Reissner's sphere: 150 N over 100 cm2, PETG in a
// cold room, walls of 4 and 6 mm.
TEST(PressedStiffness, OfTheDefaultCrownCold) {
  const Pressed four = judged("petg", "");
  EXPECT_NEAR(four.stiffness->deflection, 1.96, 0.01);
  EXPECT_EQ(four.stiffness->grade, press::StiffnessGrade::note);
  const auto six = judged(pressed_order("petg", "", "[form]\nwall = \"6 mm\"\n"));
  EXPECT_NEAR(six->stiffness->deflection, 0.74, 0.005);
  EXPECT_EQ(six->stiffness->grade, press::StiffnessGrade::good);
}

// Linear in the load (both formulas are).
TEST(PressedStiffness, TakesTheOrdersLoad) {
  const double usual = judged("pc", steam).stiffness->deflection;
  EXPECT_NEAR(judged("pc", std::string(steam) + "load = \"450 N\"\n").stiffness->deflection, 3 * usual, 1e-9);
}

// A material that is hot gives more; what would serve is named where the order says how it is pressed.
TEST(PressedStiffness, IsThatOfTheJobsHeatAndWarnsWhereWeak) {
  const Pressed hot = judged("pc", steam);
  EXPECT_DOUBLE_EQ(*hot.stiffness_celsius, 100);
  EXPECT_GT(hot.stiffness->deflection, 2);
  EXPECT_TRUE(says(hot.warnings, "the crown gives way by"));
  EXPECT_TRUE(says(hot.warnings, "a wall of"));
  EXPECT_FALSE(says(judged("pc", "").warnings, "the crown gives way by"));
  // What has lost its shape has no stiffness to speak of: it is told cold.
  EXPECT_LT(*judged("petg", "").stiffness_celsius, 25);
}

TEST(PressedStiffness, SolidBlocksAndPadsHaveNoWallToGive) {
  EXPECT_FALSE(judged(pressed_order("pc", "", "[form]\nwall = \"solid\"\n"))->stiffness);
  const auto pad = test::read_order(
      "[measure]\ncrown_diameter = \"24 cm\"\nrise = \"3 cm\"\n[form]\nkind = \"pad\"\n[print]\nmaterial = "
      "\"pc\"\n");
  EXPECT_FALSE(judged(pad)->stiffness);
}

// ---- in the whole form -------------------------------------------------------------------------

TEST(PressedForm, CountsTheVentsThatAreLeftBesideTheJoints) {
  const Form form = test::make(
      test::pc_block(test::on_bed("220x220x250"), "[vents]\ndiameter = \"3 mm\"\nspacing = \"40 mm\"\n"));
  ASSERT_LT(form.printed.vents, form.vents.count) << "joints keep vents away";
  EXPECT_GT(form.printed.vents, 0);
  EXPECT_NEAR(*form.pressed.steam.speed, 30e-3 / 60 * 1.672 / (form.printed.vents * pi * 1.5e-3 * 1.5e-3),
              1e-6);
  EXPECT_TRUE(form.warnings.empty()) << testing::PrintToString(form.warnings);
}

TEST(PressedForm, IsRefusedBeforeItIsMade) {
  const Fault fault = test::refusal_of(
      "[measure]\ncrown_diameter = \"280 mm\"\nhead_girth = \"570 mm\"\nrise = \"75 mm\"\n[print]\nmaterial "
      "= "
      "\"pla\"\n[press]\n");
  EXPECT_EQ(fault.exit, ExitCode::impossible);
}

}  // namespace
}  // namespace crownwright::making
