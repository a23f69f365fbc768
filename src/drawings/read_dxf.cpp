#include "drawings/read_dxf.h"

#include <dxflib/dl_creationadapter.h>
#include <dxflib/dl_dxf.h>

#include <algorithm>
#include <numbers>
#include <set>
#include <sstream>

#include "base/ascii.h"
#include "drawings/dxf_text_guard.h"
#include "drawings/faults.h"
#include "drawings/nurbs.h"

// dxflib trusts counts and line lengths. It is handed no byte of the file itself: dxf_groups finds the
// entities, dxf_text_guard writes each anew, and dxflib turns that text into figures, in the same order.

namespace crownwright::drawings {
namespace {

using pattern::Vec2;

constexpr double full_turn = 2 * std::numbers::pi;
double radians(double degrees) { return std::fmod(degrees, 360.0) * std::numbers::pi / 180; }

// What the guard knows of an entity and dxflib does not pass on.
struct Known {
  bool mirrored, closed;
  int line;
};

class Figures : public DL_CreationAdapter {
 public:
  Figures(const std::vector<Known>& known, Pen& pen, double unit, const std::string& name)
      : known_(known), pen_(pen), unit_(unit), name_(name) {}

  void addLine(const DL_LineData& l) override {
    if (!begin(false)) return;
    pen_.move_to({l.x1, l.y1});
    pen_.line_to({l.x2, l.y2});
    end();
  }

  void addArc(const DL_ArcData& a) override {
    if (!begin(true)) return;
    const double from = radians(a.angle1);
    double sweep = radians(a.angle2) - from;
    while (sweep <= 0) sweep += full_turn;
    whole_or_part({a.cx, a.cy}, {a.radius, 0}, {0, a.radius}, from, sweep);
    end();
  }

  void addCircle(const DL_CircleData& c) override {
    if (!begin(true)) return;
    whole_or_part({c.cx, c.cy}, {c.radius, 0}, {0, c.radius}, 0, full_turn);
    end();
  }

  void addEllipse(const DL_EllipseData& e) override {
    if (!begin(false)) return;
    const double turned = known_[at_].mirrored ? -1 : 1;  // the short axis is normal x long axis
    const Vec2 long_axis{e.mx, e.my}, short_axis{-turned * e.ratio * e.my, turned * e.ratio * e.mx};
    double sweep = std::fmod(e.angle2 - e.angle1, full_turn);
    if (sweep <= 0) sweep += full_turn;
    whole_or_part({e.cx, e.cy}, long_axis, short_axis, std::fmod(e.angle1, full_turn), sweep);
    end();
  }

  void addPolyline(const DL_PolylineData&) override {
    if (begin(true)) vertices_open_ = true;
  }

  void addVertex(const DL_VertexData& v) override {
    if (vertices_open_) vertices_.push_back({{v.x, v.y}, v.bulge});
  }

  void addSpline(const DL_SplineData& s) override {
    if (!begin(false)) return;
    spline_open_ = true;
    spline_ = {static_cast<int>(s.degree), {}, {}, {}};
  }
  void addKnot(const DL_KnotData& k) override {
    if (spline_open_) spline_.knots.push_back(k.k);
  }
  void addControlPoint(const DL_ControlPointData& c) override {
    if (!spline_open_) return;
    spline_.controls.push_back({c.x, c.y});
    spline_.weights.push_back(c.w);
  }

  /// After the last entity.
  void finish() {
    if (vertices_open_) draw_vertices();
    if (spline_open_) draw_spline();
  }

  const std::optional<Fault>& fault() const { return fault_; }
  std::size_t drawn() const { return at_; }

 private:
  struct Vertex {
    Vec2 at;
    double bulge;
  };

  // Ends the figure before. Plane figures are given in their own plane, which may be seen from below.
  bool begin(bool in_plane) {
    finish();
    if (fault_ || at_ >= known_.size()) return false;
    const double side = in_plane && known_[at_].mirrored ? -unit_ : unit_;
    pen_.set_frame({side, 0, 0, -unit_, 0, 0});
    return true;
  }

  void end() {
    pen_.lift();
    if (pen_.trouble() != Trouble::none && !fault_) fault_ = trouble_fault(where(), pen_.trouble());
    ++at_;
  }

  std::string where() const { return name_ + ":" + std::to_string(known_[at_].line); }

  void whole_or_part(Vec2 centre, Vec2 x_axis, Vec2 y_axis, double from, double sweep) {
    pen_.move_to(centre + std::cos(from) * x_axis + std::sin(from) * y_axis);
    pen_.arc(centre, x_axis, y_axis, from, sweep);
    if (sweep >= full_turn - 1e-9) pen_.close();
  }

  // DXF reference: bulge = tan(a quarter of the arc's angle), above 0 when it runs counter-clockwise.
  void side_to(const Vertex& from, Vec2 to) {
    const Vec2 chord = to - from.at;
    if (from.bulge == 0 || norm(chord) == 0 || !std::isfinite(from.bulge)) return pen_.line_to(to);
    const double angle = 4 * std::atan(from.bulge);
    const double up = (1 / from.bulge - from.bulge) / 4;  // of the centre over the chord, in chords
    const Vec2 centre = from.at + 0.5 * chord + up * Vec2{-chord.y, chord.x};
    const Vec2 spoke = from.at - centre;
    pen_.arc(centre, spoke, {-spoke.y, spoke.x}, 0, angle);
  }

  void draw_vertices() {
    vertices_open_ = false;
    const std::vector<Vertex> vertices = std::move(vertices_);
    vertices_.clear();
    if (!vertices.empty()) pen_.move_to(vertices.front().at);
    for (std::size_t i = 0; i + 1 < vertices.size(); ++i) side_to(vertices[i], vertices[i + 1].at);
    if (known_[at_].closed && vertices.size() > 1) {
      side_to(vertices.back(), vertices.front().at);
      pen_.close();
    }
    end();
  }

  void draw_spline() {
    spline_open_ = false;
    const std::string wrong = nurbs_fault(spline_);
    if (!wrong.empty()) {
      fault_ = order_fault(where(), wrong, "a spline with control points and knots, degree 1 to 11");
      return;
    }
    draw_nurbs(spline_, pen_, unit_);
    end();
  }

  const std::vector<Known>& known_;
  Pen& pen_;
  double unit_;
  const std::string& name_;
  std::size_t at_ = 0;
  std::optional<Fault> fault_;
  bool vertices_open_ = false, spline_open_ = false;
  std::vector<Vertex> vertices_;
  Nurbs spline_;
};

bool is_among(std::string_view layer, const std::vector<std::string_view>& layers) {
  return std::any_of(layers.begin(), layers.end(),
                     [&](std::string_view l) { return lower_case(l) == lower_case(layer); });
}

// Layers of the model's entities, in order of appearance.
std::vector<std::string> layer_names(const DxfFile& file) {
  std::set<std::string_view> seen;
  std::vector<std::string> names;
  for (const DxfEntity& entity : file.entities) {
    if (!entity.on_paper && seen.insert(entity.layer).second) names.emplace_back(entity.layer);
  }
  return names;
}

std::vector<DxfEntity> wanted_entities(const DxfFile& file, const std::string& layer) {
  std::vector<DxfEntity> wanted;
  for (const DxfEntity& entity : file.entities) {
    if (entity.on_paper || is_passed_over(entity.kind)) continue;
    const bool on_layer = layer.empty() ? !is_among(entity.layer, file.hidden_layers)
                                        : lower_case(entity.layer) == lower_case(layer);
    if (on_layer) wanted.push_back(entity);
  }
  return wanted;
}

// $INSUNITS: 1 inch, 2 foot, 4 mm, 5 cm, 6 m, 14 dm.
Result<double> unit_of(const DxfFile& file, const std::string& name, const DrawingRules& rules) {
  if (rules.unit_mm) return *rules.unit_mm;
  switch (file.units.value_or(0)) {
    case 1:
      return 25.4;
    case 2:
      return 304.8;
    case 4:
      return 1.0;
    case 5:
      return 10.0;
    case 6:
      return 1000.0;
    case 14:
      return 100.0;
    case 0:
      return order_fault(name, "the drawing does not say its units: there is no $INSUNITS in it",
                         "a DXF 2000 file saved in mm, cm or inches");
    default:
      return order_fault(
          name, "the drawing's units ($INSUNITS " + std::to_string(*file.units) + ") are not known here",
          "mm, cm, dm, m, inches or feet");
  }
}

struct SafeText {
  std::string text;
  std::vector<Known> known;
};

Result<SafeText> safe_text(const DxfFile& file, const std::vector<DxfEntity>& entities,
                           const std::string& name) {
  SafeText safe;
  safe.text = "0\nSECTION\n2\nENTITIES\n";
  for (const DxfEntity& entity : entities) {
    const int line = file.groups[entity.from].line;
    if (!is_line_work(entity.kind)) {
      return order_fault(name + ":" + std::to_string(line),
                         std::string(entity.kind.substr(0, 40)) + " cannot be read as lines",
                         "LINE, ARC, CIRCLE, ELLIPSE, LWPOLYLINE, POLYLINE and SPLINE; explode blocks first");
    }
    const auto one = safe_entity(file, entity, name);
    if (!one) return one.fault();
    safe.text += one->text;
    safe.known.push_back({one->mirrored, one->closed, line});
  }
  safe.text += "0\nENDSEC\n0\nEOF\n";
  return safe;
}

}  // namespace

Result<Lines> read_dxf(std::string_view bytes, const std::string& name, const DrawingRules& rules) {
  const auto file = dxf_file(bytes, name);
  if (!file) return file.fault();
  const auto names = layer_names(*file);
  const auto same = [&](const std::string& l) { return lower_case(l) == lower_case(rules.layer); };
  if (!rules.layer.empty() && std::none_of(names.begin(), names.end(), same)) {
    return unknown_layer(name, rules.layer, names, "layer");
  }
  const auto unit = unit_of(*file, name, rules);
  if (!unit) return unit.fault();
  const auto safe = safe_text(*file, wanted_entities(*file, rules.layer), name);
  if (!safe) return safe.fault();
  Pen pen(rules.curve_tolerance, most_points);
  Figures figures(safe->known, pen, *unit, name);
  std::istringstream stream(safe->text);
  DL_Dxf().in(stream, &figures);
  figures.finish();
  if (figures.fault()) return *figures.fault();
  if (figures.drawn() != safe->known.size()) {
    return order_fault(name, "not all of the drawing could be read", "a plain DXF drawing, R12 or 2000");
  }
  return pen.take();
}

}  // namespace crownwright::drawings
