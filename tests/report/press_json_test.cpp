// Heat, steam and stiffness in the report.
#include "report/press_json.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "report/made_form.h"
#include "report/page.h"
#include "report/press_text.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

const making::Form& hot_form() {
  static const making::Form form = test::made(test::worked_case(
      "[print]\nmaterial = \"pc\"\n[press]\nheat = \"steam\"\n[vents]\ndiameter = \"3 mm\"\n"
      "spacing = \"40 mm\"\n[mesh]\nchord_tolerance = \"0.5 mm\"\n"));
  return form;
}
const making::Form& soft_form() {
  static const making::Form form = test::made(test::worked_case("[mesh]\nchord_tolerance = \"0.5 mm\"\n"));
  return form;
}

std::vector<std::string> key_names(const Json& object) {
  std::vector<std::string> names;
  for (const auto& [name, value] : object.items()) names.push_back(name);
  return names;
}

// The contract of report.json: these keys, these types.
TEST(PressJson, HasTheKeysOfTheContract) {
  const Json heat = Json::parse(heat_json(hot_form().pressed));
  EXPECT_EQ(key_names(heat),
            (std::vector<std::string>{"verdict", "asked", "material", "job_c", "standing_c", "limit_c",
                                      "limit_measure", "limit_source", "reason", "instead", "cautions"}));
  EXPECT_TRUE(heat["instead"].is_array());
  const Json steam = Json::parse(steam_json(hot_form().pressed));
  EXPECT_EQ(key_names(steam), (std::vector<std::string>{"speed_m_s", "pressure_pa", "enough", "warnings"}));
  const Json stiffness = Json::parse(stiffness_json(hot_form().pressed));
  EXPECT_TRUE(stiffness["deflection_mm"].is_number());
  EXPECT_TRUE(stiffness["formula"].is_string());
}

// Steam is 100 C; polycarbonate's limit lies 10 K or more above it, with a source.
TEST(PressJson, SaysWhatStandsTheJob) {
  const Json heat = Json::parse(heat_json(hot_form().pressed));
  EXPECT_EQ(heat["verdict"], "fit");
  EXPECT_EQ(heat["asked"], true);
  EXPECT_EQ(heat["material"], "pc");
  EXPECT_EQ(heat["job_c"], 100.0);
  EXPECT_GE(heat["limit_c"].get<double>(), 110);
  EXPECT_FALSE(heat["limit_source"].get<std::string>().empty());
  EXPECT_TRUE(heat["instead"].empty());
}

TEST(PressJson, SaysWhatWouldServeInstead) {
  const Json heat = Json::parse(heat_json(soft_form().pressed));
  EXPECT_EQ(heat["verdict"], "no");
  EXPECT_EQ(heat["asked"], false);
  for (const char* serves : {"pc", "pa12", "pp-gf"})
    EXPECT_EQ(std::count(heat["instead"].begin(), heat["instead"].end(), Json(serves)), 1) << serves;
  EXPECT_FALSE(heat["cautions"].empty());
}

// 30 g/min of 1.672 m3/kg through the vents' own area.
TEST(PressJson, GivesSpeedAndDropOfTheSteam) {
  const Json steam = Json::parse(steam_json(hot_form().pressed));
  const double speed = 0.03 / 60 * 1.672 / (hot_form().vents.open_area * 1e-6), jet = speed / 0.62;
  EXPECT_NEAR(steam["speed_m_s"].get<double>(), speed, 6e-4);
  EXPECT_NEAR(steam["pressure_pa"].get<double>(), jet * jet / 2 / 1.672, 6e-4);
  EXPECT_EQ(steam["enough"], steam["pressure_pa"].get<double>() <= 5);
  const Json none = Json::parse(steam_json(soft_form().pressed));
  EXPECT_TRUE(none["speed_m_s"].is_null());
  EXPECT_EQ(none["enough"], false);
  EXPECT_EQ(none["warnings"].size(), 1u);
}

// Independent prototypes: the default crown of PETG gives 1.96 mm cold.
TEST(PressJson, GivesTheCrownsStiffness) {
  const Json stiffness = Json::parse(stiffness_json(soft_form().pressed));
  EXPECT_NEAR(stiffness["deflection_mm"].get<double>(), 1.96, 0.01);
  EXPECT_EQ(stiffness["grade"], "note");
  EXPECT_GT(stiffness["least_wall_mm"].get<double>(), 4);
  EXPECT_NE(stiffness["formula"].get<std::string>().find("Roark"), std::string::npos);
  making::Pressed nothing;
  EXPECT_EQ(stiffness_json(nothing), "null");
}

TEST(PressText, SaysTheVerdictInAWord) {
  Page page{Paint()};
  add_pressed(page, soft_form().pressed);
  const std::string text = page.text();
  EXPECT_NE(text.find("Heat"), std::string::npos) << text;
  EXPECT_NE(text.find("70 C"), std::string::npos) << text;
  EXPECT_NE(text.find("1.96 mm"), std::string::npos) << text;
}

}  // namespace
}  // namespace crownwright::report
