#include "milling/plan_attempt.h"

#include <algorithm>

#include "milling/dowels.h"
#include "milling/plan_warnings.h"
#include "milling/stock.h"
#include "milling/tiers.h"
#include "milling/unreached.h"
#include "milling/vent_holes.h"

namespace crownwright::milling {
namespace {

constexpr double widest_at_tip = 1e-6;  // mm

struct Layout {
  std::vector<Slab> slabs;
  std::vector<Stretch> stretches;  // in the order in which they are cut
};

Layout in_one(const Outline& outline, const Job& job) {
  const double stock = layers_for(outline.height, job.sheet) * job.sheet;
  return {{{0, outline.height, false}}, {{"", 0, outline.height, false, 0, stock}}};
}

// The foot lies in the lump's one face, so that after turning it and the frame lie flat together. A form that
// is widest at its tip is seen whole from its foot.
Layout turned_over(const Outline& outline, const Job& job) {
  const double stock = layers_for(outline.height, job.sheet) * job.sheet;
  if (outline.height - outline.equator < widest_at_tip)
    return {{{0, outline.height, true}}, {{"under", 0, outline.height, true, outline.height, stock}}};
  return {{{0, outline.height, false}},
          {{"under", 0, outline.equator, true, stock, stock},
           {"top", outline.equator, outline.height, false, 0, stock}}};
}

Result<Layout> in_tiers(const Outline& outline, const Job& job) {
  Result<std::vector<Slab>> slabs = tier_slabs(outline, job);
  if (!slabs) return slabs.fault();
  Layout layout{*slabs, {}};
  if (layout.slabs.size() == 1) return in_one(outline, job);
  for (const Slab& slab : layout.slabs) {
    const std::string name = std::string("tier-") + std::to_string(layout.stretches.size() + 1);
    layout.stretches.push_back(
        {name, slab.bottom, slab.top, slab.flipped, slab.flipped ? slab.top : slab.bottom, job.sheet});
  }
  return layout;
}

Result<Layout> layout_of(const Outline& outline, const Job& job, Way way) {
  if (way == Way::tiers) return in_tiers(outline, job);
  return way == Way::one ? in_one(outline, job) : turned_over(outline, job);
}

Result<std::vector<Piece>> pieces_of(const Outline& outline, const Layout& layout, const Job& job) {
  std::vector<Piece> pieces;
  for (const Stretch& stretch : layout.stretches) {
    Result<Piece> piece = piece_of(outline, stretch, job);
    if (!piece) return piece.fault();
    pieces.push_back(std::move(*piece));
  }
  give_sides(pieces, job);
  return pieces;
}

// Turned over, a vent is drilled from the tip alone: that piece then answers for the whole height, and its
// stretch says so from here on.
std::vector<Piece*> set_to_drill(std::vector<Piece>& pieces, Way way) {
  if (way == Way::turn_over) {
    if (!pieces.back().stretch.flipped) pieces.back().stretch.bottom = 0;
    return {&pieces.back()};
  }
  std::vector<Piece*> all;
  for (Piece& piece : pieces) all.push_back(&piece);
  return all;
}

void list_unreached(Plan& plan, const Outline& outline, const std::vector<Piece>& pieces, double radius) {
  for (const Piece& piece : pieces) {
    for (const auto& places : {tight_corners(piece, outline, radius), undercuts(piece, outline)})
      plan.unreached.insert(plan.unreached.end(), places.begin(), places.end());
  }
}

}  // namespace

Result<Attempt> attempt(const Outline& outline, const solid::Solid& solid, const Job& job, Way way) {
  const Result<Layout> layout = layout_of(outline, job, way);
  if (!layout) return layout.fault();
  Result<std::vector<Piece>> pieces = pieces_of(outline, *layout, job);
  if (!pieces) return pieces.fault();
  Attempt attempt;
  Plan& plan = attempt.plan;
  plan.slabs = layout->slabs;
  plan.vents = add_vent_holes(solid, job, set_to_drill(*pieces, way));
  plan.stock = plan.slabs.size() > 1 ? stock_of_tiers(outline, plan.slabs, *pieces, job)
                                     : stock_of_lump(outline, *pieces, job);
  if (plan.slabs.size() > 1)
    add_dowels(outline, upright_bores(solid), job, plan.slabs, *pieces, plan.stock, plan.warnings);
  list_unreached(plan, outline, *pieces, job.finish.radius());
  attempt.lacks = lacks_of(*pieces, job);
  for (Piece& piece : *pieces) plan.setups.push_back(std::move(piece.setup));
  add_warnings(plan, solid, job);
  if (plan.setups.size() == 2 && way == Way::turn_over) plan.warnings.push_back(turn_over_warning());
  return attempt;
}

bool can_be_cut(const Outline& outline, const solid::Solid& solid, const Job& job, Way way) {
  const Result<Attempt> tried = attempt(outline, solid, job, way);
  return tried && tried->lacks.empty();
}

}  // namespace crownwright::milling
