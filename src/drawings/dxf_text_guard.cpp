#include "drawings/dxf_text_guard.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <span>

#include "drawings/faults.h"

namespace crownwright::drawings {
namespace {

using Groups = std::span<const DxfGroup>;

struct Wanted {
  std::string_view kind;
  std::vector<int> needed;    // real numbers that must be there
  std::vector<int> optional;  // real numbers that may be
};

const std::array<Wanted, 4>& single_figures() {
  static const std::array<Wanted, 4> all = {{{"LINE", {10, 20, 11, 21}, {}},
                                             {"ARC", {10, 20, 40, 50, 51}, {}},
                                             {"CIRCLE", {10, 20, 40}, {}},
                                             {"ELLIPSE", {10, 20, 11, 21, 40}, {41, 42}}}};
  return all;
}

constexpr std::array<std::string_view, 16> passed_over = {
    "TEXT",      "MTEXT",     "ATTDEF",      "ATTRIB",         "POINT",
    "DIMENSION", "LEADER",    "MLEADER",     "RTEXT",          "VIEWPORT",
    "HATCH",     "TOLERANCE", "MULTILEADER", "ARCALIGNEDTEXT", "ACAD_PROXY_ENTITY",
    "WIPEOUT"};

class Rewriting {
 public:
  Rewriting(const DxfFile& file, const DxfEntity& entity, const std::string& name)
      : groups_(Groups(file.groups).subspan(entity.from, entity.to - entity.from)),
        entity_(entity),
        name_(name) {}

  Result<SafeEntity> rewrite() {
    if (const auto flat = check_flat(); !flat) return flat.fault();
    put(0, std::string(entity_.kind));
    put(8, "0");
    Result<Done> done = Done{};
    if (entity_.kind == "LWPOLYLINE") {
      done = light_polyline();
    } else if (entity_.kind == "POLYLINE") {
      done = polyline();
    } else if (entity_.kind == "SPLINE") {
      done = spline();
    } else {
      done = single_figure();
    }
    if (!done) return done.fault();
    return std::move(out_);
  }

 private:
  void put(int code, const std::string& value) {
    out_.text.append(std::to_string(code)).append("\n").append(value).append("\n");
  }
  void put(int code, double value) {
    char digits[40];
    const auto [end, error] = std::to_chars(digits, digits + sizeof digits, value);
    put(code, std::string(digits, end));
  }

  std::string where(int line) const {
    return name_ + ":" + std::to_string(line) + ": " + std::string(entity_.kind);
  }
  Fault bad_number(const DxfGroup& group) const {
    return order_fault(where(group.line), quoted(group.value) + " is no finite number",
                       "decimal numbers with a point");
  }
  Fault broken(const std::string& what) const {
    return order_fault(where(groups_.front().line), what, "a whole " + std::string(entity_.kind));
  }

  // Of the entity itself, not of its vertices.
  Groups own() const {
    std::size_t end = 1;
    while (end < groups_.size() && groups_[end].code != 0) ++end;
    return groups_.subspan(0, end);
  }

  std::optional<DxfGroup> find(Groups groups, int code) const {
    for (const DxfGroup& g : groups) {
      if (g.code == code) return g;
    }
    return std::nullopt;
  }

  Result<int> integer(Groups groups, int code, int otherwise) const {
    const auto group = find(groups, code);
    if (!group) return otherwise;
    const auto value = dxf_integer(group->value);
    if (!value)
      return order_fault(where(group->line), quoted(group->value) + " is no whole number", "a whole number");
    return *value;
  }

  // All heights alike, and the plane seen from above or below.
  Result<Done> check_flat() {
    std::optional<double> height;
    for (const DxfGroup& g : groups_) {
      const bool is_height = g.code == 30 || (g.code == 31 && entity_.kind == "LINE");
      if (!is_height && g.code != 210 && g.code != 220 && g.code != 230) continue;
      const auto value = dxf_number(g.value);
      if (!value) return bad_number(g);
      if (is_height && std::abs(*value - height.value_or(*value)) > 1e-6) return not_flat(g);
      if (is_height) height = value;
      if ((g.code == 210 || g.code == 220) && std::abs(*value) > 1e-6) return not_flat(g);
      if (g.code == 230 && std::abs(std::abs(*value) - 1) > 1e-6) return not_flat(g);
      if (g.code == 230) out_.mirrored = *value < 0;
    }
    return Done{};
  }
  Fault not_flat(const DxfGroup& group) const {
    return order_fault(where(group.line), "the drawing is not flat", "lines in the plane of the paper");
  }

  Result<Done> single_figure() {
    const auto& all = single_figures();
    const auto wanted =
        std::find_if(all.begin(), all.end(), [&](const Wanted& w) { return w.kind == entity_.kind; });
    for (const int code : wanted->needed) {
      const auto group = find(groups_, code);
      if (!group) return broken("the figure of group " + std::to_string(code) + " is missing");
      const auto value = dxf_number(group->value);
      if (!value) return bad_number(*group);
      put(code, *value);
    }
    for (const int code : wanted->optional) {
      const auto group = find(groups_, code);
      if (!group) continue;
      const auto value = dxf_number(group->value);
      if (!value) return bad_number(*group);
      put(code, *value);
    }
    return Done{};
  }

  Result<Done> light_polyline() {
    const auto flags = integer(groups_, 70, 0);
    if (!flags) return flags.fault();
    out_.closed = (*flags & 1) != 0;
    const auto count =
        std::count_if(groups_.begin(), groups_.end(), [](const DxfGroup& g) { return g.code == 10; });
    put(90, std::to_string(count));
    put(70, out_.closed ? "1" : "0");
    bool started = false;
    for (const DxfGroup& g : groups_) {
      if (g.code != 10 && g.code != 20 && g.code != 42) continue;
      if (g.code == 10) started = true;
      if (!started) return broken("its points are out of order");
      const auto value = dxf_number(g.value);
      if (!value) return bad_number(g);
      put(g.code, *value);
    }
    return Done{};
  }

  Result<Done> polyline() {
    const auto flags = integer(own(), 70, 0);
    if (!flags) return flags.fault();
    if ((*flags & (16 | 64)) != 0) return broken("the polyline is a mesh");
    out_.closed = (*flags & 1) != 0;
    put(70, out_.closed ? "1" : "0");
    for (std::size_t i = own().size(); i < groups_.size();) {
      std::size_t end = i + 1;
      while (end < groups_.size() && groups_[end].code != 0) ++end;
      const Groups part = groups_.subspan(i, end - i);
      if (part.front().value == "VERTEX") {
        if (const auto put_down = vertex(part); !put_down) return put_down;
      }
      i = end;
    }
    put(0, "SEQEND");
    return Done{};
  }

  Result<Done> vertex(Groups part) {
    const auto flags = integer(part, 70, 0);
    if (!flags) return flags.fault();
    if ((*flags & 16) != 0) return Done{};  // frame of a fitted curve, not on it
    put(0, "VERTEX");
    put(8, "0");
    for (const int code : {10, 20, 42}) {
      const auto group = find(part, code);
      if (!group && code == 42) continue;
      if (!group) return broken("a vertex has no place");
      const auto value = dxf_number(group->value);
      if (!value) return bad_number(*group);
      put(code, *value);
    }
    return Done{};
  }

  Result<Done> spline() {
    const auto degree = integer(groups_, 71, 3);
    if (!degree) return degree.fault();
    const auto count = [&](int code) {
      return std::count_if(groups_.begin(), groups_.end(), [&](const DxfGroup& g) { return g.code == code; });
    };
    if (count(10) == 0)
      return broken(count(11) > 0 ? "the spline has fit points only" : "the spline has no points");
    if (count(20) != count(10)) return broken("the spline's control points are not whole");
    put(70, "0");
    put(71, std::to_string(*degree));
    put(72, std::to_string(count(40)));
    put(73, std::to_string(count(10)));
    put(74, "0");
    for (const DxfGroup& g : groups_) {
      if (g.code != 10 && g.code != 20 && g.code != 40 && g.code != 41) continue;
      const auto value = dxf_number(g.value);
      if (!value) return bad_number(g);
      put(g.code, *value);
    }
    return Done{};
  }

  Groups groups_;
  const DxfEntity& entity_;
  const std::string& name_;
  SafeEntity out_;
};

}  // namespace

bool is_line_work(std::string_view kind) {
  constexpr std::array<std::string_view, 7> kinds = {"LINE",       "ARC",      "CIRCLE", "ELLIPSE",
                                                     "LWPOLYLINE", "POLYLINE", "SPLINE"};
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

bool is_passed_over(std::string_view kind) {
  return std::find(passed_over.begin(), passed_over.end(), kind) != passed_over.end();
}

Result<SafeEntity> safe_entity(const DxfFile& file, const DxfEntity& entity, const std::string& name) {
  return Rewriting(file, entity, name).rewrite();
}

}  // namespace crownwright::drawings
