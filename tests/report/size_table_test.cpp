#include "report/size_table.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "base/length.h"
#include "report/made_form.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;
using Lines = std::vector<std::string>;

making::Form judged() {
  return test::made(test::worked_case(
      "[cloth]\nname = \"wool-felt\"\n[pattern]\npanels = 8\n[mesh]\nchord_tolerance = \"0.5 mm\"\n"));
}

class SizeTable : public testing::Test {
 protected:
  static void SetUpTestSuite() { form = new making::Form(judged()); }
  static void TearDownTestSuite() { delete form; }
  static SizeLine made(const std::string& size) { return size_line(size, *form, {size + ".stl"}); }
  static SizeLine refused(const std::string& size) {
    SizeLine line;
    line.size = size;
    line.fault = impossible_fault(
        "the rise, \"20 mm\", is too low for an edge of 40 mm and for everything "
        "else that was asked of this one, however it is turned",
        "a rise of 60 mm or more");
    return line;
  }
  static making::Form* form;
};
making::Form* SizeTable::form = nullptr;

Lines lines_of(const std::string& text) {
  Lines lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

// ---- text ------------------------------------------------------------------------------------

TEST_F(SizeTable, TextFitsEightyColumnsWhateverItIsCalled) {
  const std::string long_size(32, 'W');  // the longest an order may give
  const std::string text = size_table_text(
      "A beret for the whole school with a name of a hundred and twenty letters that no terminal shows on "
      "one "
      "line",
      {made("S"), refused("M"), made(long_size), refused(long_size + "2")});
  for (const std::string& line : lines_of(text)) EXPECT_LE(line.size(), 80u) << line;
  EXPECT_NE(text.find("whole school"), std::string::npos);
  EXPECT_NE(text.find("not made: the rise"), std::string::npos);
}

// The panel of a form has no hoop strain against it; what it asks of cloth is in its lengths.
TEST_F(SizeTable, TextShowsTheStrainsThatArePartOfTheVerdict) {
  const auto lines = lines_of(size_table_text("Run", {made("M")}));
  ASSERT_EQ(lines.size(), 3u);
  EXPECT_NE(lines[0].find("1 sizes"), std::string::npos);
  const fit::FitReport& report = form->fit->crown->report;
  std::istringstream row(lines[2]);
  std::string size, head, crown, rise, seam, centre, worst, of, limit, opening, fits;
  row >> size >> head >> crown >> rise >> seam >> centre >> worst >> of >> limit >> opening;
  std::getline(row >> std::ws, fits);
  EXPECT_EQ(size, "M");
  EXPECT_NEAR(std::stod(crown), 28, 0.1);  // cm
  EXPECT_NEAR(std::stod(head), 57, 0.1);
  EXPECT_NEAR(std::stod(rise), 7.5, 0.06);
  EXPECT_NEAR(std::stod(seam), 100 * report.seam_length, 0.051);
  EXPECT_NEAR(std::stod(centre), 100 * report.centre_length, 0.051);
  EXPECT_NEAR(std::stod(worst), 100 * report.worst.value, 0.051);
  EXPECT_NEAR(std::stod(limit), 100 * report.worst.limit, 0.051);
  EXPECT_NEAR(std::stod(opening), 100 * form->fit->opening.stretch_needed, 0.051);
  EXPECT_EQ(fits, fit::in_words(report.verdict));
  EXPECT_LT(std::stod(seam), -1);
  EXPECT_GT(std::stod(centre), 1);
}

TEST_F(SizeTable, TextColumnsStandUnderTheirNames) {
  const auto lines = lines_of(size_table_text("Run", {made("M")}));
  const SizeLine line = made("M");
  const auto at = [&](const char* name) { return lines[1].find(name); };
  EXPECT_EQ(lines[2].find(number_text(line.readings.crown_diameter / 10, 1) + " "), at("Crown"));
  EXPECT_EQ(lines[2].substr(at("Fits")), fit::in_words(line.fit->crown->report.verdict));
  for (const char* name : {"Head", "Rise", "Seam", "Centre", "Worst", "To open"}) {
    ASSERT_NE(at(name), std::string::npos) << name;
    EXPECT_EQ(lines[2][at(name) - 1], ' ') << name;
    EXPECT_NE(lines[2][at(name)], ' ') << name;
  }
}

TEST_F(SizeTable, WhatIsNotKnownIsADash) {
  SizeLine line = made("M");
  line.fit->crown.reset();
  const auto lines = lines_of(size_table_text("Run", {line}));
  EXPECT_TRUE(lines[2].ends_with("-")) << lines[2];
}

// ---- CSV -------------------------------------------------------------------------------------

// RFC 4180: lines end with CR LF, as many fields on each, quotes doubled in quotes.
TEST_F(SizeTable, CsvIsThatOfTheRfc) {
  const std::string csv = size_table_csv({made("S"), refused("M")});
  ASSERT_TRUE(csv.ends_with("\r\n"));
  const auto lines = lines_of(csv);
  ASSERT_EQ(lines.size(), 3u);
  const auto commas = [](const std::string& line) {
    bool quoted = false;
    int count = 0;
    for (const char c : line) {
      quoted ^= c == '"';
      count += c == ',' && !quoted;
    }
    return count;
  };
  for (const std::string& line : lines) {
    EXPECT_TRUE(line.ends_with('\r'));
    EXPECT_EQ(commas(line), commas(lines[0])) << line;
  }
  EXPECT_EQ(lines[0].substr(0, 20), "size,crown_diameter,");
  EXPECT_NE(lines[2].find("\"\"20 mm\"\""), std::string::npos) << lines[2];
  EXPECT_EQ(lines[2].substr(0, 4), "M,,,");
}

// ---- JSON ------------------------------------------------------------------------------------

TEST_F(SizeTable, JsonHoldsMadeAndRefused) {
  const Json json = Json::parse(size_table_json("Run \xff", {made("S"), refused("M")}, {"run.sizes.csv"}));
  EXPECT_EQ(json["made_by"].get<std::string>().substr(0, 11), "crownwright");
  EXPECT_EQ(json["units"], "mm");
  EXPECT_EQ(json["files"], Json({"run.sizes.csv"}));
  const Json& small = json["sizes"][0];
  EXPECT_EQ(small["made"], true);
  // The worked case's own figures.
  EXPECT_NEAR(small["form"]["crown_diameter"].get<double>(), 280, 1e-9);
  EXPECT_NEAR(small["form"]["top_length"].get<double>(), 151.609, 0.0006);
  EXPECT_NEAR(small["form"]["under_length"].get<double>(), 71.471, 0.0006);
  EXPECT_TRUE(small["measured"]["rise"].is_number());
  EXPECT_EQ(small["fit"]["verdict"], fit::in_words(form->fit->crown->report.verdict));
  EXPECT_EQ(small["files"], Json({"S.stl"}));
  const Json& refusal = json["sizes"][1];
  EXPECT_EQ(refusal["made"], false);
  EXPECT_EQ(refusal["fault"]["exit"], 3);
  EXPECT_EQ(refusal["fault"]["allowed"], "a rise of 60 mm or more");
  EXPECT_FALSE(refusal.contains("form"));
}

}  // namespace
}  // namespace crownwright::report
