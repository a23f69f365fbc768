#include "report/fit_json.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

#include "report/made_form.h"
#include "report/report_json.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;
using Names = std::vector<std::string>;
using test::made;
using test::worked_case;

constexpr char coarse[] = "[mesh]\nchord_tolerance = \"0.5 mm\"\n";

Json fit_of(const std::string& more) { return Json::parse(fit_json(made(worked_case(more + coarse)))); }

Names keys(const Json& object) {
  Names names;
  for (const auto& [name, value] : object.items()) names.push_back(name);
  return names;
}

std::string felt(int panels, const std::string& more = {}) {
  return "[cloth]\nname = \"wool-felt\"\n[pattern]\npanels = " + std::to_string(panels) + "\n" + more;
}

// ---- fit -------------------------------------------------------------------------------------

// The contract of report.json: these keys, these types.
TEST(FitJson, HasTheKeysOfTheContract) {
  const Json report =
      Json::parse(report_json(made(worked_case(felt(8) + coarse)), {"w.stl", "w.report.json"}));
  ASSERT_TRUE(report.contains("fit") && report.contains("pattern"));
  EXPECT_TRUE(report["pattern"].is_null());
  const Json& fit = report["fit"];
  for (const char* number :
       {"hoop_strain_max", "hoop_strain_min", "length_strain_seam", "length_strain_centre", "worst_at_mm"})
    EXPECT_TRUE(fit.at(number).is_number()) << number;
  const std::string verdict = fit.at("verdict");
  EXPECT_TRUE(verdict == "as sewn" || verdict == "after steam" || verdict == "no") << verdict;
  EXPECT_TRUE(fit.at("drafted").is_boolean());
  EXPECT_TRUE(fit.at("nearest").is_null() || fit.at("nearest").is_object());
  ASSERT_TRUE(fit.at("stations").is_array());
  EXPECT_GE(fit.at("stations").size(), 60u);
  for (const char* key : {"s", "girth_form", "girth_cloth", "hoop", "hoop_mean", "seam", "centre"})
    EXPECT_TRUE(fit["stations"][3].at(key).is_number()) << key;
  const Json& opening = fit.at("opening");
  for (const char* number : {"girth", "needed_straight", "needed_edge_first", "stretch_needed"})
    EXPECT_TRUE(opening.at(number).is_number()) << number;
  EXPECT_TRUE(opening.at("passes").is_boolean());
  EXPECT_TRUE(fit.at("worst").at("limit").is_number());
}

// Fractions, not percent; millimetres of girth, not radius.
TEST(FitJson, StrainsAreFractionsAndGirthsGoRound) {
  const Json fit = fit_of(felt(8));
  EXPECT_GT(fit["length_strain_centre"].get<double>(), 0.005);
  EXPECT_LT(fit["length_strain_centre"].get<double>(), 0.2);
  EXPECT_NEAR(fit["hoop_strain_max"].get<double>(), 0, 0.0005);
  double widest = 0, last = -1;
  for (const Json& one : fit["stations"]) {
    widest = std::max(widest, one["girth_form"].get<double>());
    EXPECT_GE(one["s"].get<double>(), last);
    last = one["s"];
  }
  // The cloth's middle, 1 mm outside a crown of 280 mm.
  EXPECT_NEAR(widest, 2 * std::numbers::pi * 141, 0.01);
  // From the tip to the head line of the cloth's middle: 1 (pi/2) longer over the top, psi - tan(psi / 2) of
  // a millimetre over the underside (psi 51.303 degrees).
  const double psi = 51.303 * std::numbers::pi / 180;
  EXPECT_NEAR(last, 151.609 + std::numbers::pi / 2 + 71.471 + psi - std::tan(psi / 2), 0.01);
}

// Fleece and felt of the profiles: limits as they stand there.
TEST(FitJson, LimitsAreThoseOfTheProfile) {
  const Json limits = fit_of(felt(8))["limits"];
  EXPECT_EQ(limits, (Json{{"stretch", 0.2}, {"ease", 0.08}, {"heat_shrink", 0.04}}));
}

TEST(FitJson, WithoutAClothTheOpeningStandsAlone) {
  const Json fit = fit_of("[pattern]\npanels = 8\n"), judged = fit_of(felt(8));
  EXPECT_EQ(keys(fit), keys(judged)) << "every key is there";
  for (const char* key : {"verdict", "hoop_strain_max", "hoop_strain_min", "length_strain_seam",
                          "length_strain_centre", "worst_at_mm", "nearest"})
    EXPECT_TRUE(fit[key].is_null()) << key;
  EXPECT_EQ(fit["stations"], Json::array());
  EXPECT_NEAR(fit["opening"]["girth"].get<double>(), 569.9, 0.05);
}

TEST(FitJson, APadHasNone) {
  const making::Form pad = made(std::string("[measure]\ncrown_diameter = \"24 cm\"\nrise = \"5 cm\"\n[form]\n"
                                            "kind = \"pad\"\n") +
                                coarse);
  EXPECT_EQ(fit_json(pad), "null");
  EXPECT_EQ(pattern_json(pad), "null");
  const Json report = Json::parse(report_json(pad, {}));
  EXPECT_TRUE(report.at("fit").is_null());
}

TEST(FitJson, TheBandIsPartOfTheOpening) {
  const Json bare = fit_of(felt(8))["opening"], banded = fit_of(felt(8, "[band]\n"))["opening"];
  EXPECT_TRUE(bare.at("passes_with_band").is_null());
  EXPECT_EQ(banded.at("passes_with_band"), false);
  EXPECT_TRUE(banded.at("stretch_needed_with_band").is_number());
  EXPECT_TRUE(bare.at("within_head_girth").is_null());
}

// ---- nearest ---------------------------------------------------------------------------------

// Six panels over an edge of 21 mm are more than wool felt takes (it eases 8 % and shrinks 4).
TEST(FitJson, TheNearestMakesAnOrderThatPasses) {
  const auto order = [](const std::string& edge) {
    return "[measure]\ncrown_diameter = \"280 mm\"\nhead_girth = \"570 mm\"\nrise = \"70 mm\"\ntaken_at = "
           "\"cloth middle\"\n[shape]\ndome = \"6 mm\"\nedge_radius = \"" +
           edge + " mm\"\n[cloth]\nname = \"wool-felt\"\n[pattern]\npanels = 6\n" + coarse;
  };
  const Json before = Json::parse(fit_json(made(order("21"))));
  ASSERT_EQ(before["verdict"], "no");
  ASSERT_TRUE(before["nearest"].is_object()) << before["nearest"];
  EXPECT_EQ(before["nearest"]["change"], "edge radius");
  EXPECT_NEAR(before["nearest"]["from"].get<double>(), 21, 1e-9);
  for (const char* key : {"says", "verdict"}) EXPECT_TRUE(before["nearest"][key].is_string()) << key;
  const Json after = Json::parse(fit_json(made(order(before["nearest"]["to"].dump()))));
  EXPECT_EQ(after["verdict"], before["nearest"]["verdict"]);
  EXPECT_NE(after["verdict"], "no");
  EXPECT_TRUE(after["nearest"].is_null());
  // Something else can be changed instead.
  for (const Json& also : before["also"]) EXPECT_NE(also["change"], "edge radius");
}

// ---- pattern ---------------------------------------------------------------------------------

std::string stations_order(const std::string& more = {}) {
  // As read off a beret some 270 mm across with a ruler (invented).
  return "[shape]\ndome = \"6 mm\"\n[cloth]\nname = \"fleece\"\n[pattern]\nkind = \"stations\"\npanels = 8\n"
         "stations = [[\"0 mm\", \"0 mm\"], [\"20 mm\", \"15.7 mm\"], [\"40 mm\", \"31.3 mm\"], [\"60 mm\", "
         "\"46.9 mm\"], [\"80 mm\", \"62.4 mm\"], [\"100 mm\", \"77.6 mm\"], [\"120 mm\", \"92.4 mm\"], "
         "[\"130 "
         "mm\", \"98.9 mm\"], [\"140 mm\", \"103.4 mm\"], [\"150 mm\", \"104.0 mm\"], [\"160 mm\", \"100.2 "
         "mm\"], [\"170 mm\", \"93.8 mm\"], [\"180 mm\", \"87.2 mm\"], [\"190 mm\", \"80.4 mm\"], [\"200 "
         "mm\", "
         "\"73.6 mm\"]]\n" +
         more + coarse;
}

TEST(PatternJson, GivesEveryValueWithItsSigmaAndAllThreeLaws) {
  const Json report = Json::parse(report_json(made(stations_order()), {}));
  const Json& pattern = report.at("pattern");
  for (const char* value :
       {"crown_radius", "head_radius", "rise", "dome", "edge_radius", "under_edge_radius"}) {
    const Json& one = pattern.at("values").at(value);
    EXPECT_TRUE(one.at("mm").is_number()) << value;
    EXPECT_GE(one.at("sigma").get<double>(), 0) << value;
  }
  EXPECT_GT(pattern["values"]["rise"]["sigma"].get<double>(), 0);
  // Widths by a ruler: 8 panels of 104 mm are a crown of some 2 * 104 * 8 / (2 pi) = 265 mm.
  EXPECT_NEAR(2 * pattern["values"]["crown_radius"]["mm"].get<double>(), 265, 6);
  // Flat, a panel is up to 1.3 % narrower than sewn (sin(t)/t, as every flat gore).
  EXPECT_NEAR(pattern["opening_girth"].get<double>(), 8 * 73.6, 0.02 * 8 * 73.6);
  EXPECT_EQ(keys(pattern.at("by_length_law")), (Names{"seam", "centre", "shared"}));
  for (const Json& law : pattern["by_length_law"])
    for (const char* key : {"rise", "edge_radius", "residual_rms"})
      EXPECT_TRUE(law.at(key).is_number()) << key;
  EXPECT_EQ(pattern.at("residuals").size(), 14u) << "one a station below the tip";
  EXPECT_EQ(pattern["residuals"][0].at("down"), 20.0);
  EXPECT_NEAR(pattern["residuals"][0].at("half_width").get<double>(), 15.7 / 2, 1e-9);
  EXPECT_GE(pattern.at("residual_worst").get<double>(), pattern.at("residual_rms").get<double>());
  EXPECT_EQ(report["fit"]["drafted"], false);
  EXPECT_NE(report["warnings"].dump().find("does not settle the rise"), std::string::npos);
}

// The order of the keys that readers of the report see: after what was measured and proved.
TEST(PatternJson, ComesBeforeTheFit) {
  const Json report = Json::parse(report_json(made(worked_case(coarse)), {}));
  const Names names = keys(report);
  const auto pattern = std::find(names.begin(), names.end(), "pattern");
  ASSERT_NE(pattern, names.end());
  ASSERT_NE(pattern + 1, names.end());
  EXPECT_EQ(*(pattern + 1), "fit");
}

}  // namespace
}  // namespace crownwright::report
