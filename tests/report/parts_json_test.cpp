// Parts, print, release and stack in the report.
#include "report/parts_json.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "report/made_form.h"
#include "report/page.h"
#include "report/parts_text.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

std::string coarse_pc(const std::string& print, const std::string& more = {}) {
  return test::worked_case("[mesh]\nchord_tolerance = \"0.5 mm\"\n[print]\nmaterial = \"pc\"\n" + print +
                           more);
}
const making::Form& three_sectors() {
  static const making::Form form = test::made(coarse_pc("bed = \"220x220x250 mm\"\n"));
  return form;
}
const making::Form& six_pieces() {
  static const making::Form form =
      test::made(coarse_pc("", "[puzzle]\npieces = 5\n[stack]\nsheet = \"10 mm\"\n"));
  return form;
}
const making::Form& one_pad() {
  static const making::Form form = test::made(
      "[measure]\ncrown_diameter = \"240 mm\"\nrise = \"30 mm\"\n[form]\nkind = \"pad\"\n[mesh]\n"
      "chord_tolerance = \"0.5 mm\"\n");
  return form;
}

// The contract of report.json.
TEST(PartsJson, HasTheKeysOfTheContract) {
  const Json parts = Json::parse(
      parts_json(three_sectors(), {"b.stl", "b.part-1.stl", "b.part-2.stl", "b.part-3.stl", "b.3mf"}));
  ASSERT_EQ(parts.size(), 3u);
  for (std::size_t k = 0; k < 3; ++k) {
    const Json& part = parts[k];
    EXPECT_EQ(part["name"], "sector-" + std::to_string(k + 1));
    EXPECT_EQ(part["file"], "b.part-" + std::to_string(k + 1) + ".stl");
    ASSERT_EQ(part["size_mm"].size(), 3u);
    ASSERT_EQ(part["place"].size(), 12u);
    for (const char* number : {"volume_mm3", "mass_g"}) EXPECT_TRUE(part[number].is_number()) << number;
    // Polycarbonate, 1.20 g/cm3 (ISO 1183, any data sheet).
    EXPECT_NEAR(part["mass_g"].get<double>(), part["volume_mm3"].get<double>() * 1.2e-3, 2);
    for (const auto& side : part["size_mm"]) EXPECT_LE(side.get<double>(), 216 * std::sqrt(2));
    // A turn and a move, never a mirror: the rows are orthonormal and right-handed.
    const auto m = part["place"].get<std::vector<double>>();
    const double det = m[0] * (m[4] * m[8] - m[5] * m[7]) - m[1] * (m[3] * m[8] - m[5] * m[6]) +
                       m[2] * (m[3] * m[7] - m[4] * m[6]);
    EXPECT_NEAR(det, 1, 1e-6);
    EXPECT_NEAR(m[0] * m[0] + m[1] * m[1] + m[2] * m[2], 1, 1e-6);
  }
  EXPECT_TRUE(Json::parse(parts_json(three_sectors(), {"b.stl"}))[1]["file"].is_null());
}

// The numbers as they stand in the report bring a part's highest corner back to where the form has it.
TEST(PartsJson, PlaceBringsThePartIntoTheForm) {
  const Json parts = Json::parse(parts_json(three_sectors(), {}));
  double top = 0, low = 1e9;
  for (std::size_t k = 0; k < parts.size(); ++k) {
    const auto m = parts[k]["place"].get<std::vector<double>>();
    for (const mesh::Vertex& v : three_sectors().printed.parts[k].proven->mesh().vertices) {
      const double z = v.x * m[2] + v.y * m[5] + v.z * m[8] + m[11];
      const double x = v.x * m[0] + v.y * m[3] + v.z * m[6] + m[9];
      const double y = v.x * m[1] + v.y * m[4] + v.z * m[7] + m[10];
      top = std::max(top, z), low = std::min(low, z);
      ASSERT_LE(std::hypot(x, y), 140.01);
    }
  }
  EXPECT_NEAR(top, 90, 0.51) << "rise 75 and collar 15";
  EXPECT_NEAR(low, 0, 1e-3);
}

TEST(PrintJson, SaysBedAndJoints) {
  const Json print = Json::parse(print_json(three_sectors()));
  for (const char* key : {"overhang_area_mm2", "wall_min", "fits_bed"})
    EXPECT_TRUE(print.contains(key)) << key;
  EXPECT_EQ(print["fits_bed"], true);
  EXPECT_EQ(print["bed_mm"], (Json{220.0, 220.0, 250.0}));
  EXPECT_EQ(print["joints"]["sectors"], 3);
  EXPECT_EQ(print["joints"]["dowel_mm"], 6.0);
  EXPECT_NEAR(print["wall_min"].get<double>(), 4, 0.5);
  const Json whole = Json::parse(print_json(six_pieces()));
  EXPECT_TRUE(whole["bed_mm"].is_null() && whole["joints"].is_null());
  EXPECT_EQ(whole["fits_bed"], true);
  EXPECT_TRUE(Json::parse(print_json(one_pad()))["wall_min"].is_null()) << "a pad is solid";
}

TEST(ReleaseJson, IsTheOrderOfTakingOut) {
  const Json release = Json::parse(release_json(six_pieces()));
  const char* const names[] = {"ring", "key", "end-n", "end-s", "side-e", "side-w"};
  ASSERT_EQ(release["order"].size(), 6u);
  for (std::size_t k = 0; k < 6; ++k) {
    const Json& step = release["order"][k];
    EXPECT_EQ(step["piece"], names[k]);
    EXPECT_TRUE(step["direction"].is_string());
    EXPECT_EQ(step["exit"], k < 4 ? "drop" : "lengthwise");
    EXPECT_LE(step["needed_girth"].get<double>(), step["opening_girth"].get<double>());
  }
  EXPECT_NEAR(release["order"][4]["needed_girth"].get<double>(), 338, 0.6);
  EXPECT_EQ(Json::parse(parts_json(six_pieces(), {}))[1]["name"], "key");
  EXPECT_EQ(release_json(one_pad()), "null");
}

// 75 mm of rise and 15 of collar in sheets of 10 mm: nine.
TEST(StackJson, CountsTheSheets) {
  const Json stack = Json::parse(stack_json(six_pieces()));
  EXPECT_EQ(stack["sheets"], 9);
  EXPECT_EQ(stack["sheet_mm"], 10.0);
  EXPECT_NEAR(stack["height_mm"].get<double>(), 90, 1e-3);
  EXPECT_EQ(stack["radii_mm"].size(), 9u);
  EXPECT_EQ(stack_json(one_pad()), "null");
}

TEST(PartsText, SaysHowItPrintsAndComesOut) {
  Page page{Paint()};
  add_parts(page, six_pieces());
  const std::string text = page.text();
  EXPECT_NE(text.find("Print"), std::string::npos) << text;
  EXPECT_NE(text.find("Take out"), std::string::npos) << text;
  EXPECT_LT(text.find("key"), text.find("side-e")) << text;
}

}  // namespace
}  // namespace crownwright::report
