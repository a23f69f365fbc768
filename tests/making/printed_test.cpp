// The form of an order as it is printed: the parts fit the bed, and put together they are the form. How a
// form is cut is checked in tests/parts.
#include "making/printed.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "making/printed_orders.h"
#include "making/read_back.h"
#include "parts/stack.h"

namespace crownwright::making {
namespace {

using std::numbers::pi;
using test::BoxOf;
using test::mesh_of;
using test::on_bed;
using test::pc_block;

constexpr double grid = 1.0 / 32768;  // 2^-15 mm, what placing rounds to

/// Every part stands on z = 0, within the bed less 2 mm, and no two meet on one bed.
void expect_on_their_beds(const Form& form) {
  const printing::Bed bed = form.printed.bed.value_or(printing::Bed{1000, 1000, 1000});
  std::vector<std::pair<std::size_t, BoxOf>> laid;
  for (const PrintedPart& part : form.printed.parts) {
    SCOPED_TRACE(part.name);
    const BoxOf own = test::placed_box(mesh_of(form, part), test::as_it_is);
    EXPECT_NEAR(own.low[2], 0, grid) << "as its file holds it";
    const BoxOf box = test::placed_box(mesh_of(form, part), part.on_bed.m);
    EXPECT_NEAR(box.low[2], 0, 2 * grid);
    EXPECT_GE(box.low[0], 2 - 2 * grid);
    EXPECT_GE(box.low[1], 2 - 2 * grid);
    EXPECT_LE(box.high[0], bed.width - 2 + 2 * grid);
    EXPECT_LE(box.high[1], bed.depth - 2 + 2 * grid);
    EXPECT_LE(box.high[2], bed.height);
    EXPECT_LT(part.plate, form.printed.plates);
    for (const auto& [plate, other] : laid) EXPECT_FALSE(plate == part.plate && box.overlaps(other));
    laid.emplace_back(part.plate, box);
  }
}

/// How far parts reach out of the form, and how far the form's outside lies from the nearest part.
struct Filling {
  double beyond = 0, bare = 0;
};
Filling filling_of(const Form& form) {
  Filling filling;
  test::Soup parts;
  const meridian::Chain outside = parts::outer_face(form.solid);
  for (const PrintedPart& part : form.printed.parts) {
    const std::size_t first = parts.corners.size();
    const mesh::TriangleMesh& mesh = mesh_of(form, part);
    for (const mesh::Vertex& v : mesh.vertices) {
      const mesh::Point3 p = test::by_twelve(part.to_form.m, v.x, v.y, v.z);
      parts.corners.push_back({p.x, p.y, p.z});
    }
    for (const auto& t : mesh.triangles) parts.facets.push_back({first + t[0], first + t[1], first + t[2]});
  }
  // Beyond the form's outer face: by the number of times a level ray away from the axis meets it, as chords
  // (flanges stand inside).
  const auto inside = [&outside](double r, double z) {
    bool in = false;
    for (const meridian::Segment& s : outside) {
      const int steps = s.is_arc() ? 64 : 1;
      meridian::Point from = s.from();
      for (int k = 1; k <= steps; ++k) {
        const meridian::Point to = k == steps ? s.to() : s.at(s.length() * k / steps);
        if ((from.z > z) != (to.z > z) && r < from.r + (z - from.z) / (to.z - from.z) * (to.r - from.r))
          in = !in;
        from = to;
      }
    }
    return in;
  };
  for (const test::Spot3& p : parts.corners) {
    const double r = std::hypot(p.x, p.y);
    filling.beyond = std::max(filling.beyond, -p.z);
    const double z = std::max(p.z, 1e-3);  // the foot is at 0 within the grid
    if (!inside(r, z)) filling.beyond = std::max(filling.beyond, meridian::distance_to(outside, {r, p.z}));
  }
  const auto& vertices = form.proven.mesh().vertices;
  for (std::size_t i = 0; i < vertices.size(); i += 1 + vertices.size() / 150) {
    const test::Spot3 p{vertices[i].x, vertices[i].y, vertices[i].z};
    if (p.z < 1) continue;  // a ring's foot is wider inwards than the form's
    if (meridian::distance_to(outside, {std::hypot(p.x, p.y), p.z}) > 1e-3) continue;  // flanges grow inside
    double nearest = 1e9;
    for (const auto& f : parts.facets) {
      const test::Spot3 &a = parts.corners[f[0]], &b = parts.corners[f[1]], &c = parts.corners[f[2]];
      if (std::min({a.z, b.z, c.z}) > p.z + nearest || std::max({a.z, b.z, c.z}) < p.z - nearest) continue;
      nearest = std::min(nearest, test::distance_to_facet(p, a, b, c));
    }
    filling.bare = std::max(filling.bare, nearest);
  }
  return filling;
}

double volume_of_parts(const Form& form) {
  double volume = 0;
  for (const PrintedPart& part : form.printed.parts) volume += test::mesh_volume(mesh_of(form, part));
  return volume;
}

// ---- beds --------------------------------------------------------------------------------------

// The issue's own table (least square beds of sectors, 1 + cos 45 deg and so on, tests/parts): a crown of
// 280 mm on beds of 180, 220, 256 and 300 mm less 2 mm each side.
TEST(PrintedParts, AsFewAsTheBedAllows) {
  for (const auto& [side, sectors] : {std::pair{180, 4}, {220, 3}, {256, 2}, {300, 1}}) {
    const std::string text = std::to_string(side);
    SCOPED_TRACE(text);
    const Form form = test::make(pc_block(on_bed(text + "x" + text + "x250")));
    EXPECT_EQ(form.printed.parts.size(), static_cast<std::size_t>(sectors));
    EXPECT_EQ(form.printed.joints.has_value(), sectors > 1);
    if (sectors > 1) {
      EXPECT_EQ(form.printed.parts.front().name, "sector-1");
      EXPECT_EQ(form.printed.joints->sectors, sectors);
      EXPECT_EQ(form.printed.joints->dowels, 3u) << "two in the crown, one in the underside";
    }
    EXPECT_TRUE(form.printed.fits_bed);
    EXPECT_TRUE(form.warnings.empty()) << testing::PrintToString(form.warnings);
    expect_on_their_beds(form);
    const Filling filling = filling_of(form);
    EXPECT_LE(filling.beyond, 0.21) << "a facet's corners lie on the form or within it";
    EXPECT_LE(filling.bare, 0.21 + 0.05) << "all of the form is covered, but for half a glue gap";
  }
}

TEST(PrintedParts, APrinterOfTheFolderIsItsBed) {
  const Form named = test::make(pc_block("printer = \"bed-220\"\n"));
  const Form written = test::make(pc_block(on_bed("220x220x250")));
  EXPECT_DOUBLE_EQ(named.printed.bed->width, 220);
  ASSERT_EQ(named.printed.parts.size(), written.printed.parts.size());
  EXPECT_TRUE(named.printed.parts[2].proven->mesh().vertices ==
              written.printed.parts[2].proven->mesh().vertices);
  EXPECT_FALSE(test::make(pc_block()).printed.bed) << "none is known";
}

// Solid sectors have no flanges: together they are the form less the glue gap at each joint (the area of the
// meridian section, by Pappus from nothing but its outline, times 0.1 mm) and less the dowels' holes.
TEST(PrintedParts, OfASolidBlockHoldWhatTheFormHolds) {
  order::Order order = test::read_order(pc_block(on_bed("220x220x250"), "[form]\nwall = \"solid\"\n"));
  order.mesh.chord_tolerance = Length::from_mm(0.02);
  const Form form = test::make(order);
  ASSERT_EQ(form.printed.parts.size(), 3u);
  double section = 0;
  for (const meridian::Segment& s : form.solid.shells.front().walk) {
    const int steps = s.is_arc() ? 200 : 1;
    for (int k = 0; k < steps; ++k) {
      const meridian::Point a = s.at(s.length() * k / steps), b = s.at(s.length() * (k + 1) / steps);
      section += (a.r * b.z - b.r * a.z) / 2;
    }
  }
  const JointFigures& joints = *form.printed.joints;
  const double gaps = 3 * std::abs(section) * joints.glue_gap;
  // Two holes a dowel, each 10.4 mm deep and wider by the clearance.
  const double holes = 3 * static_cast<double>(joints.dowels) * pi / 4 * 6.2 * 6.2 * 2 * 10.4;
  const double missing = test::mesh_volume(form.proven.mesh()) - volume_of_parts(form);
  EXPECT_NEAR(missing, gaps + holes, 400) << "what chords of 0.02 mm over 2,500 cm2 leave open: 0.08 %";
  EXPECT_NEAR(joints.dowel_length, 2 * 10.4, 1.1) << "a little shorter than its holes";
}

TEST(PrintedParts, OfAPuzzleAreTheFormToo) {
  const Form form = test::make(pc_block(on_bed("300x300x250"), "[puzzle]\npieces = 5\n"));
  ASSERT_EQ(form.printed.parts.size(), 6u);
  expect_on_their_beds(form);
  const Filling filling = filling_of(form);
  EXPECT_LE(filling.bare, 0.21 + 0.15) << "but for half a joint";
  EXPECT_FALSE(form.printed.joints) << "its joints are slides, without dowels";
}

TEST(PrintedParts, OfAPadAndOfTiersTurnBackIntoTheForm) {
  const std::string pad =
      "[measure]\ncrown_diameter = \"24 cm\"\nrise = \"3 cm\"\ntaken_at = \"form\"\n[form]\nkind = \"pad\"\n"
      "[mesh]\nchord_tolerance = \"0.2 mm\"\n[print]\nmaterial = \"pc\"\n";
  const Form sectors = test::make(pad + on_bed("180x180x100"));
  EXPECT_EQ(sectors.printed.parts.size(), 3u) << "1.259 radii of 120 are 151 mm, 1.707 are 205";
  // A solid block of 30 + 75 mm on a printer of 80 mm.
  const Form tiers =
      test::make(pc_block(on_bed("300x300x80"), "[form]\nwall = \"solid\"\ncollar = \"30 mm\"\n"));
  EXPECT_EQ(tiers.printed.joints->tiers, 2);
  for (const Form* form : {&sectors, &tiers}) {
    expect_on_their_beds(*form);
    const Filling filling = filling_of(*form);
    EXPECT_LE(filling.beyond, 0.21);
    EXPECT_LE(filling.bare, 0.21 + 0.05);
  }
}

// By the way up: the overhang and what the nozzle lays down are told of the part as it lies.
TEST(PrintedParts, AreJudgedAsTheyLie) {
  const Form form = test::make(pc_block(on_bed("220x220x250")));
  for (const PrintedPart& part : form.printed.parts) {
    const BoxOf own = test::placed_box(mesh_of(form, part), test::as_it_is);
    EXPECT_NEAR(part.figures.size.x, own.size(0), 2 * grid);
    EXPECT_NEAR(part.figures.size.z, own.size(2), 2 * grid);
    EXPECT_NEAR(part.figures.body.volume, test::mesh_volume(mesh_of(form, part)), 1);
    EXPECT_GT(part.figures.first_layer_area, 0);
  }
}

// ---- whole all the same ------------------------------------------------------------------------

TEST(PrintedParts, OfAFlooredBlockHaveAKeyForEachJoint) {
  const Form form =
      test::make(pc_block(on_bed("180x180x180"), "[form]\ncollar = \"15 mm\"\nfloor = \"4 mm\"\n"));
  ASSERT_EQ(form.printed.parts.size(), 8u);
  for (std::size_t k = 0; k < 4; ++k) {
    const PrintedPart& key = form.printed.parts[4 + k];
    EXPECT_EQ(key.name, "floor-key-" + std::to_string(k + 1));
    EXPECT_EQ(key.way_up, "foot down");
    EXPECT_LT(key.figures.size.z, 2) << "lies flat";
    // Back in the form it lies in the floor, in the middle of its thickness.
    const mesh::Point3 middle = key.to_form(key.figures.body.centre);
    EXPECT_NEAR(middle.z, 2, 1e-3);
  }
}

TEST(PrintedWhole, WhereTheOrderSaysNoneAndItIsSaid) {
  const Form form = test::make(pc_block(on_bed("180x180x200") + "split = \"none\"\n"));
  ASSERT_EQ(form.printed.parts.size(), 1u);
  EXPECT_EQ(form.printed.parts[0].name, "form");
  EXPECT_FALSE(form.printed.parts[0].proven) << "its file is the form's own";
  EXPECT_FALSE(form.printed.fits_bed);
  ASSERT_EQ(form.warnings.size(), 1u);
  EXPECT_NE(form.warnings[0].find("180 mm by 180 mm"), std::string::npos) << form.warnings[0];
  EXPECT_NE(form.warnings[0].find("split"), std::string::npos) << form.warnings[0];
  EXPECT_TRUE(test::make(pc_block(on_bed("300x300x200") + "split = \"none\"\n")).printed.fits_bed);
}

TEST(PrintedWhole, AWallUnderTwoLinesOfTheNozzleIsSaid) {
  EXPECT_TRUE(test::make(pc_block("nozzle = \"0.8 mm\"\n")).warnings.empty());
  EXPECT_FALSE(test::make(pc_block("nozzle = \"1.2 mm\"\n", "[form]\nwall = \"1.5 mm\"\n")).warnings.empty());
}

// ---- refusals ----------------------------------------------------------------------------------

TEST(PrintedRefusals, NameWhatWouldServe) {
  const auto refuses = [](const std::string& text, ExitCode exit, const std::string& what,
                          const std::string& allowed) {
    SCOPED_TRACE(text);
    const Fault fault = test::refusal_of(text);
    EXPECT_EQ(fault.exit, exit);
    EXPECT_NE(fault.what.find(what), std::string::npos) << fault.line();
    EXPECT_NE(fault.allowed.find(allowed), std::string::npos) << fault.line();
  };
  refuses(pc_block(on_bed("80x80x200")), ExitCode::impossible, "80 mm", "a bed of at least");
  refuses(pc_block("printer = \"nobodys\"\n"), ExitCode::order, "nobodys", "bed-220");
  // The collar's ring of the puzzle is 181.4 mm wide, the block above a loose ring 280 mm.
  refuses(pc_block(on_bed("120x120x250"), "[puzzle]\npieces = 5\n"), ExitCode::impossible,
          "ring does not fit on a bed of 120 mm", "181.");
  refuses(pc_block(on_bed("200x200x250"), "[puzzle]\npieces = 2\n"), ExitCode::impossible,
          "block does not fit on a bed of 200 mm", "2 mm free");
}

// Joints go through the axis, where the socket is. The widest circle of 280 mm and 2 mm free on each side
// take a bed of 284 mm: it is named, serves, and one of 283 mm does not.
TEST(PrintedRefusals, ASocketInJointsNamesTheBedThatServes) {
  for (const std::string form : {"wall = \"solid\"\n", "floor = \"6 mm\"\n"}) {
    SCOPED_TRACE(form);
    const std::string socket = "[form]\ncollar = \"15 mm\"\n" + form + "socket = \"25 mm\"\n";
    for (const std::string bed : {"220x220x250", "283x283x250"}) {
      const Fault fault = test::refusal_of(pc_block(on_bed(bed), socket));
      EXPECT_EQ(fault.exit, ExitCode::impossible);
      EXPECT_EQ(static_cast<int>(fault.exit), 3);
      EXPECT_NE(fault.what.find("where the socket is"), std::string::npos) << fault.line();
      EXPECT_NE(fault.what.find(bed.substr(0, 3) + " mm by " + bed.substr(0, 3) + " mm, 250 mm high"),
                std::string::npos)
          << fault.line();
      EXPECT_NE(fault.allowed.find("no socket"), std::string::npos) << fault.line();
      EXPECT_NE(fault.allowed.find("a bed of 284 mm each way"), std::string::npos) << fault.line();
    }
    const Form whole = test::make(pc_block(on_bed("284x284x250"), socket));
    EXPECT_EQ(whole.printed.parts.size(), 1u);
    EXPECT_TRUE(whole.printed.fits_bed);
    // Whole all the same, when the order says so.
    EXPECT_EQ(test::make(pc_block(on_bed("220x220x250") + "split = \"none\"\n", socket)).printed.parts.size(),
              1u);
  }
}

}  // namespace
}  // namespace crownwright::making
