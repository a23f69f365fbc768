// Cairo numbers its surfaces through the life of a program and writes the number into the SVG as an id; it is
// taken out again, so that the second chart of a run has the bytes of the first. Hinting is off: with it,
// letters would sit on the pixels of one resolution.
#include "drawings/chart_canvas.h"

#include <cairo-svg.h>
#include <cairo.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

#include "base/printable.h"

#ifdef __SANITIZE_ADDRESS__
// Cairo keeps one record a font for the life of the program, which fontconfig's allocations make look lost.
// It does not grow with the number of charts.
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig\n"; }
extern "C" const char* __lsan_default_options() { return "print_suppressions=0"; }
#endif

namespace crownwright::drawings {
namespace {

constexpr const char* font = "DejaVu Sans";
constexpr double halo = 0.9;  // mm, both sides together

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int size) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), size);
  return CAIRO_STATUS_SUCCESS;
}

/// id="surface12" becomes id="surface".
std::string without_surface_numbers(std::string svg) {
  const std::string mark = "id=\"surface";
  for (auto at = svg.find(mark); at != std::string::npos; at = svg.find(mark, at + 1)) {
    const auto digits = at + mark.size();
    svg.erase(digits, svg.find('"', digits) - digits);
  }
  return svg;
}

void check(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS)
    throw std::runtime_error(std::string("the chart could not be drawn: ") + cairo_status_to_string(status));
}

}  // namespace

struct ChartCanvas::Sheet {
  Kind kind;
  std::string bytes;
  cairo_surface_t* surface = nullptr;
  cairo_t* cairo = nullptr;

  void set(Ink ink) { cairo_set_source_rgb(cairo, ink.red, ink.green, ink.blue); }
  void set(const Lettering& lettering) {
    cairo_select_font_face(cairo, font, CAIRO_FONT_SLANT_NORMAL,
                           lettering.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cairo, lettering.size);
  }
  void set(const ChartStroke& stroke) {
    set(stroke.ink);
    cairo_set_line_width(cairo, stroke.width);
    cairo_set_dash(cairo, stroke.dash.data(), static_cast<int>(stroke.dash.size()), 0);
  }
  void walk(const std::vector<ChartPoint>& points) {
    for (const ChartPoint& p : points) cairo_line_to(cairo, p.x, p.y);
  }
};

ChartCanvas::ChartCanvas(Kind kind, double width, double height, int pixels)
    : sheet_(std::make_unique<Sheet>()) {
  Sheet& s = *sheet_;
  s.kind = kind;
  if (kind == Kind::svg) {
    constexpr double points_per_mm = 72 / 25.4;  // the size is taken in points, whatever the unit written
    s.surface =
        cairo_svg_surface_create_for_stream(append, &s.bytes, width * points_per_mm, height * points_per_mm);
    s.cairo = cairo_create(s.surface);
    cairo_scale(s.cairo, points_per_mm, points_per_mm);
  } else {
    const double scale = pixels / width;
    s.surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels, static_cast<int>(std::lround(height * scale)));
    s.cairo = cairo_create(s.surface);
    cairo_scale(s.cairo, scale, scale);
  }
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(s.cairo, options);
  cairo_font_options_destroy(options);
  cairo_set_line_join(s.cairo, CAIRO_LINE_JOIN_ROUND);
  cairo_set_tolerance(s.cairo, 0.01);  // points: small rings are round when a page is enlarged, too
  fill({{0, 0}, {width, 0}, {width, height}, {0, height}}, grey(1));
}

ChartCanvas::~ChartCanvas() {
  cairo_destroy(sheet_->cairo);
  cairo_surface_destroy(sheet_->surface);
}

void ChartCanvas::line(const std::vector<ChartPoint>& points, const ChartStroke& stroke) {
  sheet_->set(stroke);
  sheet_->walk(points);
  cairo_stroke(sheet_->cairo);
}

void ChartCanvas::fill(const std::vector<ChartPoint>& outline, Ink ink) {
  sheet_->set(ink);
  sheet_->walk(outline);
  cairo_close_path(sheet_->cairo);
  cairo_fill(sheet_->cairo);
}

void ChartCanvas::ring(ChartPoint middle, double radius, const ChartStroke& stroke) {
  sheet_->set(stroke);
  cairo_new_sub_path(sheet_->cairo);
  cairo_arc(sheet_->cairo, middle.x, middle.y, radius, 0, 2 * std::numbers::pi);
  cairo_stroke(sheet_->cairo);
}

void ChartCanvas::cells(ChartPoint corner, double width, double height, int columns, int rows,
                        const std::vector<unsigned char>& tones) {
  cairo_surface_t* image = cairo_image_surface_create(CAIRO_FORMAT_RGB24, columns, rows);
  check(cairo_surface_status(image));
  unsigned char* data = cairo_image_surface_get_data(image);
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(image));
  const auto wide = static_cast<std::size_t>(columns);
  for (std::size_t row = 0; row < static_cast<std::size_t>(rows); ++row) {
    for (std::size_t column = 0; column < wide; ++column)
      for (std::size_t channel = 0; channel < 4; ++channel)
        data[row * stride + 4 * column + channel] = tones[row * wide + column];
  }
  cairo_surface_mark_dirty(image);
  cairo_t* cairo = sheet_->cairo;
  cairo_save(cairo);
  cairo_translate(cairo, corner.x, corner.y);
  cairo_scale(cairo, width / columns, height / rows);
  cairo_set_source_surface(cairo, image, 0, 0);
  cairo_pattern_set_filter(cairo_get_source(cairo), CAIRO_FILTER_NEAREST);
  cairo_rectangle(cairo, 0, 0, columns, rows);
  cairo_fill(cairo);
  cairo_restore(cairo);
  cairo_surface_destroy(image);
}

void ChartCanvas::clip(ChartPoint corner, double width, double height) {
  cairo_save(sheet_->cairo);
  cairo_rectangle(sheet_->cairo, corner.x, corner.y, width, height);
  cairo_clip(sheet_->cairo);
}

void ChartCanvas::unclip() { cairo_restore(sheet_->cairo); }

double ChartCanvas::text_width(const std::string& words, const Lettering& lettering) const {
  sheet_->set(lettering);
  cairo_text_extents_t extents;
  cairo_text_extents(sheet_->cairo, printable(words).c_str(), &extents);
  return extents.x_advance;
}

void ChartCanvas::text(ChartPoint at, const std::string& words, const Lettering& lettering) {
  const double width = text_width(words, lettering);
  const double shift = lettering.anchor == Anchor::start ? 0 : lettering.anchor == Anchor::end ? 1 : 0.5;
  const std::string shown = printable(words);
  if (lettering.halo) {
    cairo_move_to(sheet_->cairo, at.x - shift * width, at.y);
    cairo_text_path(sheet_->cairo, shown.c_str());
    sheet_->set(ChartStroke{halo, {}, grey(1)});
    cairo_stroke(sheet_->cairo);
  }
  sheet_->set(lettering.ink);
  cairo_move_to(sheet_->cairo, at.x - shift * width, at.y);
  cairo_show_text(sheet_->cairo, shown.c_str());
  cairo_new_path(sheet_->cairo);
}

std::string ChartCanvas::finish() {
  Sheet& s = *sheet_;
  check(cairo_status(s.cairo));
  if (s.kind == Kind::png) {
    cairo_surface_flush(s.surface);
    check(cairo_surface_write_to_png_stream(s.surface, append, &s.bytes));
    return std::move(s.bytes);
  }
  cairo_surface_finish(s.surface);
  check(cairo_surface_status(s.surface));
  return without_surface_numbers(std::move(s.bytes));
}

}  // namespace crownwright::drawings
