#include "drawings/svg_path.h"

#include <optional>

#include "base/ascii.h"
#include "drawings/svg_text.h"

namespace crownwright::drawings {
namespace {

using pattern::Vec2;

class PathDrawing {
 public:
  PathDrawing(std::string_view data, Pen& pen) : data_(data), scan_(data), pen_(pen) {}

  std::string draw() {
    if (scan_.peek() == '\0') return {};
    if (lower_case(scan_.peek()) != 'm') return "the path's data does not start with M";
    while (scan_.peek() != '\0') {
      if (pen_.trouble() != Trouble::none) return {};
      if (!next_command() || !segment()) return complaint();
    }
    pen_.lift();
    return {};
  }

 private:
  std::string complaint() const {
    const std::size_t at = std::min(scan_.position(), data_.size());
    return "the path's data goes wrong at character " + std::to_string(at + 1) + " (\"" +
           std::string(data_.substr(at, 12)) + "\")";
  }

  // A letter, or more numbers for the command before (after M they are L).
  bool next_command() {
    const char c = scan_.peek();
    const char lower = lower_case(c);
    if (std::string_view("mlhvcsqtaz").find(lower) != std::string_view::npos) {
      scan_.skip();
      command_ = lower;
      relative_ = c == lower;
      return true;
    }
    if (command_ == 'z') return false;
    if (command_ == 'm') command_ = 'l';
    return true;
  }

  std::optional<Vec2> point() {
    const auto x = scan_.number();
    if (!x) return std::nullopt;
    const auto y = scan_.number();
    if (!y) return std::nullopt;
    const Vec2 p{*x, *y};
    return relative_ ? pen_.at() + p : p;
  }

  bool segment() {
    const char before = previous_;
    previous_ = command_;
    switch (command_) {
      case 'm':
        return move();
      case 'l':
        return line();
      case 'h':
      case 'v':
        return along_axis();
      case 'c':
        return cubic(std::nullopt);
      case 's':
        return cubic(before == 'c' || before == 's' ? 2 * pen_.at() - control_ : pen_.at());
      case 'q':
        return quadratic(std::nullopt);
      case 't':
        return quadratic(before == 'q' || before == 't' ? 2 * pen_.at() - control_ : pen_.at());
      case 'a':
        return arc();
      default:
        pen_.close();
        return true;
    }
  }

  bool move() {
    const auto p = point();
    if (p) pen_.move_to(*p);
    return p.has_value();
  }

  bool line() {
    const auto p = point();
    if (p) pen_.line_to(*p);
    return p.has_value();
  }

  bool along_axis() {
    const auto value = scan_.number();
    if (!value) return false;
    Vec2 p = pen_.at();
    double& moved = command_ == 'h' ? p.x : p.y;
    moved = relative_ ? moved + *value : *value;
    pen_.line_to(p);
    return true;
  }

  bool cubic(std::optional<Vec2> first) {
    if (!first) first = point();
    if (!first) return false;
    const auto second = point();
    if (!second) return false;
    const auto end = point();
    if (!end) return false;
    pen_.cubic_to(*first, *second, *end);
    control_ = *second;
    return true;
  }

  bool quadratic(std::optional<Vec2> control) {
    if (!control) control = point();
    if (!control) return false;
    const auto end = point();
    if (!end) return false;
    pen_.quadratic_to(*control, *end);
    control_ = *control;
    return true;
  }

  bool arc() {
    const auto rx = scan_.number();
    const auto ry = rx ? scan_.number() : rx;
    const auto turned = ry ? scan_.number() : ry;
    if (!turned) return false;
    const auto large = scan_.flag();
    const auto sweep = large ? scan_.flag() : large;
    if (!sweep) return false;
    const auto end = point();
    if (!end) return false;
    pen_.arc_to(*rx, *ry, *turned, *large, *sweep, *end);
    return true;
  }

  std::string_view data_;
  NumberScanner scan_;
  Pen& pen_;
  char command_ = 'm', previous_ = ' ';
  bool relative_ = false;
  Vec2 control_;
};

}  // namespace

std::string draw_svg_path(std::string_view data, Pen& pen) { return PathDrawing(data, pen).draw(); }

}  // namespace crownwright::drawings
