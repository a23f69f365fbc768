// The work sheet's pages as poppler reads them, and its drawings measured.

#include "drawings/work_sheet.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "drawings/milling_pages.h"
#include "drawings/picture.h"

namespace crownwright::drawings {
namespace {

using printed::expect_legible;
using printed::PrintedSheet;
using printed::PrintedWord;
using printed::worked_block;
using test::GreyPicture;

std::string cube_picture() {
  const mesh::TriangleMesh cube{
      {{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}, {0, 0, 1}, {1, 0, 1}, {1, 1, 1}, {0, 1, 1}},
      {{0, 2, 1},
       {0, 3, 2},
       {4, 5, 6},
       {4, 6, 7},
       {0, 1, 5},
       {0, 5, 4},
       {1, 2, 6},
       {1, 6, 5},
       {2, 3, 7},
       {2, 7, 6},
       {3, 0, 4},
       {3, 4, 7}}};
  PictureRules rules;
  rules.width = 64, rules.height = 48;
  return picture_png({{&cube, {}, 0.8}}, rules);
}

// The worked block (see worked_block): crown 280 mm, head line 570 mm round, rise 75, collar 15, edges 20.
SheetProfile sheet_profile(double size = 1) {
  SheetProfile profile;
  profile.outer = worked_block(15, size);
  meridian::Chain body = profile.outer;
  body.push_back(meridian::Segment::line(body.back().to(), {0, 0}));
  profile.shells = {body};
  profile.head_line = 15 * size;
  profile.edge_radius = profile.under_edge_radius = 20 * size;
  profile.dome = 6 * size;
  profile.crown = "crown 28.0 cm across", profile.head = "head line 57.0 cm round";
  profile.rise = "rise 7.5 cm", profile.collar = "collar 15 mm", profile.edge = "edge R 20 mm";
  profile.dome_words = "dome 6 mm";
  return profile;
}

WorkSheet worked_sheet() {
  WorkSheet sheet;
  sheet.title = "Market beret, medium", sheet.subtitle = "Work sheet, block";
  sheet.profile = sheet_profile();
  sheet.picture_png = cube_picture();
  sheet.figures = {{"Head line, round", "56.9 cm", "22 7/16 in"},
                   {"Crown, across", "27.9 cm", "11 in"},
                   {"Rise", "7.4 cm", "2 15/16 in"},
                   {"Collar", "14 mm", "19/32 in"}};
  sheet.verdicts = {{SheetSign::good, "Heat", "pc stands it", "pc keeps its shape up to 135 C."}};
  sheet.steps = {{"Dampen", "the beret."}, {"Put it on.", "Tip on tip."}, {"Take it off.", "Edge first."}};
  sheet.chapters = {{"How it is made", {{"Print.", "In one piece, foot down."}}}};
  sheet.cautions = {"Steam and hot irons scald."};
  sheet.report = "market.report.json";
  return sheet;
}

// Strains that stay the same all the way.
SheetChart level_chart(double hoop, double seam) {
  SheetChart chart;
  for (const double s : {0.0, 50.0, 100.0, 200.0}) {
    fit::FitStation station;
    station.s = s, station.hoop_mean = hoop, station.seam_mean = seam;
    chart.report.stations.push_back(station);
  }
  chart.report.worst = {fit::Strain::seam, 100, seam, -0.06};
  chart.limits.stretch = 0.08, chart.limits.ease = 0.05, chart.limits.heat_shrink = 0.01;
  chart.unit_name = "cm";
  return chart;
}

struct SheetSpot {
  double x = 0, y = 0;
};

std::string sheet_group(const std::string& svg, const std::string& id) {
  const std::size_t at = svg.find("<g id=\"" + id + "\">");
  EXPECT_NE(at, std::string::npos) << id;
  return svg.substr(at, svg.find("</g>", at) - at);
}

struct SheetPath {
  std::vector<SheetSpot> points;
  std::string look;  ///< what follows the points in the tag
};

std::vector<SheetPath> sheet_paths(const std::string& group) {
  std::vector<SheetPath> paths;
  for (std::size_t at = group.find(" d=\""); at != std::string::npos; at = group.find(" d=\"", at + 1)) {
    const std::size_t end = group.find('"', at + 4);
    std::string d = group.substr(at + 4, end - at - 4);
    for (char& c : d)
      if (c == 'M' || c == 'L' || c == 'Z' || c == ',') c = ' ';
    std::istringstream in(d);
    paths.push_back({{}, group.substr(end, group.find('>', end) - end)});
    for (SheetSpot p; in >> p.x >> p.y;) paths.back().points.push_back(p);
  }
  return paths;
}

bool says_all(const std::string& text, const std::string& words) {
  std::istringstream in(words);
  for (std::string word; in >> word;)
    if (text.find(word) == std::string::npos) return false;
  return true;
}

// ---- pages -----------------------------------------------------------------------------------

TEST(WorkSheetPages, AreOfTheirPaperAndTwo) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const PrintedSheet sheet(work_sheet_pdf(worked_sheet(), paper));
    printed::expect_paper(sheet, paper);
    expect_legible(sheet);
    EXPECT_EQ(sheet.pages().size(), 2u);
  }
}

TEST(WorkSheetPages, SayWhatTheyAreGiven) {
  const std::string text = PrintedSheet(work_sheet_pdf(worked_sheet(), Paper::a4)).text();
  for (const char* words : {"Market beret, medium",
                            "56.9 cm",
                            "22 7/16 in",
                            "27.9 cm",
                            "7.4 cm",
                            "14 mm",
                            "2 15/16 in",
                            "19/32 in",
                            "Heat: pc stands it",
                            "135 C.",
                            "1 Dampen",
                            "2 Put it on.",
                            "3 Take it off.",
                            "How it is made",
                            "foot down.",
                            "Take care",
                            "scald.",
                            "page 2 of 2",
                            "head line 57.0 cm round",
                            "crown 28.0 cm across",
                            "rise 7.5 cm",
                            "collar 15 mm",
                            "edge R 20 mm",
                            "dome 6 mm"})
    EXPECT_NE(text.find(words), std::string::npos) << words << "\n" << text;
}

// From two metres: letters 1/200 of the distance high are read with ease (common practice for notices:
// 5 mm a metre of distance gives 10 mm; DejaVu's figures are 0.73 of the font).
TEST(WorkSheetPages, ShowTheMainFiguresLarge) {
  const PrintedSheet sheet(work_sheet_pdf(worked_sheet(), Paper::a4));
  for (const char* figure : {"56.9", "27.9", "7.4", "14"}) {
    double most = 0;
    for (const PrintedWord& word : sheet.words())
      if (word.text == figure) most = std::max(most, word.bottom - word.top);
    EXPECT_GT(most, 10) << figure;  // the box of a font of 9.6 mm is 11.2 mm high
  }
}

TEST(WorkSheetPages, HaveTheSameBytesAgain) {
  EXPECT_EQ(work_sheet_pdf(worked_sheet(), Paper::a4), work_sheet_pdf(worked_sheet(), Paper::a4));
  EXPECT_NE(PrintedSheet(work_sheet_pdf(worked_sheet(), Paper::a4)).info().find("2000"), std::string::npos);
}

TEST(WorkSheetPages, RefuseAPictureThatIsNone) {
  WorkSheet sheet = worked_sheet();
  sheet.picture_png = "no picture";
  EXPECT_THROW(work_sheet_pdf(sheet, Paper::a4), std::runtime_error);
}

TEST(WorkSheetPages, NameTheReportWhereRoomEnds) {
  WorkSheet sheet = worked_sheet();
  sheet.chapters.push_back({"Mind", {}});
  for (int i = 0; i < 200; ++i)
    sheet.chapters.back().lines.push_back(
        {"Mind:", "warning " + std::to_string(i) + " of many, with its reason"});
  const PrintedSheet printed(work_sheet_pdf(sheet, Paper::a4));
  expect_legible(printed);
  EXPECT_EQ(printed.pages().size(), 2u);
  const std::string text = printed.text();
  EXPECT_NE(text.find("more in the report, market.report.json"), std::string::npos) << text;
  EXPECT_NE(text.find("warning 50 "), std::string::npos);
  EXPECT_EQ(text.find("warning 199 "), std::string::npos);
  EXPECT_NE(text.find("scald."), std::string::npos) << "cautions stay";
  sheet.chapters.back().lines.resize(20);
  const std::string shorter = PrintedSheet(work_sheet_pdf(sheet, Paper::a4)).text();
  EXPECT_EQ(shorter.find("more in the report"), std::string::npos);
  for (int i = 0; i < 20; ++i) EXPECT_TRUE(says_all(shorter, "warning " + std::to_string(i))) << i;
}

std::vector<WorkSheet> extreme_sheets() {
  std::vector<WorkSheet> sheets(1);  // the first says nothing at all
  const auto more = [&]() -> WorkSheet& {
    sheets.push_back(worked_sheet());
    return sheets.back();
  };
  const std::string wide(150, 'W');
  WorkSheet& long_words = more();
  long_words.title = wide + " \xE6\x97\xA5\xE6\x9C\xAC \xFF\n\t";
  long_words.subtitle = wide, long_words.report = wide;
  for (SheetFigure& figure : long_words.figures) figure = {wide, wide, wide};
  for (std::string* words : {&long_words.profile.crown, &long_words.profile.head, &long_words.profile.rise,
                             &long_words.profile.collar, &long_words.profile.edge,
                             &long_words.profile.dome_words, &long_words.profile.under_edge})
    *words = wide;
  long_words.verdicts = {{SheetSign::bad, wide, wide, wide + " and more " + wide},
                         {SheetSign::mind, wide, wide, wide + wide + wide}};
  long_words.steps.assign(7, {wide, wide});
  long_words.chapters.assign(8, {wide, {{wide, wide}, {"", wide}, {wide, ""}}});
  long_words.cautions.assign(20, wide);
  WorkSheet& many = more();
  many.steps.assign(9, {"A step", std::string(300, 'x') + " and so on until it lies without a fold"});
  many.cautions.assign(
      14, "A caution that is two lines long when it stands on a sheet of this width, or nearly.");
  many.chart = level_chart(0.02, -0.2);
  for (int i = 0; i < 90; ++i)
    many.chapters.push_back(
        {"Chapter", {{"part-" + std::to_string(i) + ":", "6 11/16 in by 6 11/16 in, 5 3/8 in"}}});
  for (const double size : {0.1, 0.4, 1.8, 6.0}) more().profile = sheet_profile(size);
  using meridian::Segment;
  WorkSheet& thin = more();  // a pad 4 mm thick
  thin.profile.outer = {Segment::line({0, 4}, {248, 4}),
                        Segment::arc({248, 4}, {250, 2}, {248, 2}, 2, -pi / 2),
                        Segment::line({250, 2}, {250, 0}), Segment::line({250, 0}, {0, 0})};
  thin.profile.shells = {thin.profile.outer};
  thin.profile.head_line.reset();
  thin.profile.head.clear(), thin.profile.collar.clear();
  thin.profile.edge_radius = 2;
  WorkSheet& tall = more();  // and one that is nothing but high
  tall.profile.outer = {Segment::line({0, 400}, {30, 400}), Segment::line({30, 400}, {30, 0})};
  tall.profile.shells.clear();
  tall.profile.head_line = 1;
  tall.profile.dome = 0;
  tall.profile.under_edge = "below R 9.5 mm";
  for (const auto& [hoop, seam] : {std::pair{0.0, 0.0}, {0.5, -0.5}, {0.001, 0.079}, {-0.06, -0.0599}})
    more().chart = level_chart(hoop, seam);
  WorkSheet& bare = more();
  bare.picture_png.clear(), bare.figures.clear(), bare.verdicts.clear(), bare.steps.clear();
  return sheets;
}

TEST(WorkSheetPages, StayLegibleWhateverIsSaid) {
  const std::vector<WorkSheet> sheets = extreme_sheets();
  EXPECT_GE(sheets.size(), 12u);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    SCOPED_TRACE(i);
    const PrintedSheet sheet(work_sheet_pdf(sheets[i], i % 2 ? Paper::letter : Paper::a4));
    expect_legible(sheet);
    EXPECT_LE(sheet.pages().size(), 2u);
    EXPECT_NE(sheet_profile_svg(sheets[i].profile, "form").find("</svg>"), std::string::npos);
  }
}

// ---- the form --------------------------------------------------------------------------------

// On paper: what the crown's dimension line spans, times the scale that is written beside it.
TEST(WorkSheetProfile, IsOnPaperAtTheScaleItSays) {
  for (const double size : {0.5, 1.0, 1.7}) {
    WorkSheet sheet = worked_sheet();
    sheet.profile = sheet_profile(size);
    const PrintedSheet printed(work_sheet_pdf(sheet, Paper::a4));
    const std::string line = printed.line_with("scale ");
    double paper = 0, real = 0;
    ASSERT_EQ(std::sscanf(line.c_str() + line.find("scale "), "scale %lf : %lf", &paper, &real), 2) << line;
    // Its words stand 3.4 mm below the line; the box of the words is about their middle.
    const auto words = std::find_if(printed.words().begin(), printed.words().end(),
                                    [](const PrintedWord& word) { return word.text == "across"; });
    ASSERT_NE(words, printed.words().end());
    const GreyPicture picture = printed.picture(1);
    // 2 mm above the dimension line there is nothing but the lines that come down from the crown's edge.
    const int y = static_cast<int>(((words->top + words->bottom) / 2 - 5.5) * 10);
    double first = -1, last = -1;
    for (int x = 0; x < 1450; ++x)
      if (picture.ink(x, y) > 0.3) first = first < 0 ? x : first, last = x;
    const double widest = (last - first) / 10;
    EXPECT_NEAR(widest * real / paper, 280 * size, 0.2 * real / paper) << line;
  }
}

TEST(WorkSheetProfile, HasTheFormsOutlineAndCut) {
  SheetProfile profile = sheet_profile();
  const std::string svg = sheet_profile_svg(profile, "form");
  EXPECT_EQ(svg.find("scale"), std::string::npos) << "no screen keeps a scale";
  const auto outline = sheet_paths(sheet_group(svg, "outline"));
  ASSERT_EQ(outline.size(), 1u);
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
  for (const SheetSpot p : outline[0].points) {
    left = std::min(left, p.x), right = std::max(right, p.x);
    top = std::min(top, p.y), bottom = std::max(bottom, p.y);
  }
  const double scale = (bottom - top) / 90;  // of 75 + 15 mm
  EXPECT_NEAR((right - left) / scale, 140, 0.05);
  for (const SheetSpot p : outline[0].points)
    EXPECT_LT(meridian::distance_to(profile.outer, {(p.x - left) / scale, (bottom - p.y) / scale}), 2e-3);
  // The cut half is its mirror image.
  const auto cut = sheet_paths(sheet_group(svg, "section"));
  double most_left = 1e9;
  for (const SheetPath& path : cut)
    for (const SheetSpot p : path.points) most_left = std::min(most_left, p.x);
  EXPECT_NEAR(left - most_left, right - left, 1e-3);
}

TEST(WorkSheetProfile, ShowsACavityWhite) {
  SheetProfile profile = sheet_profile();
  using meridian::Segment;
  profile.shells.push_back({Segment::line({0, 40}, {60, 40}), Segment::line({60, 40}, {60, 20}),
                            Segment::line({60, 20}, {0, 20})});
  const auto paths = sheet_paths(sheet_group(sheet_profile_svg(profile, "form"), "section"));
  const auto white = std::find_if(paths.begin(), paths.end(), [](const SheetPath& path) {
    return path.look.find("fill=\"#ffffff\"") != std::string::npos;
  });
  ASSERT_NE(white, paths.end());
  EXPECT_NEAR(white->points[1].x - white->points[0].x,
              -60 * 80.0 / 280 * (white->points[2].y - white->points[1].y) / (20 * 80.0 / 280), 1e-3);
}

// ---- the fit ---------------------------------------------------------------------------------

// A curve of 5 % lies on the grid's line of 5 %, and the shade begins at the cloth's limits of 8 and -6 %.
TEST(WorkSheetChart, IsToItsScale) {
  const std::string group = sheet_group(sheet_chart_svg(level_chart(0.05, -0.05), "fit"), "chart");
  std::map<std::string, double> levels;  // middles of the numbers left of the frame
  for (std::size_t at = group.find("<text"); at != std::string::npos; at = group.find("<text", at + 1)) {
    double size = 0, x = 0, y = 0;
    const std::size_t from = group.find('>', at) + 1;
    const std::string tag = group.substr(at, from - at),
                      words = group.substr(from, group.find('<', from) - from);
    ASSERT_EQ(std::sscanf(tag.c_str() + tag.find("font-size"), "font-size=\"%lf\"", &size), 1);
    if (tag.find(" x=\"") == std::string::npos) continue;
    ASSERT_EQ(std::sscanf(tag.c_str() + tag.find(" x="), " x=\"%lf\" y=\"%lf\"", &x, &y), 2);
    if (x < 9.9) levels[words] = y - 0.36 * size;
  }
  ASSERT_TRUE(levels.contains("5") && levels.contains("0")) << group;
  const double percent = (levels["0"] - levels["5"]) / 5;
  const auto level_of = [&](double y) { return (levels["0"] - y) / percent; };
  std::vector<double> curves, shades;
  for (const SheetPath& path : sheet_paths(group)) {
    if (path.look.find("stroke-width=\"0.8\"") != std::string::npos && path.points.size() == 4)
      curves.push_back(level_of(path.points[2].y));
    if (path.look.find("fill=\"#cccccc\"") != std::string::npos) {
      shades.push_back(level_of(path.points[0].y));
      shades.push_back(level_of(path.points[2].y));
    }
  }
  ASSERT_EQ(curves.size(), 1u);
  EXPECT_NEAR(curves[0], 5, 1e-3);
  ASSERT_EQ(shades.size(), 4u);
  EXPECT_NEAR(shades[0], 8, 1e-3);
  EXPECT_NEAR(shades[3], -6, 1e-3);
  EXPECT_NE(group.find("worst \u22125 %"), std::string::npos);
}

}  // namespace
}  // namespace crownwright::drawings
