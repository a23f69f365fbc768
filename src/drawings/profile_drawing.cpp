#include "drawings/profile_drawing.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "base/printable.h"
#include "drawings/dxf_writer.h"
#include "drawings/profile_sheet.h"
#include "drawings/strokes.h"

namespace crownwright::drawings {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;
using pattern::Vec2;

// ---- radius at a height ----------------------------------------------------------------------

double line_radius(const Segment& line, double z) {
  const Point a = line.from(), b = line.to();
  if (z < std::min(a.z, b.z) || z > std::max(a.z, b.z)) return 0;
  if (a.z == b.z) return std::max(a.r, b.r);
  return a.r + (b.r - a.r) * (z - a.z) / (b.z - a.z);
}

// Both places of the whole circle that lie on the arc.
double arc_radius_at(const Segment& arc, double z) {
  constexpr double on_arc = 1e-7;  // mm
  const double up = z - arc.centre().z, square = arc.radius() * arc.radius() - up * up;
  double most = 0;
  if (square < -on_arc) return most;
  for (const double side : {1.0, -1.0}) {
    const Point p{arc.centre().r + side * std::sqrt(std::max(0.0, square)), z};
    if (arc.distance_to(p) <= on_arc) most = std::max(most, p.r);
  }
  return most;
}

// ---- SVG -------------------------------------------------------------------------------------

std::string svg_number(double value) { return number_text(value, 6); }

std::string svg_point(Vec2 p) { return svg_number(p.x).append(",").append(svg_number(-p.y)); }

std::string svg_escaped(const std::string& text) {
  std::string out;
  for (const char c : printable(text)) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else
      out += c;
  }
  return out;
}

// Up in the profile is up on the page, so what turns clockwise in (r, z) does so on the page: SVG's sweep 1.
std::string svg_path(const Chain& face) {
  const Point start = face.front().from();
  std::string d = "M";
  d += svg_point({start.r, start.z});
  for (const Segment& segment : face) {
    if (segment.is_arc()) {
      const std::string radius = svg_number(segment.radius());
      d.append(" A").append(radius).append(",").append(radius).append(" 0 ");
      d += std::abs(segment.turn()) > pi ? "1," : "0,";
      d += segment.turn() < 0 ? "1 " : "0 ";
    } else {
      d += " L";
    }
    d += svg_point({segment.to().r, segment.to().z});
  }
  return d;
}

std::string svg_lines(const ProfileSheet& sheet, ProfileStroke stroke) {
  std::string d;
  for (const ProfileLine& line : sheet.lines) {
    if (line.stroke != stroke) continue;
    d.append(d.empty() ? "M" : " M").append(svg_point(line.from)).append(" L").append(svg_point(line.to));
  }
  return d;
}

std::string svg_group(const std::string& id, const std::string& look, const std::string& d) {
  std::string text = "  <g id=\"";
  return text.append(id)
      .append("\" ")
      .append(look)
      .append(">\n    <path d=\"")
      .append(d)
      .append("\"/>\n  </g>\n");
}

std::string stroke_look(const char* colour, double width, const std::string& dash = "") {
  std::string text = "stroke=\"";
  text.append(colour).append("\" stroke-width=\"").append(svg_number(width)).append("\"");
  if (!dash.empty()) text.append(" stroke-dasharray=\"").append(dash).append("\"");
  return text;
}

const char* svg_anchor(WordsFrom from) {
  switch (from) {
    case WordsFrom::start:
      return "start";
    case WordsFrom::middle:
      return "middle";
    case WordsFrom::end:
      return "end";
  }
  return "start";
}

std::string svg_words(const ProfileWords& words) {
  const double down = 0.36 * words.size;  // baseline below the middle of capitals and figures
  std::string text = "    <text font-size=\"";
  text.append(svg_number(words.size)).append("\" text-anchor=\"").append(svg_anchor(words.from)).append("\"");
  if (words.bold) text += " font-weight=\"bold\"";
  if (words.upright) {
    text.append(" transform=\"translate(").append(svg_number(words.at.x + down)).append(",");
    text.append(svg_number(-words.at.y)).append(") rotate(-90)\"");
  } else {
    text.append(" x=\"")
        .append(svg_number(words.at.x))
        .append("\" y=\"")
        .append(svg_number(down - words.at.y))
        .append("\"");
  }
  return text.append(">").append(svg_escaped(words.text)).append("</text>\n");
}

std::string svg_head(const ProfileSheet& sheet, const std::string& title) {
  constexpr double margin = 8;
  const double width = sheet.high.x - sheet.low.x + 2 * margin,
               height = sheet.high.y - sheet.low.y + 2 * margin;
  std::string text =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" "
      "width=\"";
  text.append(svg_number(width))
      .append("mm\" height=\"")
      .append(svg_number(height))
      .append("mm\" viewBox=\"");
  text.append(svg_number(sheet.low.x - margin))
      .append(" ")
      .append(svg_number(-sheet.high.y - margin))
      .append(" ");
  text.append(svg_number(width)).append(" ").append(svg_number(height));
  text.append("\" fill=\"none\" stroke-linejoin=\"round\">\n  <title>")
      .append(svg_escaped(title))
      .append("</title>\n");
  return text;
}

// ---- DXF -------------------------------------------------------------------------------------

constexpr int exact = 9;  // decimals

const std::vector<DxfLayer> profile_layers = {
    {"profile", 7, "CONTINUOUS"}, {"dimensions", 8, "CONTINUOUS"}, {"axis", 1, "DASHDOT"}};

void dxf_line(DxfText& out, const char* layer, Vec2 from, Vec2 to) {
  out.start_entity("LINE", layer, "AcDbLine");
  out.point(10, from, exact);
  out.point(11, to, exact);
}

double degrees(Point from_centre) {
  const double angle = std::atan2(from_centre.z, from_centre.r) * 180 / pi;
  return angle < 0 ? angle + 360 : angle;
}

// DXF arcs run counter-clockwise.
void dxf_arc(DxfText& out, const Segment& arc) {
  const auto from_centre = [&](Point p) { return Point{p.r - arc.centre().r, p.z - arc.centre().z}; };
  const bool clockwise = arc.turn() < 0;
  out.start_entity("ARC", "profile", "AcDbCircle");
  out.point(10, {arc.centre().r, arc.centre().z}, exact);
  out.pair(40, arc.radius(), exact);
  out.pair(100, "AcDbArc");
  out.pair(50, degrees(from_centre(clockwise ? arc.to() : arc.from())), exact);
  out.pair(51, degrees(from_centre(clockwise ? arc.from() : arc.to())), exact);
}

int dxf_anchor(WordsFrom from) { return from == WordsFrom::start ? 0 : from == WordsFrom::middle ? 1 : 2; }

void dxf_words(DxfText& out, const ProfileWords& words) {
  out.start_entity("TEXT", "dimensions", "AcDbText");
  out.point(10, words.at);
  out.pair(40, 0.72 * words.size);  // the height of capitals
  out.pair(1, dxf_text(words.text));
  if (words.upright) out.pair(50, 90.0);
  out.pair(72, dxf_anchor(words.from));
  out.point(11, words.at);
  out.pair(100, "AcDbText");
  out.pair(73, 2);
}

}  // namespace

double profile_radius(const Chain& face, double z) {
  double most = 0;
  for (const Segment& segment : face)
    most = std::max(most, segment.is_arc() ? arc_radius_at(segment, z) : line_radius(segment, z));
  return most;
}

std::string profile_svg(const ProfilePlan& plan) {
  const ProfileSheet sheet = profile_sheet(plan);
  std::string svg = svg_head(sheet, plan.title);
  svg += svg_group("stations", stroke_look("#9fb6c3", 0.15), svg_lines(sheet, ProfileStroke::station));
  svg += svg_group("axis", stroke_look("#a03a2a", 0.25, "8 2 1 2"), svg_lines(sheet, ProfileStroke::axis));
  svg += svg_group("dimensions", stroke_look("#2f6060", 0.2), svg_lines(sheet, ProfileStroke::dimension));
  svg += svg_group("profile", stroke_look(ink, 0.5), svg_path(plan.face));
  svg.append("  <g id=\"words\" fill=\"").append(ink).append("\" font-family=\"").append(font);
  svg.append(", sans-serif\">\n");
  for (const ProfileWords& words : sheet.words) svg += svg_words(words);
  return svg.append("  </g>\n</svg>\n");
}

std::string profile_dxf(const ProfilePlan& plan) {
  const ProfileSheet sheet = profile_sheet(plan);
  return dxf_document(profile_layers, sheet.low, sheet.high, [&](DxfText& out) {
    for (const Segment& segment : plan.face) {
      if (segment.is_arc())
        dxf_arc(out, segment);
      else
        dxf_line(out, "profile", {segment.from().r, segment.from().z}, {segment.to().r, segment.to().z});
    }
    for (const ProfileLine& line : sheet.lines)
      dxf_line(out, line.stroke == ProfileStroke::axis ? "axis" : "dimensions", line.from, line.to);
    for (const ProfileWords& words : sheet.words) dxf_words(out, words);
  });
}

}  // namespace crownwright::drawings
