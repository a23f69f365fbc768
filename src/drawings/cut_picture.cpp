// One sheet: the path from above and, below it at the same scale, from the front; the result at their right.
// Six pixels a millimetre of paper, so that the map's pixels are the picture's.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/length.h"
#include "base/numbers.h"
#include "base/printable.h"
#include "drawings/chart_frame.h"
#include "drawings/cut_picture_map.h"
#include "drawings/cut_picture_path.h"
#include "drawings/flat_meridian.h"

namespace crownwright::drawings {
namespace {

constexpr double cut_width = 297, cut_height = 210;  // mm: A4 lying
constexpr int dots_a_mm = 6;
constexpr double left_panel = 12, right_panel = 156, panel_width = 129, panel_top = 31, panel_height = 112;
constexpr double side_top = 157, side_height = 36;
constexpr double view_gap = 1.15, side_gap = 0.8;  // mm between passes drawn
const ChartStroke stock_line{0.25, {2.4, 1.4}, grey(0.35)}, form_edge{0.55, {}, grey(0)},
    table_line{0.8, {}, grey(0)}, axis_thin{0.15, {5, 1, 0.8, 1}, grey(0.4)},
    rapid_line{0.22, {0.5, 1.1}, grey(0.3)}, worst_ring{0.7, {}, grey(0)}, worst_rim{1.6, {}, grey(1)},
    rest_ring{0.5, {1.2, 0.8}, grey(0)};
constexpr Lettering cut_heading{3.4, true, Anchor::start, {}, false},
    cut_words{2.7, false, Anchor::start, {}, false}, cut_label{2.6, true, Anchor::middle, {}, true};

// The first of several programs is the roughing.
ChartStroke stroke_of_program(int program, std::size_t programs) {
  if (programs < 2) return {0.28, {}, grey(0)};
  switch (program % 4) {
    case 0:
      return {0.3, {2.2, 0.8}, grey(0.58)};
    case 1:
      return {0.28, {}, grey(0)};
    case 2:
      return {0.6, {0.6, 0.9}, grey(0)};
    default:
      return {0.3, {4, 0.8, 0.8, 0.8}, grey(0.2)};
  }
}

class CutSheet {
 public:
  explicit CutSheet(const CutPicture& picture)
      : picture_(picture),
        canvas_(ChartCanvas::Kind::png, cut_width, cut_height, static_cast<int>(cut_width) * dots_a_mm) {
    outline_ = flat_meridian(picture.target, 0.02);
    size_ = size_of_meridian(outline_);
    const bool has_stock = picture.x1 > picture.x0 && picture.y1 > picture.y0;
    x0_ = has_stock ? picture.x0 : -std::max(size_.radius, 1.0), x1_ = has_stock ? picture.x1 : -x0_;
    y0_ = has_stock ? picture.y0 : x0_, y1_ = has_stock ? picture.y1 : x1_;
    scale_ = std::min((panel_width - 12) / (x1_ - x0_), (panel_height - 4) / (y1_ - y0_));
    programs_ = std::max<std::size_t>(1, picture.programs.size());
    for (const CutPicture::Line& line : picture.lines)
      programs_ = std::max(programs_, static_cast<std::size_t>(std::max(0, line.program)) + 1);
    programs_ = std::min<std::size_t>(programs_, most_programs);
  }

  std::string draw() {
    fitted_text(canvas_, {left_panel, 13}, printable(picture_.title, 400),
                {5, true, Anchor::start, {}, false}, cut_width - 2 * left_panel);
    fitted_text(canvas_, {left_panel, 20}, printable(picture_.subtitle, 400),
                {3.2, false, Anchor::start, {}, false}, cut_width - 2 * left_panel);
    from_above();
    from_the_side();
    legend();
    result();
    return canvas_.finish();
  }

 private:
  static constexpr std::size_t most_programs = 8;

  // --- path

  ChartPoint middle_of_panel() const {
    return {left_panel + (panel_width - 8) / 2, panel_top + panel_height / 2};
  }
  ChartPoint above(double x, double y) const {
    const ChartPoint m = middle_of_panel();
    return {m.x + scale_ * (x - (x0_ + x1_) / 2), m.y - scale_ * (y - (y0_ + y1_) / 2)};
  }

  void from_above() {
    canvas_.text({left_panel, panel_top - 3}, "The path from above", cut_heading);
    const ChartPoint a = above(x0_, y1_), b = above(x1_, y0_), axis = above(0, 0);
    const PaperBox box{left_panel, panel_top, left_panel + panel_width, panel_top + panel_height};
    canvas_.line({a, {b.x, a.y}, b, {a.x, b.y}, a}, stock_line);
    if (size_.radius > 0) canvas_.ring(axis, scale_ * size_.radius, form_edge);
    canvas_.clip({box.left, box.top}, panel_width, panel_height);
    draw_path(
        box, view_gap, [&](const CutPicture::At& p) { return above(p.x, p.y); }, true);
    canvas_.unclip();
    canvas_.line({{axis.x - 3, axis.y}, {axis.x + 3, axis.y}}, {0.3, {}, grey(0)});
    canvas_.line({{axis.x, axis.y - 3}, {axis.x, axis.y + 3}}, {0.3, {}, grey(0)});
    front_arrow({b.x + 1, axis.y});
  }

  void front_arrow(ChartPoint from) {
    const double tip = from.x + 7;
    canvas_.line({from, {tip - 1, from.y}}, {0.5, {}, grey(0)});
    canvas_.fill({{tip, from.y}, {tip - 2.4, from.y - 1}, {tip - 2.4, from.y + 1}}, grey(0));
    canvas_.text({tip + 0.8, from.y + 1}, "X", {2.9, true, Anchor::start, {}, false});
  }

  // Rapids lie below, then the programs in their order.
  template <typename Place>
  void draw_path(const PaperBox& box, double gap, const Place& place, bool bores) {
    draw_lines(box, gap, place, rapid_line, [](const CutPicture::Line& line) { return line.rapid; });
    for (std::size_t k = 0; k < programs_; ++k) {
      const auto is_its = [&](const CutPicture::Line& line) {
        return !line.rapid && static_cast<std::size_t>(std::max(0, line.program)) % most_programs == k;
      };
      draw_lines(box, gap, place, stroke_of_program(static_cast<int>(k), programs_), is_its);
    }
    if (bores) draw_bores(box);
  }

  template <typename Place, typename Wanted>
  void draw_lines(const PaperBox& box, double gap, const Place& place, const ChartStroke& stroke,
                  const Wanted& is_wanted) {
    PathThinner thinner(box, gap);
    for (const CutPicture::Line& line : picture_.lines) {
      if (!is_wanted(line)) continue;
      add_turns(thinner, line.points, place);
    }
    for (const std::vector<ChartPoint>& line : thinner.drawn()) canvas_.line(line, stroke);
  }

  // Turn by turn about the axis, each a pass.
  template <typename Place>
  static void add_turns(PathThinner& thinner, const std::vector<CutPicture::At>& points, const Place& place) {
    std::vector<ChartPoint> pass;
    double turned = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      pass.push_back(place(points[i]));
      if (i == 0) continue;
      const CutPicture::At &p = points[i - 1], &q = points[i];
      const double turn = std::atan2(p.x * q.y - p.y * q.x, p.x * q.x + p.y * q.y);
      if (std::isfinite(turn)) turned += turn;
      if (std::abs(turned) < 2 * pi - 1e-6) continue;
      thinner.add(pass);
      pass = {pass.back()};
      turned = 0;
    }
    thinner.add(pass);
  }

  // A tool that goes straight down is seen as a ring.
  void draw_bores(const PaperBox& box) {
    PathThinner places(box, 1.5);
    for (const CutPicture::Line& line : picture_.lines) {
      if (line.rapid) continue;
      for (std::size_t i = 1; i < line.points.size(); ++i) {
        const CutPicture::At &p = line.points[i - 1], &q = line.points[i];
        if (q.z < p.z - 0.5 && std::hypot(q.x - p.x, q.y - p.y) < 1e-6 &&
            places.take_place(above(q.x, q.y))) {
          canvas_.ring(above(q.x, q.y), 1.1, {0.9, {}, grey(1)});
          canvas_.ring(above(q.x, q.y), 1.1, {0.35, {}, grey(0)});
        }
      }
    }
  }

  // --- from the side

  void from_the_side() {
    const double high = std::max({picture_.z1, size_.high, 1.0}), over = 5, under = 4;
    const double scale = std::min(scale_, (side_height - 2) / (high + over + under));
    const double axis = above(0, 0).x, table = side_top + scale * (high + over);
    const auto place = [&](double x, double z) { return ChartPoint{axis + scale * x, table - scale * z}; };
    canvas_.text({left_panel, side_top - 3}, "and from the front (the half nearer to you)", cut_heading);
    std::vector<ChartPoint> form;
    for (const pattern::Vec2 p : section_between(outline_, size_.low, size_.high))
      form.push_back(place(p.x, p.y));
    if (form.size() > 2) canvas_.fill(form, grey(0.86));
    const ChartPoint a = place(x0_, std::max(0.0, picture_.z1)), b = place(x1_, 0);
    canvas_.line({a, {b.x, a.y}, b, {a.x, b.y}, a}, stock_line);
    const PaperBox box{left_panel, side_top, left_panel + panel_width, side_top + side_height + 2};
    canvas_.clip({box.left, box.top}, panel_width, side_height + 2);
    draw_path(
        box, side_gap,
        [&](const CutPicture::At& p) {
          return p.y <= 1e-6 ? place(p.x, p.z) : ChartPoint{std::nan(""), 0};
        },
        false);
    canvas_.unclip();
    if (form.size() > 2) {
      form.push_back(form.front());
      canvas_.line(form, form_edge);
    }
    canvas_.line({{b.x + 2, table}, {a.x - 2, table}}, table_line);
    canvas_.text({a.x - 3, table + 3.6}, "spoilboard", {2.5, false, Anchor::start, {}, true});
  }

  // --- words below the views

  void legend() {
    const double y = side_top + side_height + 8;
    std::vector<std::pair<ChartStroke, std::string>> entries;
    for (std::size_t k = 0; k < std::min(programs_, picture_.programs.size()); ++k)
      entries.push_back(
          {stroke_of_program(static_cast<int>(k), programs_), printable(picture_.programs[k], 200)});
    entries.push_back({rapid_line, "rapids"});
    entries.push_back({stock_line, "stock"});
    const double room = panel_width / static_cast<double>(std::min<std::size_t>(entries.size(), 4));
    for (std::size_t k = 0; k < entries.size(); ++k) {
      const ChartPoint at{left_panel + room * static_cast<double>(k % 4),
                          y + 4.4 * static_cast<double>(k / 4)};
      canvas_.line({{at.x, at.y - 0.9}, {at.x + 8, at.y - 0.9}}, entries[k].first);
      fitted_text(canvas_, {at.x + 9.2, at.y}, entries[k].second, cut_words, room - 10.5);
    }
  }

  // --- result

  void result() {
    canvas_.text({right_panel, panel_top - 3}, "What is left, seen from above", cut_heading);
    if (!picture_.deviation) {
      canvas_.text({right_panel, panel_top + 6}, "Not simulated.", cut_words);
      return;
    }
    const CutMap map = cut_map(picture_, static_cast<int>(panel_width) * dots_a_mm,
                               static_cast<int>(panel_height) * dots_a_mm);
    const double wide = static_cast<double>(map.width) / dots_a_mm,
                 high = static_cast<double>(map.height) / dots_a_mm;
    // On whole pixels.
    const double x = std::floor((right_panel + (panel_width - wide) / 2) * dots_a_mm) / dots_a_mm;
    const double y = std::floor((panel_top + (panel_height - high) / 2) * dots_a_mm) / dots_a_mm;
    canvas_.cells({x, y}, wide, high, map.width, map.height, map.tones);
    canvas_.line({{x, y}, {x + wide, y}, {x + wide, y + high}, {x, y + high}, {x, y}}, stock_line);
    const auto place = [&](const WorstCell& cell) {
      return ChartPoint{x + wide * (cell.x - picture_.x0) / (picture_.x1 - picture_.x0),
                        y + high * (picture_.y1 - cell.y) / (picture_.y1 - picture_.y0)};
    };
    const PaperBox box{x, y, x + wide, y + high};
    if (map.highest && map.highest->mm > picture_.scallop + picture_.rest_more)
      ringed(place(*map.highest), rest_ring, "most left", box);
    if (map.deepest && map.deepest->mm > deepest_shown)
      ringed(place(*map.deepest), worst_ring, "deepest", box);
    scale_of_tones();
    findings(map);
  }
  static constexpr double deepest_shown = 0.0005;  // mm: less is rounding

  void ringed(ChartPoint at, const ChartStroke& stroke, const std::string& words, const PaperBox& box) {
    constexpr double radius = 3.2;
    canvas_.ring(at, radius, worst_rim);
    canvas_.ring(at, radius, stroke);
    const double half = canvas_.text_width(words, cut_label) / 2 + 1;
    const double y = at.y - radius - 1.4 > box.top + 3 ? at.y - radius - 1.4 : at.y + radius + 3.4;
    canvas_.text({std::clamp(at.x, box.left + half, std::max(box.left + half, box.right - half)), y}, words,
                 cut_label);
  }

  void scale_of_tones() {
    const std::vector<CutClass> classes = cut_classes(picture_);
    const double top = side_top - 3;
    canvas_.text({right_panel, top}, "Above the form (less than 0: below it), mm", cut_heading);
    for (std::size_t k = 0; k < classes.size(); ++k) {
      const ChartPoint at{right_panel + (k < 3 ? 0 : 66), top + 4 + 6 * static_cast<double>(k % 3)};
      swatch(at, classes[k]);
      fitted_text(canvas_, {at.x + 12, at.y + 3.3}, classes[k].says, cut_words, 53);
    }
    canvas_.text({right_panel, top + 25.5}, "White: not judged (waste beside the form, and the bores).",
                 cut_words);
  }

  void swatch(ChartPoint at, const CutClass& one) {
    constexpr int wide = 10 * dots_a_mm, high = 5 * dots_a_mm - dots_a_mm / 2;
    std::vector<unsigned char> tones;
    for (int y = 0; y < high; ++y)
      for (int x = 0; x < wide; ++x) tones.push_back(one.hatched ? hatch_tone(x, y) : one.tone);
    const double w = static_cast<double>(wide) / dots_a_mm, h = static_cast<double>(high) / dots_a_mm;
    canvas_.cells(at, w, h, wide, high, tones);
    canvas_.line({at, {at.x + w, at.y}, {at.x + w, at.y + h}, {at.x, at.y + h}, at}, {0.2, {}, grey(0)});
  }

  static std::string where(const WorstCell& cell) {
    const auto number = [](double value) {
      const std::string text = number_text(std::abs(value), 1);
      return value < 0 && text != "0" ? "\u2212" + text : text;
    };
    return std::string(" mm at X ") + number(cell.x) + ", Y " + number(cell.y);
  }

  void findings(const CutMap& map) {
    double y = side_top + 31;
    const auto say = [&](const std::string& words, bool bold) {
      fitted_text(canvas_, {right_panel, y}, words, {3, bold, Anchor::start, {}, false}, panel_width);
      y += 5;
    };
    if (map.deepest && map.deepest->mm > deepest_shown) {
      const bool too_deep = map.deepest->mm > picture_.gouge;
      say("Deepest cut into the form: " + number_text(map.deepest->mm, 3) + where(*map.deepest) +
              (too_deep ? ": TOO DEEP, limit " : ", limit ") + number_text(picture_.gouge, 3),
          too_deep);
    } else {
      say("Nowhere cut into the form.", false);
    }
    if (map.highest) {
      const double most = picture_.scallop + picture_.rest_more;
      const bool too_high = map.highest->mm > most;
      say("Most left standing: " + number_text(map.highest->mm, 3) + where(*map.highest) +
              ", ordered scallop " + number_text(picture_.scallop, 3),
          too_high);
    }
    say("Sampled: each cell of " + number_text((picture_.x1 - picture_.x0) / picture_.columns, 3) +
            " mm is looked at in its middle.",
        false);
  }

  const CutPicture& picture_;
  ChartCanvas canvas_;
  pattern::Polyline outline_;
  MeridianSize size_;
  double x0_ = 0, x1_ = 0, y0_ = 0, y1_ = 0, scale_ = 1;
  std::size_t programs_ = 1;
};

void require_map(const CutPicture& picture) {
  if (!picture.deviation) return;
  if (picture.columns < 1 || picture.rows < 1 ||
      picture.deviation->size() !=
          static_cast<std::size_t>(picture.columns) * static_cast<std::size_t>(picture.rows) ||
      !(picture.x1 > picture.x0) || !(picture.y1 > picture.y0))
    throw std::logic_error("a picture of a cut was asked for whose cells do not fill its map");
}

}  // namespace

std::string cut_picture_png(const CutPicture& picture) {
  require_map(picture);
  return CutSheet(picture).draw();
}

}  // namespace crownwright::drawings
