#include "drawings/work_sheet_views.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "drawings/chart_scale.h"
#include "drawings/flat_meridian.h"
#include "drawings/section_view.h"

// Weights: 0.6 the form, 0.18 dimensions; the cut is toned, what is seen behind it paler.

namespace crownwright::drawings {
namespace {

using pattern::Polyline;
using pattern::Vec2;

const WorkStroke outside_stroke{0.6, 0, {}}, dimension_stroke{0.18, 0.2, {}},
    middle_stroke{0.18, 0.3, {6, 1.2, 1, 1.2}}, chord_stroke{0.25, 0.2, {1.2, 1}};
constexpr double dimension_size = 3.4, small_size = 2.8;
constexpr double label_gap = 4.4;  // between two lines of dimensions
constexpr double cut_tone = 0.78, seen_tone = 0.95;

// ---- the form ----------------------------------------------------------------------------------

class SheetProfileView {
 public:
  SheetProfileView(WorkDrawing& drawing, const SheetProfile& profile, const SheetBox& box)
      : drawing_(drawing), profile_(profile), box_(box), outline_(flat_meridian(profile.outer, 0.02)) {
    const MeridianSize size = size_of_meridian(outline_);
    radius_ = std::max(size.radius, 1e-3), low_ = size.low, high_ = size.high;
    for (const Vec2 p : outline_)
      if (p.x > size.radius - 1e-6) widest_ = p.y;
    const double room = box.width - left_room - right_room;
    const double tall = box.height - top_room - bottom_room();
    scale_ = round_scale(std::min(room / (2 * radius_), tall / std::max(high_ - low_, 1e-3)));
    axis_ = box.corner.x + left_room + room / 2;
    top_ = box.corner.y + top_room;
    place_ = {scale_.factor, axis_, top_, high_};
    const double used = top_room + scale_.factor * (high_ - low_) + bottom_room();
    bottom_ = box.corner.y + used;
  }

  /// Of the box; no more than it is high.
  double used() const { return bottom_ - box_.corner.y; }

  void draw(bool to_scale) {
    if (outline_.size() < 2) return;
    section();
    drawing_.group("outline");
    drawing_.line(place(outline_), outside_stroke);
    drawing_.end();
    drawing_.group("dimensions");
    drawing_.line({place(0, high_) + Vec2{0, -2.5}, place(0, low_) + Vec2{0, 2.5}}, middle_stroke);
    widths();
    heights();
    dome();
    edges();
    if (to_scale)
      drawing_.text({box_.corner.x + box_.width, bottom_ - 2}, std::string("scale ").append(scale_.says),
                    {small_size, false, Anchor::end});
    drawing_.end();
  }

 private:
  static constexpr double left_room = 3, right_room = 29.5, top_room = 11, row = 8.6;

  double bottom_room() const { return 1 + row * (profile_.head.empty() ? 1 : 2); }
  Vec2 place(double x, double z) const { return place_(x, z); }
  Polyline place(const Polyline& points) const { return place_(points); }
  double head_radius() const {
    return profile_.head_line ? radius_at_height(outline_, *profile_.head_line) : outline_.back().x;
  }

  void section() {
    drawing_.group("section");
    Polyline behind = outline_;
    if (behind.back().x > 0) behind.push_back({0, behind.back().y});
    drawing_.fill(place(behind), seen_tone);
    double tone = cut_tone;
    for (const meridian::Chain& shell : profile_.shells) {
      Polyline half = flat_meridian(shell, 0.02);
      for (Vec2& p : half) p.x = -p.x;
      const Polyline placed = place(half);
      drawing_.fill(placed, tone);
      drawing_.line(placed, outside_stroke);
      tone = 1;
    }
    drawing_.end();
  }

  void tick(Vec2 at) { draw_tick(drawing_, at, 1, 0.35); }

  void width(double radius, double from_z, double y, const std::string& words) {
    for (const double side : {-1.0, 1.0}) {
      const Vec2 from = place(side * radius, from_z);
      drawing_.line({from + Vec2{0, 1}, {from.x, y + 1.5}}, dimension_stroke);
    }
    const double left = place(-radius, 0).x, right = place(radius, 0).x;
    drawing_.line({{left, y}, {right, y}}, dimension_stroke);
    tick({left, y});
    tick({right, y});
    WorkText look{dimension_size, false, Anchor::middle};
    look.cleared = true;
    drawing_.fitted({axis_, y + 3.4}, words, look, box_.width - right_room);
  }

  void widths() {
    double y = place(0, low_).y + 4;
    if (!profile_.head.empty()) {
      width(head_radius(), low_, y, profile_.head);
      y += row;
    }
    if (!profile_.crown.empty()) width(radius_, widest_, y, profile_.crown);
  }

  void heights() {
    const double x = place(radius_, 0).x + 6;
    std::vector<double> planes = {low_, high_};
    std::vector<std::pair<double, std::string>> spans;  // middle on paper
    const double head = profile_.head_line ? *profile_.head_line : low_;
    if (head > low_ + 1e-6) planes.push_back(head);
    if (!profile_.rise.empty()) spans.emplace_back(place(0, (head + high_) / 2).y, profile_.rise);
    if (!profile_.collar.empty()) spans.emplace_back(place(0, (low_ + head) / 2).y, profile_.collar);
    for (const double z : planes) {
      const double from = z == high_ ? 0 : z == low_ ? outline_.back().x : head_radius();
      drawing_.line({place(from, z) + Vec2{1.5, 0}, {x + 1.5, place(0, z).y}}, dimension_stroke);
      tick({x, place(0, z).y});
    }
    drawing_.line({{x, place(0, low_).y}, {x, place(0, high_).y}}, dimension_stroke);
    std::vector<double> wanted;
    for (const auto& span : spans) wanted.push_back(span.first);
    const std::vector<double> at = spread(wanted, label_gap, box_.corner.y + 2, bottom_ - 7);
    const double end = box_.corner.x + box_.width;
    for (std::size_t i = 0; i < spans.size(); ++i)
      drawing_.fitted({x + 2.5, at[i]}, spans[i].second, {dimension_size}, end - x - 2.5);
  }

  void dome() {
    if (profile_.dome_words.empty()) return;
    if (profile_.dome > 0) {
      const double z = high_ - profile_.dome, r = radius_at_height(outline_, z - 1e-6);
      drawing_.line({place(-r, z), place(r, z)}, chord_stroke);
    }
    drawing_.fitted({axis_, place(0, high_).y - 5}, profile_.dome_words,
                    {dimension_size, false, Anchor::middle}, 30);
  }

  // The middle of the edge's upper arc, left.
  void edges() {
    if (profile_.edge.empty()) return;
    const Vec2 corner = box_.corner;
    const double limit = axis_ - corner.x - 16;
    double y = corner.y + 2;
    drawing_.fitted({corner.x, y}, profile_.edge, {dimension_size}, limit);
    if (!profile_.under_edge.empty()) {
      y += label_gap;
      drawing_.fitted({corner.x, y}, profile_.under_edge, {dimension_size}, limit);
    }
    for (const meridian::Segment& segment : profile_.outer) {
      if (!segment.is_arc() || std::abs(segment.radius() - profile_.edge_radius) > 1e-6) continue;
      const meridian::Point middle = segment.at(segment.length() / 2);
      drawing_.line({{corner.x + 6, y + 2.6}, place(-middle.r, middle.z)}, dimension_stroke);
      return;
    }
  }

  WorkDrawing& drawing_;
  const SheetProfile& profile_;
  SheetBox box_;
  Polyline outline_;
  SectionPlace place_;
  double radius_ = 0, low_ = 0, high_ = 0, widest_ = 0, axis_ = 0, top_ = 0, bottom_ = 0;
  DrawingScale scale_;
};

// ---- the fit -----------------------------------------------------------------------------------

struct StrainCurve {
  const char* name;
  double fit::FitStation::*value;
  WorkStroke stroke;
};

const StrainCurve hoop_curve{"round the crown", &fit::FitStation::hoop_mean, {0.8, 0, {}}},
    seam_curve{"along the seams", &fit::FitStation::seam_mean, {0.45, 0, {2.2, 1.2}}},
    centre_curve{"along the panels' middle", &fit::FitStation::centre_mean, {0.45, 0, {0.5, 1}}},
    length_curve{"lengthwise", &fit::FitStation::seam_mean, {0.45, 0, {2.2, 1.2}}};

// A disc and ring have no seams from the tip down: one curve tells their lengths.
std::vector<StrainCurve> strain_curves_of_sheet(const fit::FitReport& report) {
  const bool differ =
      std::any_of(report.stations.begin(), report.stations.end(), [](const fit::FitStation& station) {
        return std::abs(station.seam_mean - station.centre_mean) > 1e-9;
      });
  if (differ) return {hoop_curve, seam_curve, centre_curve};
  return {hoop_curve, length_curve};
}

std::string signed_percent(double percent) {
  const std::string text = number_text(std::abs(percent), 1);
  return (percent < 0 && text != "0" ? "\u2212" + text : text) + " %";
}

class SheetChartView {
 public:
  SheetChartView(WorkDrawing& drawing, const SheetChart& chart, const SheetBox& box)
      : drawing_(drawing), chart_(chart), curves_(strain_curves_of_sheet(chart.report)) {
    left_ = box.corner.x + 9, right_ = box.corner.x + box.width - 1;
    top_ = box.corner.y + 7, bottom_ = box.corner.y + box.height - 26;
    title_ = box.corner.y + 2;
    ease_ = -100 * std::max(fit::small_ease, chart.limits.ease + chart.limits.heat_shrink);
    stretch_ = 100 * chart.limits.stretch;
    double low = -1.5, high = 1.5;
    for (const StrainCurve& curve : curves_) {
      for (const fit::FitStation& station : chart.report.stations) {
        low = std::min(low, 120 * (station.*curve.value));
        high = std::max(high, 120 * (station.*curve.value));
      }
    }
    const double far = 1.5 * std::max({high, -low, 4.0});
    if (stretch_ < far) high = std::max(high, 1.25 * stretch_);
    if (-ease_ < far) low = std::min(low, 1.25 * ease_);
    y_ = {low, high, bottom_, top_};
    x_ = {0, chart.report.stations.back().s / chart.unit, left_, right_};
  }

  void draw() {
    drawing_.group("chart");
    drawing_.text({left_ - 9, title_}, "Strain of the cloth, %", {3.2, true});
    band(stretch_, y_.value_to, 0.8);
    band(y_.value_from, ease_, 0.8);
    band(ease_, -100 * fit::small_ease, 0.93);
    grid();
    for (const StrainCurve& curve : curves_) {
      Polyline points;
      for (const fit::FitStation& station : chart_.report.stations)
        points.push_back({x_.at(station.s / chart_.unit), y_.at(100 * (station.*curve.value))});
      drawing_.line(points, curve.stroke);
    }
    worst();
    below();
    drawing_.end();
  }

 private:
  void band(double from, double to, double light) {
    from = std::max(from, y_.value_from), to = std::min(to, y_.value_to);
    if (from >= to) return;
    const double a = y_.at(from), b = y_.at(to);
    drawing_.fill({{left_, a}, {right_, a}, {right_, b}, {left_, b}}, light);
  }

  void grid() {
    const double step = round_step(y_.value_to - y_.value_from, 7);
    for (const double value : ticks(y_.value_from, y_.value_to, step)) {
      const double y = y_.at(value);
      drawing_.line({{left_, y}, {right_, y}}, {value == 0 ? 0.4 : 0.12, 0.35, {}});
      drawing_.text({left_ - 1.2, y}, number_text(value, 2), {small_size, false, Anchor::end});
    }
    drawing_.line({{left_, top_}, {right_, top_}, {right_, bottom_}, {left_, bottom_}}, {0.25, 0, {}}, true);
    const double along = round_step(x_.value_to, 5);
    for (const double value : ticks(0, x_.value_to, along)) {
      drawing_.line({{x_.at(value), bottom_}, {x_.at(value), bottom_ + 1}}, {0.25, 0, {}});
      if (right_ - x_.at(value) > 2.5 || value == 0)
        drawing_.text({x_.at(value), bottom_ + 3}, number_text(value, 2),
                      {small_size, false, Anchor::middle});
    }
  }

  void worst() {
    const fit::Worst& worst = chart_.report.worst;
    const Vec2 at{x_.at(worst.at / chart_.unit), y_.at(100 * worst.value)};
    drawing_.line({at + Vec2{-1.5, -1.5}, at + Vec2{1.5, 1.5}}, {0.4, 0, {}});
    drawing_.line({at + Vec2{-1.5, 1.5}, at + Vec2{1.5, -1.5}}, {0.4, 0, {}});
    const std::string words = std::string("worst ").append(signed_percent(100 * worst.value));
    const double half = drawing_.width_of(words, 3, true) / 2 + 1;
    WorkText look{3, true, Anchor::middle};
    look.cleared = true;
    // Beyond the curve, or on its other side where the frame ends.
    double y = worst.value < 0 ? at.y + 4 : at.y - 4;
    if (y > bottom_ - 2.6) y = at.y - 4;
    if (y < top_ + 2.6) y = at.y + 4;
    drawing_.text({std::clamp(at.x, left_ + half, right_ - half), y}, words, look);
  }

  void below() {
    const double width = right_ - left_ + 9;
    double y = bottom_ + 7;
    drawing_.fitted({left_ - 9, y}, std::string("from the tip to the head line, ").append(chart_.unit_name),
                    {small_size}, width);
    y += 4.2;
    drawing_.fitted({left_ - 9, y}, "dark: beyond the cloth; pale: eased in by steam", {small_size}, width);
    for (const StrainCurve& curve : curves_) {
      y += 4.2;
      drawing_.line({{left_ - 9, y}, {left_ + 1, y}}, curve.stroke);
      drawing_.text({left_ + 3, y}, curve.name, {small_size});
    }
  }

  WorkDrawing& drawing_;
  const SheetChart& chart_;
  std::vector<StrainCurve> curves_;
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0, title_ = 0, ease_ = 0, stretch_ = 0;
  Scale x_, y_;
};

}  // namespace

double draw_sheet_profile(WorkDrawing& drawing, const SheetProfile& profile, const SheetBox& box,
                          bool on_paper) {
  SheetProfileView view(drawing, profile, box);
  view.draw(on_paper);
  return view.used();
}

void draw_sheet_chart(WorkDrawing& drawing, const SheetChart& chart, const SheetBox& box) {
  if (chart.report.stations.size() < 2) return;
  SheetChartView(drawing, chart, box).draw();
}

std::string sheet_profile_svg(const SheetProfile& profile, const std::string& title) {
  WorkDrawing drawing(120, 80);
  drawing.set_height(4 + draw_sheet_profile(drawing, profile, {{2, 2}, 116, 76}, false));
  return drawing.svg(title);
}

std::string sheet_chart_svg(const SheetChart& chart, const std::string& title) {
  WorkDrawing drawing(110, 80);
  draw_sheet_chart(drawing, chart, {{2, 2}, 106, 76});
  return drawing.svg(title);
}

}  // namespace crownwright::drawings
