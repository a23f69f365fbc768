#include <algorithm>
#include <limits>

#include "base/length.h"
#include "drawings/canvas.h"
#include "drawings/letter_of.h"
#include "drawings/paper.h"
#include "drawings/write_pieces.h"

namespace crownwright::drawings {
namespace {

using pattern::Polyline;
using pattern::Vec2;

constexpr double side_margin = 10;  // mm; home printers leave 3 to 7 blank (common practice, no source)
constexpr double foot_margin = 17;  // with the page's footer in it
constexpr double overlap = 10;      // mm a page shares with the next
constexpr double inset = 3;         // mm between the first page's frame and the pieces
constexpr double four_inches = 101.6;
constexpr double legend_height = 22;  // mm, of four lines

Polyline rectangle(double x, double y, double width, double height) {
  return {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
}

void draw(PdfCanvas& canvas, const Sheet& sheet) {
  for (const SheetPart& part : sheet.parts) {
    for (const SheetLine& line : part.lines) canvas.line(line);
    for (const SheetText& text : part.texts) canvas.text(text);
  }
}

void test_square(PdfCanvas& canvas, Vec2 at, double side, const std::string& says) {
  canvas.thin(rectangle(at.x, at.y, side, side), true, ink, 0.25);
  canvas.text({{at.x + side / 2, at.y + side / 2 - 3}, 4.2, false, true, says});
  canvas.text(
      {{at.x + side / 2, at.y + side / 2 + 3.5}, 2.9, false, false, "must measure " + says + " each way"});
}

void test_squares(PdfCanvas& canvas, Vec2 metric, Vec2 inches) {
  test_square(canvas, metric, 100, "100 mm");
  test_square(canvas, inches, four_inches, "4 in");
}

// --- tiles

// The pages of a sheet: how they cut it up and which of them show anything.
class Tiling {
 public:
  Tiling(const Sheet& sheet, PaperSides paper)
      : width_(paper.width - 2 * side_margin), height_(paper.height - side_margin - foot_margin) {
    columns_ = count(sheet.width + 2 * inset, width_);
    rows_ = count(sheet.height + 2 * inset, height_);
    used_.assign(static_cast<std::size_t>(columns_ * rows_), false);
    for (const SheetPart& part : sheet.parts) {
      for (const SheetLine& line : part.lines) touch(line);
      for (const SheetText& text : part.texts) touch(text.at);
    }
  }

  int columns() const { return columns_; }
  int rows() const { return rows_; }
  double width() const { return width_; }
  double height() const { return height_; }
  /// Of the page, on the sheet.
  Vec2 corner(int column, int row) const {
    return {column * (width_ - overlap) - inset, row * (height_ - overlap) - inset};
  }
  bool used(int column, int row) const { return used_[index(column, row)]; }
  bool has(int column, int row) const {
    return column >= 0 && row >= 0 && column < columns_ && row < rows_ && used(column, row);
  }
  int pages() const { return static_cast<int>(std::count(used_.begin(), used_.end(), true)); }

  /// "A1": rows by letter, columns by number.
  static std::string name(int column, int row) {
    return letter_of(static_cast<std::size_t>(row)) + count_text(static_cast<std::size_t>(column) + 1);
  }

 private:
  static int count(double length, double page) {
    return std::max(1, static_cast<int>(std::ceil((length - overlap) / (page - overlap) - 1e-9)));
  }
  std::size_t index(int column, int row) const { return static_cast<std::size_t>(row * columns_ + column); }

  void touch(Vec2 p) {
    for (int row = 0; row < rows_; ++row) {
      for (int column = 0; column < columns_; ++column) {
        const Vec2 q = p - corner(column, row);
        if (q.x >= 0 && q.y >= 0 && q.x <= width_ && q.y <= height_) used_[index(column, row)] = true;
      }
    }
  }

  // A point every few millimetres is enough to know a page.
  void touch(const SheetLine& line) {
    const std::size_t sides = line.points.size() - (line.closed ? 0 : 1);
    for (std::size_t i = 0; i < sides; ++i) {
      const Vec2 a = line.points[i], b = line.points[(i + 1) % line.points.size()];
      const int steps = 1 + static_cast<int>(pattern::norm(b - a) / 3);
      for (int k = 0; k <= steps; ++k) touch(a + static_cast<double>(k) / steps * (b - a));
    }
  }

  double width_, height_;
  int columns_ = 1, rows_ = 1;
  std::vector<bool> used_;
};

// A cross in a ring: laid one on the other when pages are joined.
void register_mark(PdfCanvas& canvas, Vec2 at) {
  canvas.thin({at - Vec2{3, 0}, at + Vec2{3, 0}}, false, pale, 0.2);
  canvas.thin({at - Vec2{0, 3}, at + Vec2{0, 3}}, false, pale, 0.2);
  canvas.ring(at, 1.5, pale, 0.2);
}

// The frame, and a dashed line where the neighbour's page begins.
void tile_marks(PdfCanvas& canvas, const Tiling& tiling, int column, int row) {
  const double w = tiling.width(), h = tiling.height();
  canvas.thin(rectangle(side_margin, side_margin, w, h), true, pale, 0.2);
  const double x = side_margin + w - overlap, y = side_margin + h - overlap;
  if (column + 1 < tiling.columns())
    canvas.thin({{x, side_margin}, {x, side_margin + h}}, false, pale, 0.2, 2);
  if (row + 1 < tiling.rows()) canvas.thin({{side_margin, y}, {side_margin + w, y}}, false, pale, 0.2, 2);
}

void neighbours(PdfCanvas& canvas, const Tiling& tiling, int column, int row) {
  const double w = tiling.width(), h = tiling.height();
  const auto note = [&](int c, int r, Vec2 at, bool upright) {
    if (tiling.has(c, r)) canvas.text({at, 2.6, upright, false, "join " + Tiling::name(c, r)}, pale);
  };
  note(column + 1, row, {side_margin + w - overlap / 2, side_margin + 24}, true);
  note(column - 1, row, {side_margin + overlap / 2, side_margin + 24}, true);
  note(column, row + 1, {side_margin + 24, side_margin + h - overlap / 2}, false);
  note(column, row - 1, {side_margin + 24, side_margin + overlap / 2}, false);
}

void marks_of_joins(PdfCanvas& canvas, const Tiling& tiling, int column, int row) {
  const double w = tiling.width(), h = tiling.height();
  for (const double x : {0.0, w - overlap}) {
    for (const double y : {0.0, h - overlap}) {
      const bool left = x == 0 && column == 0, right = x > 0 && column + 1 == tiling.columns();
      const bool top = y == 0 && row == 0, bottom = y > 0 && row + 1 == tiling.rows();
      if ((left || right) && (top || bottom)) continue;
      register_mark(canvas, {side_margin + x, side_margin + y});
    }
  }
}

// A rule of 100 mm on every page, and what the page is.
void footer(PdfCanvas& canvas, PaperSides paper, const std::string& title, const std::string& page) {
  const double y = paper.height - foot_margin + 5;
  Polyline bar = {
      {side_margin, y - 1.5}, {side_margin, y}, {side_margin + 100, y}, {side_margin + 100, y - 1.5}};
  canvas.thin(bar, false, ink, 0.25);
  canvas.text_from({side_margin + 103, y - 0.4}, 2.6, false, "100 mm when printed at 100 %");
  canvas.text_from({side_margin, y + 5}, 3.2, true, page);
  canvas.fitted_from({side_margin + 24, y + 5}, 2.6, false, title, paper.width - 2 * side_margin - 24);
}

void draw_tile(PdfCanvas& canvas, const Sheet& sheet, const Tiling& tiling, int column, int row) {
  canvas.clip(side_margin, side_margin, tiling.width(), tiling.height());
  const Vec2 corner = tiling.corner(column, row);
  canvas.place(-corner.x, -corner.y, 1);
  draw(canvas, sheet);
  canvas.restore();
  canvas.restore();
  tile_marks(canvas, tiling, column, row);
  marks_of_joins(canvas, tiling, column, row);
  neighbours(canvas, tiling, column, row);
}

// --- first page

void page_map(PdfCanvas& canvas, const Sheet& sheet, const Tiling& tiling, Vec2 at, double width,
              double height) {
  const Vec2 last = tiling.corner(tiling.columns() - 1, tiling.rows() - 1);
  const double whole_w = last.x + tiling.width() + inset, whole_h = last.y + tiling.height() + inset;
  const double scale = std::min(width / whole_w, height / whole_h);
  at = at + scale * Vec2{inset, inset};
  for (int row = 0; row < tiling.rows(); ++row) {
    for (int column = 0; column < tiling.columns(); ++column) {
      if (!tiling.used(column, row)) continue;
      const Vec2 corner = at + scale * tiling.corner(column, row);
      const double w = scale * tiling.width(), h = scale * tiling.height();
      canvas.thin(rectangle(corner.x, corner.y, w, h), true, pale, 0.2);
      const double size = std::min(5.0, 0.3 * std::min(w, h));
      canvas.text({corner + Vec2{w / 2, h / 2}, size, false, true, Tiling::name(column, row)}, pale);
    }
  }
  for (const SheetPart& part : sheet.parts) {
    for (const SheetLine& line : part.lines) {
      if (line.stroke != Stroke::cut && line.stroke != Stroke::opening) continue;
      Polyline points = line.points;
      for (Vec2& p : points) p = at + scale * p;
      canvas.thin(points, line.closed, ink, 0.25);
    }
  }
}

double lines_of_text(PdfCanvas& canvas, Vec2 at, const std::vector<std::string>& lines) {
  for (const std::string& line : lines) {
    canvas.text_from(at, 3, false, line);
    at.y += 5;
  }
  return at.y;
}

std::vector<std::string> how_to(const Tiling& tiling, Paper paper) {
  std::vector<std::string> lines = {
      std::string("Print at 100 % (actual size), on ") + (paper == Paper::a4 ? "A4" : "Letter") + ".",
      "Measure both squares before you cut."};
  if (tiling.pages() > 1) {
    lines.insert(lines.end(),
                 {"Cut one page at the dashed line,", "lay it on the next, cross on cross,", "and tape."});
  }
  return lines;
}

// What is to be cut: line by line, or smaller in columns where there is much of it; what finds no room even
// so is counted, and every piece bears its own name and count. Where it ends.
double list_pieces(PdfCanvas& canvas, const Sheet& sheet, Vec2 at, double width, double low) {
  constexpr std::size_t most_columns = 3;
  const std::size_t count = sheet.parts.size();
  const bool small = at.y + 5 * static_cast<double>(count) > low;
  const double step = small ? 3.8 : 5;
  const auto rows = std::max<std::size_t>(1, static_cast<std::size_t>((low - at.y) / step));
  const std::size_t columns = std::min(most_columns, (count + rows - 1) / rows);
  const double wide = width / static_cast<double>(std::max<std::size_t>(1, columns));
  for (std::size_t i = 0; i < std::min(count, rows * columns); ++i) {
    const SheetPart& part = sheet.parts[i];
    const bool is_last = i + 1 == rows * columns && count > rows * columns;
    const std::string words = is_last
                                  ? "and " + count_text(count - i) + " more"
                                  : part.name + ": cut " + count_text(static_cast<std::size_t>(part.count));
    canvas.fitted_from(at + Vec2{wide * static_cast<double>(i / rows), step * static_cast<double>(i % rows)},
                       small ? 2.6 : 3, false, words, wide - 2);
  }
  return at.y + step * static_cast<double>(std::min(rows, count));
}

void legend(PdfCanvas& canvas, Vec2 at) {
  const std::pair<Stroke, const char*> kinds[] = {
      {Stroke::cut, "cut line"}, {Stroke::sew, "sew line"}, {Stroke::fold, "fold"}, {Stroke::mark, "mark"}};
  for (const auto& [stroke, words] : kinds) {
    canvas.line({{at, at + Vec2{24, 0}}, false, stroke});
    canvas.text_from(at + Vec2{27, 0}, 2.8, false, words);
    at.y += 5;
  }
}

void first_page(PdfCanvas& canvas, const Sheet& sheet, const Tiling& tiling, const std::string& title,
                Paper paper) {
  const PaperSides sides = sides_of(paper);
  canvas.fitted_from({side_margin, 14}, 6, true, title, sides.width - 2 * side_margin);
  canvas.text_from({side_margin, 22}, 3.4, false,
                   "Pattern at true size: print at 100 %, " + std::to_string(tiling.pages()) +
                       (tiling.pages() == 1 ? " page" : " pages") + " after this one");
  test_squares(canvas, {side_margin, 32}, {side_margin, 142});
  const double x = side_margin + four_inches + 8;
  const double wide = sides.width - side_margin - x;
  page_map(canvas, sheet, tiling, {x, 32}, wide, 100);
  const double low = sides.height - foot_margin - legend_height;
  double y = lines_of_text(canvas, {x, 144}, how_to(tiling, paper));
  y = list_pieces(canvas, sheet, {x, y + 4}, wide, low);
  legend(canvas, {x, std::clamp(y + 4, 214.0, low)});
  footer(canvas, sides, title, "Map");
}

}  // namespace

std::string tiled_pdf(const std::vector<pattern::Piece>& pieces, const std::string& title, Paper paper) {
  const PaperSides size = sides_of(paper);
  const Sheet sheet = lay_out(pieces);
  const Tiling tiling(sheet, size);
  PdfCanvas canvas(size.width, size.height, title);
  first_page(canvas, sheet, tiling, title, paper);
  for (int row = 0; row < tiling.rows(); ++row) {
    for (int column = 0; column < tiling.columns(); ++column) {
      if (!tiling.used(column, row)) continue;
      canvas.next_page();
      draw_tile(canvas, sheet, tiling, column, row);
      footer(canvas, size, title, "Page " + Tiling::name(column, row));
    }
  }
  return canvas.finish();
}

std::string sheet_pdf(const std::vector<pattern::Piece>& pieces, const std::string& title) {
  constexpr double margin = 10, head = 16;
  const Sheet sheet = lay_out(pieces);
  const double width = std::max(sheet.width, 100 + 12 + four_inches) + 2 * margin;
  const double squares = head + sheet.height + 14;
  PdfCanvas canvas(width, squares + four_inches + margin + 8, title);
  canvas.fitted_from({margin, 9}, 5, true, title, width - 2 * margin);
  canvas.place(margin, head, 1);
  draw(canvas, sheet);
  canvas.restore();
  test_squares(canvas, {margin, squares}, {margin + 112, squares});
  canvas.text_from({margin, squares + four_inches + 6}, 3, false,
                   "Print at 100 % (actual size) and measure both squares before you cut.");
  return canvas.finish();
}

}  // namespace crownwright::drawings
