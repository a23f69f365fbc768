// The drilling template: a page of words, tables and the control square, then the pages at true size.
#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "base/printable.h"
#include "drawings/drill_template_pages.h"
#include "drawings/glue_up_views.h"
#include "drawings/letter_of.h"

namespace crownwright::drawings {
namespace {

using pattern::Polyline;
using pattern::Vec2;

constexpr double drill_words = 3, drill_line = 4.6;
constexpr double control_side = 50;  // mm
constexpr double ring_row = 5;

struct DrillColumn {
  double end;  ///< right edge of figures, from the margin; 0: the first column, from its left
  const char* title;
};

class DrillPages {
 public:
  DrillPages(const DrillTemplate& plan, PaperSides paper)
      : plan_(plan), drawing_(paper.width, paper.height), title_(printable(plan.title, 300)) {}

  std::string pdf() {
    head();
    ring_table();
    hole_table();
    notes();
    draw_drill_strip(drawing_, plan_);
    draw_drill_face(drawing_, plan_);
    feet();
    return drawing_.pdf(title_);
  }

 private:
  double inner() const { return drawing_.width() - 2 * drill_margin; }

  bool turn_page_for(double height) {
    if (y_ + height <= drawing_.height() - drill_foot - 2) return false;
    drawing_.next_page();
    y_ = drill_margin + 4;
    return true;
  }

  void heading(const std::string& words) {
    drawing_.text({drill_margin, y_}, words, {4, true});
    y_ += 6.5;
  }

  void head() {
    drawing_.fitted({drill_margin, 14}, title_, {6, true}, inner());
    drawing_.text({drill_margin, 22}, "Drilling template at true size: print at 100 % (actual size)", {3.4});
    drawing_.line({{drill_margin, 26.5}, {drawing_.width() - drill_margin, 26.5}}, {0.4, 0, {}});
    const Vec2 at{drill_margin, 32};
    drawing_.group("control-square");
    drawing_.line(
        {at, at + Vec2{control_side, 0}, at + Vec2{control_side, control_side}, at + Vec2{0, control_side}},
        {0.25, 0, {}}, true);
    drawing_.end();
    drawing_.text(at + Vec2{control_side / 2, control_side / 2 - 3}, "50 mm", {4.2, true, Anchor::middle});
    drawing_.text(at + Vec2{control_side / 2, control_side / 2 + 3.5}, "must measure 50 mm each way",
                  {2.7, false, Anchor::middle});
    y_ = 34;
    for (const std::string& step : steps()) paragraph(step, drill_margin + control_side + 8);
    y_ = std::max(y_ + 2, 32 + control_side + 8);
  }

  std::vector<std::string> steps() const {
    std::vector<std::string> all = {"Print at 100 % and measure the square before you drill."};
    if (!plan_.rings.empty()) {
      all.insert(
          all.end(),
          {"Vents: cut out the strip, pin its cross on the tip and lay it straight down over the crown at "
           "the "
           "centre front. Prick every ring; go round the form and prick the rings every few centimetres.",
           "Step the holes off along each ring with a tape or with dividers, from the first one on. Count "
           "them before you drill.",
           "Drill square to the surface. The table says how far the drill leans from upright, its upper end "
           "away from the tip."});
    }
    if (!plan_.holes.empty())
      all.push_back(
          "Holes in the flat face: prick the middle and the crosses through the plan, the arrow to the "
          "centre front. Tape on the drill marks the depth.");
    if (plan_.rings.empty() && plan_.holes.empty()) all.push_back("Nothing is drilled by hand.");
    return all;
  }

  void paragraph(const std::string& words, double x) {
    for (const std::string& line :
         drawing_.wrapped(words, drill_words, false, drawing_.width() - drill_margin - x)) {
      turn_page_for(drill_line);
      drawing_.text({x, y_}, line, {drill_words});
      y_ += drill_line;
    }
    y_ += 1;
  }

  // Figures are set to the right of their columns, so that they stand one below the other.
  void table_line(const std::vector<DrillColumn>& columns, const std::vector<std::string>& cells) {
    for (std::size_t k = 0; k < cells.size(); ++k) {
      const bool first = columns[k].end == 0;
      drawing_.text({drill_margin + columns[k].end, y_}, cells[k],
                    {drill_words, first, first ? Anchor::start : Anchor::end});
    }
    y_ += 3;
    drawing_.line({{drill_margin, y_}, {drawing_.width() - drill_margin, y_}}, {0.1, 0.6, {}});
    y_ += ring_row - 3;
  }

  // Titles of two lines.
  void table_head(const std::vector<DrillColumn>& columns) {
    for (const DrillColumn& column : columns) {
      const std::string title = column.title;
      const std::size_t cut = title.find('\n');
      const WorkText look{2.7, true, column.end == 0 ? Anchor::start : Anchor::end};
      drawing_.text({drill_margin + column.end, y_}, title.substr(0, cut), look);
      if (cut != std::string::npos)
        drawing_.text({drill_margin + column.end, y_ + 3.6}, title.substr(cut + 1), look);
    }
    y_ += 6.4;
    drawing_.line({{drill_margin, y_}, {drawing_.width() - drill_margin, y_}}, {0.3, 0, {}});
    y_ += 3;
  }

  void ring_table() {
    if (plan_.rings.empty()) return;
    const std::vector<DrillColumn> columns = {{0, "ring"},
                                              {32, "from the tip,\nmm"},
                                              {56, "radius,\nmm"},
                                              {74, "holes"},
                                              {98, "apart round\nthe girth, mm"},
                                              {122, "apart with\ndividers, mm"},
                                              {154, "first from centre\nfront, mm"},
                                              {184, "drill leans,\ndegrees"}};
    const std::string what = "Rings of vents, drill Ø " + number_text(plan_.vent_diameter, 1) + " mm";
    turn_page_for(28);
    heading(what);
    table_head(columns);
    for (std::size_t i = 0; i < plan_.rings.size(); ++i) {
      if (turn_page_for(ring_row)) {
        heading(what + ", continued");
        table_head(columns);
      }
      table_line(columns, ring_cells(i));
    }
    y_ += 1.5;
    const bool some_left_out = std::any_of(plan_.rings.begin(), plan_.rings.end(),
                                           [](const VentMarks& ring) { return ring.places > ring.count; });
    if (some_left_out)
      paragraph(
          "\"20 of 24\": step off all 24 places round the ring and leave out those that fall on a seam.",
          drill_margin);
    paragraph(
        "From the tip: along the surface. Holes are counted from the centre front counter-clockwise, seen "
        "from "
        "above. A drill that leans more than 90 degrees comes from below.",
        drill_margin);
    y_ += 3;
  }

  static std::string holes_of(const VentMarks& ring) {
    std::string text = count_text(static_cast<std::size_t>(std::max(0, ring.count)));
    if (ring.places > ring.count)
      text.append(" of ").append(count_text(static_cast<std::size_t>(ring.places)));
    return text;
  }

  std::vector<std::string> ring_cells(std::size_t i) const {
    const VentMarks& ring = plan_.rings[i];
    const double turn = ring.radius > 0 ? std::min(ring.apart / ring.radius, pi) : 0;
    const bool several = ring.count > 1;
    return {count_text(i + 1),
            number_text(ring.along, 1),
            number_text(ring.radius, 1),
            holes_of(ring),
            several ? number_text(ring.apart, 1) : std::string("\u2013"),
            several ? number_text(2 * ring.radius * std::sin(turn / 2), 1) : std::string("\u2013"),
            number_text(ring.first * pi / 180 * ring.radius, 1),
            number_text(ring.tilt, 1)};
  }

  void hole_table() {
    if (plan_.holes.empty()) return;
    const std::vector<DrillColumn> columns = {{0, "hole"},
                                              {32, "Ø, mm"},
                                              {60, "depth, mm"},
                                              {96, "from the middle\nto the front, mm"},
                                              {132, "to the left\nof it, mm"},
                                              {162, "from the\nmiddle, mm"},
                                              {184, "angle,\ndegrees"}};
    const std::string what =
        plan_.face.empty() ? std::string("Holes in the face") : printable(plan_.face, 200);
    turn_page_for(28);
    drawing_.fitted({drill_margin, y_}, what, {4, true}, inner());
    y_ += 6.5;
    table_head(columns);
    for (std::size_t i = 0; i < plan_.holes.size(); ++i) {
      if (turn_page_for(ring_row)) table_head(columns);
      const DrillTemplate::Hole& hole = plan_.holes[i];
      table_line(columns,
                 {letter_of(i), number_text(hole.diameter, 1),
                  hole.depth > 0 ? number_text(hole.depth, 1) : std::string("through"), signed_text(hole.x),
                  signed_text(hole.y), number_text(std::hypot(hole.x, hole.y), 1),
                  number_text(degrees_of(hole.x, hole.y), 1)});
    }
    y_ += 4;
  }

  // With a true minus sign.
  static std::string signed_text(double value) {
    const std::string text = number_text(std::abs(value), 1);
    return value < 0 && text != "0" ? "\u2212" + text : text;
  }

  void notes() {
    std::vector<std::string> all = plan_.notes;
    all.push_back(
        "Clamp the form before you drill; goggles, mask, no loose sleeves or hair. A small drill breaks: no "
        "force, and a shallow start with an awl keeps it from wandering.");
    all.push_back("The drill maker's manual and the board's data sheet stand above this sheet.");
    turn_page_for(16);
    heading("Take care");
    for (const std::string& note : all) paragraph(std::string("\u2013 ") + note, drill_margin);
  }

  void feet() {
    const double y = drawing_.height() - drill_foot + 5;
    for (std::size_t k = 0; k < drawing_.pages(); ++k) {
      drawing_.turn_to(k);
      drawing_.group(std::string("rule-") + count_text(k + 1));
      drawing_.line({{drill_margin, y - 1.5},
                     {drill_margin, y},
                     {drill_margin + 100, y},
                     {drill_margin + 100, y - 1.5}},
                    {0.25, 0, {}});
      drawing_.end();
      drawing_.text({drill_margin + 103, y - 0.4}, "100 mm when printed at 100 %", {2.6});
      const std::string page = "page " + count_text(k + 1) + " of " + count_text(drawing_.pages());
      drawing_.fitted({drill_margin, y + 5}, title_, {2.6}, inner() - 30);
      drawing_.text({drawing_.width() - drill_margin, y + 5}, page, {2.6, false, Anchor::end});
    }
  }

  const DrillTemplate& plan_;
  WorkDrawing drawing_;
  std::string title_;
  double y_ = 0;
};

}  // namespace

std::string drill_template_pdf(const DrillTemplate& plan, Paper paper) {
  return DrillPages(plan, sides_of(paper)).pdf();
}

}  // namespace crownwright::drawings
