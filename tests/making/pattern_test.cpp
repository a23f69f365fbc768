// Patterns read by orders: forms drafted into files and read back from them, panels as stations, discs.
#include <gtest/gtest.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <numbers>
#include <random>
#include <string>

#include "making/cut_cloth.h"
#include "making/drafted.h"
#include "making/read_pattern.h"
#include "pattern/drawn.h"
#include "support/light.h"
#include "support/seed.h"

namespace crownwright::making {
namespace {

using meridian::BeretValues;
using pattern::LengthAlong;
using std::numbers::pi;
using test::says;
using test::uniform;
using test::Way;

ReadPattern read(const std::string& text) {
  auto read = read_pattern(test::read_order(text), test::own_profiles());
  if (!read) throw std::runtime_error("the pattern was not read: " + read.fault().line());
  return std::move(**read);
}

// ---- through files ---------------------------------------------------------------------------

/// One drawing of the four that hold the same panel.
struct Drawing {
  const char *file, *layer;
  bool cut_line;
};
// SVG ids from the piece's name; DXF layers after ASTM D6673: 1 cut, 14 sew.
constexpr Drawing drawings_of_one_panel[] = {{"p.panel.svg", "panel-sew", false},
                                             {"p.panel.dxf", "1", true},
                                             {"p.panel.svg", "panel-cut", true},
                                             {"p.panel.dxf", "14", false}};

std::string in_words(const BeretValues& v, const Way& way) {
  return "a " + std::to_string(v.a) + " b " + std::to_string(v.b) + " R " + std::to_string(v.R) + " t " +
         std::to_string(v.t) + " e " + std::to_string(v.e_u) + ", " + std::to_string(way.panels) +
         " panels, along " + pattern::in_words(way.along) + ", allowance " + std::to_string(way.allowance);
}

Way some_way(std::mt19937_64& random) {
  return {4 + static_cast<int>(random() % 21), static_cast<LengthAlong>(random() % 3),
          std::round(uniform(random, 3, 16) * 10) / 10};
}

/// The values that come back are compared with the random form itself.
void expect_same(const BeretValues& drafted, const BeretValues& read) {
  EXPECT_NEAR(2 * read.a, 2 * drafted.a, 0.1) << "crown diameter";
  EXPECT_NEAR(2 * pi * read.b, 2 * pi * drafted.b, 0.1) << "head girth";
  EXPECT_NEAR(read.R, drafted.R, 0.5) << "rise";
  EXPECT_NEAR(read.t, drafted.t, 0.5) << "dome";
  const auto was = meridian::solve_figures(drafted), is = meridian::solve_figures(read);
  ASSERT_TRUE(was.ok() && is.ok());
  EXPECT_NEAR(is->top_length, was->top_length, 0.1);
  EXPECT_NEAR(is->under_length, was->under_length, 0.1);
}

/// Widest distance of the drawn seam from that of the law, drawn to a hundredth of what is asked.
double off_the_law(const pattern::DrawnPanel& drawn, const BeretValues& form, const Way& way) {
  const auto net = pattern::draft_panel(cut_parallels(form, 0).value(), {way.panels, way.along, 0.0001});
  double worst = std::abs(drawn.stations.back().half_width - net->points.back().x);
  for (const pattern::Station& one : drawn.stations) {
    // In the drawing, square to the seam: near the tip and the edge the seam runs aslant.
    double nearest = INFINITY;
    for (std::size_t i = 1; i < net->points.size(); ++i) {
      const auto &p = net->points[i - 1], &q = net->points[i];
      const double ux = q.x - p.x, uy = q.y - p.y, length = std::hypot(ux, uy);
      if (length == 0) continue;
      const double t =
          std::clamp(((one.half_width - p.x) * ux + (one.y - p.y) * uy) / (length * length), 0.0, 1.0);
      nearest = std::min(nearest, std::hypot(one.half_width - p.x - t * ux, one.y - p.y - t * uy));
    }
    worst = std::max(worst, nearest);
  }
  return worst;
}

struct RoundTrip : testing::Test {
  /// False when the law has no panel for this form.
  bool draft(const BeretValues& form, const Way& way) {
    const order::Order order = test::read_order(test::drafting_order(form, way));
    const auto pieces = draft_order(order, test::own_profiles());
    if (!pieces) {
      expect_least_count(form, way, pieces.fault());
      return false;
    }
    test::put_drawings(order, *pieces, folder);
    return true;
  }

  /// Refused because arcs cross: names a count that can be drafted.
  void expect_least_count(const BeretValues& form, Way way, const Fault& fault) {
    EXPECT_EQ(fault.exit, ExitCode::impossible) << fault.line();
    const std::string words = "the least panel count that works is ", line = fault.line();
    const auto at = line.find(words);
    ASSERT_NE(at, std::string::npos) << line;
    std::from_chars(line.data() + at + words.size(), line.data() + line.size(), way.panels);
    EXPECT_TRUE(draft_order(test::read_order(test::drafting_order(form, way)), test::own_profiles()).ok());
  }

  std::string text_reading(const Drawing& from, const Way& way, double dome) {
    return test::reading_order(folder.file(from.file), from.layer, from.cut_line, way, dome);
  }
  order::Order order_reading(const Drawing& from, const Way& way, double dome) {
    return test::read_order(text_reading(from, way, dome));
  }
  ReadPattern read_back(const Drawing& from, const Way& way, double dome) {
    return read(text_reading(from, way, dome));
  }

  void expect_to_come_back(const BeretValues& form, const Way& way, const Drawing& from, double dome) {
    SCOPED_TRACE(std::string(from.file) + " " + from.layer + ", dome told " + std::to_string(dome));
    const auto found = read_pattern(order_reading(from, way, dome), test::own_profiles());
    ASSERT_TRUE(found.ok()) << found.fault().line();
    expect_same(form, (*found)->values);
    // Sew lines are written to 0.001 mm; a cut line is two offsets away, each flattened again.
    EXPECT_LT(off_the_law(*(*found)->drawn, form, way), from.cut_line ? 0.01 : 0.002);
  }

  test::TempFolder folder;
};

// As many as CW_DRAWINGS says; each takes some 0.15 s.
int forms_through_files() {
  if (const char* given = std::getenv("CW_DRAWINGS")) return std::stoi(given);
  return test::light() ? 6 : 45;
}

TEST_F(RoundTrip, AFormComesBackFromTheFilesOfItsPanel) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const int forms = forms_through_files();
  int drafted = 0;
  for (int i = 0; i < forms; ++i) {
    const BeretValues form = test::as_written(test::ordinary_beret(random));
    const Way way = some_way(random);
    SCOPED_TRACE(in_words(form, way));
    if (!draft(form, way)) continue;
    ++drafted;
    // Nobody knows a dome to the last tenth.
    expect_to_come_back(form, way, drawings_of_one_panel[i % 4],
                        std::max(0.0, form.t + uniform(random, -1, 1)));
  }
  EXPECT_GT(drafted, forms / 2);
}

// Four panels along the seam, hardly to be drafted at all: next to them the law has no panel, and a search
// that sets out badly ends there.
TEST_F(RoundTrip, FormsAtTheEdgeOfWhatTheLawCanDraft) {
  struct Case {
    BeretValues form;
    double allowance;
    Drawing from;
  };
  const Case cases[] = {
      {{128.141, 84.648, 55.138, 10.499, 21.542, 21.542}, 10.9, {"p.panel.svg", "panel-cut", true}},
      {{135.854, 98.905, 48.522, 0, 22.829, 22.829}, 10.6, {"p.panel.svg", "panel-sew", false}}};
  for (const Case& c : cases) {
    const Way way{4, LengthAlong::seam, c.allowance};
    SCOPED_TRACE(in_words(c.form, way));
    ASSERT_TRUE(draft(c.form, way));
    for (const double off : {-0.75, 0.75})
      expect_to_come_back(c.form, way, c.from, std::max(0.0, c.form.t + off));
  }
}

TEST_F(RoundTrip, EveryLawAndTheEndsOfThePanelCounts) {
  // A form that every law has a panel for, even of four: a low, wide one with a narrow edge.
  const BeretValues form{140, 90, 82, 8, 24, 24};
  int drafted = 0;
  for (const LengthAlong along : {LengthAlong::seam, LengthAlong::centre, LengthAlong::shared}) {
    for (const int panels : {4, 8, 24}) {
      const Way way{panels, along, 9.5};
      SCOPED_TRACE(in_words(form, way));
      if (!draft(form, way)) continue;
      ++drafted;
      expect_same(form, read_back(drawings_of_one_panel[panels == 8 ? 0 : 3], way, form.t).values);
    }
  }
  EXPECT_GE(drafted, 7);
}

// A form against its own draft, as it comes back from the file: there is as much cloth as form at every
// distance.
TEST_F(RoundTrip, AFormHasNoStrainAgainstItsOwnDraft) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 1);
  const int forms = test::light() ? 3 : 10;
  int judged = 0;
  for (int i = 0; i < forms; ++i) {
    const BeretValues form = test::as_written(test::ordinary_beret(random));
    const Way way = some_way(random);
    SCOPED_TRACE(in_words(form, way));
    if (!draft(form, way)) continue;
    const order::Order order =
        test::read_order(test::reading_order(folder.file("p.panel.svg"), "panel-sew", false, way, form.t,
                                             "[cloth]\nname = \"fleece\"\nthickness = \"0 mm\"\n"));
    const auto solved = solve_block(order, test::own_profiles());
    ASSERT_TRUE(solved.ok()) << solved.fault().line();
    const auto solid = plan_solid(order, test::own_profiles());
    ASSERT_TRUE(solid.ok()) << solid.fault().line();
    const auto fit = fit_of(order, *solved, *solid, test::own_profiles());
    ASSERT_TRUE(fit.ok()) << fit.fault().line();
    ASSERT_TRUE((*fit)->crown);
    const fit::FitReport& report = (*fit)->crown->report;
    ++judged;
    EXPECT_NEAR(report.hoop_max, 0, 0.0005);
    EXPECT_NEAR(report.hoop_min, 0, 0.0005);
    for (const fit::FitStation& one : report.stations) EXPECT_NEAR(one.hoop, 0, 0.0005) << "at " << one.s;
    EXPECT_NEAR(report.length_stretch, 0, 0.0005);
  }
  EXPECT_GT(judged, forms / 2);
}

// ---- stations --------------------------------------------------------------------------------

std::string station_list(const pattern::DrawnPanel& half) {
  std::string list;
  for (const pattern::Station& one : half.stations)
    list += (list.empty() ? "[" : ", [") + test::in_mm(std::round(one.y * 10) / 10) + ", " +
            test::in_mm(std::round(2 * one.half_width * 10) / 10) + "]";
  return "[" + list + "]";
}

/// A trade panel: 8 panels, tip of 45 degrees (a flat tip), 106 mm wide at 135 and 71 mm at 205.
pattern::DrawnPanel trade_panel() {
  const pattern::Parallels crown = test::parallels_of({135, 91.4, 75, 0, 20, 20});
  return test::stations_of(*pattern::draft_panel(crown, {8, LengthAlong::seam, 0.001}), 5);
}

std::string trade_order(const std::string& measure = {}) {
  return measure + "[shape]\ndome = \"0 mm\"\n[pattern]\nkind = \"stations\"\npanels = 8\nstations = " +
         station_list(trade_panel()) + "\n";
}

double rise_by(const ReadPattern& read, LengthAlong along) {
  return read.fit->by_law[static_cast<std::size_t>(along)]->rise;
}

// Rises of 75, 59 and 46 mm for seam, shared and centre: worked out by another program from the three widths
// alone, where the curve between them is not told and the widths here are to a tenth. So within 2 mm.
TEST(Stations, OneTradePanelDoesNotSettleItsRise) {
  const pattern::DrawnPanel panel = trade_panel();
  const auto widest =
      std::max_element(panel.stations.begin(), panel.stations.end(),
                       [](const auto& p, const auto& q) { return p.half_width < q.half_width; });
  ASSERT_NEAR(widest->y, 135, 1.5);
  ASSERT_NEAR(2 * widest->half_width, 106, 0.2);
  ASSERT_NEAR(panel.stations.back().y, 205, 0.5);
  ASSERT_NEAR(2 * panel.stations.back().half_width, 71, 0.2);
  const ReadPattern read = making::read(trade_order());
  EXPECT_NEAR(rise_by(read, LengthAlong::seam), 75, 2);
  EXPECT_NEAR(rise_by(read, LengthAlong::shared), 59, 2);
  EXPECT_NEAR(rise_by(read, LengthAlong::centre), 46, 2);
  EXPECT_TRUE(says(read.warnings, "does not settle the rise"));
  // Without a word about the law it is the shared one.
  EXPECT_NEAR(read.values.R, rise_by(read, LengthAlong::shared), 0.01);
}

TEST(Stations, AStatedRiseIsHeldAndSettlesIt) {
  const ReadPattern read = making::read(trade_order("[measure]\nrise = \"62 mm\"\n"));
  EXPECT_EQ(read.values.R, 62);
  EXPECT_FALSE(says(read.warnings, "does not settle the rise"));
}

TEST(Stations, AStatedCrownAndHeadAreHeld) {
  const ReadPattern read =
      making::read(trade_order("[measure]\nhead_girth = \"575 mm\"\ncrown_diameter = \"271 mm\"\n"));
  EXPECT_NEAR(2 * pi * read.values.b, 575, 1e-9);
  EXPECT_NEAR(2 * read.values.a, 271, 1e-9);
}

// ---- discs -----------------------------------------------------------------------------------

/// Cut from cloth with 10 mm of allowance: sewn radii 150, 160 and the opening's.
std::string discs_order(double opening_radius, const std::string& more = {}) {
  return "[measure]\nhead_girth = \"570 mm\"\ncrown_diameter = \"280 mm\"\n" + more +
         "[pattern]\nkind = \"discs\"\nseam_allowance = \"10 mm\"\ntop_diameter = \"320 mm\"\nring_diameter "
         "= \"340 mm\"\nring_opening = " +
         test::in_mm(2 * (opening_radius - 10)) + "\n[shape]\ndome = \"6 mm\"\n";
}

// A disc's parallel at distance s has girth 2 pi s, a ring's 2 pi (outer - distance): two flat discs.
TEST(Discs, TheClothIsThatOfTwoFlatDiscs) {
  const ReadPattern read = making::read(discs_order(90));
  EXPECT_NEAR(read.cloth.length(), 150 + (160 - 90), 1e-9);
  for (const double s : {20.0, 80.0, 149.0}) EXPECT_NEAR(read.cloth.r(s), s, 1e-9) << s;
  for (const double s : {151.0, 180.0, 220.0}) EXPECT_NEAR(read.cloth.r(s), 160 - (s - 150), 1e-9) << s;
  const auto figures = meridian::solve_figures(read.values);
  EXPECT_NEAR(figures->top_length, 150, 1e-6);
  EXPECT_NEAR(figures->under_length, 70, 1e-6);
  EXPECT_NEAR(2 * read.values.a, 280, 1e-9);
  EXPECT_TRUE(read.warnings.empty());
}

TEST(Discs, WithoutTheAllowanceTheFiguresAreTheSewnOnes) {
  std::string text = discs_order(90);
  text.insert(text.find("seam_allowance"), "includes_allowance = false\n");
  // As written: top 320, ring 340, opening 160.
  EXPECT_NEAR(making::read(text).cloth.length(), 160 + (170 - 80), 1e-9);
}

// An opening no wider than the head: general rule of the trade (common practice, no source). 570 mm is 90.72
// mm of radius.
TEST(Discs, AnOpeningWiderThanTheHeadIsWarnedOf) {
  EXPECT_FALSE(says(making::read(discs_order(90.7)).warnings, "more than the head girth"));
  EXPECT_TRUE(says(making::read(discs_order(91)).warnings, "more than the head girth"));
}

}  // namespace
}  // namespace crownwright::making
