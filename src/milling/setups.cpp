#include "milling/setups.h"

#include <algorithm>
#include <cmath>

#include "meridian/offset.h"
#include "milling/outline_cut.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Segment;

constexpr double at_face = 1e-6;  // mm

Chain stretch_as_it_lies(const Outline& outline, const Stretch& stretch) {
  const Chain part = between(outline.outer, stretch.top, stretch.bottom);
  return stretch.flipped ? upside_down(part, stretch.face_down)
                         : meridian::translated(part, -stretch.face_down);
}

// The rough tool's outermost ring clears what is to be left on the foot; the ball, beside an upright foot,
// reaches a whole diameter out.
double trench_radius(double foot, const Job& job) {
  return foot + std::max(job.finish.diameter + trench_gap, job.rough.diameter + job.leave);
}

bool begins_on_face(const Setup& setup) {
  const Segment& first = setup.target.front();
  return !first.is_arc() && first.from().z == first.to().z &&
         std::abs(first.to().z - setup.stock.z1) < at_face;
}

}  // namespace

double form_height(const Setup& setup, double z) {
  return setup.flipped ? setup.face_down_z - z : z + setup.face_down_z;
}

Result<Piece> piece_of(const Outline& outline, const Stretch& stretch, const Job& job) {
  Seen seen = seen_from_above(stretch_as_it_lies(outline, stretch));
  const Result<Chain> centres = meridian::offset(seen.target, job.finish.radius());
  if (!centres) return centres.fault();
  Piece piece;
  piece.stretch = stretch;
  piece.centres = *centres;
  piece.bridges = std::move(seen.bridges);
  piece.widest = seen.target.back().to().r;
  Setup& setup = piece.setup;
  setup.name = stretch.name;
  setup.target = std::move(seen.target);
  setup.flipped = stretch.flipped;
  setup.face_down_z = stretch.face_down;
  setup.stock.z1 = stretch.stock;
  setup.safe = stretch.stock + safe_height;
  setup.top_is_face = begins_on_face(setup);
  setup.trench = trench_radius(piece.widest, job);
  // Beside a slope the ball rolls on round the foot's edge, or a fin would stand there.
  setup.lowest = setup.target.back().to().z - job.finish.radius();
  for (Bridge& bridge : piece.bridges) bridge.deepest.z = form_height(setup, bridge.deepest.z);
  return piece;
}

}  // namespace crownwright::milling
