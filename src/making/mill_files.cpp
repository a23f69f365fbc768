#include "making/mill_files.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "drawings/milling_sheet.h"
#include "making/marked.h"
#include "meridian/nearest.h"
#include "milling/outline.h"

namespace crownwright::making {
namespace {

using drawings::Paper;

std::string setup_part(const milling::Setup& setup) {
  return setup.name.empty() ? std::string() : std::string(".").append(setup.name);
}

// "tier-2" is the name of files, "tier 2" what people read.
std::string spoken_name(std::string name) {
  std::replace(name.begin(), name.end(), '-', ' ');
  return name;
}

// ---- the picture -----------------------------------------------------------------------------

void add_arc(const simulation::Stroke& from, const simulation::Stroke& to,
             std::vector<drawings::CutPicture::At>& points) {
  const double radius = std::hypot(from.x - to.cx, from.y - to.cy);
  const double start = std::atan2(from.y - to.cy, from.x - to.cx);
  const int steps = std::max(2, static_cast<int>(std::abs(to.turn) / 0.1));
  for (int i = 1; i <= steps; ++i) {
    const double t = static_cast<double>(i) / steps, angle = start + to.turn * t;
    points.push_back(
        {to.cx + radius * std::cos(angle), to.cy + radius * std::sin(angle), from.z + (to.z - from.z) * t});
  }
}

bool is_arc(const simulation::Stroke& stroke) {
  return stroke.motion == simulation::Motion::clockwise ||
         stroke.motion == simulation::Motion::counterclockwise;
}

bool is_placed(const simulation::Stroke& stroke) {
  return stroke.known_x && stroke.known_y && stroke.known_z;
}

std::vector<drawings::CutPicture::Line> lines_of(const simulation::Program& program, int number) {
  std::vector<drawings::CutPicture::Line> lines;
  for (std::size_t i = 1; i < program.strokes.size(); ++i) {
    const simulation::Stroke &from = program.strokes[i - 1], &to = program.strokes[i];
    if (!is_placed(from)) continue;
    const bool rapid = to.motion == simulation::Motion::rapid;
    if (lines.empty() || lines.back().rapid != rapid)
      lines.push_back({{{from.x, from.y, from.z}}, rapid, number});
    if (is_arc(to))
      add_arc(from, to, lines.back().points);
    else
      lines.back().points.push_back({to.x, to.y, to.z});
  }
  return lines;
}

std::string picture_subtitle(const MilledSetup& made) {
  const simulation::Findings& found = made.findings;
  return std::string("deepest cut into the form ")
      .append(number_text(found.gouge_max, 3))
      .append(" mm, most left standing ")
      .append(number_text(found.rest_max, 3))
      .append(" mm; sampled every ")
      .append(number_text(found.cell, 2))
      .append(" mm");
}

drawings::CutPicture cut_picture(const order::Order& order, const MilledSetup& made) {
  drawings::CutPicture picture;
  picture.title = order.name;
  if (!made.setup.name.empty()) picture.title.append(", ").append(spoken_name(made.setup.name));
  picture.subtitle = picture_subtitle(made);
  picture.target = made.setup.target;
  const milling::Box& box = made.setup.stock;
  picture.x0 = box.x0, picture.y0 = box.y0, picture.x1 = box.x1, picture.y1 = box.y1, picture.z1 = box.z1;
  for (std::size_t i = 0; i < made.programs.size(); ++i) {
    picture.programs.push_back(
        std::string(pass_word(made.programs[i].pass)).append(", ").append(made.programs[i].tool));
    for (auto& line : lines_of(made.programs[i].read_back, static_cast<int>(i)))
      picture.lines.push_back(std::move(line));
  }
  picture.columns = made.findings.columns;
  picture.rows = made.findings.rows;
  picture.deviation = &made.findings.deviation;
  picture.scallop = order.mill->scallop.mm();
  return picture;
}

// ---- the glue-up sheet -----------------------------------------------------------------------

std::vector<std::string> sheet_notes(const Milled& milled) {
  std::vector<std::string> notes = milled.warnings;
  for (const std::string& caution : mill_cautions()) notes.push_back(caution);
  return notes;
}

void add_dowels(const milling::Plan& plan, drawings::GlueUp& sheet) {
  for (const milling::Hole& dowel : plan.stock.dowels)
    sheet.dowels.push_back({dowel.x, dowel.y, 2 * dowel.radius, 0, plan.stock.dowel_length});
}

drawings::GlueUp glue_up(const order::Order& order, const meridian::Chain& outer, const Milled& milled) {
  const milling::Plan& plan = milled.plan;
  drawings::GlueUp sheet;
  sheet.title = order.name;
  sheet.outer = outer;
  for (std::size_t i = 0; i < plan.slabs.size(); ++i) {
    const milling::Slab& slab = plan.slabs[i];
    const std::string name =
        plan.slabs.size() == 1 ? "the form" : std::string("tier ").append(std::to_string(i + 1));
    sheet.slabs.push_back({name, slab.bottom, slab.top, slab.flipped});
  }
  add_dowels(plan, sheet);
  sheet.sheet = plan.stock.sheet;
  sheet.side_x = plan.stock.side_x;
  sheet.side_y = plan.stock.side_y;
  sheet.sheets = plan.stock.sheets;
  for (const milling::GlueLine& line : plan.stock.glue_lines)
    if (line.cutter_meets) sheet.glue_lines_met.push_back(line.z);
  sheet.notes = sheet_notes(milled);
  return sheet;
}

// ---- the drilling template -------------------------------------------------------------------

milling::Hole in_form(const milling::Hole& hole, const milling::Setup& setup) {
  milling::Hole moved = hole;
  if (setup.flipped) moved.y = -hole.y;
  return moved;
}

bool is_drilled(double x, double y, const Milled& milled) {
  constexpr double same_place = 0.01;
  for (const MilledSetup& made : milled.setups)
    for (const milling::Hole& hole : made.setup.holes) {
      const milling::Hole there = in_form(hole, made.setup);
      if (std::hypot(there.x - x, there.y - y) < same_place) return true;
    }
  return false;
}

double first_angle(const solid::VentRing& ring) {
  for (int i = 0; i < ring.cells(); ++i)
    if (ring.has_vent[static_cast<std::size_t>(i)]) return ring.phase + 2 * pi * i / ring.cells();
  return ring.phase;
}

std::vector<drawings::VentMarks> rings_by_hand(const solid::Solid& solid, const meridian::Chain& outer,
                                               const Milled& milled) {
  std::vector<drawings::VentMarks> rings;
  if (solid.pole_vent && !is_drilled(0, 0, milled)) rings.push_back({0, 0, 1, 0, 0, 0});
  for (const solid::VentRing& ring : solid.rings) {
    const double r = ring.entry.r, angle = first_angle(ring);
    if (ring.count() == 0 || is_drilled(r * std::cos(angle), r * std::sin(angle), milled)) continue;
    const double tilt = std::acos(std::clamp(-ring.direction.z, -1.0, 1.0)) * 180 / pi;
    rings.push_back({meridian::nearest(outer, ring.entry), r, ring.count(), 2 * pi * r / ring.cells(),
                     std::fmod(angle * 180 / pi, 360.0), tilt,
                     ring.cells() > ring.count() ? ring.cells() : 0});
  }
  return rings;
}

bool are_dowels_drilled(const Milled& milled) {
  const auto& dowels = milled.plan.stock.dowels;
  return !dowels.empty() && is_drilled(dowels.front().x, dowels.front().y, milled);
}

// The slab at the tip is drilled from below by hand, where it takes dowels; the others too where the machine
// does not drill them.
void add_hand_holes(const Milled& milled, drawings::DrillTemplate& plan) {
  const milling::StockPlan& stock = milled.plan.stock;
  const bool by_hand_below = !are_dowels_drilled(milled);
  if (stock.dowels.empty() || (stock.dowel_depth <= 0 && !by_hand_below)) return;
  plan.face = stock.dowel_depth > 0 ? "tier 1, seen from below" : "all tiers but tier 1, seen from below";
  for (const milling::Setup& setup : milled.plan.setups)
    if (setup.name == "tier-1" && stock.dowel_depth > 0) plan.face_radius = setup.target.back().to().r;
  for (const milling::Hole& hole : stock.dowels)
    plan.holes.push_back({hole.x, -hole.y, 2 * hole.radius, stock.dowel_depth});
  if (stock.dowel_depth > 0 && by_hand_below)
    plan.notes.push_back(
        "Drill the same holes right through the other tiers; those milled upside down are marked through "
        "this sheet turned over.");
}

drawings::DrillTemplate drill_template(const order::Order& order, const solid::Solid& solid,
                                       const meridian::Chain& outer, const Milled& milled) {
  drawings::DrillTemplate plan;
  plan.title = order.name;
  plan.vent_diameter = 2 * solid.vent.radius;
  plan.rings = rings_by_hand(solid, outer, milled);
  add_hand_holes(milled, plan);
  return plan;
}

void add_pdfs(const std::string& ending, std::string a4, std::string letter, const order::Order& order,
              std::vector<ExtraFile>& files) {
  files.push_back({ending + ".a4.pdf", pdf_with_mark(std::move(a4), order)});
  files.push_back({ending + ".letter.pdf", pdf_with_mark(std::move(letter), order)});
}

}  // namespace

std::vector<ExtraFile> mill_files(const order::Order& order, const solid::Solid& solid,
                                  const Milled& milled) {
  std::vector<ExtraFile> files;
  for (const MilledSetup& made : milled.setups) {
    for (const MilledProgram& program : made.programs) files.push_back({program.ending, program.text});
    files.push_back({setup_part(made.setup).append(".mill.png"),
                     png_with_mark(drawings::cut_picture_png(cut_picture(order, made)), order)});
  }
  const auto outline = milling::outline_of(solid).value();
  const drawings::GlueUp sheet = glue_up(order, outline.outer, milled);
  add_pdfs(".glue-up", drawings::glue_up_pdf(sheet, Paper::a4), drawings::glue_up_pdf(sheet, Paper::letter),
           order, files);
  files.push_back({".glue-up.svg", svg_with_mark(drawings::glue_up_svg(sheet), order)});
  const drawings::DrillTemplate holes = drill_template(order, solid, outline.outer, milled);
  if (!holes.rings.empty() || !holes.holes.empty())
    add_pdfs(".drilling", drawings::drill_template_pdf(holes, Paper::a4),
             drawings::drill_template_pdf(holes, Paper::letter), order, files);
  return files;
}

}  // namespace crownwright::making
