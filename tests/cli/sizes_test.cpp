#include <nlohmann/json.hpp>

#include "cli/program.h"

namespace crownwright::test {
namespace {

using Json = nlohmann::json;

// Published table of hat sizes (Wikipedia, "Hat", section "Hat size"): 57 cm is US 7 1/8, UK 7, letter M.
TEST(Sizes, ConvertTheWorkedRow) {
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"sizes", "US 7 1/8"},
                                             {"sizes", "US", "7", "1/8"},
                                             {"sizes", "UK 7"},
                                             {"sizes", "57 cm"},
                                             {"sizes", "570 mm"},
                                             {"sizes", "EU 57"}}) {
    auto asked = words;
    asked.push_back("--json");
    const Outcome outcome = run(asked);
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    const Json json = Json::parse(outcome.out);
    EXPECT_EQ(json["girth_cm"], 57);
    EXPECT_EQ(json["girth_mm"], 570.0);
    EXPECT_EQ(json["us"], "US 7 1/8");
    EXPECT_EQ(json["uk"], "UK 7");
    EXPECT_EQ(json["eu"], "EU 57");
    EXPECT_EQ(json["letter"], "M");
  }
}

TEST(Sizes, SpeakToPeopleToo) {
  const Outcome outcome = run({"sizes", "US 7 1/8"});
  EXPECT_EQ(outcome.exit_code, 0);
  EXPECT_NE(outcome.out.find("57.0 cm (22 7/16 in)"), std::string::npos) << outcome.out;
  EXPECT_NE(outcome.out.find("57 cm   22 7/16 in   7 1/8   7"), std::string::npos) << outcome.out;
}

TEST(Sizes, ListTheWholeTable) {
  const Outcome text = run({"sizes"}), json = run({"sizes", "--json"});
  EXPECT_EQ(std::count(text.out.begin(), text.out.end(), '\n'), 1 + 40);  // heading, 31 to 70 cm
  EXPECT_EQ(Json::parse(json.out).size(), 40u);
}

TEST(Sizes, AreSilentWhenQuiet) {
  EXPECT_EQ(run({"sizes", "--quiet"}).out, "");
  EXPECT_EQ(run({"sizes", "UK 7", "-q"}).out, "");
  expect_fault(run({"sizes", "UK 99", "-q"}), 2, "outside the hat sizes");
}

}  // namespace
}  // namespace crownwright::test
