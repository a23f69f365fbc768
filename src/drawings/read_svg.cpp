#include "drawings/read_svg.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <pugixml.hpp>

#include "base/ascii.h"
#include "drawings/faults.h"
#include "drawings/svg_path.h"
#include "drawings/svg_text.h"

namespace crownwright::drawings {
namespace {

using pattern::Vec2;

constexpr double mm_a_pixel = 25.4 / 96;
constexpr int deepest = 200;
constexpr double same_scale = 1e-4;  // relative: widths and heights are written rounded

std::string local_name(const pugi::xml_node& node) {
  const std::string name = node.name();
  return name.rfind("svg:", 0) == 0 ? name.substr(4) : name;
}

template <std::size_t N>
bool is_one_of(const std::string& name, const std::array<const char*, N>& names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

constexpr std::array<const char*, 9> never_drawn = {
    "defs", "symbol", "clipPath", "mask", "marker", "pattern", "linearGradient", "radialGradient", "filter"};
constexpr std::array<const char*, 4> groups = {"g", "a", "switch", "svg"};
constexpr std::array<const char*, 5> refused = {"use", "image", "foreignObject", "svg", "mesh"};
constexpr std::array<const char*, 7> shapes = {"path", "line",   "polyline", "polygon",
                                               "rect", "circle", "ellipse"};

int line_at(std::string_view bytes, std::ptrdiff_t offset) {
  const auto end = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(offset, 0, std::ssize(bytes)));
  return 1 +
         static_cast<int>(std::count(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(end), '\n'));
}

// One property of a style="a: b; c: d" attribute.
std::string style_value(std::string_view style, std::string_view property) {
  while (!style.empty()) {
    const std::size_t end = std::min(style.find(';'), style.size());
    const std::string_view one = style.substr(0, end);
    style.remove_prefix(std::min(end + 1, style.size()));
    const std::size_t colon = one.find(':');
    if (colon == std::string_view::npos) continue;
    std::string name, value;
    for (const char c : one.substr(0, colon))
      name += c == ' ' || c == '\n' || c == '\t' ? "" : std::string(1, c);
    for (const char c : one.substr(colon + 1))
      value += c == ' ' || c == '\n' || c == '\t' ? "" : std::string(1, c);
    if (name == property) return value;
  }
  return {};
}

bool is_hidden(const pugi::xml_node& node) {
  const std::string styled = style_value(node.attribute("style").value(), "display");
  return styled.empty() ? std::strcmp(node.attribute("display").value(), "none") == 0 : styled == "none";
}

class SvgReading {
 public:
  SvgReading(std::string_view bytes, const std::string& name, const DrawingRules& rules)
      : bytes_(bytes), name_(name), rules_(rules), pen_(rules.curve_tolerance, most_points) {}

  Result<Lines> read() {
    pugi::xml_document document;
    const pugi::xml_parse_result parsed =
        document.load_buffer(bytes_.data(), bytes_.size(), pugi::parse_default);
    if (!parsed) return not_xml(parsed);
    const pugi::xml_node root = document.document_element();
    if (local_name(root) != "svg") {
      return order_fault(name_,
                         "this is XML but no SVG drawing: it starts with <" + std::string(root.name()) + ">",
                         "an SVG or DXF drawing");
    }
    const auto frame = frame_of(root);
    if (!frame) return frame.fault();
    if (const auto drawn = walk(root, *frame, rules_.layer.empty(), 0); !drawn) return drawn.fault();
    if (!rules_.layer.empty() && !found_) return unknown_layer(name_, rules_.layer, ids_, "id");
    return pen_.take();
  }

 private:
  Fault not_xml(const pugi::xml_parse_result& parsed) const {
    const std::string where = name_ + ":" + std::to_string(line_at(bytes_, parsed.offset));
    if (parsed.status == pugi::status_no_document_element) {
      return order_fault(name_, "this is no SVG drawing: it holds no element", "an SVG or DXF drawing");
    }
    std::string what = "the file is not well-formed XML (" + std::string(parsed.description()) + ")";
    if (parsed.offset + 1 >= std::ssize(bytes_)) what += "; it seems to be cut short";
    return order_fault(where, what, "a whole SVG file");
  }

  std::string where_is(const pugi::xml_node& node) const {
    std::string text =
        name_ + ":" + std::to_string(line_at(bytes_, node.offset_debug())) + ": <" + local_name(node);
    const std::string id = node.attribute("id").value();
    if (!id.empty()) text += " id=\"" + id + "\"";
    return text + ">";
  }

  // --- scale

  Fault no_units(const pugi::xml_node& root) const {
    return order_fault(where_is(root),
                       "the drawing does not say how large it is: width and height carry no unit",
                       "width=\"210mm\" height=\"297mm\" and a viewBox, in mm, cm, in, pt, pc or px");
  }

  // From the root's user units to millimetres.
  Result<Affine> frame_of(const pugi::xml_node& root) const {
    if (rules_.unit_mm) return Affine{*rules_.unit_mm, 0, 0, *rules_.unit_mm, 0, 0};
    const auto width = svg_length(root.attribute("width").value());
    const auto height = svg_length(root.attribute("height").value());
    const bool sized = (width && width->has_unit) || (height && height->has_unit);
    const bool contradicted = (width && !width->has_unit) || (height && !height->has_unit);
    if (!sized || contradicted) return no_units(root);
    if (!root.attribute("viewBox")) return Affine{mm_a_pixel, 0, 0, mm_a_pixel, 0, 0};
    const auto box = svg_numbers(root.attribute("viewBox").value());
    if (!box || box->size() != 4 || !((*box)[2] > 0) || !((*box)[3] > 0)) {
      return order_fault(where_is(root), "the viewBox cannot be read", "four numbers, the last two above 0");
    }
    const double sx = width ? width->pixels / (*box)[2] : 0;
    const double sy = height ? height->pixels / (*box)[3] : 0;
    return scaled(root, sx, sy);
  }

  Result<Affine> scaled(const pugi::xml_node& root, double sx, double sy) const {
    const std::string aspect = root.attribute("preserveAspectRatio").value();
    double scale = std::max(sx, sy);
    if (sx > 0 && sy > 0) {
      const bool alike = std::abs(sx - sy) <= same_scale * std::max(sx, sy);
      if (!alike && aspect.find("none") != std::string::npos) {
        return order_fault(where_is(root), "width and height stretch the viewBox unequally",
                           "one scale for both, without preserveAspectRatio=\"none\"");
      }
      scale = aspect.find("slice") != std::string::npos ? std::max(sx, sy) : std::min(sx, sy);
    }
    if (!(scale > 0) || !std::isfinite(scale)) return no_units(root);
    return Affine{scale * mm_a_pixel, 0, 0, scale * mm_a_pixel, 0, 0};
  }

  // --- tree

  bool is_the_layer(const pugi::xml_node& node) const {
    return rules_.layer == node.attribute("id").value() ||
           rules_.layer == node.attribute("inkscape:label").value();
  }

  Result<Done> walk(const pugi::xml_node& parent, const Affine& outer, bool wanted, int depth) {
    if (depth > deepest) {
      return order_fault(where_is(parent), "groups are nested too deeply",
                         "at most " + std::to_string(deepest));
    }
    for (const pugi::xml_node& node : parent.children()) {
      if (node.type() != pugi::node_element) continue;
      if (const auto drawn = visit(node, outer, wanted, depth); !drawn) return drawn;
    }
    return Done{};
  }

  Result<Done> visit(const pugi::xml_node& node, const Affine& outer, bool wanted, int depth) {
    const std::string kind = local_name(node);
    if (is_one_of(kind, never_drawn) || is_hidden(node)) return Done{};
    const bool group = is_one_of(kind, groups), shape = is_one_of(kind, shapes);
    if ((group || shape) && *node.attribute("id").value()) ids_.push_back(node.attribute("id").value());
    const bool here = wanted || ((group || shape) && is_the_layer(node));
    if (here) found_ = true;
    if (is_one_of(kind, refused) && here) {
      return order_fault(
          where_is(node), "<" + kind + "> cannot be read as lines",
          "paths, lines, polylines, polygons, rectangles, circles and ellipses drawn in place");
    }
    if (!group && !shape) return Done{};
    const auto own = svg_transform(node.attribute("transform").value());
    if (!own) {
      return order_fault(
          where_is(node),
          "the transform \"" + std::string(node.attribute("transform").value()) + "\" cannot be read",
          "matrix, translate, scale, rotate, skewX, skewY");
    }
    const Affine frame = outer * *own;
    if (group) return walk(node, frame, here, depth + 1);
    return here ? draw(node, kind, frame) : Result<Done>(Done{});
  }

  // --- shapes

  Result<Done> draw(const pugi::xml_node& node, const std::string& kind, const Affine& frame) {
    pen_.set_frame(frame);
    std::string wrong;
    if (kind == "path") wrong = draw_svg_path(node.attribute("d").value(), pen_);
    if (kind == "line") wrong = draw_line(node);
    if (kind == "polyline" || kind == "polygon") wrong = draw_points(node, kind == "polygon");
    if (kind == "rect") wrong = draw_rect(node);
    if (kind == "circle" || kind == "ellipse") wrong = draw_round(node, kind == "circle");
    pen_.lift();
    if (pen_.trouble() != Trouble::none) return trouble_fault(where_is(node), pen_.trouble());
    if (!wrong.empty()) return order_fault(where_is(node), wrong, "data as SVG 1.1 writes it");
    return Done{};
  }

  // An attribute in user units; `bad` is set when it is there and cannot be read.
  static double value_of(const pugi::xml_node& node, const char* name, bool& bad) {
    const pugi::xml_attribute attribute = node.attribute(name);
    if (!attribute) return 0;
    const auto length = svg_length(attribute.value());
    bad = bad || !length;
    return length ? length->pixels : 0;
  }

  std::string draw_line(const pugi::xml_node& node) {
    bool bad = false;
    const Vec2 from{value_of(node, "x1", bad), value_of(node, "y1", bad)};
    const Vec2 to{value_of(node, "x2", bad), value_of(node, "y2", bad)};
    if (bad) return "the line's ends cannot be read";
    pen_.move_to(from);
    pen_.line_to(to);
    return {};
  }

  std::string draw_points(const pugi::xml_node& node, bool closed) {
    const auto values = svg_numbers(node.attribute("points").value());
    if (!values || values->size() % 2 != 0) return "the points cannot be read";
    for (std::size_t i = 0; i + 1 < values->size(); i += 2) {
      const Vec2 p{(*values)[i], (*values)[i + 1]};
      i == 0 ? pen_.move_to(p) : pen_.line_to(p);
    }
    if (closed) pen_.close();
    return {};
  }

  std::string draw_rect(const pugi::xml_node& node) {
    bool bad = false;
    const Vec2 at{value_of(node, "x", bad), value_of(node, "y", bad)};
    const double w = value_of(node, "width", bad), h = value_of(node, "height", bad);
    double rx = value_of(node, "rx", bad), ry = value_of(node, "ry", bad);
    if (bad || w < 0 || h < 0 || rx < 0 || ry < 0) return "the rectangle's figures cannot be read";
    if (w == 0 || h == 0) return {};
    if (!node.attribute("rx")) rx = ry;
    if (!node.attribute("ry")) ry = rx;
    rx = std::min(rx, w / 2), ry = std::min(ry, h / 2);
    pen_.move_to(at + Vec2{rx, 0});
    pen_.line_to(at + Vec2{w - rx, 0});
    pen_.arc_to(rx, ry, 0, false, true, at + Vec2{w, ry});
    pen_.line_to(at + Vec2{w, h - ry});
    pen_.arc_to(rx, ry, 0, false, true, at + Vec2{w - rx, h});
    pen_.line_to(at + Vec2{rx, h});
    pen_.arc_to(rx, ry, 0, false, true, at + Vec2{0, h - ry});
    pen_.line_to(at + Vec2{0, ry});
    pen_.arc_to(rx, ry, 0, false, true, at + Vec2{rx, 0});
    pen_.close();
    return {};
  }

  std::string draw_round(const pugi::xml_node& node, bool circle) {
    bool bad = false;
    const Vec2 centre{value_of(node, "cx", bad), value_of(node, "cy", bad)};
    const double rx = value_of(node, circle ? "r" : "rx", bad), ry = value_of(node, circle ? "r" : "ry", bad);
    if (bad || rx < 0 || ry < 0)
      return "the " + std::string(circle ? "circle" : "ellipse") + " cannot be read";
    if (rx == 0 || ry == 0) return {};
    pen_.move_to(centre + Vec2{rx, 0});
    pen_.arc(centre, {rx, 0}, {0, ry}, 0, 6.283185307179586);
    pen_.close();
    return {};
  }

  std::string_view bytes_;
  const std::string& name_;
  const DrawingRules& rules_;
  Pen pen_;
  std::vector<std::string> ids_;
  bool found_ = false;
};

}  // namespace

Result<Lines> read_svg(std::string_view bytes, const std::string& name, const DrawingRules& rules) {
  return SvgReading(bytes, name, rules).read();
}

}  // namespace crownwright::drawings
