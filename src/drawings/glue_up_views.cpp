#include "drawings/glue_up_views.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "drawings/chart_scale.h"
#include "drawings/flat_meridian.h"
#include "drawings/letter_of.h"
#include "drawings/section_view.h"

// Weights: 0.6 the form, 0.9 a glue line, 0.2 figures. What is hidden or taken away is dashed, an axis dash
// and dot. Neighbouring pieces are hatched the other way, as in any section.

namespace crownwright::drawings {
namespace {

using pattern::Polyline;
using pattern::Vec2;

const WorkStroke form_line{0.6, 0, {}}, glue_line{1.1, 0, {}}, figure_line{0.18, 0.25, {}},
    hatch_line{0.13, 0.55, {}}, sawn_line{0.25, 0.35, {2.4, 1.4}}, dowel_line{0.3, 0, {1.6, 1}},
    axis_line{0.18, 0.3, {6, 1.2, 1, 1.2}}, thin_line{0.25, 0, {}};
constexpr double figure_size = 2.9, name_size = 3.4;
constexpr double label_gap_of_glue = 3.5;  // mm between figures one above the other
constexpr std::size_t most_labels = 42;  // one above the other; of more, every second, third, ... is written
constexpr std::size_t most_dowels = 24;  // in the list

Polyline box_of(double x, double y, double width, double height) {
  return {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
}

void glue_tick(WorkDrawing& drawing, Vec2 at) { draw_tick(drawing, at, 0.9, 0.3); }

void arrow_to(WorkDrawing& drawing, Vec2 from, Vec2 tip, const WorkStroke& stroke) {
  drawing.line({from, tip}, stroke);
  const double length = pattern::norm(tip - from);
  if (length <= 0) return;
  const Vec2 back = (2.6 / length) * (from - tip), side{-0.32 * back.y, 0.32 * back.x};
  drawing.fill({tip, tip + back + side, tip + back - side}, stroke.light);
}

// All heights at which a slab begins or ends, from the top.
std::vector<double> planes_of(const GlueUp& sheet, const MeridianSize& size) {
  std::vector<double> planes;
  for (const GlueSlab& slab : sheet.slabs) planes.insert(planes.end(), {slab.bottom, slab.top});
  planes.insert(planes.end(), {size.low, size.high});
  std::sort(planes.rbegin(), planes.rend());
  planes.erase(std::unique(planes.begin(), planes.end(), [](double a, double b) { return a - b < 0.005; }),
               planes.end());
  return planes;
}

bool is_met(const GlueUp& sheet, double z) {
  return std::any_of(sheet.glue_lines_met.begin(), sheet.glue_lines_met.end(),
                     [&](double met) { return std::abs(met - z) < 0.05; });
}

class GlueSection {
 public:
  GlueSection(WorkDrawing& drawing, const GlueUp& sheet, Vec2 corner, double width)
      : drawing_(drawing), sheet_(sheet), corner_(corner), width_(width) {
    outline_ = flat_meridian(sheet.outer, 0.02);
    size_ = size_of_meridian(outline_);
    low_ = size_.low, high_ = size_.high;
    half_ = std::max(size_.radius, sheet.side_x / 2);
    for (const GlueSlab& slab : sheet.slabs)
      low_ = std::min(low_, slab.bottom), high_ = std::max(high_, slab.top);
    const double room = width - left_room - right_room;
    scale_ =
        round_scale(std::min(room / std::max(2 * half_, 1e-3), most_height / std::max(high_ - low_, 1e-3)));
    axis_ = corner.x + left_room + room / 2;
    list_ = sheet.slabs.size() > 1
                ? label_gap_of_glue * static_cast<double>(std::min(sheet.slabs.size(), most_labels + 1))
                : 0;
    const double drawn = scale_.factor * (high_ - low_);
    top_ = corner.y + 14 + std::max(0.0, (std::min(list_, most_list) - drawn) / 2);
    place_ = {scale_.factor, axis_, top_, high_};
  }

  double draw() {
    drawing_.text(corner_ + Vec2{0, 2.5}, "The form in section", {4, true});
    drawing_.text(corner_ + Vec2{width_, 2.5},
                  std::string("scale ").append(scale_.says).append(", sizes in mm"),
                  {figure_size, false, Anchor::end});
    sawn();
    drawing_.group("section");
    slabs();
    drawing_.end();
    dowels();
    glue_lines();
    drawing_.group("outline");
    drawing_.line(place(section_between(outline_, size_.low, size_.high)), form_line, true);
    drawing_.end();
    axis();
    names();
    heights();
    thicknesses();
    widths();
    return std::max(bottom() + 8, widths_end_ + 3) - corner_.y;
  }

 private:
  static constexpr double left_room = 21, right_room = 34, most_height = 72, most_list = 150;

  Vec2 place(double x, double z) const { return place_(x, z); }
  Polyline place(const Polyline& points) const { return place_(points); }
  double left() const { return place(-half_, 0).x; }
  double right() const { return place(half_, 0).x; }
  double bottom() const {
    const double middle = (place(0, low_).y + place(0, high_).y) / 2;
    return std::max(place(0, low_).y, middle + std::min(list_, most_list) / 2);
  }
  bool named_inside() const {
    return std::all_of(sheet_.slabs.begin(), sheet_.slabs.end(), [&](const GlueSlab& slab) {
      const double top = std::min(slab.top, size_.high);
      return scale_.factor * (top - slab.bottom) > 5.2 &&
             2 * scale_.factor * radius_at_height(outline_, (slab.bottom + top) / 2) >
                 drawing_.width_of(slab.name, name_size, true) + 8;
    });
  }
  // Paper between glue lines: thin pieces get thin lines and tones instead of hatching.
  double least_layer() const {
    double least = 1e9;
    for (const GlueSlab& slab : sheet_.slabs)
      least = std::min(least, scale_.factor * (slab.top - slab.bottom));
    return least;
  }

  void sawn() {
    if (!(sheet_.side_x > 0)) return;
    drawing_.group("sawn");
    std::vector<GlueSlab> boxes = sheet_.slabs;
    if (least_layer() < 0.8 && !boxes.empty()) boxes = {{"", low_, high_, false}};
    for (const GlueSlab& slab : boxes) {
      const Vec2 a = place(-sheet_.side_x / 2, slab.top), b = place(sheet_.side_x / 2, slab.bottom);
      drawing_.line({{a.x, a.y}, {b.x, a.y}, {b.x, b.y}, {a.x, b.y}}, sawn_line, true);
    }
    drawing_.end();
  }

  void slabs() {
    if (sheet_.slabs.empty())
      drawing_.hatch(place(section_between(outline_, size_.low, size_.high)), 2.2, 45, hatch_line);
    bool other = false;
    for (const GlueSlab& slab : sheet_.slabs) {
      const Polyline part = place(section_between(outline_, slab.bottom, slab.top));
      if (least_layer() > 2.5)
        drawing_.hatch(part, other ? 2.2 : 2.6, other ? -45 : 45, hatch_line);
      else if (other)
        drawing_.fill(part, 0.85);
      other = !other;
    }
  }

  void dowels() {
    if (sheet_.dowels.empty()) return;
    drawing_.group("dowels");
    for (const GlueDowel& dowel : sheet_.dowels) {
      const Vec2 a = place(dowel.x - dowel.diameter / 2, dowel.top),
                 b = place(dowel.x + dowel.diameter / 2, dowel.bottom);
      const Polyline box{{a.x, a.y}, {b.x, a.y}, {b.x, b.y}, {a.x, b.y}};
      drawing_.fill(box, 1);
      drawing_.line(box, dowel_line, true);
      const double x = place(dowel.x, 0).x;
      drawing_.line({{x, a.y - 1.5}, {x, b.y + 1.5}}, axis_line);
    }
    dowel_letters();
    drawing_.end();
  }

  // Above the form, where they stand clear of one another and of the tip's.
  void dowel_letters() {
    std::vector<double> taken = {axis_};
    for (std::size_t i = 0; i < sheet_.dowels.size(); ++i) {
      const double x = place(sheet_.dowels[i].x, 0).x;
      if (std::any_of(taken.begin(), taken.end(), [&](double other) { return std::abs(other - x) < 6; }))
        continue;
      taken.push_back(x);
      drawing_.text({x, place(0, high_).y - 2.6}, letter_of(i), {figure_size, true, Anchor::middle});
    }
  }

  void glue_lines() {
    drawing_.group("glue-lines");
    const WorkStroke stroke{std::clamp(0.3 * least_layer(), 0.04, glue_line.width), 0, {}};
    for (const double z : planes_of(sheet_, size_)) {
      if (z <= size_.low + 0.005 || z >= size_.high - 0.005 || !is_joint(z)) continue;
      const double r = radius_at_height(outline_, z);
      drawing_.line({place(-r, z), place(r, z)}, stroke);
    }
    drawing_.end();
  }
  bool is_joint(double z) const {
    const auto near = [&](double plane) { return std::abs(plane - z) < 0.005; };
    const auto& slabs = sheet_.slabs;
    return std::any_of(slabs.begin(), slabs.end(), [&](const GlueSlab& s) { return near(s.bottom); }) &&
           std::any_of(slabs.begin(), slabs.end(), [&](const GlueSlab& s) { return near(s.top); });
  }

  void axis() {
    drawing_.line({place(0, high_) - Vec2{0, 3}, place(0, low_) + Vec2{0, 4}}, axis_line);
    drawing_.text(place(0, high_) - Vec2{0, 5.2}, "tip", {figure_size, false, Anchor::middle});
  }

  void names() {
    if (!named_inside()) return;
    for (const GlueSlab& slab : sheet_.slabs) {
      const double middle = (slab.bottom + std::min(slab.top, size_.high)) / 2;
      drawing_.fitted(place(0, middle), slab.name, {name_size, true, Anchor::middle, false, true},
                      2 * scale_.factor * radius_at_height(outline_, middle));
    }
  }

  // On the left: heights above the foot.
  void heights() {
    const std::vector<double> planes = planes_of(sheet_, size_);
    const std::size_t every = 1 + (planes.size() - 1) / most_labels;
    std::vector<double> labelled, wanted;
    for (std::size_t i = 0; i < planes.size(); ++i)
      if (i % every == 0 || i + 1 == planes.size()) labelled.push_back(planes[i]);
    for (const double z : labelled) wanted.push_back(place(0, z).y);
    const double span = label_gap_of_glue * static_cast<double>(labelled.size());
    const double middle = (place(0, low_).y + place(0, high_).y) / 2;
    const std::vector<double> places = spread(wanted, label_gap_of_glue, std::min(top_, middle - span / 2),
                                              std::max(place(0, low_).y, middle + span / 2));
    const double x = left() - 3, from = left() - 8;
    for (std::size_t i = 0; i < labelled.size(); ++i) {
      drawing_.line({{left() - 0.8, wanted[i]}, {x, wanted[i]}, {from + 0.8, places[i]}}, figure_line);
      drawing_.text({from, places[i]}, number_text(labelled[i] - size_.low, 2),
                    {figure_size, false, Anchor::end});
      if (is_met(sheet_, labelled[i]))
        drawing_.text({left() - 0.6, wanted[i]}, "\u25B2", {3, true, Anchor::end, false, true});
    }
    drawing_.text({std::max(corner_.x, left() - 21), (place(0, low_).y + place(0, high_).y) / 2},
                  "above the foot", {2.6, false, Anchor::middle, true});
  }

  // On the right: the pieces' thicknesses, with their names where they do not fit inside.
  void thicknesses() {
    if (sheet_.slabs.empty()) return;
    const bool inside = named_inside();
    const std::size_t every = 1 + (sheet_.slabs.size() - 1) / most_labels;
    std::vector<double> wanted;
    for (std::size_t i = 0; i < sheet_.slabs.size(); i += every)
      wanted.push_back(place(0, (sheet_.slabs[i].bottom + sheet_.slabs[i].top) / 2).y);
    const double middle = (place(0, low_).y + place(0, high_).y) / 2;
    const double span = std::max(list_, place(0, low_).y - place(0, high_).y);
    const std::vector<double> places =
        spread(wanted, label_gap_of_glue, middle - span / 2, middle + span / 2);
    const double x = right() + 4, words = x + 6;
    drawing_.line({{x, place(0, high_).y}, {x, place(0, low_).y}}, figure_line);
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      const GlueSlab& slab = sheet_.slabs[i * every];
      for (const double z : {slab.bottom, slab.top}) {
        const double y = place(0, z).y;
        drawing_.line({{right() + 0.8, y}, {x + 1.2, y}}, figure_line);
        glue_tick(drawing_, {x, y});
      }
      drawing_.line({{x, wanted[i]}, {words - 0.8, places[i]}}, figure_line);
      const std::string thick = number_text(slab.top - slab.bottom, 2);
      if (inside)
        drawing_.text({words, places[i]}, thick + " thick", {figure_size});
      else
        drawing_.fitted({words, places[i]}, std::string(slab.name).append(": ").append(thick), {figure_size},
                        corner_.x + width_ - words);
    }
  }

  // Below: the foot, the widest place, the sawn piece.
  void widths() {
    double y = place(0, low_).y + 7;
    const double foot = outline_.empty() ? 0 : radius_at_height(outline_, size_.low);
    const auto row = [&](double half, const std::string& says) {
      const Vec2 a{place(-half, 0).x, y}, b{place(half, 0).x, y};
      drawing_.line({a, b}, figure_line);
      glue_tick(drawing_, a);
      glue_tick(drawing_, b);
      for (const double x : {a.x, b.x}) drawing_.line({{x, place(0, low_).y + 1}, {x, y + 1.2}}, figure_line);
      drawing_.text({axis_, y}, says, {figure_size, false, Anchor::middle, false, true});
      y += 5;
    };
    if (foot > 0 && foot < size_.radius - 0.05) row(foot, std::string("foot Ø ") + number_text(2 * foot, 1));
    row(size_.radius, std::string("widest Ø ") + number_text(2 * size_.radius, 1));
    widths_end_ = y;
  }

  WorkDrawing& drawing_;
  const GlueUp& sheet_;
  Vec2 corner_;
  double width_;
  Polyline outline_;
  MeridianSize size_;
  SectionPlace place_;
  double low_ = 0, high_ = 0, half_ = 0, axis_ = 0, top_ = 0, list_ = 0, widths_end_ = 0;
  DrawingScale scale_;
};

class GluePlan {
 public:
  GluePlan(WorkDrawing& drawing, const GlueUp& sheet, Vec2 corner, double width)
      : drawing_(drawing), sheet_(sheet), corner_(corner), width_(width) {
    const Polyline outline = flat_meridian(sheet.outer, 0.02);
    const MeridianSize size = size_of_meridian(outline);
    radius_ = size.radius;
    foot_ = radius_at_height(outline, size.low);
    half_x_ = std::max(radius_, sheet.side_x / 2), half_y_ = std::max(radius_, sheet.side_y / 2);
    for (const GlueDowel& dowel : sheet.dowels) {
      half_x_ = std::max(half_x_, std::abs(dowel.x) + dowel.diameter);
      half_y_ = std::max(half_y_, std::abs(dowel.y) + dowel.diameter);
    }
    scale_ = round_scale(
        std::min((plan_width - 16) / std::max(2 * half_x_, 1e-3), plan_height / std::max(2 * half_y_, 1e-3)));
    middle_ = corner + Vec2{scale_.factor * half_x_ + 2, 9 + scale_.factor * half_y_};
  }

  double draw() {
    drawing_.text(corner_ + Vec2{0, 2.5}, "Seen from above", {4, true});
    drawing_.text(corner_ + Vec2{width_, 2.5}, std::string("scale ").append(scale_.says),
                  {figure_size, false, Anchor::end});
    drawing_.group("plan");
    const double f = scale_.factor;
    if (sheet_.side_x > 0 && sheet_.side_y > 0)
      drawing_.line(box_of(middle_.x - f * sheet_.side_x / 2, middle_.y - f * sheet_.side_y / 2,
                           f * sheet_.side_x, f * sheet_.side_y),
                    sawn_line, true);
    drawing_.ring(middle_, f * radius_, form_line);
    if (foot_ > 0 && foot_ < radius_ - 0.05) drawing_.ring(middle_, f * foot_, dowel_line);
    drawing_.line({middle_ - Vec2{f * half_x_, 0}, middle_ + Vec2{f * half_x_, 0}}, axis_line);
    drawing_.line({middle_ - Vec2{0, f * half_y_}, middle_ + Vec2{0, f * half_y_}}, axis_line);
    drawing_.end();
    front();
    dowel_marks();
    const double list = dowel_list();
    return std::max(9 + 2 * f * half_y_ + 4, list - corner_.y);
  }

 private:
  static constexpr double plan_width = 92, plan_height = 76;

  void front() {
    const double x = middle_.x + scale_.factor * half_x_;
    arrow_to(drawing_, {x + 1, middle_.y}, {x + 10, middle_.y}, {0.5, 0, {}});
    drawing_.text({x + 12, middle_.y}, "centre front", {figure_size, true, Anchor::middle, true, true});
  }

  void dowel_marks() {
    drawing_.group("dowel-marks");
    for (std::size_t i = 0; i < sheet_.dowels.size(); ++i) {
      const GlueDowel& dowel = sheet_.dowels[i];
      const Vec2 at = middle_ + scale_.factor * Vec2{dowel.x, -dowel.y};
      const double r = std::max(scale_.factor * dowel.diameter / 2, 0.8);
      drawing_.disc(at, r, 1);
      drawing_.ring(at, r, thin_line);
      drawing_.line({at - Vec2{r + 1, 0}, at + Vec2{r + 1, 0}}, thin_line);
      drawing_.line({at - Vec2{0, r + 1}, at + Vec2{0, r + 1}}, thin_line);
      name_dowel(i, at, r);
    }
    drawing_.end();
  }

  // Towards the middle, clear of the outline; elsewhere where another dowel stands there; else not at all:
  // the list tells them by their angles.
  void name_dowel(std::size_t i, Vec2 at, double r) {
    const Vec2 away = middle_ - at;
    const double far = pattern::norm(away);
    const Vec2 in = far > 0.1 ? (1 / far) * away : Vec2{1, 0}, side{-in.y, in.x};
    for (const Vec2 way : {in, -1 * in, side, -1 * side}) {
      const Vec2 to = at + (r + 3.4) * way;
      const auto is_near = [&](Vec2 other, double room) { return pattern::norm(other - to) < room; };
      bool is_free =
          std::none_of(named_.begin(), named_.end(), [&](Vec2 other) { return is_near(other, 4.2); });
      for (std::size_t k = 0; k < sheet_.dowels.size(); ++k) {
        const GlueDowel& other = sheet_.dowels[k];
        const Vec2 mark = middle_ + scale_.factor * Vec2{other.x, -other.y};
        if (k != i && is_near(mark, scale_.factor * other.diameter / 2 + 2.6)) is_free = false;
      }
      if (!is_free) continue;
      named_.push_back(to);
      drawing_.text(to, letter_of(i), {name_size, true, Anchor::middle, false, true});
      return;
    }
  }

  double dowel_list() {
    const double x = corner_.x + plan_width + 14, wide = corner_.x + width_ - x;
    double y = corner_.y + 11;
    const auto say = [&](const std::string& words, bool bold = false) {
      for (const std::string& line : drawing_.wrapped(words, figure_size, bold, wide)) {
        drawing_.text({x, y}, line, {figure_size, bold});
        y += 4.3;
      }
    };
    if (sheet_.dowels.empty()) {
      say("No dowels.", true);
      if (sheet_.slabs.size() > 1)
        say("Line the pieces up by their sawn edges, or by a pencil line down the side, before you clamp.");
    } else {
      say(std::string("Dowels: ")
              .append(count_text(sheet_.dowels.size()))
              .append(sheet_.dowels.size() == 1 ? " piece" : " pieces"),
          true);
      if (are_alike()) say(size_words(sheet_.dowels.front()));
      for (std::size_t i = 0; i < std::min(sheet_.dowels.size(), most_dowels); ++i)
        dowel_words(i, x, wide, y);
      if (sheet_.dowels.size() > most_dowels) say("and so on");
      y += 1;
      if (sheet_.dowels.size() > 1)
        say("Angles run counter-clockwise from the centre front. They are not alike: a piece goes on one way "
            "only. Never turn a piece to make it fit.");
    }
    y += 2;
    return legend({x, y});
  }

  bool are_alike() const {
    const GlueDowel& first = sheet_.dowels.front();
    return std::all_of(sheet_.dowels.begin(), sheet_.dowels.end(), [&](const GlueDowel& other) {
      return other.diameter == first.diameter && other.bottom == first.bottom && other.top == first.top;
    });
  }

  static std::string size_words(const GlueDowel& dowel) {
    std::string words = std::string("Ø ").append(number_text(dowel.diameter, 1)).append(", ");
    words.append(number_text(dowel.top - dowel.bottom, 1)).append(" mm long, from ");
    words.append(number_text(dowel.bottom, 1)).append(" to ").append(number_text(dowel.top, 1));
    return words.append(" above the foot");
  }

  void dowel_words(std::size_t i, double x, double wide, double& y) {
    const GlueDowel& dowel = sheet_.dowels[i];
    drawing_.text({x, y}, letter_of(i), {figure_size, true});
    std::string where = are_alike() ? std::string() : size_words(dowel).append("; ");
    where.append("at ").append(number_text(degrees_of(dowel.x, dowel.y), 1)).append("°, ");
    where.append(number_text(std::hypot(dowel.x, dowel.y), 1)).append(" mm from the middle");
    for (const std::string& line : drawing_.wrapped(where, figure_size, false, wide - 7)) {
      drawing_.text({x + 7, y}, line, {figure_size});
      y += 4;
    }
  }

  double legend(Vec2 at) {
    struct Sample {
      WorkStroke stroke;
      const char* words;
      bool shown;
    };
    const bool glued = sheet_.slabs.size() > 1;
    for (const Sample& sample :
         {Sample{form_line, "the finished form", true}, Sample{glue_line, "glue line", glued},
          Sample{sawn_line, "the piece as sawn", sheet_.side_x > 0},
          Sample{dowel_line, sheet_.dowels.empty() ? "hidden: the foot" : "hidden: dowels, the foot",
                 !sheet_.dowels.empty() || foot_ < radius_ - 0.05}}) {
      if (!sample.shown) continue;
      drawing_.line({at, at + Vec2{11, 0}}, sample.stroke);
      drawing_.text(at + Vec2{13, 0}, sample.words, {figure_size});
      at.y += 4.3;
    }
    if (!sheet_.glue_lines_met.empty()) {
      drawing_.text(at + Vec2{5.5, 0}, "\u25B2", {3, true, Anchor::middle});
      drawing_.text(at + Vec2{13, 0}, "glue line that the cutter meets", {figure_size});
      at.y += 4.3;
    }
    return at.y;
  }

  WorkDrawing& drawing_;
  const GlueUp& sheet_;
  Vec2 corner_, middle_;
  std::vector<Vec2> named_;
  double width_, radius_ = 0, foot_ = 0, half_x_ = 0, half_y_ = 0;
  DrawingScale scale_;
};

}  // namespace

bool is_lump(const GlueUp& sheet) { return sheet.slabs.size() > 1 && !sheet.glue_lines_met.empty(); }

double degrees_of(double x, double y) {
  const double degrees = std::atan2(y, x) * 180 / pi;
  return degrees < -0.005 ? degrees + 360 : std::max(0.0, degrees);
}

double draw_glue_section(WorkDrawing& drawing, const GlueUp& sheet, Vec2 corner, double width) {
  return GlueSection(drawing, sheet, corner, width).draw();
}

double height_of_glue_plan(const GlueUp& sheet) {
  return 90 +
         8.0 * static_cast<double>(std::max<std::size_t>(std::min(sheet.dowels.size(), most_dowels), 5) - 5);
}

double draw_glue_plan(WorkDrawing& drawing, const GlueUp& sheet, Vec2 corner, double width) {
  return GluePlan(drawing, sheet, corner, width).draw();
}

}  // namespace crownwright::drawings
