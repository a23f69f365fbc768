#include "milling/stock.h"

#include <algorithm>
#include <cmath>

#include "milling/outline_cut.h"

namespace crownwright::milling {
namespace {

constexpr double nearly_whole = 1e-6;

StockPlan stock_of_pieces(const std::vector<Piece>& pieces, const Job& job) {
  const Box& box = pieces.front().setup.stock;
  StockPlan stock;
  stock.sheet = job.sheet;
  stock.side_x = box.x1 - box.x0;
  stock.side_y = box.y1 - box.y0;
  return stock;
}

}  // namespace

int layers_for(double height, double sheet) {
  return std::max(1, static_cast<int>(std::ceil(height / sheet - nearly_whole)));
}

double least_side(const std::vector<Piece>& pieces) {
  double trench = 0;
  for (const Piece& piece : pieces) trench = std::max(trench, piece.setup.trench);
  return std::ceil(2 * (trench + least_frame) - nearly_whole);
}

void give_sides(std::vector<Piece>& pieces, const Job& job) {
  const double least = least_side(pieces);
  const SheetSize size = job.stock_size.value_or(SheetSize{least, least});
  for (Piece& piece : pieces) {
    Box& box = piece.setup.stock;
    box = {-size.x / 2, -size.y / 2, 0, size.x / 2, size.y / 2, box.z1};
  }
}

StockPlan stock_of_tiers(const Outline& outline, const std::vector<Slab>& slabs,
                         const std::vector<Piece>& pieces, const Job& job) {
  StockPlan stock = stock_of_pieces(pieces, job);
  stock.sheets = static_cast<int>(slabs.size());
  for (std::size_t i = 1; i < slabs.size(); ++i)
    stock.glue_lines.push_back({slabs[i].top, radius_at(outline.outer, slabs[i].top), false});
  return stock;
}

StockPlan stock_of_lump(const Outline& outline, const std::vector<Piece>& pieces, const Job& job) {
  StockPlan stock = stock_of_pieces(pieces, job);
  stock.layers = layers_for(outline.height, job.sheet);
  stock.sheets = stock.layers;
  for (int k = stock.layers - 1; k > 0; --k)
    stock.glue_lines.push_back({k * job.sheet, radius_at(outline.outer, k * job.sheet), true});
  return stock;
}

}  // namespace crownwright::milling
