#include <algorithm>

#include "base/length.h"
#include "base/xml_text.h"
#include "drawings/sheet.h"
#include "drawings/write_pieces.h"

namespace crownwright::drawings {
namespace {

using pattern::Vec2;

constexpr double margin = 10;       // mm round the pieces
constexpr double scale_strip = 18;  // mm below them for the scale
constexpr double least_width = 140;

std::string number(double value) { return number_text(value, 6); }

std::string path_of(const SheetLine& line) {
  std::string d;
  for (const Vec2 p : line.points) {
    d.append(d.empty() ? "M" : " L").append(number(p.x)).append(",").append(number(p.y));
  }
  return line.closed ? d + " Z" : d;
}

std::string stroke_attributes(Stroke stroke) {
  const StrokeLook look = look_of(stroke);
  std::string text =
      " stroke=\"" + std::string(look.colour) + "\" stroke-width=\"" + number(look.width) + "\"";
  if (look.dash[0] > 0) {
    text += " stroke-dasharray=\"";
    for (std::size_t i = 0; i < look.dash.size(); ++i) text.append(i ? " " : "").append(number(look.dash[i]));
    text += "\"";
  }
  return text;
}

// All lines of one kind as one path, so that an id names them together.
std::string path_element(const SheetPart& part, Stroke stroke, const std::string& suffix) {
  std::string d;
  for (const SheetLine& line : part.lines) {
    if (line.stroke == stroke) d.append(d.empty() ? "" : " ").append(path_of(line));
  }
  if (d.empty()) return {};
  return "    <path id=\"" + part.id + "-" + suffix + "\"" + stroke_attributes(stroke) + " d=\"" + d +
         "\"/>\n";
}

std::string text_element(const SheetText& text) {
  // The baseline lies 0.36 em below the middle of capitals and figures.
  const double down = 0.36 * text.size;
  std::string out = "      <text font-size=\"" + number(text.size) + "\"";
  if (text.bold) out += " font-weight=\"bold\"";
  if (text.upright) {
    out += " transform=\"translate(" + number(text.at.x + down) + "," + number(text.at.y) + ") rotate(-90)\"";
  } else {
    out += " x=\"" + number(text.at.x) + "\" y=\"" + number(text.at.y + down) + "\"";
  }
  return out + ">" + xml_text(text.text) + "</text>\n";
}

std::string text_group(const std::string& id, const std::vector<SheetText>& texts) {
  std::string out = "    <g id=\"" + id + "\" fill=\"" + ink + "\" stroke=\"none\" font-family=\"" + font +
                    ", sans-serif\" text-anchor=\"middle\">\n";
  for (const SheetText& text : texts) out += text_element(text);
  return out + "    </g>\n";
}

std::string group_of(const SheetPart& part) {
  return "  <g id=\"" + part.id + "\">\n" + path_element(part, Stroke::cut, "cut") +
         path_element(part, Stroke::opening, "opening") + path_element(part, Stroke::sew, "sew") +
         path_element(part, Stroke::notch, "notches") + path_element(part, Stroke::grain, "grain") +
         path_element(part, Stroke::fold, "folds") + path_element(part, Stroke::mark, "marks") +
         text_group(part.id + "-text", part.texts) + "  </g>\n";
}

// 100 mm to hold a ruler against: a bar with ticks every 10 mm.
std::string scale_group(double y) {
  std::string d = path_of({{{0, y}, {100, y}}, false, Stroke::grain});
  for (int i = 0; i <= 10; ++i) {
    const double x = 10.0 * i, tick = i % 5 == 0 ? 4 : 2;
    d.append(" ").append(path_of({{{x, y}, {x, y - tick}}, false, Stroke::grain}));
  }
  return "  <g id=\"scale\">\n    <path id=\"scale-bar\" stroke=\"" + std::string(ink) +
         "\" stroke-width=\"0.25\" d=\"" + d + "\"/>\n" +
         text_group("scale-text", {{{50, y + 4}, 3, false, false, "100 mm: print at 100 % and measure"}}) +
         "  </g>\n";
}

}  // namespace

std::string svg_of(const std::vector<pattern::Piece>& pieces, const std::string& title) {
  const Sheet sheet = lay_out(pieces);
  const double width = std::max(least_width, sheet.width + 2 * margin);
  const double height = sheet.height + 2 * margin + scale_strip;
  std::string svg =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
      "version=\"1.1\" width=\"" +
      number(width) + "mm\" height=\"" + number(height) + "mm\" viewBox=\"" + number(-margin) + " " +
      number(-margin) + " " + number(width) + " " + number(height) +
      "\" fill=\"none\" stroke-linejoin=\"round\">\n";
  svg += "  <title>" + xml_text(title) + "</title>\n";
  for (const SheetPart& part : sheet.parts) svg += group_of(part);
  svg += scale_group(sheet.height + margin);
  return svg + "</svg>\n";
}

}  // namespace crownwright::drawings
