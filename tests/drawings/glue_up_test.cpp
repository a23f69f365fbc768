// The glue-up sheet as poppler reads it, and its SVG measured.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "drawings/milling_pages.h"
#include "drawings/milling_sheet.h"

namespace crownwright::drawings {
namespace {

using printed::PrintedSheet;
using printed::worked_block;
using printed::worked_glue_up;

struct SvgSpot {
  double x = 0, y = 0;
};

std::string svg_group_of(const std::string& svg, const std::string& id) {
  const std::size_t at = svg.find("<g id=\"" + id + "\">");
  EXPECT_NE(at, std::string::npos) << id;
  return svg.substr(at, svg.find("</g>", at) - at);
}

// The points of each path of M and L.
std::vector<std::vector<SvgSpot>> svg_paths_of(const std::string& group) {
  std::vector<std::vector<SvgSpot>> paths;
  for (std::size_t at = group.find(" d=\""); at != std::string::npos; at = group.find(" d=\"", at + 1)) {
    std::string d = group.substr(at + 4, group.find('"', at + 4) - at - 4);
    for (char& c : d)
      if (c == 'M' || c == 'L' || c == 'Z' || c == ',') c = ' ';
    std::istringstream in(d);
    paths.emplace_back();
    for (SvgSpot p; in >> p.x >> p.y;) paths.back().push_back(p);
  }
  return paths;
}

struct SvgCircle {
  double x = 0, y = 0, r = 0;
};
std::vector<SvgCircle> svg_circles_of(const std::string& group) {
  std::vector<SvgCircle> circles;
  for (std::size_t at = group.find("<circle"); at != std::string::npos; at = group.find("<circle", at + 1)) {
    SvgCircle c;
    EXPECT_EQ(std::sscanf(group.c_str() + at, "<circle cx=\"%lf\" cy=\"%lf\" r=\"%lf\"", &c.x, &c.y, &c.r),
              3);
    circles.push_back(c);
  }
  return circles;
}

// "scale 1 : 2.5": paper mm for one mm, as said in words. `which`: of the section 0, from above 1.
double said_scale(const std::string& svg, int which) {
  std::size_t at = svg.find("scale ");
  if (which == 1) at = svg.find("scale ", at + 1);
  double paper = 0, real = 0;
  EXPECT_EQ(std::sscanf(svg.c_str() + at, "scale %lf : %lf", &paper, &real), 2);
  return paper / real;
}

TEST(GlueUpSheetPages, AreOfTheirPaper) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const PrintedSheet sheet(glue_up_pdf(worked_glue_up(), paper));
    printed::expect_paper(sheet, paper);
    printed::expect_legible(sheet);
    EXPECT_EQ(sheet.pages().size(), 2u);
  }
}

TEST(GlueUpSheetPages, SayWhatToSawAndHowItLies) {
  const PrintedSheet sheet(glue_up_pdf(worked_glue_up(), Paper::a4));
  const std::string text = sheet.text();
  for (const char* words :
       {"Market beret, medium", "4 pieces out of board 25 mm thick, each cut first, then glued",
        "each 300 × 290 × 25 mm", "at 0°, 60 mm from the middle", "at 130°, 60 mm", "at 250°, 60 mm",
        "Ø 6, 78 mm long, from 0 to 78 above the foot", "foot Ø 181.4", "widest Ø 280",
        "lay tier 4 foot down, then tier 3, then tier 2, then tier 1 on top",
        "The holes of tier 1 are blind.", "page 1 of 2", "Saw with the board held down", "data sheet"})
    EXPECT_NE(text.find(words), std::string::npos) << words;
  // One line of the list a piece.
  const std::map<std::string, bool> turned = {
      {"65 to 90", false}, {"40 to 65", true}, {"15 to 40", true}, {"0 to 15", false}};
  for (const auto& [lies, over] : turned) {
    const std::string line = sheet.line_with(lies);
    EXPECT_NE(line.find("300 × 290 × 25"), std::string::npos) << line;
    EXPECT_EQ(line.find("TURNED OVER") != std::string::npos, over) << line;
    EXPECT_EQ(line.find("as in the form") != std::string::npos, !over) << line;
  }
}

// Heights and radii of the planes in closed form: on the upper edge arc 65 mm, on the straight underside 40
// mm, at the head line 15 mm above the foot.
TEST(GlueUpSheetSvg, SectionIsToTheScaleItSays) {
  const std::string svg = glue_up_svg(worked_glue_up());
  const double scale = said_scale(svg, 0);
  EXPECT_NEAR(scale, 1 / 2.5, 1e-12);
  const auto outline = svg_paths_of(svg_group_of(svg, "outline"));
  ASSERT_EQ(outline.size(), 1u);
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
  for (const SvgSpot p : outline[0]) {
    left = std::min(left, p.x), right = std::max(right, p.x);
    top = std::min(top, p.y), bottom = std::max(bottom, p.y);
  }
  EXPECT_NEAR((right - left) / scale, 280, 0.05);
  EXPECT_NEAR((bottom - top) / scale, 90, 1e-3);
  const double axis = (left + right) / 2;
  const meridian::Chain form = worked_block(15);
  for (const SvgSpot p : outline[0])
    EXPECT_LT(meridian::distance_to(form, {std::abs(p.x - axis) / scale, (bottom - p.y) / scale}), 1e-3);

  const auto lines = svg_paths_of(svg_group_of(svg, "glue-lines"));
  ASSERT_EQ(lines.size(), 3u);
  const double centre = 75 - 6 - 20 * std::cos(5.6328 * pi / 180);
  const double planes[3][2] = {{65, 120 + std::sqrt(400 - std::pow(50 - centre, 2))},
                               {40, 90.7 + 25 * std::tan(51.303 * pi / 180)},
                               {15, 90.7}};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR((bottom - lines[i][0].y) / scale, planes[i][0], 1e-3);
    EXPECT_NEAR((lines[i][1].x - lines[i][0].x) / scale, 2 * planes[i][1], 0.05) << planes[i][0];
  }
  // The sawn pieces round them.
  const auto sawn = svg_paths_of(svg_group_of(svg, "sawn"));
  ASSERT_EQ(sawn.size(), 4u);
  EXPECT_NEAR((sawn[1][1].x - sawn[1][0].x) / scale, 300, 1e-3);
  EXPECT_NEAR((sawn[1][2].y - sawn[1][1].y) / scale, 25, 1e-3);
}

TEST(GlueUpSheetSvg, DowelsStandAtTheirAngles) {
  const std::string svg = glue_up_svg(worked_glue_up());
  const double scale = said_scale(svg, 1);
  const auto rings = svg_circles_of(svg_group_of(svg, "plan"));
  ASSERT_EQ(rings.size(), 2u);  // widest, foot
  EXPECT_NEAR(rings[0].r / scale, 140, 0.03);
  EXPECT_NEAR(rings[1].r / scale, 90.7, 1e-3);
  const auto marks = svg_circles_of(svg_group_of(svg, "dowel-marks"));
  ASSERT_EQ(marks.size(), 6u);  // a white disc below each
  for (std::size_t i = 0; i < 3; ++i) {
    const double x = (marks[2 * i + 1].x - rings[0].x) / scale, y = (rings[0].y - marks[2 * i + 1].y) / scale;
    const double degrees[] = {0, 130, 250};
    EXPECT_NEAR(std::hypot(x, y), 60, 1e-3);
    EXPECT_NEAR(std::remainder(std::atan2(y, x) * 180 / pi - degrees[i], 360), 0, 1e-2);
    EXPECT_NEAR(marks[2 * i + 1].r / scale, 3.2, 0.21);  // 3, or 0.8 mm of paper where that is more
  }
}

// A turned piece lies with its wide face on the table: in its small picture the lowest line is the longest.
TEST(GlueUpSheetSvg, PiecesAreDrawnAsTheyLie) {
  const std::string svg = glue_up_svg(worked_glue_up());
  const std::size_t list = svg.find("as it lies on the machine");
  const auto paths = svg_paths_of(svg.substr(list));
  int seen = 0;
  for (const auto& path : paths) {
    if (path.size() < 4) continue;  // lines and arrow heads
    double top = 1e9, bottom = -1e9;
    for (const SvgSpot p : path) top = std::min(top, p.y), bottom = std::max(bottom, p.y);
    if (bottom - top < 1.2) continue;
    const auto width_at = [&](double y) {
      double left = 1e9, right = -1e9;
      for (const SvgSpot p : path)
        if (std::abs(p.y - y) < 0.02) left = std::min(left, p.x), right = std::max(right, p.x);
      return right - left;
    };
    EXPECT_GE(width_at(bottom) + 1e-6, width_at(top));
    ++seen;
  }
  EXPECT_EQ(seen, 8);  // tone and line of four pieces
}

TEST(GlueUpSheetFiles, HaveTheSameBytesAgain) {
  const GlueUp sheet = worked_glue_up();
  EXPECT_EQ(glue_up_pdf(sheet, Paper::a4), glue_up_pdf(sheet, Paper::a4));
  EXPECT_EQ(glue_up_svg(sheet), glue_up_svg(sheet));
  EXPECT_NE(PrintedSheet(glue_up_pdf(sheet, Paper::a4)).info().find("2000"), std::string::npos);
}

TEST(GlueUpSheetPages, OfALumpMarkTheGlueLine) {
  GlueUp pad;
  using meridian::Segment;
  pad.title = "Pad";
  pad.outer = {Segment::line({0, 30}, {105, 30}), Segment::arc({105, 30}, {125, 10}, {105, 10}, 20, -pi / 2),
               Segment::line({125, 10}, {125, 0})};
  pad.slabs = {{"sheet 1", 25, 50, false}, {"sheet 2", 0, 25, false}};
  pad.sheet = 25, pad.side_x = pad.side_y = 275, pad.sheets = 2, pad.glue_lines_met = {25};
  const PrintedSheet sheet(glue_up_pdf(pad, Paper::a4));
  printed::expect_legible(sheet);
  EXPECT_EQ(sheet.pages().size(), 1u);
  const std::string text = sheet.text();
  EXPECT_NE(text.find("glued into one lump, then cut"), std::string::npos);
  // The sign beside its height and in the legend.
  const std::size_t sign = text.find("▲");
  ASSERT_NE(sign, std::string::npos) << text;
  EXPECT_NE(text.find("▲", sign + 1), std::string::npos) << text;
  EXPECT_NE(text.find("glue line that the cutter meets"), std::string::npos) << text;
  EXPECT_EQ(text.find("TURNED OVER"), std::string::npos);
  EXPECT_NE(text.find("No dowels."), std::string::npos);
  // Told as one piece with its glue line it is the same sheet.
  pad.slabs = {{"the form", 0, 30, false}};
  EXPECT_EQ(PrintedSheet(glue_up_pdf(pad, Paper::a4)).text(), text);
}

GlueUp cut_into(std::size_t pieces, double size) {
  GlueUp sheet = worked_glue_up();
  sheet.outer = worked_block(15, size);
  sheet.slabs.clear();
  const double each = 90 * size / static_cast<double>(pieces);
  for (std::size_t i = pieces; i-- > 0;)
    sheet.slabs.push_back({"tier " + std::to_string(pieces - i), static_cast<double>(i) * each,
                           static_cast<double>(i + 1) * each, i % 3 == 1});
  for (GlueDowel& dowel : sheet.dowels) dowel.x *= size, dowel.y *= size, dowel.top *= size;
  sheet.sheet = each, sheet.side_x = sheet.side_y = 300 * size;
  return sheet;
}

TEST(GlueUpSheetPages, StayLegibleWhateverTheForm) {
  std::vector<GlueUp> sheets = {GlueUp{},        cut_into(1, 1),   cut_into(2, 0.05),
                                cut_into(40, 1), cut_into(120, 4), cut_into(22, 8)};
  GlueUp& many = sheets[3];
  many.dowels.clear();
  for (int k = 0; k < 30; ++k)
    many.dowels.push_back({70 * std::cos(0.2 * k), 70 * std::sin(0.2 * k), 6, 0, 60.0 + k});
  GlueUp& long_names = sheets[1];
  long_names.title = std::string(300, 'W') + " \xE6\x97\xA5\xE6\x9C\xAC \xFF\n\t";
  long_names.slabs[0].name = std::string(400, 'm');
  long_names.notes.assign(80, std::string(150, 'x') + " one note of many");
  sheets.push_back(cut_into(4, 1));
  sheets.back().dowels.clear();
  sheets.back().side_x = sheets.back().side_y = 0;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    SCOPED_TRACE(i);
    const PrintedSheet sheet(glue_up_pdf(sheets[i], i % 2 ? Paper::letter : Paper::a4));
    printed::expect_legible(sheet);
    EXPECT_NE(glue_up_svg(sheets[i]).find("</svg>"), std::string::npos);
  }
}

}  // namespace
}  // namespace crownwright::drawings
