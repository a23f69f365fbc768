#include "making/draft.h"

#include <algorithm>

#include "base/numbers.h"
#include "making/cut_cloth.h"
#include "pattern/draft.h"

namespace crownwright::making {
namespace {

using meridian::BeretValues;
using order::Order;
using pattern::Piece;
using Pieces = std::vector<Piece>;

/// A home sewer's counts; fewer make no round crown, more are narrower than they are worth (chosen).
constexpr int fewest_panels = 4, most_panels = 24;

double allowance_of(const Order& order) {
  return order.pattern.seam_allowance ? order.pattern.seam_allowance->mm() : usual_allowance;
}

/// "57 cm"
std::string size_text(double head_girth) { return number_text(head_girth / 10, 1) + " cm"; }

Result<Pieces> panels(const Order& order, const SolvedValues& solved, const std::string& size) {
  if (!order.pattern.panels)
    return order_fault("pattern.panels", "the number of panels is not written",
                       "write panels = 8 under [pattern], 4 to 24; or pieces = \"discs\" under [draft]");
  const int count = *order.pattern.panels;
  if (count < fewest_panels || count > most_panels)
    return order_fault("pattern.panels",
                       "panels are drafted for crowns of 4 to 24; this order has " + std::to_string(count),
                       "a number from 4 to 24");
  const auto crown = cut_parallels(solved.middle, solved.allowances.heat_shrink);
  if (!crown) return crown.fault();
  const auto net = pattern::draft_panel(*crown, {count, length_along(order)});
  if (!net) return net.fault();
  const auto edge = cut_discs(solved.middle, solved.allowances.heat_shrink);
  if (!edge) return edge.fault();
  return Pieces{pattern::panel_piece(*net, {allowance_of(order), edge->top, size})};
}

Result<Pieces> discs(const Order& order, const SolvedValues& solved, const std::string& size) {
  const auto cut = cut_discs(solved.middle, solved.allowances.heat_shrink);
  if (!cut) return cut.fault();
  return pattern::disc_pieces({cut->top, cut->ring_outer, cut->ring_inner, allowance_of(order), size});
}

Result<Done> add_band(const Order& order, double head_girth, const std::string& size, Pieces& pieces) {
  if (!order.band) return Done{};
  pattern::BandPlan plan;
  plan.head_girth = head_girth;
  plan.depth = order.band->depth.mm();
  plan.allowance = allowance_of(order);
  plan.strips = order.band->strips;
  if (order.band->elastic && order.band->elastic_stretched)
    plan.elastic = {order.band->elastic->mm(), order.band->elastic_stretched->mm()};
  plan.size = size;
  auto band = pattern::band_pieces(plan);
  if (!band) return band.fault().where.empty() ? band.fault().within("band") : band.fault();
  for (Piece& piece : *band) pieces.push_back(std::move(piece));
  return Done{};
}

Result<Pieces> cover(const Order& order, const SolvedValues& solved) {
  if (!order.cover)
    return order_fault("cover", "a pad's pattern is its cover, and the order has no [cover]",
                       "add a line [cover]; tuck and casing can be written below it");
  const auto top = pad_top(solved.form);
  if (!top) return top.fault();
  pattern::CoverPlan plan;
  const double side = std::max(0.0, top->back().to().z);
  plan.face_length = meridian::length(*top) + side;
  plan.tuck = order.cover->tuck.mm();
  plan.casing = order.cover->casing.mm();
  return Pieces{pattern::cover_piece(plan)};
}

}  // namespace

bool drafts_discs(const Order& order) {
  return order.draft && order.draft->pieces == order::DraftPieces::discs;
}

double band_girth(const Order& order, const SolvedValues& solved) {
  return order.measure.head_girth ? order.measure.head_girth->mm() : 2 * pi * solved.middle.b;
}

Result<Pieces> draft_pieces(const Order& order, const SolvedValues& solved) {
  if (order.form.kind == order::FormKind::pad) return cover(order, solved);
  const double head_girth = band_girth(order, solved);
  const std::string size = size_text(head_girth);
  auto pieces = drafts_discs(order) ? discs(order, solved, size) : panels(order, solved, size);
  if (!pieces) return pieces.fault();
  if (const auto band = add_band(order, head_girth, size, *pieces); !band) return band.fault();
  return pieces;
}

Result<Pieces> draft_order(const Order& order, const workshop::ProfileFolder& profiles) {
  const auto solved =
      order.form.kind == order::FormKind::pad ? solve_pad(order, profiles) : solve_block(order, profiles);
  if (!solved) return solved.fault();
  return draft_pieces(order, *solved);
}

}  // namespace crownwright::making
