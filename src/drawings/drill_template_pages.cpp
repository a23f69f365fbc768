#include "drawings/drill_template_pages.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/length.h"
#include "drawings/chart_scale.h"
#include "drawings/letter_of.h"

namespace crownwright::drawings {
namespace {

using pattern::Polyline;
using pattern::Vec2;

const WorkStroke cut_out{0.35, 0, {3, 1.5}}, mark_stroke{0.35, 0, {}},
    middle_stroke{0.2, 0.3, {6, 1.2, 1, 1.2}}, leader_line{0.15, 0.4, {}}, page_frame{0.2, 0.55, {}},
    page_join{0.2, 0.45, {2, 2}};
constexpr double page_head = 16;  // mm for a page's heading
constexpr int most_pages = 400;

void page_heading(WorkDrawing& drawing, const std::string& words, const std::string& how) {
  const double wide = drawing.width() - 2 * drill_margin;
  drawing.fitted({drill_margin, drill_margin + 3}, words, {4.4, true}, wide);
  drawing.fitted({drill_margin, drill_margin + 9.5}, how, {3}, wide);
}

// --- the strip ---------------------------------------------------------------------------------

constexpr double strip_width = 22, before_tip = 9, after_last = 8;

class DrillStrip {
 public:
  DrillStrip(WorkDrawing& drawing, const DrillTemplate& plan) : drawing_(drawing), plan_(plan) {
    for (const VentMarks& ring : plan.rings) total_ = std::max(total_, ring.along);
    total_ += after_last;
    top_ = drill_margin + page_head;
    length_ = drawing.height() - drill_foot - 4 - top_;
  }

  void draw() {
    if (plan_.rings.empty()) return;
    const double each = length_ - drill_overlap;
    const int lengths =
        std::max(1, static_cast<int>(std::ceil((total_ + before_tip - drill_overlap) / each - 1e-9)));
    if (lengths > most_pages)
      throw std::logic_error("a drilling strip was asked for that is too long to print");
    for (int k = 0; k < lengths; ++k) {
      if (k % 2 == 0) {
        drawing_.next_page();
        page_heading(drawing_, "Strip from the tip down over the crown, true size", how(lengths));
      }
      const double half = (drawing_.width() - 2 * drill_margin) / 2;
      one_length(k, lengths, drill_margin + (k % 2) * half + (lengths == 1 ? half / 2 : 0), half);
    }
  }

 private:
  static std::string how(int lengths) {
    std::string text =
        "Cut out along the dashed lines. Pin the cross on the tip, lay the strip straight down.";
    if (lengths > 1)
      text =
          "Cut out, join the lengths cross on cross. Pin the tip's cross on the tip, lay it straight down.";
    return text;
  }

  void one_length(int k, int lengths, double x, double room) {
    const double from = k * (length_ - drill_overlap) - before_tip;  // along, at the top of this length
    const double to = std::min(from + length_, total_);
    const double middle = x + strip_width / 2;
    const auto place = [&](double along) { return top_ + along - from; };
    drawing_.group(std::string("strip-") + count_text(static_cast<std::size_t>(k) + 1));
    drawing_.line({{x, top_}, {x + strip_width, top_}, {x + strip_width, place(to)}, {x, place(to)}}, cut_out,
                  true);
    drawing_.line({{middle, place(std::max(from, 0.0))}, {middle, place(to)}}, middle_stroke);
    if (k == 0) tip(middle, place(0));
    if (k > 0) join(x, top_ + drill_overlap / 2, k - 1);
    if (k + 1 < lengths) join(x, top_ + length_ - drill_overlap / 2, k + 1);
    rings(from, to, x, room, k > 0, k + 1 < lengths);
    drawing_.end();
  }

  // A line across both lengths, at the middle of what they share; laid one on the other.
  void join(double x, double y, int other) {
    drawing_.line({{x - 3, y}, {x + strip_width + 3, y}}, {0.2, 0, {1, 1}});
    drawing_.ring({x + strip_width / 2, y}, 1.5, leader_line);
    drawing_.text({x + strip_width + 4, y},
                  std::string("join length ") + count_text(static_cast<std::size_t>(other) + 1) + " here",
                  {2.6, true});
  }

  void tip(double middle, double y) {
    drawing_.line({{middle - 7, y}, {middle + 7, y}}, {0.4, 0, {}});
    drawing_.line({{middle, y - 7}, {middle, y + 7}}, {0.4, 0, {}});
    drawing_.ring({middle, y}, 2.5, mark_stroke);
    drawing_.text({middle + strip_width / 2 + 2, y}, "tip", {3.4, true});
  }

  static bool is_on(double along, double from, double to) { return along >= from - 1e-9 && along <= to; }

  void rings(double from, double to, double x, double room, bool joins_above, bool joins_below) {
    std::vector<std::size_t> here;
    for (std::size_t i = 0; i < plan_.rings.size(); ++i)
      if (is_on(plan_.rings[i].along, from, to)) here.push_back(i);
    const double right = x + strip_width;
    std::vector<double> wanted;
    for (const std::size_t i : here) {
      const double y = top_ + plan_.rings[i].along - from;
      wanted.push_back(y);
      drawing_.line({{x, y}, {right, y}}, mark_stroke);
      if (plan_.vent_diameter > 0)
        drawing_.ring({x + strip_width / 2, y}, std::min(plan_.vent_diameter / 2, 8.0), mark_stroke);
    }
    // Clear of the words for the tip and the joins and within the page; smaller where there are many.
    const double join_room = drill_overlap / 2 + 4.4;
    const double low = top_ + (joins_above ? join_room : before_tip + 4.5);
    const double high = top_ + length_ - (joins_below ? join_room : 0);
    const double gap = std::min(4.4, (high - low) / std::max(1.0, static_cast<double>(here.size())));
    const double size = std::clamp(0.72 * gap, 1.7, 3.0);
    const std::size_t every = gap < 2.1 ? static_cast<std::size_t>(std::ceil(2.1 / gap)) : 1;
    const std::vector<double> places = spread(wanted, gap, low, high);
    for (std::size_t n = 0; n < here.size(); n += every) {
      drawing_.line({{right, wanted[n]}, {right + 2, wanted[n]}, {right + 6, places[n]}}, leader_line);
      drawing_.fitted({right + 7, places[n]}, words(here[n]), {size}, room - strip_width - 9);
    }
  }

  std::string words(std::size_t i) const {
    const VentMarks& ring = plan_.rings[i];
    std::string text = "ring " + count_text(i + 1);
    text.append(": ").append(count_text(static_cast<std::size_t>(std::max(0, ring.count))));
    if (ring.places > ring.count)
      text.append(" of ").append(count_text(static_cast<std::size_t>(ring.places))).append(" places");
    else
      text += ring.count == 1 ? " hole" : " holes";
    if (ring.count > 1) text.append(", ").append(number_text(ring.apart, 1)).append(" mm apart");
    return text;
  }

  WorkDrawing& drawing_;
  const DrillTemplate& plan_;
  double total_ = 0, top_ = 0, length_ = 0;
};

// --- the face ----------------------------------------------------------------------------------

// Face coordinates: x to the right towards the centre front, y up, origin the middle.
class DrillFace {
 public:
  DrillFace(WorkDrawing& drawing, const DrillTemplate& plan) : drawing_(drawing), plan_(plan) {
    wide_ = drawing.width() - 2 * drill_margin;
    high_ = drawing.height() - drill_margin - page_head - drill_foot - 2;
    window();
  }

  void draw() {
    if (plan_.holes.empty()) return;
    const int columns = count(right_ - left_, wide_), rows = count(top_ - bottom_, high_);
    if (columns * rows > most_pages)
      throw std::logic_error("a hole plan was asked for that is too large to print");
    for (int row = 0; row < rows; ++row)
      for (int column = 0; column < columns; ++column) tile(column, row, columns, rows);
  }

 private:
  static constexpr double round_hole = 14, arrow_room = 28;  // mm

  // The whole face where it fits on a page; else what holds the holes, the middle and a length of the line to
  // the centre front.
  void window() {
    const double whole = plan_.face_radius + 3;
    if (plan_.face_radius > 0 && 2 * whole <= wide_ - arrow_room && 2 * whole <= high_) {
      left_ = bottom_ = -whole;
      right_ = whole + arrow_room, top_ = whole;
      return;
    }
    left_ = bottom_ = -round_hole, top_ = round_hole, right_ = 40;
    for (const DrillTemplate::Hole& hole : plan_.holes) {
      const double room = hole.diameter / 2 + round_hole;
      left_ = std::min(left_, hole.x - room), right_ = std::max(right_, hole.x + room + arrow_room);
      bottom_ = std::min(bottom_, hole.y - room), top_ = std::max(top_, hole.y + room);
    }
  }

  static int count(double length, double page) {
    const double tiles = std::ceil((length - drill_overlap) / (page - drill_overlap) - 1e-9);
    return std::max(1, static_cast<int>(std::min(tiles, 1e4)));
  }

  static std::string name(int column, int row) {
    return letter_of(static_cast<std::size_t>(row)) + count_text(static_cast<std::size_t>(column) + 1);
  }

  void tile(int column, int row, int columns, int rows) {
    drawing_.next_page();
    std::string heading = plan_.face.empty() ? std::string("Holes") : plan_.face;
    if (columns * rows > 1) heading = "Page " + name(column, row) + ": " + heading;
    page_heading(drawing_, heading,
                 columns * rows > 1
                     ? "True size. Cut at the dashed line, lay it on the next page, cross on cross, and tape."
                     : "True size. Prick the middle, turn the arrow to the centre front, prick the crosses.");
    const Vec2 corner{drill_margin, drill_margin + page_head};
    // A single page is filled from its middle.
    const Vec2 inner = columns * rows == 1
                           ? Vec2{(wide_ - (right_ - left_)) / 2, (high_ - (top_ - bottom_)) / 2}
                           : Vec2{0, 0};
    const Vec2 shift = inner - Vec2{column * (wide_ - drill_overlap), row * (high_ - drill_overlap)};
    drawing_.clip(corner.x, corner.y, wide_, high_);
    content(shift - Vec2{left_, -top_});
    drawing_.unclip();
    frame(corner, column, row, columns, rows);
  }

  void frame(Vec2 at, int column, int row, int columns, int rows) {
    drawing_.line({at, at + Vec2{wide_, 0}, at + Vec2{wide_, high_}, at + Vec2{0, high_}}, page_frame, true);
    const double x = at.x + wide_ - drill_overlap, y = at.y + high_ - drill_overlap;
    if (column + 1 < columns) {
      drawing_.line({{x, at.y}, {x, at.y + high_}}, page_join);
      drawing_.text({x + 5, at.y + 24}, "join " + name(column + 1, row), {2.6, false, Anchor::middle, true});
    }
    if (row + 1 < rows) {
      drawing_.line({{at.x, y}, {at.x + wide_, y}}, page_join);
      drawing_.text({at.x + 24, y + 5}, "join " + name(column, row + 1), {2.6, false, Anchor::middle});
    }
    for (const double cx : {at.x, x})
      for (const double cy : {at.y, y}) {
        const bool left = cx == at.x && column == 0, right = cx > at.x && column + 1 == columns;
        const bool upper = cy == at.y && row == 0, lower = cy > at.y && row + 1 == rows;
        if ((left || right) && (upper || lower)) continue;
        cross({cx, cy}, 3, page_frame);
        drawing_.ring({cx, cy}, 1.5, page_frame);
      }
  }

  void cross(Vec2 at, double arm, const WorkStroke& stroke) {
    drawing_.line({at - Vec2{arm, 0}, at + Vec2{arm, 0}}, stroke);
    drawing_.line({at - Vec2{0, arm}, at + Vec2{0, arm}}, stroke);
  }

  void content(Vec2 origin) {
    const auto place = [&](double x, double y) { return origin + Vec2{x, -y}; };
    labels_ = {{place(right_ - 13, 3.6), 12}, {place(-8.5, -5), 6}};  // the arrow's, the middle's
    if (plan_.face_radius > 0) drawing_.ring(origin, plan_.face_radius, {0.3, 0.2, {}});
    const double end = right_ - 3;
    drawing_.line({place(0, 0), place(end, 0)}, middle_stroke);
    drawing_.line({place(end - 9, 0), place(end, 0)}, {0.6, 0, {}});
    drawing_.fill({place(end, 0), place(end - 3.2, 1.2), place(end - 3.2, -1.2)}, 0);
    drawing_.text(place(end, 3.6), "centre front", {3, true, Anchor::end, false, true});
    cross(origin, 6, mark_stroke);
    drawing_.ring(origin, 1.5, mark_stroke);
    drawing_.text(place(-3, -5), "middle", {2.8, false, Anchor::end});
    for (std::size_t i = 0; i < plan_.holes.size(); ++i) {
      const DrillTemplate::Hole& hole = plan_.holes[i];
      const Vec2 at = place(hole.x, hole.y);
      drawing_.ring(at, hole.diameter / 2, {0.4, 0, {}});
      cross(at, hole.diameter / 2 + 3, {0.25, 0, {}});
      std::string words = letter_of(i) + ": Ø " + number_text(hole.diameter, 1);
      if (hole.depth > 0) words.append(", ").append(number_text(hole.depth, 1)).append(" deep");
      label(at, hole.diameter / 2, words, origin);
    }
  }

  // Below the hole, or beside or above it where other words or holes are; farther off, with a line, where
  // holes are close to each other.
  void label(Vec2 at, double radius, const std::string& words, Vec2 origin) {
    constexpr double size = 2.9;
    const double half = drawing_.width_of(words, size, true) / 2;
    for (int far = 0; far < 12; ++far) {
      const double off = radius + 5.6 + 4.4 * far, aside = radius + 4.4 + half + 4.4 * far;
      for (const Vec2 way : {Vec2{0, off}, Vec2{0, -off}, Vec2{aside, 0}, Vec2{-aside, 0}}) {
        const Vec2 to = at + way;
        if (!is_free(to, half, origin)) continue;
        if (far > 0) drawing_.line({at + (radius / pattern::norm(way)) * way, to}, leader_line);
        drawing_.text(to, words, {size, true, Anchor::middle, false, true});
        labels_.push_back({to, half});
        return;
      }
    }
  }

  bool is_free(Vec2 to, double half, Vec2 origin) const {
    const auto is_over = [&](Vec2 other, double wide, double high) {
      return std::abs(other.x - to.x) < half + wide && std::abs(other.y - to.y) < 2 + high;
    };
    for (const auto& [other, wide] : labels_)
      if (is_over(other, wide + 1, 2)) return false;
    for (const DrillTemplate::Hole& hole : plan_.holes) {
      const double r = hole.diameter / 2 + 2.4;
      if (is_over(origin + Vec2{hole.x, -hole.y}, r, r)) return false;
    }
    return !is_over(origin, 6.5, 2);
  }

  WorkDrawing& drawing_;
  const DrillTemplate& plan_;
  std::vector<std::pair<Vec2, double>> labels_;  // of the page
  double wide_ = 0, high_ = 0, left_ = 0, right_ = 0, bottom_ = 0, top_ = 0;
};

}  // namespace

void draw_drill_strip(WorkDrawing& drawing, const DrillTemplate& plan) { DrillStrip(drawing, plan).draw(); }
void draw_drill_face(WorkDrawing& drawing, const DrillTemplate& plan) { DrillFace(drawing, plan).draw(); }

}  // namespace crownwright::drawings
