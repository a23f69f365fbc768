#pragma once
// A form to look at while its figures are still being changed: everything that make_form says of it but the
// proof, at a coarse tolerance, in a few milliseconds. Nothing of it is ever written to a file that is made
// from.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "making/form.h"
#include "making/planned.h"
#include "mesh/placement.h"
#include "mesh/triangle_mesh.h"
#include "order/order.h"
#include "parts/bed.h"
#include "printing/bed.h"
#include "workshop/profiles.h"

namespace crownwright::making {

/// Chosen: on a screen 800 dots wide a form of 300 mm shows no more.
inline constexpr double preview_tolerance = 0.3;  // mm

struct Preview {
  order::Order order;
  PlannedForm planned;
  /// Whose section is the form's all round: the planned one; of a puzzle the massive block, since its pieces
  /// have walls and ribs of their own, which no single section shows.
  solid::Solid shown;
  FormFigures figures;  ///< of the form in one piece
  VentFigures vents;
  double volume = 0;         ///< mm3 of what is made: the form, or its pieces together
  MaterialFigures material;  ///< of that volume
  /// What is made, standing in its place, not proved: the form in one piece, posts as bodies of their own,
  /// nothing engraved; or its pieces together.
  mesh::TriangleMesh mesh;
  std::optional<printing::Bed> bed;
  parts::BedPlan bed_plan;
  bool fits_bed = true;
  Pressed pressed;
  std::optional<Released> released;
  std::optional<parts::Stack> stack;
  std::optional<MillPlan> mill;
  std::optional<FormFit> fit;
  std::vector<pattern::Piece> pieces;
  std::vector<std::string> warnings;  ///< as make_form's, but what only the printed parts and the paths tell
};

/// Faults as make_form's, save those that only the proof, the printed parts and the trial of programs find.
/// Same order and profiles, same preview.
Result<Preview> make_preview(const order::Order& order, const workshop::ProfileFolder& profiles);

/// A part in its place in the form.
struct PreviewPart {
  std::string name;
  mesh::TriangleMesh mesh;
  mesh::Point3 out;  ///< unit vector: the way it is drawn aside to show it
  int step = 1;      ///< order of taking apart; parts that are glued are counted through
};

/// The pieces of a puzzle, the parts that are cut to fit the bed, or the form alone. Faults (impossible): the
/// parts cannot be cut as the order says.
Result<std::vector<PreviewPart>> preview_parts(const Preview& preview);

}  // namespace crownwright::making
