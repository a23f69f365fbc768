#include "drawings/read_drawing.h"

#include <algorithm>
#include <limits>

#include "base/ascii.h"
#include "base/length.h"
#include "drawings/faults.h"
#include "drawings/join_lines.h"
#include "drawings/read_dxf.h"
#include "drawings/read_svg.h"
#include "drawings/self_crossing.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Vec2;

enum class Format { svg, dxf, unknown };

bool ends_with(const std::string& name, std::string_view ending) {
  return name.size() >= ending.size() &&
         lower_case(std::string_view(name).substr(name.size() - ending.size())) == ending;
}

Format format_of(std::string_view bytes, const std::string& name) {
  if (ends_with(name, ".svg")) return Format::svg;
  if (ends_with(name, ".dxf")) return Format::dxf;
  if (bytes.substr(0, 3) == "\xEF\xBB\xBF") bytes.remove_prefix(3);
  const std::size_t first = bytes.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return Format::unknown;
  if (bytes[first] == '<') return Format::svg;
  const bool binary = bytes.substr(first, 7) == "AutoCAD";
  return binary || bytes[first] == '0' || bytes.substr(first, 3) == "999" ? Format::dxf : Format::unknown;
}

std::string place(Vec2 p) {
  return std::string("(").append(number_text(p.x, 2)).append(", ").append(number_text(p.y, 2)).append(") mm");
}

std::string on(const DrawingRules& rules) {
  return rules.layer.empty() ? std::string() : std::string(" on ").append(drawings::quoted(rules.layer));
}

std::string size_words(const Outline& loop) {
  Vec2 low = loop[0], high = loop[0];
  for (const Vec2 p : loop) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  return number_text(high.x - low.x, 1) + " by " + number_text(high.y - low.y, 1) + " mm at " + place(low);
}

Fault several(const Lines& lines, const std::string& name, const DrawingRules& rules) {
  return order_fault(name,
                     "there are " + std::to_string(lines.closed.size()) + " closed outlines" + on(rules) +
                         ": " + size_words(lines.closed[0]) + ", " + size_words(lines.closed[1]) +
                         (lines.closed.size() > 2 ? ", ..." : ""),
                     "one; name the layer (DXF) or id (SVG) that holds the panel alone");
}

// How far the loose end nearest to another loose end is from it.
Fault open_ended(const Lines& lines, const std::string& name, const DrawingRules& rules) {
  constexpr std::size_t looked_at = 400;
  std::vector<Vec2> ends;
  for (const auto& line : lines.open) {
    ends.push_back(line.front()), ends.push_back(line.back());
    if (ends.size() >= looked_at) break;
  }
  double gap = std::numeric_limits<double>::infinity();
  Vec2 at = ends[0];
  for (std::size_t i = 0; i < ends.size(); ++i) {
    for (std::size_t k = i + 1; k < ends.size(); ++k) {
      const double apart = norm(ends[i] - ends[k]);
      if (apart < gap) gap = apart, at = ends[i];
    }
  }
  const std::string what = lines.closed.empty()
                               ? "the outline" + on(rules) + " is open"
                               : "there is an open line beside the closed outline" + on(rules);
  return order_fault(
      name,
      what + ": an end at " + place(at) + " has its nearest other end " + number_text(gap, 2) + " mm away",
      "one closed outline, ends within 0.01 mm, nothing else on its layer or id");
}

}  // namespace

Result<Lines> read_lines(std::string_view bytes, const std::string& name, const DrawingRules& rules) {
  if (bytes.size() > largest_drawing_bytes) {
    return order_fault(
        name, "the drawing is " + number_text(static_cast<double>(bytes.size()) / 1e6, 1) + " MB large",
        "at most " + std::to_string(largest_drawing_bytes / 1'000'000) + " MB");
  }
  const Format format = format_of(bytes, name);
  if (format == Format::unknown || bytes.empty()) {
    return order_fault(name, bytes.empty() ? "the file is empty" : "this is neither an SVG nor a DXF drawing",
                       "an SVG or DXF drawing");
  }
  auto lines = format == Format::svg ? read_svg(bytes, name, rules) : read_dxf(bytes, name, rules);
  if (lines) join_lines(*lines);
  return lines;
}

Result<Outline> read_outline(std::string_view bytes, const std::string& name, const DrawingRules& rules) {
  auto lines = read_lines(bytes, name, rules);
  if (!lines) return lines.fault();
  if (lines->closed.size() > 1) return several(*lines, name, rules);
  if (!lines->open.empty()) return open_ended(*lines, name, rules);
  if (lines->closed.empty()) {
    return order_fault(name, "nothing is drawn" + on(rules), "one closed outline of a panel");
  }
  if (const auto at = self_crossing(lines->closed.front())) {
    return order_fault(name, "the outline crosses or touches itself at " + place(*at),
                       "a simple closed outline");
  }
  return std::move(lines->closed.front());
}

}  // namespace crownwright::drawings
