#include "drawings/sheet.h"

#include <algorithm>
#include <limits>
#include <map>

#include "base/ascii.h"
#include "drawings/lettering.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Piece;
using pattern::Polyline;
using pattern::Vec2;

constexpr double between = 12;     // mm from piece to piece
constexpr double row_width = 640;  // mm, unless a piece is wider
constexpr double arrow = 3.5;      // mm

std::string id_of(const std::string& name) {
  std::string id;
  for (const char c : lower_case(name)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    id += plain ? c : '-';
  }
  return id.empty() ? "piece" : id;
}

// Both arms of an arrow head at `tip`.
Polyline arrow_head(Vec2 tip, Vec2 from) {
  const Vec2 back = (arrow / pattern::norm(from - tip)) * (from - tip);
  const Vec2 side{-0.35 * back.y, 0.35 * back.x};
  return {tip + back + side, tip, tip + back - side};
}

void add_grain(const Piece& piece, std::vector<SheetLine>& lines) {
  if (pattern::norm(piece.grain_to - piece.grain_from) < 2 * arrow) return;
  lines.push_back({{piece.grain_from, piece.grain_to}, false, Stroke::grain});
  lines.push_back({arrow_head(piece.grain_from, piece.grain_to), false, Stroke::grain});
  lines.push_back({arrow_head(piece.grain_to, piece.grain_from), false, Stroke::grain});
}

std::vector<SheetLine> lines_of(const Piece& piece) {
  std::vector<SheetLine> lines = {{piece.cut, true, Stroke::cut}};
  for (const Outline& loop : piece.cut_holes) lines.push_back({loop, true, Stroke::opening});
  for (const Outline& loop : piece.sew) lines.push_back({loop, true, Stroke::sew});
  for (const pattern::Notch& n : piece.notches) {
    lines.push_back({{n.on_cut, n.on_cut + n.inward}, false, Stroke::notch});
  }
  add_grain(piece, lines);
  for (const pattern::Mark& mark : piece.marks) {
    lines.push_back({mark.line, false, mark.says == "fold" ? Stroke::fold : Stroke::mark});
  }
  return lines;
}

struct Bounds {
  Vec2 low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  Vec2 high{-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  void take(Vec2 p) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
};

Bounds bounds_of(const SheetPart& part) {
  Bounds bounds;
  for (const SheetLine& line : part.lines) {
    for (const Vec2 p : line.points) bounds.take(p);
  }
  for (const SheetText& text : part.texts) {
    double half_w = text_width(text.text, text.size, text.bold) / 2, half_h = 0.7 * text.size;
    if (text.upright) std::swap(half_w, half_h);
    bounds.take(text.at - Vec2{half_w, half_h});
    bounds.take(text.at + Vec2{half_w, half_h});
  }
  return bounds;
}

void move_by(SheetPart& part, Vec2 by) {
  for (SheetLine& line : part.lines) {
    for (Vec2& p : line.points) p = p + by;
  }
  for (SheetText& text : part.texts) text.at = text.at + by;
}

std::vector<SheetPart> parts_of(const std::vector<Piece>& pieces) {
  std::map<std::string, int> seen;
  std::vector<SheetPart> parts;
  for (const Piece& piece : pieces) {
    std::string id = id_of(piece.name);
    const int which = ++seen[id];
    if (which > 1) id.append("-").append(std::to_string(which));
    parts.push_back({id, piece.name, piece.count, lines_of(piece), letter(piece)});
  }
  return parts;
}

}  // namespace

double text_width(const std::string& text, double size, bool bold) {
  const auto letters = std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;  // not a continuation byte
  });
  return static_cast<double>(letters) * size * (bold ? 0.68 : 0.6);
}

Sheet lay_out(const std::vector<Piece>& pieces) {
  Sheet sheet{parts_of(pieces), 0, 0};
  double x = 0, y = 0, row_height = 0;
  for (SheetPart& part : sheet.parts) {
    const Bounds bounds = bounds_of(part);
    const Vec2 size = bounds.high - bounds.low;
    if (x > 0 && x + size.x > row_width) x = 0, y += row_height + between, row_height = 0;
    move_by(part, Vec2{x, y} - bounds.low);
    sheet.width = std::max(sheet.width, x + size.x);
    sheet.height = std::max(sheet.height, y + size.y);
    row_height = std::max(row_height, size.y);
    x += size.x + between;
  }
  return sheet;
}

}  // namespace crownwright::drawings
