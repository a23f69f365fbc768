#include "parts/release_ring.h"

#include <algorithm>
#include <stdexcept>

#include "meridian/refusal.h"
#include "mesh/mesher.h"
#include "parts/puzzle_form.h"
#include "solid/walk_builder.h"

namespace crownwright::parts {
namespace {

using meridian::Chain;
using meridian::Point;
using solid::Role;
using solid::WalkBuilder;

constexpr double thickest_lip = 4, thinnest_lip = 1.2;  // mm
constexpr double solid_rim = 8;  // mm between a solid block's face and the recess for the lip
constexpr double recess_spare = 0.5;

/// Radii that ring and block share.
struct Register {
  double inside = 0;  ///< of the block
  double lip_out = 0, lip_in = 0;
};

Register register_of(const solid::Solid& form, const CutForm& cut, double clearance) {
  Register r;
  r.inside = cut.inner.empty() ? cut.radius() - solid_rim : cut.inner_radius();
  r.lip_out = r.inside - clearance / 2;
  r.lip_in = r.lip_out - (form.wall > 0 ? std::clamp(form.wall, thinnest_lip, thickest_lip) : thickest_lip);
  return r;
}

/// The walk's segments above the cut have the roles they had.
void add_outer(WalkBuilder& walk, const Chain& outer, const std::vector<Role>& roles) {
  for (std::size_t i = 0; i < outer.size(); ++i) walk.along({outer[i]}, roles[i]);
}

solid::Shell block_walk(const solid::Shell& whole, const CutForm& cut, const Register& r) {
  WalkBuilder walk(cut.outer.front().from());
  add_outer(walk, cut.outer, whole.roles);
  if (cut.inner.empty()) {
    const double top = cut.cut + register_height + recess_spare;
    walk.line_to({r.inside, cut.cut}, Role::foot);
    walk.line_to({r.inside, top}, Role::socket);
    walk.line_to({0, top}, Role::socket);
    return walk.shell(false);
  }
  walk.line_to(cut.inner.front().from(), Role::foot).along(cut.inner, Role::inner);
  for (std::size_t i = 0; i < whole.walk.size(); ++i)
    if (whole.roles[i] == Role::pole_vent) walk.along({whole.walk[i]}, Role::pole_vent);
  return walk.shell(whole.closed);
}

/// What lies behind the foot has moved along the walk by what was cut off it.
void move_openings(solid::Solid& block, double by) {
  const solid::Shell& shell = block.shells.front();
  double inner_starts = 0;
  for (std::size_t i = 0; i < shell.walk.size(); ++i)
    if (shell.roles[i] == Role::foot) inner_starts = shell.starts[i + 1];
  for (solid::VentRing& ring : block.rings) {
    for (solid::Span* span : {&ring.inner.loop, &ring.inner.strip}) span->from -= by, span->to -= by;
    ring.inner.strip.from = std::max(ring.inner.strip.from, inner_starts);
  }
}

/// Round the ring: outer face, foot, bore, out at 45 degrees under the lip, lip, joint.
solid::Shell ring_walk(const CutForm& cut, const Register& r) {
  const Point start = cut.outer.back().to(), foot = cut.skirt.back().to();
  WalkBuilder walk(start);
  walk.along(cut.skirt, Role::collar);
  const double bore = std::min(r.inside, foot.r - 1), slope = bore - r.lip_in;
  const bool straight = slope <= 0 || cut.cut < slope + 2;
  walk.line_to({straight ? std::min(r.lip_in, bore) : bore, 0}, Role::foot);
  if (!straight)
    walk.line_to({bore, cut.cut - slope - 1}, Role::inner).line_to({r.lip_in, cut.cut - 1}, Role::inner);
  const double lip = cut.cut + register_height;
  walk.line_to({walk.at().r, lip}, Role::inner);
  walk.line_to({r.lip_out, lip}, Role::inner);
  walk.line_to({r.lip_out, cut.cut}, Role::inner);
  walk.line_to(start, Role::foot);
  return walk.shell(true);
}

}  // namespace

Result<LooseRing> cut_loose_ring(const solid::Solid& form, double clearance) {
  LooseRing made;
  made.cut = ring_cut(form);
  if (made.cut < least_ring) {
    return impossible_fault(
        "the collar of " + meridian::mm_text(form.head_line.z) + " leaves no loose ring",
        "a collar of at least " + meridian::least_text(form.head_line.z - made.cut + least_ring));
  }
  const auto cut = cut_faces(form, made.cut);
  if (!cut) return cut.fault();
  const Register r = register_of(form, *cut, clearance);
  if (r.lip_in < 5)
    return impossible_fault("the head is too narrow for a ring with a lip",
                            "a thinner wall, or no loose ring");
  made.block = form;
  made.block.shells = {block_walk(form.shells.front(), *cut, r)};
  move_openings(made.block, form.shells.front().length() - made.block.shells.front().length());
  made.ring.shells = {ring_walk(*cut, r)};
  made.ring.has_head_line = false;
  made.ring.head_line = {};
  return made;
}

meridian::Chain outer_face(const solid::Solid& form, double cut) {
  auto faces = cut_form(form, cut);
  if (!faces) throw std::logic_error("a face was asked for of a form that has no loose ring");
  return std::move(faces->outer);
}

Result<std::vector<Part>> build_loose_ring(const LooseRing& ring, double tolerance) {
  std::vector<Part> parts;
  for (const auto& [name, solid] : {std::pair{"ring", &ring.ring}, std::pair{"block", &ring.block}}) {
    auto built = mesh::build_mesh(*solid, tolerance);
    if (!built) return built.fault();
    parts.push_back({name, std::move(built->mesh), solid->expected_pieces(), solid->expected_genus()});
  }
  return parts;
}

}  // namespace crownwright::parts
