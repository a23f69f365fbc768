#include "report/report_json.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <numbers>

#include "report/made_form.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;
using test::made;
using test::worked_case;

Json report_of(const making::Form& form) {
  return Json::parse(report_json(form, {"w.stl", "w.report.json"}));
}

std::vector<std::string> keys_of(const Json& object) {
  std::vector<std::string> names;
  for (const auto& [name, value] : object.items()) names.push_back(name);
  return names;
}

class WorkedBlock : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    form = new making::Form(
        made(worked_case("[vents]\ndiameter = \"3 mm\"\n[mesh]\nchord_tolerance = \"0.05 mm\"\n")));
    report = new Json(report_of(*form));
  }
  static void TearDownTestSuite() {
    delete report;
    delete form;
  }
  static making::Form* form;
  static Json* report;
};
making::Form* WorkedBlock::form = nullptr;
Json* WorkedBlock::report = nullptr;

TEST_F(WorkedBlock, HasTheKeysOfTheContractInOrder) {
  EXPECT_EQ(keys_of(*report),
            (std::vector<std::string>{"name",      "kind",    "units", "made_by",  "ordered",  "form",
                                      "measured",  "mesh",    "proof", "vents",    "material", "parts",
                                      "print",     "release", "stack", "mill",     "heat",     "steam",
                                      "stiffness", "pattern", "fit",   "warnings", "files"}));
  for (const char* key :
       {"crown_diameter", "head_girth", "rise", "meridian_length", "top_length", "under_length"}) {
    EXPECT_TRUE((*report)["form"].contains(key)) << key;
  }
  EXPECT_EQ(keys_of((*report)["measured"]), (std::vector<std::string>{"crown_diameter", "head_girth", "rise",
                                                                      "wall_min", "volume_mm3", "area_mm2"}));
  for (const char* key : {"triangles", "vertices", "shells", "genus", "chord_error_max"}) {
    EXPECT_TRUE((*report)["mesh"].contains(key)) << key;
  }
  EXPECT_EQ((*report)["units"], "mm");
  EXPECT_EQ((*report)["kind"], "block");
  EXPECT_EQ((*report)["name"], "Worked case");
}

// Closed forms of tip, edges and underside, worked by hand to the digits given: top length 151.609,
// under-length 71.471 (psi 51.303 degrees).
TEST_F(WorkedBlock, GivesTheWorkedFigures) {
  const Json& figures = (*report)["form"];
  EXPECT_NEAR(figures["top_length"].get<double>(), 151.609, 0.0006);
  EXPECT_NEAR(figures["under_length"].get<double>(), 71.471, 0.0006);
  EXPECT_NEAR(figures["meridian_length"].get<double>(), 151.609 + 71.471, 0.0011);
  EXPECT_NEAR(figures["head_girth"].get<double>(), 2 * std::numbers::pi * 90.7, 1e-4);
}

TEST_F(WorkedBlock, MeasuresWhatWasOrderedWithinTheTolerance) {
  const Json& measured = (*report)["measured"];
  // A chord lies inside its circle by at most the tolerance: so does the diameter, twice.
  EXPECT_NEAR(measured["crown_diameter"].get<double>(), 280, 2 * 0.05);
  EXPECT_NEAR(measured["head_girth"].get<double>(), 569.8849, 2 * std::numbers::pi * 0.05);
  EXPECT_NEAR(measured["rise"].get<double>(), 75, 0.05);
  EXPECT_NEAR(measured["wall_min"].get<double>(), 4, 2 * 0.05);
  EXPECT_LE((*report)["mesh"]["chord_error_max"].get<double>(), 0.05);
}

TEST_F(WorkedBlock, TellsWhatWasOrderedAndWhatWasTakenByDefault) {
  const Json& ordered = (*report)["ordered"];
  EXPECT_EQ(ordered["crown_diameter"], 280.0);
  EXPECT_EQ(ordered["taken_at"], "form");
  EXPECT_EQ(ordered["shape"]["edge_radius"], 20.0);
  EXPECT_EQ(ordered["form"]["wall"], 4.0);       // the default of a block
  EXPECT_EQ(ordered["vents"]["spacing"], 25.0);  // the default once vents are asked for
  EXPECT_FALSE(ordered.contains("name"));
}

TEST_F(WorkedBlock, WeighsTheMaterial) {
  const double grams = (*report)["material"]["mass_g"].get<double>();
  const double density = (*report)["material"]["density_g_cm3"].get<double>();
  EXPECT_NEAR(grams, (*report)["measured"]["volume_mm3"].get<double>() / 1000 * density, 0.5);
}

TEST_F(WorkedBlock, OpensTheVentsItCounts) {
  const double each = std::numbers::pi * 1.5 * 1.5;
  EXPECT_GT((*report)["vents"]["count"].get<int>(), 20);
  EXPECT_NEAR((*report)["vents"]["open_area_mm2"].get<double>(),
              (*report)["vents"]["count"].get<int>() * each, 0.01);
}

TEST_F(WorkedBlock, ListsChecksAndFiles) {
  EXPECT_EQ((*report)["proof"]["passed"], true);
  ASSERT_FALSE((*report)["proof"]["checks"].empty());
  for (const Json& check : (*report)["proof"]["checks"]) {
    EXPECT_EQ(keys_of(check), (std::vector<std::string>{"name", "passed", "detail"}));
    EXPECT_EQ(check["passed"], true);
  }
  EXPECT_EQ((*report)["files"], Json::parse(R"(["w.stl", "w.report.json"])"));
}

TEST(ReportJson, SaysNullWhereAPadHasNothingToMeasure) {
  const Json report =
      report_of(made("[measure]\ncrown_diameter = \"240 mm\"\nrise = \"40 mm\"\ntaken_at = "
                     "\"form\"\n[form]\nkind = \"pad\"\n"
                     "[mesh]\nchord_tolerance = \"0.2 mm\"\n"));
  EXPECT_EQ(report["kind"], "pad");
  EXPECT_TRUE(report["form"]["head_girth"].is_null());
  EXPECT_TRUE(report["form"]["under_length"].is_null());
  EXPECT_TRUE(report["measured"]["head_girth"].is_null());
  EXPECT_TRUE(report["measured"]["wall_min"].is_null());
  EXPECT_EQ(report["vents"]["count"], 0);
  EXPECT_FALSE(report["ordered"].contains("vents"));
}

TEST(ReportJson, KeepsTheHatSizeBesideItsGirth) {
  const Json ordered =
      report_of(made("[measure]\nhat_size = \"US 7 1/8\"\ncrown_diameter = \"280 mm\"\nrise = \"75 mm\"\n"
                     "[mesh]\nchord_tolerance = \"0.2 mm\"\n"))["ordered"];
  EXPECT_EQ(ordered["hat_size"], "US 7 1/8");
  EXPECT_EQ(ordered["head_girth"], 570.0);  // published table: 57 cm
}

TEST(ReportJson, IsTheSameForTheSameOrder) {
  const std::string text = worked_case("[mesh]\nchord_tolerance = \"0.2 mm\"\n");
  EXPECT_EQ(report_json(made(text), {"a"}), report_json(made(text), {"a"}));
  EXPECT_NE(report_json(made(text), {"a"}), report_json(made(text), {"b"}));
}

}  // namespace
}  // namespace crownwright::report
