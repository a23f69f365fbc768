#include "drawings/lettering.h"

#include <algorithm>
#include <limits>
#include <optional>

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Piece;
using pattern::Polyline;
using pattern::Vec2;

constexpr double leading = 1.45;    // line to line, in ems
constexpr double clear = 1.2;       // mm between writing and lines
constexpr double label_size = 2.4;  // mm

struct Box {
  double left, top, right, bottom;
};

Box grown(Box b, double by) { return {b.left - by, b.top - by, b.right + by, b.bottom + by}; }

bool meet(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

// Liang and Barsky's clipping (1984): does any of the side lie in the box?
bool meets(const Box& box, Vec2 a, Vec2 b) {
  double from = 0, to = 1;
  const auto clip = [&](double step, double room) {
    if (step == 0) return room >= 0;
    const double at = room / step;
    if (step < 0)
      from = std::max(from, at);
    else
      to = std::min(to, at);
    return from <= to;
  };
  return clip(a.x - b.x, a.x - box.left) && clip(b.x - a.x, box.right - a.x) &&
         clip(a.y - b.y, a.y - box.top) && clip(b.y - a.y, box.bottom - a.y);
}

bool inside(const Outline& loop, Vec2 p) {
  bool in = false;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Vec2 a = loop[i], b = loop[(i + 1) % loop.size()];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) in = !in;
  }
  return in;
}

// What is taken already.
class Room {
 public:
  explicit Room(const Piece& piece) : piece_(piece) {
    add_loop(piece.cut);
    for (const Outline& loop : piece.cut_holes) add_loop(loop);
    for (const Outline& loop : piece.sew) add_loop(loop);
    lines_.push_back({piece.grain_from, piece.grain_to});
    for (const pattern::Mark& mark : piece.marks) lines_.push_back(mark.line);
    for (const pattern::Notch& n : piece.notches) lines_.push_back({n.on_cut, n.on_cut + n.inward});
  }

  bool is_free(const Box& wanted) const {
    const Box box = grown(wanted, clear);
    for (const Box& other : boxes_) {
      if (meet(box, other)) return false;
    }
    for (const Polyline& line : lines_) {
      for (std::size_t i = 1; i < line.size(); ++i) {
        if (meets(box, line[i - 1], line[i])) return false;
      }
    }
    return on_cloth({(box.left + box.right) / 2, (box.top + box.bottom) / 2});
  }

  void take(const Box& box) { boxes_.push_back(box); }

 private:
  void add_loop(Outline loop) {
    if (loop.empty()) return;
    loop.push_back(loop.front());
    lines_.push_back(std::move(loop));
  }

  bool on_cloth(Vec2 p) const {
    if (!inside(piece_.cut, p)) return false;
    return std::none_of(piece_.cut_holes.begin(), piece_.cut_holes.end(),
                        [&](const Outline& hole) { return inside(hole, p); });
  }

  const Piece& piece_;
  std::vector<Polyline> lines_;
  std::vector<Box> boxes_;
};

struct Line {
  std::string text;
  double scale = 1;  // of the block's size
  bool bold = false;
};

std::vector<Line> lines_of(const Piece& piece) {
  std::vector<Line> lines = {{piece.name, 1.5, true}, {"cut " + std::to_string(piece.count), 1.15, true}};
  if (!piece.size.empty()) lines.push_back({"size " + piece.size, 1, false});
  for (const std::string& note : piece.notes) lines.push_back({note, 1, false});
  return lines;
}

double height_of(const std::vector<Line>& lines, double size) {
  double sum = 0;
  for (const Line& line : lines) sum += leading * size * line.scale;
  return sum;
}

double width_of(const std::vector<Line>& lines, double size) {
  double most = 0;
  for (const Line& line : lines) most = std::max(most, text_width(line.text, size * line.scale, line.bold));
  return most;
}

// The block from its top middle; upright, the block is turned about its own middle.
struct Block {
  std::vector<Line> lines;
  double size = 3;
  bool upright = false;
  Vec2 middle;

  Box box() const {
    double half_w = width_of(lines, size) / 2, half_h = height_of(lines, size) / 2;
    if (upright) std::swap(half_w, half_h);
    return {middle.x - half_w, middle.y - half_h, middle.x + half_w, middle.y + half_h};
  }

  std::vector<SheetText> texts() const {
    std::vector<SheetText> out;
    double down = -height_of(lines, size) / 2;
    for (const Line& line : lines) {
      const double step = leading * size * line.scale;
      const double off = down + step / 2;
      // Read from the right: the lines follow one another to the right.
      const Vec2 at = upright ? Vec2{middle.x + off, middle.y} : Vec2{middle.x, middle.y + off};
      out.push_back({at, size * line.scale, upright, line.bold, line.text});
      down += step;
    }
    return out;
  }
};

constexpr double sizes[] = {4.5, 4, 3.6, 3.2, 2.9, 2.6, 2.3, 2};

// At the place meant for it, or a little further down or up.
std::optional<Block> fitted(const Piece& piece, const Room& room, std::vector<Line> lines, bool upright,
                            double least) {
  Block block{std::move(lines), 0, upright, {}};
  for (const double size : sizes) {
    if (size < least) break;
    block.size = size;
    const double half = (upright ? width_of(block.lines, size) : height_of(block.lines, size)) / 2;
    for (const double shift : {0.0, 4.0, 8.0, 14.0, 20.0, 28.0, -6.0, -12.0}) {
      block.middle = {piece.text_at.x, piece.text_at.y + half - size + shift};
      if (room.is_free(block.box())) return block;
    }
  }
  return std::nullopt;
}

Block below(const Piece& piece, std::vector<Line> lines) {
  double left = std::numeric_limits<double>::infinity(), right = -left, bottom = -left;
  for (const Vec2 p : piece.cut) {
    left = std::min(left, p.x), right = std::max(right, p.x), bottom = std::max(bottom, p.y);
  }
  Block block{std::move(lines), 2.9, false, {}};
  block.middle = {(left + right) / 2, bottom + 3 + height_of(block.lines, block.size) / 2};
  return block;
}

Block main_block(const Piece& piece, const Room& room) {
  const std::vector<Line> all = lines_of(piece);
  if (const auto block = fitted(piece, room, all, false, 2.9)) return *block;
  if (const auto block = fitted(piece, room, all, true, 2.3)) return *block;
  if (const auto block = fitted(piece, room, all, false, 2)) return *block;
  if (const auto block = fitted(piece, room, all, true, 2)) return *block;
  return below(piece, all);
}

Box box_of(const SheetText& text) {
  double half_w = text_width(text.text, text.size, text.bold) / 2, half_h = 0.6 * text.size;
  if (text.upright) std::swap(half_w, half_h);
  return {text.at.x - half_w, text.at.y - half_h, text.at.x + half_w, text.at.y + half_h};
}

bool place(Room& room, const SheetText& text, std::vector<SheetText>& out) {
  if (!room.is_free(box_of(text))) return false;
  room.take(box_of(text));
  out.push_back(text);
  return true;
}

// Beyond the sew line, in the direction of the notch; tried a little further in where lines are in the way.
void label_notch(const pattern::Notch& notch, Room& room, std::vector<SheetText>& out) {
  const Vec2 in = (1 / pattern::norm(notch.inward)) * notch.inward;
  const double half = text_width(notch.says, label_size, false) / 2 * std::abs(in.x) + 0.6 * label_size;
  for (const double further : {4.0, 7.0, 10.0, 13.0, 17.0}) {
    if (place(room, {notch.on_cut + (half + further) * in, label_size, false, false, notch.says}, out))
      return;
  }
}

void label_mark(const pattern::Mark& mark, Room& room, std::vector<SheetText>& out) {
  const auto count = static_cast<double>(mark.line.size() - 1);
  for (const double f : {0.5, 0.12, 0.88, 0.3, 0.7}) {
    const auto i = std::min(mark.line.size() - 2, static_cast<std::size_t>(f * count));
    const double g = mark.line.size() == 2 ? f : 0.5;
    const Vec2 a = mark.line[i], b = mark.line[i + 1];
    const bool steep = std::abs(b.y - a.y) > std::abs(b.x - a.x);
    const double off = 0.6 * label_size + clear + 0.6;
    for (const double side : {-1.0, 1.0}) {
      const Vec2 by = steep ? Vec2{side * off, 0} : Vec2{0, side * off};
      if (place(room, {a + g * (b - a) + by, label_size, steep, false, mark.says}, out)) return;
    }
  }
}

void label_grain(const Piece& piece, Room& room, std::vector<SheetText>& out) {
  const Vec2 along = piece.grain_to - piece.grain_from;
  if (pattern::norm(along) == 0) return;  // no grain line
  const bool steep = std::abs(along.y) > std::abs(along.x);
  const double off = 0.6 * label_size + clear + 0.6;
  for (const double f : {0.75, 0.5, 0.3}) {
    for (const double side : {-1.0, 1.0}) {
      const Vec2 by = steep ? Vec2{side * off, 0} : Vec2{0, side * off};
      if (place(room, {piece.grain_from + f * along + by, label_size, steep, false, "grain"}, out)) return;
    }
  }
}

}  // namespace

std::vector<SheetText> letter(const Piece& piece) {
  Room room(piece);
  const Block block = main_block(piece, room);
  std::vector<SheetText> texts = block.texts();
  room.take(block.box());
  label_grain(piece, room, texts);
  for (const pattern::Mark& mark : piece.marks) {
    if (!mark.says.empty() && mark.line.size() >= 2) label_mark(mark, room, texts);
  }
  for (const pattern::Notch& notch : piece.notches) {
    if (!notch.says.empty() && pattern::norm(notch.inward) > 0) label_notch(notch, room, texts);
  }
  return texts;
}

}  // namespace crownwright::drawings
