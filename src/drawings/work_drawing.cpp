#include "drawings/work_drawing.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "base/printable.h"
#include "base/xml_text.h"
#include "drawings/canvas.h"
#include "drawings/fit_words.h"

namespace crownwright::drawings {

using pattern::Polyline;
using pattern::Vec2;

struct WorkDrawing::Item {
  enum class Kind { line, fill, ring, disc, text, picture, clip, unclip, group, end };
  Kind kind = Kind::line;
  Polyline points = {};  ///< text, ring: one; clip, picture: corner and size
  bool closed = false;
  double radius = 0, light = 0;
  WorkStroke stroke = {};
  WorkText look = {};
  std::string words = {};  ///< picture: the PNG
};

struct WorkDrawing::Page {
  std::vector<Item> items;
};

namespace {

std::string hex_of(double light) {
  const auto step = static_cast<std::size_t>(std::lround(255 * std::clamp(light, 0.0, 1.0)));
  const std::string digits = "0123456789abcdef";
  std::string hex = "#";
  for (int i = 0; i < 3; ++i) hex.append({digits[step / 16], digits[step % 16]});
  return hex;
}

// The place after the letter that begins at `at`.
std::size_t after_letter(const std::string& text, std::size_t at) {
  for (++at; at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80;) ++at;
  return at;
}

std::string work_number(double value) { return number_text(value, 4); }

}  // namespace

WorkDrawing::WorkDrawing(double width, double height)
    : width_(width),
      height_(height),
      ruler_(std::make_unique<ChartCanvas>(ChartCanvas::Kind::png, 1, 1, 50)) {
  pages_.push_back(std::make_unique<Page>());
}

WorkDrawing::~WorkDrawing() = default;

WorkDrawing::Page& WorkDrawing::page() { return *pages_[page_]; }

void WorkDrawing::next_page() {
  pages_.push_back(std::make_unique<Page>());
  page_ = pages_.size() - 1;
}

void WorkDrawing::group(const std::string& id) {
  Item item{.kind = Item::Kind::group, .words = id};
  page().items.push_back(std::move(item));
}

void WorkDrawing::end() { page().items.push_back({.kind = Item::Kind::end}); }

void WorkDrawing::clip(double x, double y, double width, double height) {
  page().items.push_back({.kind = Item::Kind::clip, .points = {{x, y}, {width, height}}});
}

void WorkDrawing::unclip() { page().items.push_back({.kind = Item::Kind::unclip}); }

void WorkDrawing::line(const Polyline& points, const WorkStroke& stroke, bool closed) {
  page().items.push_back({.kind = Item::Kind::line, .points = points, .closed = closed, .stroke = stroke});
}

void WorkDrawing::fill(const Polyline& outline, double light) {
  page().items.push_back({.kind = Item::Kind::fill, .points = outline, .light = light});
}

void WorkDrawing::ring(Vec2 middle, double radius, const WorkStroke& stroke) {
  page().items.push_back({.kind = Item::Kind::ring, .points = {middle}, .radius = radius, .stroke = stroke});
}

void WorkDrawing::disc(Vec2 middle, double radius, double light) {
  page().items.push_back({.kind = Item::Kind::disc, .points = {middle}, .radius = radius, .light = light});
}

// Each stroke lies between its first and second, third and fourth, ... crossing with the outline.
void WorkDrawing::hatch(const Polyline& outline, double apart, double degrees, const WorkStroke& stroke) {
  if (outline.size() < 3) return;
  const double angle = degrees * pi / 180;
  const Vec2 along{std::cos(angle), std::sin(angle)}, across{-along.y, along.x};
  double low = dot(outline.front(), across), high = low;
  for (const Vec2 p : outline) low = std::min(low, dot(p, across)), high = std::max(high, dot(p, across));
  apart = std::max(apart, (high - low) / 2000);
  // On a grid of the sheet's own, a little off so that it meets no corner of round figures.
  for (double level = (std::floor(low / apart) + 0.4137) * apart; level < high; level += apart) {
    std::vector<double> places;
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const Vec2 a = outline[i], b = outline[(i + 1) % outline.size()];
      const double da = dot(a, across) - level, db = dot(b, across) - level;
      if ((da < 0) == (db < 0)) continue;
      places.push_back(dot(a, along) + da / (da - db) * dot(b - a, along));
    }
    std::sort(places.begin(), places.end());
    for (std::size_t i = 0; i + 1 < places.size(); i += 2)
      line({places[i] * along + level * across, places[i + 1] * along + level * across}, stroke);
  }
}

double WorkDrawing::width_of(const std::string& words, double size, bool bold) const {
  return ruler_->text_width(words, {size, bold, Anchor::start, {}, false});
}

void WorkDrawing::text(Vec2 at, const std::string& words, const WorkText& look) {
  if (words.empty()) return;
  const double wide = width_of(words, look.size, look.bold);
  const double shift = look.anchor == Anchor::start ? 0 : look.anchor == Anchor::end ? -wide : -wide / 2;
  const Vec2 way = look.upright ? Vec2{0, -1} : Vec2{1, 0}, side{-way.y, way.x};
  const Vec2 from = at + shift * way;
  if (look.cleared) {
    const double half = 0.62 * look.size, rim = 0.6;
    fill({from - rim * way - half * side, from + (wide + rim) * way - half * side,
          from + (wide + rim) * way + half * side, from - rim * way + half * side},
         1);
  }
  Item item{.kind = Item::Kind::text, .points = {from}, .radius = wide, .look = look, .words = words};
  page().items.push_back(std::move(item));
}

void WorkDrawing::fitted(Vec2 at, const std::string& words, WorkText look, double width) {
  const FittedWords fitted =
      fit_words(printable(words), look.size, width,
                [&](const std::string& shown, double size) { return width_of(shown, size, look.bold); });
  look.size = fitted.size;
  text(at, fitted.words, look);
}

void WorkDrawing::picture(const std::string& png, Vec2 corner, double width, double height) {
  Item item{.kind = Item::Kind::picture, .points = {corner, {width, height}}, .words = png};
  page().items.push_back(std::move(item));
}

std::vector<std::string> WorkDrawing::wrapped(const std::string& words, double size, bool bold,
                                              double width) const {
  const std::string all = printable(words);
  std::vector<std::string> lines;
  std::string now;
  for (std::size_t at = 0; at < all.size();) {
    const std::size_t stop = std::min(all.find(' ', at), all.size());
    std::string word = all.substr(at, stop - at);
    at = stop + 1;
    if (word.empty()) continue;
    const std::string longer = now.empty() ? word : std::string(now).append(" ").append(word);
    if (width_of(longer, size, bold) <= width) {
      now = longer;
      continue;
    }
    if (!now.empty()) lines.push_back(now);
    // A word that fills more than a line.
    while (width_of(word, size, bold) > width) {
      std::size_t keep = after_letter(word, 0);
      for (std::size_t next = keep; next < word.size(); keep = next) {
        next = after_letter(word, keep);
        if (width_of(word.substr(0, next), size, bold) > width) break;
      }
      if (keep >= word.size()) break;
      lines.push_back(word.substr(0, keep));
      word.erase(0, keep);
    }
    now = word;
  }
  if (!now.empty()) lines.push_back(now);
  return lines;
}

// ---- PDF -------------------------------------------------------------------------------------

std::string WorkDrawing::pdf(const std::string& title) const {
  PdfCanvas canvas(width_, height_, title);
  for (std::size_t k = 0; k < pages_.size(); ++k) {
    if (k > 0) canvas.next_page();
    for (const Item& item : pages_[k]->items) {
      const std::string shade = hex_of(item.light), stroke = hex_of(item.stroke.light);
      switch (item.kind) {
        case Item::Kind::line:
          canvas.thin(item.points, item.closed, stroke.c_str(), item.stroke.width, item.stroke.dashes);
          break;
        case Item::Kind::fill:
          canvas.fill(item.points, shade.c_str());
          break;
        case Item::Kind::ring:
          canvas.ring(item.points[0], item.radius, stroke.c_str(), item.stroke.width, item.stroke.dashes);
          break;
        case Item::Kind::disc:
          canvas.ring(item.points[0], item.radius / 2, shade.c_str(), item.radius);
          break;
        case Item::Kind::text: {
          const std::string tone = hex_of(item.look.light);
          const Vec2 way = item.look.upright ? Vec2{0, -1} : Vec2{1, 0};
          if (item.look.upright)
            canvas.text(
                {item.points[0] + item.radius / 2 * way, item.look.size, true, item.look.bold, item.words},
                tone.c_str());
          else
            canvas.text_from(item.points[0], item.look.size, item.look.bold, item.words, tone.c_str());
          break;
        }
        case Item::Kind::picture:
          canvas.picture(item.words, item.points[0], item.points[1].x, item.points[1].y);
          break;
        case Item::Kind::clip:
          canvas.clip(item.points[0].x, item.points[0].y, item.points[1].x, item.points[1].y);
          break;
        case Item::Kind::unclip:
          canvas.restore();
          break;
        case Item::Kind::group:
        case Item::Kind::end:
          break;
      }
    }
  }
  return canvas.finish();
}

// ---- SVG -------------------------------------------------------------------------------------

namespace {

std::string attribute(const std::string& name, const std::string& value) {
  return std::string(" ").append(name).append("=\"").append(value).append("\"");
}
std::string attribute(const std::string& name, double value) { return attribute(name, work_number(value)); }

std::string stroke_attributes_of(const WorkStroke& stroke) {
  std::string text = attribute("stroke", hex_of(stroke.light)) + attribute("stroke-width", stroke.width);
  std::string dashes;
  for (const double dash : stroke.dashes) dashes.append(dashes.empty() ? "" : " ").append(work_number(dash));
  return dashes.empty() ? text : text + attribute("stroke-dasharray", dashes);
}

std::string path_text(const Polyline& points, bool closed) {
  std::string d;
  for (const Vec2 p : points)
    d.append(d.empty() ? "M" : " L").append(work_number(p.x)).append(",").append(work_number(p.y));
  return closed ? d.append(" Z") : d;
}

std::string circle_text(Vec2 middle, double radius) {
  return attribute("cx", middle.x) + attribute("cy", middle.y) + attribute("r", radius);
}

std::string words_text(Vec2 from, const WorkText& look, const std::string& words) {
  const double down = 0.36 * look.size;  // base line below the middle of capitals and figures
  std::string text = "<text";
  text += attribute("font-size", look.size) + attribute("fill", hex_of(look.light));
  if (look.bold) text += attribute("font-weight", "bold");
  if (look.upright)
    text += attribute("transform", std::string("translate(")
                                       .append(work_number(from.x + down))
                                       .append(",")
                                       .append(work_number(from.y))
                                       .append(") rotate(-90)"));
  else
    text += attribute("x", from.x) + attribute("y", from.y + down);
  return text.append(">").append(xml_text(printable(words))).append("</text>\n");
}

}  // namespace

// Clips and pictures are for drawings over several pages and are not written here.
std::string WorkDrawing::svg(const std::string& title) const {
  std::string svg =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\"";
  svg += attribute("width", work_number(width_) + "mm") + attribute("height", work_number(height_) + "mm");
  svg += attribute("viewBox",
                   std::string("0 0 ").append(work_number(width_)).append(" ").append(work_number(height_)));
  svg += attribute("fill", "none") + attribute("stroke-linejoin", "round");
  svg.append(attribute("font-family", std::string(font).append(", sans-serif"))).append(">\n<title>");
  svg.append(xml_text(printable(title))).append("</title>\n<rect");
  svg += attribute("width", width_) + attribute("height", height_) + attribute("fill", "#ffffff");
  svg += "/>\n";
  for (const Item& item : pages_.front()->items) {
    switch (item.kind) {
      case Item::Kind::line:
        svg.append("<path").append(attribute("d", path_text(item.points, item.closed)));
        svg.append(stroke_attributes_of(item.stroke)).append("/>\n");
        break;
      case Item::Kind::fill:
        svg.append("<path").append(attribute("d", path_text(item.points, true)));
        svg.append(attribute("fill", hex_of(item.light))).append("/>\n");
        break;
      case Item::Kind::ring:
        svg.append("<circle").append(circle_text(item.points[0], item.radius));
        svg.append(stroke_attributes_of(item.stroke)).append("/>\n");
        break;
      case Item::Kind::disc:
        svg.append("<circle").append(circle_text(item.points[0], item.radius));
        svg.append(attribute("fill", hex_of(item.light))).append("/>\n");
        break;
      case Item::Kind::text:
        svg += words_text(item.points[0], item.look, item.words);
        break;
      case Item::Kind::group:
        svg.append("<g").append(attribute("id", item.words)).append(">\n");
        break;
      case Item::Kind::end:
        svg += "</g>\n";
        break;
      case Item::Kind::picture:
      case Item::Kind::clip:
      case Item::Kind::unclip:
        break;
    }
  }
  return svg.append("</svg>\n");
}

}  // namespace crownwright::drawings
