#include "making/printed.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "making/form_posts.h"
#include "making/marks_of.h"
#include "meridian/refusal.h"
#include "parts/tiers.h"
#include "printing/way_up.h"
#include "proof/prover.h"
#include "solid/faces.h"
#include "workshop/printer.h"

namespace crownwright::making {
namespace {

using order::Order;

/// Where no printer is known: larger than any form.
constexpr double open_floor = 1000;
/// Stands for "no thin wall" where the form is solid, mm.
constexpr double no_wall = 20;

Result<std::optional<printing::Bed>> bed_of(const Order& order, const workshop::ProfileFolder& profiles) {
  printing::Bed bed;
  if (order.print.bed) {
    bed.width = order.print.bed->width.mm();
    bed.depth = order.print.bed->depth.mm();
    bed.height = order.print.bed->height.mm();
    return std::optional(bed);
  }
  if (order.print.printer.empty()) return std::optional<printing::Bed>();
  const auto printer = workshop::find_printer(profiles, order.print.printer);
  if (!printer) return printer.fault();
  bed.width = printer->width.value.mm();
  bed.depth = printer->depth.value.mm();
  bed.height = printer->height.value.mm();
  return std::optional(bed);
}

printing::PrintQuestion question_of(const Order& order, const PrintedQuestion& question) {
  printing::PrintQuestion print;
  print.density = question.density;
  print.smallest_wall = question.wall_min > 0 ? question.wall_min : no_wall;
  print.settings.nozzle = order.print.nozzle.mm();
  print.settings.infill = order.print.infill;
  return print;
}

// ---- cutting to fit --------------------------------------------------------------------------

/// A part as it comes from the cutting, with the faces it may be laid on.
struct Piece {
  parts::Part part;
  std::vector<printing::DownFace> faces;
};

Result<parts::SplitPlan> split_plan(const Order& order, const solid::Solid& solid,
                                    const parts::BedPlan& bed_plan, double bed_height) {
  parts::SplitPlan plan;
  plan.sectors = bed_plan.sectors;
  plan.dowel = order.print.dowel.mm();
  plan.dowel_clearance = order.print.dowel_clearance.mm();
  plan.glue_gap = order.print.glue_gap.mm();
  if (bed_plan.tiers == 1) return plan;
  auto cuts = parts::level_cuts(solid, bed_plan.tiers, bed_height, plan);
  if (!cuts) return cuts.fault();
  plan.level_cuts = *std::move(cuts);
  return plan;
}

// Marks and posts go into the parts too; the text keeps within one of them.
Result<parts::Extras> extras_for(const Order& order, const solid::Solid& solid, const parts::BedPlan& plan) {
  const auto marks = marks_of(order, solid, {plan.sectors, 0});
  if (!marks) return marks.fault();
  return parts::Extras{marks->value_or(parts::Marks{}), form_posts(order, solid, plan.sectors)};
}

// The loose keys that lie in the floor, one in each joint.
void add_floor_keys(const parts::Split& split, const parts::SplitPlan& plan, std::vector<Piece>& pieces) {
  std::size_t number = 0;
  for (const double joint : split.joint_angles) {
    for (const parts::KeySlot& slot : split.slots) {
      parts::Part key = parts::floor_key(slot, plan, joint);
      key.name.append("-").append(count_text(++number));
      pieces.push_back({std::move(key), {{"foot down", {0, 0, -1}}}});
    }
  }
}

JointFigures joint_figures(const Order& order, const parts::BedPlan& plan, const parts::Split& split) {
  JointFigures figures;
  figures.sectors = plan.sectors;
  figures.tiers = plan.tiers;
  figures.dowels = plan.sectors > 1 ? split.dowels.size() : split.uprights.size();
  figures.keys = split.slots.size();
  figures.dowel = order.print.dowel.mm();
  figures.dowel_length = split.dowel_length;
  figures.glue_gap = order.print.glue_gap.mm();
  figures.vents_left_out = split.vents_left_out;
  return figures;
}

Result<std::vector<Piece>> cut_to_fit(const Order& order, const solid::Solid& solid,
                                      const parts::BedPlan& plan, Printed& printed) {
  const auto extras = extras_for(order, solid, plan);
  if (!extras) return extras.fault();
  const auto cutting = split_plan(order, solid, plan, printed.bed->height);
  if (!cutting) return cutting.fault();
  auto cut = parts::split_form(solid, *cutting, order.mesh.chord_tolerance.mm(), *extras);
  if (!cut) return cut.fault();
  printed.joints = joint_figures(order, plan, *cut);
  printed.vents = 0;
  std::vector<Piece> pieces;
  for (parts::SplitPart& one : cut->parts) {
    printed.vents += one.vents;
    std::vector<printing::DownFace> faces = {{"foot down", one.foot_down}};
    if (plan.sectors > 1) faces.push_back({"joint down", one.joint_down});
    pieces.push_back({std::move(one.part), std::move(faces)});
  }
  add_floor_keys(*cut, *cutting, pieces);
  return pieces;
}

std::vector<printing::DownFace> all_faces(const mesh::TriangleMesh& mesh) {
  std::vector<printing::DownFace> faces = printing::foot_and_crown();
  for (printing::DownFace& face : printing::plane_faces(mesh)) faces.push_back(std::move(face));
  return faces;
}

// ---- laying on the bed -----------------------------------------------------------------------

printing::Bed bed_or_floor(const std::optional<printing::Bed>& bed) {
  return bed ? *bed : printing::Bed{open_floor, open_floor, open_floor};
}

// The best that fits; where none does, the first, and that it does not fit.
printing::WayUp chosen_way(const mesh::TriangleMesh& mesh, const std::vector<printing::DownFace>& faces,
                           const printing::Bed& bed) {
  const auto ways = printing::ways_up(mesh, faces, bed);
  if (const auto best = printing::best_way_up(ways)) return ways[*best];
  const auto fitting = std::find_if(ways.begin(), ways.end(), [](const auto& way) { return way.fits; });
  return fitting == ways.end() ? ways.front() : *fitting;
}

std::string bed_words(const printing::Bed& bed) {
  return meridian::mm_text(bed.width) + " by " + meridian::mm_text(bed.depth) + ", " +
         meridian::mm_text(bed.height) + " high";
}

// Joints go through the axis, where the socket is: a post would drive them apart.
Fault socket_in_joints(const printing::Bed& bed, const solid::Solid& solid) {
  const double widest = solid::extent_of(solid).outer;
  return impossible_fault(
      "on a bed of " + bed_words(bed) + " the form is cut through its middle, where the socket is",
      "no socket and an open foot, or a bed of " + meridian::mm_text(std::ceil(2 * (widest + bed.margin))) +
          " each way");
}

Fault too_large(const std::string& name, const printing::WayUp& way, const printing::Bed& bed) {
  return impossible_fault(name + " does not fit on a bed of " + bed_words(bed),
                          "it takes " + meridian::mm_text(way.width) + " by " + meridian::mm_text(way.depth) +
                              ", " + meridian::mm_text(way.height) + " high, and " +
                              meridian::mm_text(bed.margin) + " free on each side");
}

Result<Done> add_piece(Piece piece, const printing::Bed& bed, const printing::PrintQuestion& print,
                       Printed& printed) {
  const printing::WayUp way = chosen_way(piece.part.mesh, piece.faces, bed);
  if (!way.fits) return too_large(piece.part.name, way, bed);
  auto proven = proof::Prover::prove_part(piece.part.name, mesh::placed(piece.part.mesh, way.placement),
                                          piece.part.pieces, piece.part.genus);
  if (!proven) return proven.fault();
  PrintedPart part;
  part.name = piece.part.name;
  part.to_form = way.placement.inverse();
  part.way_up = way.name;
  part.figures = printing::judge_print(proven->mesh(), print);
  part.proven = *std::move(proven);
  printed.parts.push_back(std::move(part));
  return Done{};
}

void add_whole(const proof::Proven& whole, const printing::Bed& bed, const printing::PrintQuestion& print,
               Printed& printed) {
  const printing::WayUp way = chosen_way(whole.mesh(), printing::foot_and_crown(), bed);
  PrintedPart part;
  part.name = "form";
  part.way_up = way.name;
  part.fits = way.fits;
  part.on_bed = way.placement;
  part.figures = printing::judge_print(whole.mesh(), print, way.placement);
  printed.fits_bed = way.fits;
  printed.parts.push_back(std::move(part));
}

Result<Done> lay_out(const printing::Bed& bed, Printed& printed) {
  std::vector<printing::PartOnBed> outlines;
  for (const PrintedPart& part : printed.parts)
    outlines.push_back(printing::part_on_bed(part.name, part.proven->mesh()));
  const auto plates = printing::lay_on_plates(outlines, bed);
  if (!plates) return plates.fault();
  printed.plates = plates->count;
  for (std::size_t k = 0; k < printed.parts.size(); ++k) {
    printed.parts[k].on_bed = plates->spots[k].placement;
    printed.parts[k].plate = plates->spots[k].plate;
  }
  return Done{};
}

void warn_of_print(Printed& printed) {
  if (printed.bed && !printed.fits_bed) {
    printed.warnings.push_back("the form does not fit on the bed of " + bed_words(*printed.bed) +
                               ", and [print] split = \"none\" keeps it whole");
  }
  const printing::WallLines& wall = printed.parts.front().figures.wall;
  if (!wall.enough) printed.warnings.push_back(wall.note);
}

Result<std::vector<Piece>> pieces_of(const Order& order, const PrintedQuestion& question,
                                     const Released& released, const workshop::ProfileFolder& profiles,
                                     Printed& printed) {
  std::vector<Piece> pieces;
  for (const parts::Part& part : released.pieces) pieces.push_back({part, all_faces(part.mesh)});
  if (!pieces.empty()) return pieces;
  const auto plan = bed_plan_of(order, question.solid, profiles);
  if (!plan) return plan.fault();
  if (plan->sectors * plan->tiers == 1) return pieces;
  return cut_to_fit(order, question.solid, *plan, printed);
}

}  // namespace

Result<parts::BedPlan> bed_plan_of(const Order& order, const solid::Solid& solid,
                                   const workshop::ProfileFolder& profiles) {
  const auto bed = bed_of(order, profiles);
  if (!bed) return bed.fault();
  if (!*bed || order.puzzle || order.print.split == order::Split::none) return parts::BedPlan{};
  auto plan = parts::plan_for_bed(solid, {(*bed)->width, (*bed)->depth, (*bed)->height, (*bed)->margin});
  if (plan && plan->sectors > 1 && order.form.socket) return socket_in_joints(**bed, solid);
  return plan;
}

Result<Printed> print_of(const Order& order, const PrintedQuestion& question, const Released& released,
                         const workshop::ProfileFolder& profiles) {
  Printed printed;
  const auto bed = bed_of(order, profiles);
  if (!bed) return bed.fault();
  printed.bed = *bed;
  printed.vents = released.vents;
  auto pieces = pieces_of(order, question, released, profiles, printed);
  if (!pieces) return pieces.fault();
  const printing::Bed floor = bed_or_floor(printed.bed);
  const printing::PrintQuestion print = question_of(order, question);
  for (Piece& piece : *pieces) {
    const auto added = add_piece(std::move(piece), floor, print, printed);
    if (!added) return added.fault();
  }
  if (printed.parts.empty()) {
    add_whole(question.whole, floor, print, printed);
  } else if (const auto laid = lay_out(floor, printed); !laid) {
    return laid.fault();
  }
  warn_of_print(printed);
  return printed;
}

}  // namespace crownwright::making
