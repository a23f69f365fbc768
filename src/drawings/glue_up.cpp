// The glue-up sheet: views, pieces to saw, steps and cautions, one below the other, on as many pages as it
// takes; as SVG on one sheet that is as high as it must be.
#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/printable.h"
#include "drawings/flat_meridian.h"
#include "drawings/glue_up_views.h"
#include "drawings/milling_sheet.h"

namespace crownwright::drawings {
namespace {

using pattern::Polyline;
using pattern::Vec2;

constexpr double glue_margin = 12, glue_foot = 16;  // mm; home printers leave 3 to 7 blank (common practice)
constexpr double glue_words = 3;                    // mm, of the font
constexpr double pictogram_row = 9.4, plain_row = 6;

// A lump told as one piece with glue lines, as its sheets: whole ones from the foot up, the uppermost may
// stand above the form.
GlueUp with_sheets(GlueUp sheet) {
  if (sheet.slabs.size() > 1 || sheet.glue_lines_met.empty()) return sheet;
  std::vector<double> planes = sheet.glue_lines_met;
  std::sort(planes.begin(), planes.end());
  planes.erase(std::unique(planes.begin(), planes.end()), planes.end());
  const MeridianSize size = size_of_meridian(flat_meridian(sheet.outer, 0.05));
  const double foot = sheet.slabs.empty() ? size.low : sheet.slabs[0].bottom;
  const double top = sheet.slabs.empty() ? size.high : sheet.slabs[0].top;
  planes.insert(planes.begin(), foot);
  planes.push_back(std::max(top, planes.back() + sheet.sheet));
  sheet.slabs.clear();
  for (std::size_t i = planes.size() - 1; i > 0; --i)
    sheet.slabs.push_back({"sheet " + count_text(planes.size() - i), planes[i - 1], planes[i], false});
  return sheet;
}

class GlueUpSheet {
 public:
  GlueUpSheet(const GlueUp& sheet, double width, double height, bool paged)
      : sheet_(with_sheets(sheet)),
        drawing_(width, height),
        paged_(paged),
        title_(printable(sheet.title, 300)) {
    outline_ = flat_meridian(sheet.outer, 0.05);
    y_ = glue_margin;
  }

  void draw() {
    head();
    if (outline_.size() > 1) {
      y_ += draw_glue_section(drawing_, sheet_, {glue_margin, y_}, inner()) + 3;
      turn_page_for(height_of_glue_plan(sheet_));
      y_ += draw_glue_plan(drawing_, sheet_, {glue_margin, y_}, inner()) + 3;
    }
    pieces();
    steps();
    notes();
    feet();
  }
  std::string pdf() const { return drawing_.pdf(title_); }
  std::string svg() const { return drawing_.svg(title_); }

 private:
  double inner() const { return drawing_.width() - 2 * glue_margin; }

  /// Room for so much more on this page, or a new one.
  bool turn_page_for(double height) {
    if (!paged_ || y_ + height <= drawing_.height() - glue_foot) return false;
    drawing_.next_page();
    y_ = glue_margin + 2;
    return true;
  }

  void head() {
    drawing_.fitted({glue_margin, y_ + 2.5}, title_, {6, true}, inner());
    y_ += 10;
    drawing_.fitted({glue_margin, y_}, what(), {3.4}, inner());
    y_ += 5;
    drawing_.line({{glue_margin, y_}, {drawing_.width() - glue_margin, y_}}, {0.4, 0, {}});
    y_ += 5;
  }

  std::string what() const {
    std::string text = "Glue-up sheet: ";
    text.append(count_text(sheet_.slabs.size())).append(sheet_.slabs.size() == 1 ? " piece" : " pieces");
    if (sheet_.sheet > 0)
      text.append(" out of board ").append(number_text(sheet_.sheet, 2)).append(" mm thick");
    if (sheet_.slabs.size() > 1)
      text.append(is_lump(sheet_) ? ", glued into one lump, then cut" : ", each cut first, then glued");
    return text;
  }

  void heading(const std::string& words) {
    drawing_.text({glue_margin, y_ + 2.5}, words, {4, true});
    y_ += 8;
  }

  // --- pieces

  struct Column {
    double at;
    const char* title;
  };
  std::vector<Column> columns() const {
    const double from = glue_margin;
    if (is_lump(sheet_))
      return {{from, "piece"}, {from + 34, "saw to, mm"}, {from + 84, "lies, mm above the foot"}};
    return {{from, "piece"},
            {from + 28, "saw to, mm"},
            {from + 64, "finished, mm"},
            {from + 87, "above the foot"},
            {from + 113, "as it lies on the machine"}};
  }

  void table_head() {
    for (const Column& column : columns()) drawing_.text({column.at, y_}, column.title, {2.7, true});
    y_ += 3;
    drawing_.line({{glue_margin, y_}, {drawing_.width() - glue_margin, y_}}, {0.25, 0, {}});
  }

  std::string sawn_size() const {
    if (!(sheet_.side_x > 0)) return "";
    return number_text(sheet_.side_x, 1) + " × " + number_text(sheet_.side_y, 1) + " × " +
           number_text(sheet_.sheet, 2);
  }

  void pieces() {
    const double row = is_lump(sheet_) ? plain_row : pictogram_row;
    turn_page_for(26 + row);
    heading("Pieces to saw");
    std::string count = count_text(static_cast<std::size_t>(std::max(0, sheet_.sheets)));
    count += sheet_.sheets == 1 ? " piece" : " pieces";
    if (sheet_.side_x > 0)
      count.append(", each ").append(sawn_size()).append(" mm (length × width × thickness)");
    for (const std::string& line :
         drawing_.wrapped(count.append(". Measure the board: glue lines fall at its "
                                       "true thickness, not the one it is sold by."),
                          glue_words, false, inner())) {
      drawing_.text({glue_margin, y_}, line, {glue_words});
      y_ += 4.6;
    }
    y_ += 1.5;
    if (sheet_.slabs.empty()) return;
    table_head();
    for (const GlueSlab& slab : sheet_.slabs) {
      if (turn_page_for(row)) {
        heading("Pieces to saw, continued");
        table_head();
      }
      piece(slab, row);
    }
    y_ += 5;
  }

  void piece(const GlueSlab& slab, double row) {
    const double middle = y_ + row / 2;
    const auto at = columns();
    const auto cell = [&](std::size_t k, const std::string& words, bool bold = false) {
      const double end = k + 1 < at.size() ? at[k + 1].at : drawing_.width() - glue_margin;
      drawing_.fitted({at[k].at, middle}, words, {glue_words, bold}, end - at[k].at - 2);
    };
    const std::string lies = number_text(slab.bottom, 2) + " to " + number_text(slab.top, 2);
    cell(0, slab.name, true);
    cell(1, sawn_size());
    if (is_lump(sheet_)) {
      cell(2, lies);
    } else {
      cell(2, number_text(slab.top - slab.bottom, 2) + " thick");
      cell(3, lies);
      pictogram(slab, {at[4].at, middle}, row);
    }
    y_ += row;
    drawing_.line({{glue_margin, y_}, {drawing_.width() - glue_margin, y_}}, {0.12, 0.6, {}});
  }

  // The piece from the side as it lies, on the table's line, with an arrow to the tip.
  void pictogram(const GlueSlab& slab, Vec2 at, double row) {
    const MeridianSize size = size_of_meridian(outline_);
    constexpr double wide = 21;
    const double high = row - 3.4;
    Polyline part = section_between(outline_, slab.bottom, slab.top);
    // Thin pieces are drawn thicker than they are, to be seen.
    const double thick = std::max(slab.top - slab.bottom, 1e-3);
    const double scale = std::min(wide / std::max(2 * size.radius, 1e-3), high / thick);
    const double upward = std::max(scale, 1.6 / thick);
    const double table = at.y + row / 2 - 1.6;
    for (Vec2& p : part) {
      const double up = slab.flipped ? slab.top - p.y : p.y - slab.bottom;
      p = {at.x + wide / 2 + scale * p.x, table - upward * up};
    }
    drawing_.fill(part, 0.82);
    if (part.size() > 2) drawing_.line(part, {0.3, 0, {}}, true);
    drawing_.line({{at.x - 0.5, table}, {at.x + wide + 0.5, table}}, {0.6, 0, {}});
    const double x = at.x + wide + 3.5, half = 2.6, sign = slab.flipped ? -1 : 1;
    const Vec2 tip{x, at.y - sign * half};
    drawing_.line({{x, at.y + sign * half}, tip}, {0.4, 0, {}});
    drawing_.fill({tip, tip + Vec2{1.1, sign * 2.2}, tip + Vec2{-1.1, sign * 2.2}}, 0);
    drawing_.fitted({x + 3, at.y},
                    slab.flipped ? "TURNED OVER, tip side down" : "as in the form, tip side up",
                    {2.8, slab.flipped}, drawing_.width() - glue_margin - x - 3);
  }

  // --- words

  void paragraph(const std::string& mark, const std::string& words) {
    const auto lines = drawing_.wrapped(words, glue_words, false, inner() - 7);
    bool first = true;
    for (const std::string& line : lines) {
      turn_page_for(4.6);
      if (first) drawing_.text({glue_margin, y_}, mark, {glue_words, true});
      drawing_.text({glue_margin + 7, y_}, line, {glue_words});
      first = false;
      y_ += 4.6;
    }
    y_ += 0.8;
  }

  std::vector<std::string> way_to_glue() const {
    const auto& slabs = sheet_.slabs;
    if (slabs.empty()) return {};
    if (slabs.size() == 1)
      return {
          "Saw the piece. Pencil a cross through its middle on the upper face: the machine starts from "
          "there.",
          "Nothing is glued."};
    std::vector<std::string> steps;
    const std::string foot = slabs.back().name, tip = slabs.front().name;
    if (is_lump(sheet_)) {
      steps = {
          std::string("Saw all pieces. Pencil their names on them: ") + tip + " is uppermost, " + foot +
              " is the foot.",
          "Spread glue thinly over the whole face, no lumps. Lay the pieces up edge to edge and clamp them "
          "between flat boards.",
          "Leave it clamped as long as the glue's data sheet says, then mark the middle of the upper face "
          "and cut the lump with its programs."};
    } else {
      steps = {
          "Saw all pieces, pencil each one's name and an arrow to the centre front on it.",
          "Cut each piece with the programs of its name, lying as drawn in the list, the arrow to +X of the "
          "machine. A "
          "piece that is turned over is turned about its arrow, so that the centre front stays where it is. "
          "Pencil the arrow on again before the piece leaves the machine.",
          sheet_.dowels.empty()
              ? std::string("Stack them dry and look at the whole form before any glue.")
              : std::string("Stack them dry on their dowels and look at the whole form before any glue; the "
                            "dowels stand in the same holes through all pieces."),
          "Glue from the foot up: " + order_of_gluing(),
          "Spread the glue thin and even, wipe off at once what comes out; clamp over a flat board with "
          "paper between. Leave it as "
          "long as the glue's data sheet says."};
    }
    return steps;
  }

  std::string order_of_gluing() const {
    const auto& slabs = sheet_.slabs;
    std::string order = std::string("lay ") + printable(slabs.back().name, 80) + " foot down";
    if (slabs.size() > 6) {
      order.append(", then ")
          .append(printable(slabs[slabs.size() - 2].name, 80))
          .append(" on it and so on up to ");
      return order.append(printable(slabs.front().name, 80)).append(".");
    }
    for (std::size_t i = slabs.size() - 1; i-- > 0;)
      order.append(", then ").append(printable(slabs[i].name, 80));
    return order.append(" on top.");
  }

  void steps() {
    const auto all = way_to_glue();
    if (all.empty()) return;
    turn_page_for(is_lump(sheet_) ? 40 : 60);
    heading("In this order");
    std::size_t n = 0;
    for (const std::string& step : all) paragraph(count_text(++n), step);
    y_ += 2;
  }

  // Dust, eyes and machine come with the notes; what is said here is the saw's and the glue's alone.
  void notes() {
    std::vector<std::string> all = sheet_.notes;
    all.push_back("Saw with the board held down, fingers away from the blade.");
    all.push_back("The glue's data sheet and the saw maker's manual stand above this sheet too.");
    turn_page_for(22);
    heading("Take care");
    for (const std::string& note : all) paragraph("\u2013", note);
  }

  void feet() {
    if (!paged_) {
      drawing_.set_height(y_ + glue_margin);
      return;
    }
    const double y = drawing_.height() - 9;
    for (std::size_t k = 0; k < drawing_.pages(); ++k) {
      drawing_.turn_to(k);
      const std::string page = "page " + count_text(k + 1) + " of " + count_text(drawing_.pages());
      drawing_.fitted({glue_margin, y}, title_, {2.6}, inner() - 30);
      drawing_.text({drawing_.width() - glue_margin, y}, page, {2.6, false, Anchor::end});
    }
  }

  const GlueUp sheet_;
  WorkDrawing drawing_;
  bool paged_;
  std::string title_;
  Polyline outline_;
  double y_ = 0;
};

}  // namespace

std::string glue_up_pdf(const GlueUp& sheet, Paper paper) {
  const PaperSides sides = sides_of(paper);
  GlueUpSheet drawn(sheet, sides.width, sides.height, true);
  drawn.draw();
  return drawn.pdf();
}

std::string glue_up_svg(const GlueUp& sheet) {
  GlueUpSheet drawn(sheet, sides_of(Paper::a4).width, sides_of(Paper::a4).height, false);
  drawn.draw();
  return drawn.svg();
}

}  // namespace crownwright::drawings
