#include "report/check_report.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

CheckedFile checked(bool passes) {
  CheckedFile file;
  file.file = "box.stl";
  file.triangles = 12;
  file.vertices = 8;
  file.verdict.shells = 1;
  file.verdict.checks = {
      {"closed", true, "18 edges, each used once each way"},
      {"faces do not cross", passes, passes ? "" : "2 pairs cross, the first at (1, 2, 3)"}};
  file.extent = {10, 20, 30.00004, 6000, 2200};
  return file;
}

TEST(CheckJson, HoldsWhatWasFound) {
  const Json json = Json::parse(check_json(checked(false)));
  EXPECT_EQ(json["file"], "box.stl");
  EXPECT_EQ(json["passed"], false);
  EXPECT_EQ(json["triangles"], 12);
  EXPECT_EQ(json["checks"].size(), 2u);
  EXPECT_EQ(json["checks"][1]["name"], "faces do not cross");
  EXPECT_EQ(json["checks"][1]["passed"], false);
  EXPECT_EQ(json["size"], Json::parse("[10.0, 20.0, 30.0]"));
  EXPECT_EQ(json["volume_mm3"], 6000.0);
  EXPECT_EQ(Json::parse(check_json(checked(true)))["passed"], true);
}

TEST(CheckJson, SurvivesAFileNameThatIsNotUtf8) {
  CheckedFile file = checked(true);
  file.file = "b\xFFx.stl";
  EXPECT_EQ(Json::parse(check_json(file))["file"], "b\xEF\xBF\xBDx.stl");  // U+FFFD
}

TEST(CheckText, SaysPlainlyWhetherTheFileIsGood) {
  const std::string good = check_text(checked(true), Paint(false)),
                    bad = check_text(checked(false), Paint(false));
  EXPECT_NE(good.find("Proved"), std::string::npos);
  EXPECT_EQ(good.find("FAILED"), std::string::npos);
  EXPECT_NE(bad.find("FAILED     faces do not cross: 2 pairs cross"), std::string::npos) << bad;
  EXPECT_EQ(bad.find("Proved"), std::string::npos);
  EXPECT_NE(bad.find("10 x 20 x 30 mm"), std::string::npos) << bad;
}

TEST(CheckedPackage, FailsWithItsFirstBrokenItem) {
  const auto item = [](const std::string& name, bool passes) {
    const CheckedFile file = checked(passes);
    return CheckedItem{name, file.triangles, file.vertices, file.verdict, file.extent};
  };
  const CheckedFile good = checked_package("a.3mf", {item("one", true), item("two", true)}, {1, 2, 3, 4, 5});
  EXPECT_TRUE(good.verdict.passed());
  EXPECT_EQ(good.triangles, 24u);
  EXPECT_EQ(good.verdict.shells, 2);
  EXPECT_EQ(good.verdict.checks.size(), 2u) << "every check once";
  EXPECT_EQ(good.verdict.checks[0].detail, "") << "what is true of one is not said of all";
  CheckedItem support{"brace", 0, 0, {}, {}};
  support.verdict.checks = {{"supports and surfaces", true, "80 facets, not proved"}};
  const std::string braced =
      check_text(checked_package("a.3mf", {item("one", true), support}, {}), Paint(false));
  EXPECT_NE(braced.find("Item       brace: support or surface, not proved"), std::string::npos) << braced;
  EXPECT_NE(braced.find("passed     supports and surfaces: 80 facets, not proved"), std::string::npos);
  EXPECT_NE(braced.find("passed     closed: 18 edges"), std::string::npos);
  const CheckedFile bad =
      checked_package("a.3mf", {item("one", true), item("two", false), item("three", false)}, {});
  EXPECT_EQ(first_failure(bad.verdict), "faces do not cross: two: 2 pairs cross, the first at (1, 2, 3)");
  const Json json = Json::parse(check_json(bad));
  ASSERT_EQ(json["items"].size(), 3u);
  EXPECT_EQ(json["items"][0]["passed"], true);
  EXPECT_EQ(json["items"][2]["passed"], false);
  EXPECT_EQ(json["items"][2]["name"], "three");
  EXPECT_FALSE(Json::parse(check_json(checked(true))).contains("items"));
  EXPECT_NE(check_text(bad, Paint(false)).find("Item       two: 10 x 20 x 30 mm, 6 cm3"), std::string::npos);
}

TEST(FirstFailure, NamesTheFirstAlone) {
  EXPECT_EQ(first_failure(checked(true).verdict), "");
  EXPECT_EQ(first_failure(checked(false).verdict),
            "faces do not cross: 2 pairs cross, the first at (1, 2, 3)");
}

}  // namespace
}  // namespace crownwright::report
