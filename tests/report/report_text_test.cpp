#include "report/report_text.h"

#include <gtest/gtest.h>

#include <sstream>

#include "report/made_form.h"
#include "report/page.h"

namespace crownwright::report {
namespace {

using test::made;
using test::worked_case;

constexpr char kCoarse[] = "[mesh]\nchord_tolerance = \"0.2 mm\"\n";

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// As one line of words, so that a break does not hide a phrase.
std::string unbroken(const std::string& text) {
  std::istringstream words(text);
  std::string line;
  for (std::string word; words >> word;) line += (line.empty() ? "" : " ") + word;
  return line;
}

TEST(ReportText, TellsABlockInPlainWords) {
  const std::string text = unbroken(
      report_text(made(worked_case("[vents]\n" + std::string(kCoarse))), {"out/w/w.stl"}, Paint(false)));
  EXPECT_TRUE(has(text, "Worked case (block)")) << text;
  EXPECT_TRUE(has(text, "head girth 57.0 cm (22 7/16 in)")) << text;
  EXPECT_TRUE(has(text, "crown diameter 28.0 cm (11 in)")) << text;
  EXPECT_TRUE(has(text, "Rise 7.5 cm (2 15/16 in)")) << text;  // 75 mm = 2.953 in
  EXPECT_TRUE(has(text, "Wall")) << text;
  EXPECT_TRUE(has(text, "steam vents of 3.0 mm")) << text;
  EXPECT_TRUE(has(text, "PETG")) << text;
  EXPECT_TRUE(has(text, "out/w/w.stl")) << text;
}

TEST(CareText, DefersToTheMakersDataSheet) {
  const std::string text = unbroken(care_text(Paint(false)));
  EXPECT_TRUE(has(text, "data sheet")) << text;
  EXPECT_TRUE(has(text, "scald")) << text;
}

TEST(ReportText, SaysWhatTheClothTakes) {
  const std::string text =
      unbroken(report_text(made("[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = \"7.5 "
                                "cm\"\n[cloth]\nname = \"fleece\"\n"
                                "thickness = \"3 mm\"\n" +
                                std::string(kCoarse)),
                           {}, Paint(false)));
  EXPECT_TRUE(has(text, "the face lies 3.0 mm (1/8 in) further in, for fleece")) << text;
}

TEST(ReportText, TellsAPadWithoutAHeadLine) {
  const std::string text =
      report_text(made("[measure]\ncrown_diameter = \"24 cm\"\nrise = \"4 cm\"\n[form]\nkind = \"pad\"\n" +
                       std::string(kCoarse)),
                  {}, Paint(false));
  EXPECT_TRUE(has(text, "(pressing pad)")) << text;
  EXPECT_FALSE(has(text, "Head line")) << text;
  EXPECT_FALSE(has(text, "Collar")) << text;
  EXPECT_TRUE(has(text, "Thickness  4.0 cm")) << text;
}

TEST(ReportText, ShowsEveryWarning) {
  making::Form form = made(worked_case(kCoarse));
  form.warnings = {"the first thing", "the second thing"};
  const std::string text = report_text(form, {}, Paint(false));
  EXPECT_TRUE(has(text, "Mind       the first thing\n")) << text;
  EXPECT_TRUE(has(text, "Mind       the second thing\n")) << text;
}

TEST(ReportText, IsColouredOnlyWhenAsked) {
  const making::Form form = made(worked_case(kCoarse));
  EXPECT_FALSE(has(report_text(form, {}, Paint(false)), "\x1b"));
  EXPECT_TRUE(has(report_text(form, {}, Paint(true)), "\x1b[1mWorked case (block)\x1b[0m"));
}

TEST(ReportText, StaysWithinEightyColumns) {
  std::istringstream lines(
      report_text(made(worked_case("[vents]\n" + std::string(kCoarse))), {}, Paint(false)));
  for (std::string line; std::getline(lines, line);) EXPECT_LE(columns(line), 80) << line;
}

}  // namespace
}  // namespace crownwright::report
