#include "drawings/work_sheet_paper.h"

#include <cairo-pdf.h>
#include <cairo.h>

#include <algorithm>
#include <cstring>
#include <stdexcept>

#include "base/numbers.h"
#include "base/printable.h"
#include "drawings/strokes.h"

namespace crownwright::drawings {

using pattern::Polyline;
using pattern::Vec2;

namespace {

constexpr double sheet_points_a_mm = 72 / 25.4;

cairo_status_t append_to_sheet(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

struct PngSource {
  const std::string* bytes;
  std::size_t at = 0;
};

cairo_status_t read_png(void* source, unsigned char* data, unsigned int length) {
  auto& from = *static_cast<PngSource*>(source);
  if (from.bytes->size() - from.at < length) return CAIRO_STATUS_READ_ERROR;
  std::memcpy(data, from.bytes->data() + from.at, length);
  from.at += length;
  return CAIRO_STATUS_SUCCESS;
}

using SheetImage = std::shared_ptr<cairo_surface_t>;

SheetImage image_of(const std::string& png) {
  PngSource source{&png};
  SheetImage image(cairo_image_surface_create_from_png_stream(read_png, &source), cairo_surface_destroy);
  const cairo_status_t status = cairo_surface_status(image.get());
  if (status != CAIRO_STATUS_SUCCESS) throw std::runtime_error(cairo_status_to_string(status));
  return image;
}

// Shortened to whole letters, with the sign that something is missing.
std::string cut_short(const SheetPaper& paper, const std::string& words, const WorkText& look, double width) {
  std::string shown = words;
  while (!shown.empty() && paper.width_of(shown + "\u2026", look.size, look.bold) > width) {
    shown.pop_back();
    while (!is_utf8(shown)) shown.pop_back();
  }
  return shown + "\u2026";
}

}  // namespace

struct SheetPaper::Pen {
  cairo_t* cairo = nullptr;

  void start_page() const {
    cairo_identity_matrix(cairo);
    cairo_scale(cairo, sheet_points_a_mm, sheet_points_a_mm);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
  }
  void light(double light) const { cairo_set_source_rgb(cairo, light, light, light); }
  void path(const Polyline& points, bool closed) const {
    cairo_new_path(cairo);
    for (const Vec2 p : points) cairo_line_to(cairo, p.x, p.y);
    if (closed) cairo_close_path(cairo);
  }
  void pick_font(double size, bool bold) const {
    cairo_select_font_face(cairo, font, CAIRO_FONT_SLANT_NORMAL,
                           bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cairo, size);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_set_font_options(cairo, options);
    cairo_font_options_destroy(options);
  }
};

SheetPaper::SheetPaper(double width, double height)
    : width_(width), height_(height), pages_(1), ruler_(width, height) {}

SheetPaper::~SheetPaper() = default;

void SheetPaper::next_page() {
  pages_.emplace_back();
  page_ = pages_.size() - 1;
}

void SheetPaper::line(const Polyline& points, const WorkStroke& stroke, bool closed) {
  keep([points, stroke, closed](Pen& pen) {
    pen.path(points, closed);
    pen.light(stroke.light);
    cairo_set_line_width(pen.cairo, stroke.width);
    cairo_set_dash(pen.cairo, stroke.dashes.data(), static_cast<int>(stroke.dashes.size()), 0);
    cairo_stroke(pen.cairo);
  });
}

void SheetPaper::fill(const Polyline& outline, double light) {
  keep([outline, light](Pen& pen) {
    pen.path(outline, true);
    pen.light(light);
    cairo_fill(pen.cairo);
  });
}

void SheetPaper::text(Vec2 at, const std::string& words, const WorkText& look) {
  if (words.empty()) return;
  const std::string shown = printable(words);
  const double wide = width_of(shown, look.size, look.bold);
  const double shift = look.anchor == Anchor::start ? 0 : look.anchor == Anchor::end ? -wide : -wide / 2;
  if (look.cleared && !look.upright) {
    const double half = 0.62 * look.size, rim = 0.6;
    const Vec2 a = at + Vec2{shift - rim, -half}, b = at + Vec2{shift + wide + rim, half};
    fill({a, {b.x, a.y}, b, {a.x, b.y}}, 1);
  }
  keep([at, shown, look, shift](Pen& pen) {
    pen.pick_font(look.size, look.bold);
    pen.light(look.light);
    cairo_save(pen.cairo);
    cairo_translate(pen.cairo, at.x, at.y);
    if (look.upright) cairo_rotate(pen.cairo, -pi / 2);
    cairo_move_to(pen.cairo, shift, 0.36 * look.size);
    cairo_show_text(pen.cairo, shown.c_str());
    cairo_restore(pen.cairo);
  });
}

void SheetPaper::fitted(Vec2 at, const std::string& words, WorkText look, double width) {
  std::string shown = printable(words);
  const double wanted = width_of(shown, look.size, look.bold);
  if (wanted > width) look.size *= std::max(2.0 / 3, width / wanted);
  if (width_of(shown, look.size, look.bold) > width * (1 + 1e-9))
    shown = cut_short(*this, shown, look, width);
  text(at, shown, look);
}

void SheetPaper::picture(const std::string& png, Vec2 corner, double width, double height) {
  const SheetImage image = image_of(png);
  const double across = cairo_image_surface_get_width(image.get());
  const double down = cairo_image_surface_get_height(image.get());
  const double scale = std::min(width / across, height / down);
  const Vec2 at = corner + Vec2{(width - scale * across) / 2, (height - scale * down) / 2};
  keep([image, at, scale](Pen& pen) {
    cairo_save(pen.cairo);
    cairo_translate(pen.cairo, at.x, at.y);
    cairo_scale(pen.cairo, scale, scale);
    cairo_set_source_surface(pen.cairo, image.get(), 0, 0);
    cairo_paint(pen.cairo);
    cairo_restore(pen.cairo);
  });
}

std::string SheetPaper::pdf(const std::string& title) const {
  std::string bytes;
  const SheetImage surface(
      cairo_pdf_surface_create_for_stream(append_to_sheet, &bytes, width_ * sheet_points_a_mm,
                                          height_ * sheet_points_a_mm),
      cairo_surface_destroy);
  // Same sheet, same bytes: no clock.
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, printable(title).c_str());
  const std::shared_ptr<cairo_t> cairo(cairo_create(surface.get()), cairo_destroy);
  Pen pen{cairo.get()};
  for (const auto& page : pages_) {
    pen.start_page();
    for (const Stroke& stroke : page) stroke(pen);
    cairo_show_page(pen.cairo);
  }
  cairo_surface_finish(surface.get());
  // Errors come back only now.
  for (const cairo_status_t status : {cairo_status(pen.cairo), cairo_surface_status(surface.get())}) {
    if (status != CAIRO_STATUS_SUCCESS && status != CAIRO_STATUS_SURFACE_FINISHED)
      throw std::runtime_error(cairo_status_to_string(status));
  }
  return bytes;
}

}  // namespace crownwright::drawings
