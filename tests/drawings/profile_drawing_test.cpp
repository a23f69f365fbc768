// The turner's template read back: by dxflib, which knows arcs as arcs, by our own readers, and off the SVG's
// path itself.

#include "drawings/profile_drawing.h"

#include <dxflib/dl_creationadapter.h>
#include <dxflib/dl_dxf.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "base/numbers.h"
#include "drawings/read_drawing.h"
#include "meridian/beret.h"

namespace crownwright::drawings {
namespace {

namespace fs = std::filesystem;
using meridian::Chain;
using meridian::Point;
using meridian::Segment;
using pattern::Vec2;

/// The worked case: a 140, b 90.7, R 75, t 6, both edges 20, on a collar of 15 with a groove; foot closed.
ProfilePlan worked_profile() {
  ProfilePlan plan;
  plan.face = meridian::translated(meridian::crown_chain({140, 90.7, 75, 6, 20, 20}).value(), 15);
  const double b = plan.face.back().to().r;
  plan.face.push_back(Segment::line({b, 15}, {b, 12}));
  plan.face.push_back(Segment::arc_through({b, 12}, {b, 7}, 2.5));
  plan.face.push_back(Segment::line({b, 7}, {b, 0}));
  plan.face.push_back(Segment::line({b, 0}, {0, 0}));
  plan.head_line = 15;
  plan.title = "Beret & <co>";
  plan.wall = "wall 4 mm";
  return plan;
}

struct ReadArc {
  Point centre;
  double radius, from, to;
};
struct ReadLine {
  Point from, to;
};

class ProfileClient : public DL_CreationAdapter {
 public:
  std::vector<ReadArc> arcs;
  std::map<std::string, std::vector<ReadLine>> lines;
  std::set<std::string> layers, arc_layers;
  std::vector<std::string> texts;

  void addLayer(const DL_LayerData& layer) override { layers.insert(layer.name); }
  void addArc(const DL_ArcData& a) override {
    arcs.push_back({{a.cx, a.cy}, a.radius, a.angle1 * pi / 180, a.angle2 * pi / 180});
    arc_layers.insert(getAttributes().getLayer());
  }
  void addLine(const DL_LineData& l) override {
    lines[getAttributes().getLayer()].push_back({{l.x1, l.y1}, {l.x2, l.y2}});
  }
  void addText(const DL_TextData& text) override { texts.push_back(text.text); }
};

ProfileClient read_by_dxflib(const std::string& dxf) {
  std::istringstream stream(dxf);
  ProfileClient client;
  DL_Dxf reader;
  EXPECT_TRUE(reader.in(stream, &client));
  EXPECT_EQ(reader.getVersion(), DL_Codes::AC1015);
  return client;
}

double apart(Point a, Point b) { return std::hypot(a.r - b.r, a.z - b.z); }

Point on_circle(const ReadArc& arc, double angle) {
  return {arc.centre.r + arc.radius * std::cos(angle), arc.centre.z + arc.radius * std::sin(angle)};
}

}  // namespace

TEST(ProfileDxf, ArcsStayArcsAndLinesLines) {
  const ProfilePlan plan = worked_profile();
  const ProfileClient read = read_by_dxflib(profile_dxf(plan));
  EXPECT_EQ(read.layers, (std::set<std::string>{"0", "axis", "dimensions", "profile"}));
  EXPECT_EQ(read.arc_layers, std::set<std::string>{"profile"});
  std::vector<Segment> arcs, lines;
  for (const Segment& segment : plan.face) (segment.is_arc() ? arcs : lines).push_back(segment);
  ASSERT_EQ(read.arcs.size(), arcs.size());
  ASSERT_GE(arcs.size(), 4u);
  for (std::size_t i = 0; i < arcs.size(); ++i) {
    SCOPED_TRACE(i);
    const ReadArc& arc = read.arcs[i];
    EXPECT_NEAR(arc.radius, arcs[i].radius(), 1e-9);
    EXPECT_NEAR(apart(arc.centre, arcs[i].centre()), 0, 2e-9);
    // Counter-clockwise from the one end to the other, through the arc's own middle.
    const bool clockwise = arcs[i].turn() < 0;
    EXPECT_NEAR(apart(on_circle(arc, arc.from), clockwise ? arcs[i].to() : arcs[i].from()), 0, 1e-7);
    EXPECT_NEAR(apart(on_circle(arc, arc.to), clockwise ? arcs[i].from() : arcs[i].to()), 0, 1e-7);
    double swept = arc.to - arc.from;
    if (swept < 0) swept += 2 * pi;
    EXPECT_NEAR(swept, std::abs(arcs[i].turn()), 1e-9);
    EXPECT_NEAR(apart(on_circle(arc, arc.from + swept / 2), arcs[i].at(arcs[i].length() / 2)), 0, 1e-7);
  }
  const auto& drawn = read.lines.at("profile");
  ASSERT_EQ(drawn.size(), lines.size());
  for (std::size_t i = 0; i < lines.size(); ++i) {
    EXPECT_NEAR(apart(drawn[i].from, lines[i].from()), 0, 2e-9);
    EXPECT_NEAR(apart(drawn[i].to, lines[i].to()), 0, 2e-9);
  }
  EXPECT_EQ(read.lines.at("axis").size(), 1u);
  for (const ReadLine& axis : read.lines.at("axis")) EXPECT_EQ(axis.from.r, 0);
}

// Figures of the worked case: edges 20, the groove's radius 2.5 / sin(1.25), the rest as ordered.
TEST(ProfileDxf, SaysTheFiguresATurnerNeeds) {
  const ProfileClient read = read_by_dxflib(profile_dxf(worked_profile()));
  std::string all;
  for (const std::string& text : read.texts) all.append(text).append("|");
  for (const char* words :
       {"crown \\U+00D8 280, radius 140|", "head line \\U+00D8 181.4, girth 569.9|", "|R 20|", "|rise 75|",
        "|R 2.63|", "|height 90|", "|collar 15|", "wall 4 mm", "face shield", "data sheets"})
    EXPECT_NE(all.find(words), std::string::npos) << words << "\n" << all;
}

// Every 10 mm a level line ends on the profile, and the table beside the axis says its radius.
TEST(ProfileDxf, StationsEndOnTheProfile) {
  const ProfilePlan plan = worked_profile();
  const ProfileClient read = read_by_dxflib(profile_dxf(plan));
  int stations = 0;
  for (const ReadLine& line : read.lines.at("dimensions")) {
    const bool level = line.from.z == line.to.z && line.from.r == 0 && line.from.z > 0;
    if (!level || std::abs(std::remainder(line.from.z, 10)) > 1e-9) continue;
    ++stations;
    EXPECT_NEAR(meridian::distance_to(plan.face, line.to), 0, 1e-8) << line.from.z;
  }
  EXPECT_EQ(stations, 8);
}

// On the collar, in the groove, at the widest circle's own height, on the tip arc by Pythagoras.
TEST(ProfileRadius, IsTheOutermostAtAHeight) {
  const ProfilePlan plan = worked_profile();
  EXPECT_NEAR(profile_radius(plan.face, 3), 90.7, 1e-9);
  const double groove = 2.5 / std::sin(1.25);
  EXPECT_NEAR(profile_radius(plan.face, 9.5), 90.7 - groove * (1 - std::cos(1.25)), 1e-9);
  const Segment& tip = plan.face.front();
  EXPECT_NEAR(profile_radius(plan.face, 88),
              std::sqrt(std::pow(tip.radius(), 2) - std::pow(tip.radius() - 2, 2)), 1e-6);
  EXPECT_NEAR(profile_radius(plan.face, 0), 90.7, 1e-9);
  EXPECT_EQ(profile_radius(plan.face, 91), 0);
  EXPECT_NEAR(profile_radius(plan.face, 90), 0, 1e-3);
}

// Our own readers find the same line in both files: SVG's y runs down from the foot.
TEST(ProfileFiles, ReadBackAsTheProfile) {
  const ProfilePlan plan = worked_profile();
  DrawingRules rules;
  rules.layer = "profile";
  const auto dxf = read_lines(profile_dxf(plan), "p.dxf", rules);
  const auto svg = read_lines(profile_svg(plan), "p.svg", rules);
  ASSERT_TRUE(dxf.ok()) << dxf.fault().line();
  ASSERT_TRUE(svg.ok()) << svg.fault().line();
  for (const auto* lines : {&*dxf, &*svg}) {
    ASSERT_EQ(lines->open.size(), 1u);
    ASSERT_EQ(lines->closed.size(), 0u);
    const pattern::Polyline& line = lines->open[0];
    EXPECT_NEAR(pattern::length(line), meridian::length(plan.face), 1e-3);
    // y down, wherever the drawing's origin lies: heights are counted from the lower end.
    double foot = -1e9, axis = 1e9;
    for (const Vec2 p : line) foot = std::max(foot, p.y), axis = std::min(axis, p.x);
    for (const Vec2 p : line)
      EXPECT_LT(meridian::distance_to(plan.face, {p.x - axis, foot - p.y}), 1.1e-3) << p.x << " " << p.y;
  }
}

TEST(ProfileSvg, KeepsArcsWithTheirRadii) {
  const ProfilePlan plan = worked_profile();
  const std::string svg = profile_svg(plan);
  const std::size_t at = svg.find("<g id=\"profile\"");
  const std::string path = svg.substr(at, svg.find("</g>", at) - at);
  std::size_t arcs = 0;
  for (const char c : path) arcs += c == 'A';
  EXPECT_EQ(arcs, 4u);
  EXPECT_NE(path.find(" A20,20 0 0,1 "), std::string::npos) << path;
  EXPECT_NE(path.find("M0,-90 A"), std::string::npos);
  EXPECT_NE(svg.find("Beret &amp; &lt;co&gt;"), std::string::npos);
}

// Drawn by librsvg, ten dots a mm: the profile's own line is met where it should lie.
TEST(ProfileSvg, IsTrueToSize) {
  const ProfilePlan plan = worked_profile();
  const std::string base =
      (fs::temp_directory_path() / ("crownwright_profile_" + std::to_string(getpid()))).string();
  const std::string svg = profile_svg(plan);
  std::ofstream(base + ".svg") << svg;
  ASSERT_EQ(std::system(("rsvg-convert -f pdf -o " + base + ".pdf " + base +
                         ".svg && pdftoppm -r 254 -gray "
                         "-singlefile " +
                         base + ".pdf " + base)
                            .c_str()),
            0);
  double left = 0, top = 0;
  const std::size_t box = svg.find("viewBox=\"") + 9;
  std::istringstream(svg.substr(box)) >> left >> top;
  std::ifstream in(base + ".pgm", std::ios::binary);
  std::string magic;
  int width = 0, height = 0, most = 0;
  in >> magic >> width >> height >> most;
  in.get();
  std::string grey(static_cast<std::size_t>(width) * static_cast<std::size_t>(height), '\0');
  in.read(grey.data(), static_cast<std::streamsize>(grey.size()));
  for (const char* ending : {".svg", ".pdf", ".pgm"}) fs::remove(base + ending);
  // At heights between stations: the middle of the dark within 1.5 mm, black against pale dimensions.
  for (const double z : {3.5, 33.5, 63.5, 83.5}) {
    double sum = 0, moment = 0;
    const double r = profile_radius(plan.face, z);
    const int y = static_cast<int>((-z - top) * 10);
    for (int x = static_cast<int>((r - 1.5 - left) * 10); x <= static_cast<int>((r + 1.5 - left) * 10); ++x) {
      const double dark =
          1 - static_cast<unsigned char>(grey[static_cast<std::size_t>(y * width + x)]) / 255.0;
      sum += dark, moment += dark * (x + 0.5);
    }
    ASSERT_GT(sum, 2) << z;
    EXPECT_NEAR(moment / sum / 10 + left, r, 0.1) << z;
  }
}

TEST(ProfileFiles, OfAPadSayNothingOfAHead) {
  ProfilePlan plan;
  plan.face = {Segment::line({0, 30}, {100, 30}), Segment::arc({100, 30}, {120, 10}, {100, 10}, 20, -pi / 2),
               Segment::line({120, 10}, {120, 0}), Segment::line({120, 0}, {0, 0})};
  plan.title = "Pad";
  const std::string svg = profile_svg(plan);
  EXPECT_EQ(svg.find("head line"), std::string::npos);
  EXPECT_EQ(svg.find("rise"), std::string::npos);
  EXPECT_NE(svg.find("crown Ø 240, radius 120"), std::string::npos);
  EXPECT_NE(svg.find(">height 30<"), std::string::npos);
  EXPECT_EQ(svg, profile_svg(plan));
}

}  // namespace crownwright::drawings
