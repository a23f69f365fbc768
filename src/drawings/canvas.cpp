#include "drawings/canvas.h"

#include <cairo-pdf.h>
#include <cairo.h>

#include <algorithm>
#include <cstring>
#include <stdexcept>

#include "base/numbers.h"
#include "base/printable.h"
#include "drawings/fit_words.h"

namespace crownwright::drawings {
namespace {

constexpr double points_a_mm = 72 / 25.4;

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
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

using Image = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;

Image image_of(const std::string& png) {
  PngSource source{&png};
  Image image(cairo_image_surface_create_from_png_stream(read_png, &source), cairo_surface_destroy);
  const cairo_status_t status = cairo_surface_status(image.get());
  if (status != CAIRO_STATUS_SUCCESS) throw std::runtime_error(cairo_status_to_string(status));
  return image;
}

double channel(const char* colour, int which) {
  const auto digit = [&](int i) {
    const char c = colour[1 + 2 * which + i];
    return c >= 'a' ? c - 'a' + 10 : c - '0';
  };
  return (16 * digit(0) + digit(1)) / 255.0;
}

}  // namespace

struct PdfCanvas::State {
  std::string bytes;
  cairo_surface_t* surface = nullptr;
  cairo_t* cairo = nullptr;

  void colour(const char* hex) {
    cairo_set_source_rgb(cairo, channel(hex, 0), channel(hex, 1), channel(hex, 2));
  }

  void path(const pattern::Polyline& points, bool closed) {
    cairo_new_path(cairo);
    for (const pattern::Vec2 p : points) cairo_line_to(cairo, p.x, p.y);
    if (closed) cairo_close_path(cairo);
  }

  void stroke(const char* hex, double width, const std::vector<double>& dashes) {
    colour(hex);
    cairo_set_line_width(cairo, width);
    cairo_set_dash(cairo, dashes.data(), static_cast<int>(dashes.size()), 0);
    cairo_stroke(cairo);
  }

  void scale_page() {
    cairo_identity_matrix(cairo);
    cairo_scale(cairo, points_a_mm, points_a_mm);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(cairo, CAIRO_LINE_CAP_BUTT);
  }

  void pick_font(double size, bool bold) {
    cairo_select_font_face(cairo, font, CAIRO_FONT_SLANT_NORMAL,
                           bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cairo, size);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_set_font_options(cairo, options);
    cairo_font_options_destroy(options);
  }

  double advance(const std::string& words) {
    cairo_text_extents_t extents;
    cairo_text_extents(cairo, words.c_str(), &extents);
    return extents.x_advance;
  }
};

PdfCanvas::PdfCanvas(double width, double height, const std::string& title)
    : state_(std::make_unique<State>()) {
  State& s = *state_;
  s.surface =
      cairo_pdf_surface_create_for_stream(append, &s.bytes, width * points_a_mm, height * points_a_mm);
  // Same pieces, same bytes: no clock.
  cairo_pdf_surface_set_metadata(s.surface, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
  cairo_pdf_surface_set_metadata(s.surface, CAIRO_PDF_METADATA_TITLE, printable(title).c_str());
  s.cairo = cairo_create(s.surface);
  s.scale_page();
}

PdfCanvas::~PdfCanvas() {
  cairo_destroy(state_->cairo);
  cairo_surface_destroy(state_->surface);
}

void PdfCanvas::next_page() {
  cairo_show_page(state_->cairo);
  state_->scale_page();
}

void PdfCanvas::clip(double x, double y, double width, double height) {
  cairo_save(state_->cairo);
  cairo_rectangle(state_->cairo, x, y, width, height);
  cairo_clip(state_->cairo);
  cairo_translate(state_->cairo, x, y);
}

void PdfCanvas::place(double x, double y, double scale) {
  cairo_save(state_->cairo);
  cairo_translate(state_->cairo, x, y);
  cairo_scale(state_->cairo, scale, scale);
}

void PdfCanvas::restore() { cairo_restore(state_->cairo); }

void PdfCanvas::line(const SheetLine& line) {
  const StrokeLook look = look_of(line.stroke);
  state_->path(line.points, line.closed);
  state_->colour(look.colour);
  cairo_set_line_width(state_->cairo, look.width);
  cairo_set_dash(state_->cairo, look.dash.data(), look.dash[0] > 0 ? 4 : 0, 0);
  cairo_stroke(state_->cairo);
}

void PdfCanvas::thin(const pattern::Polyline& points, bool closed, const char* colour, double width,
                     double dash) {
  thin(points, closed, colour, width, dash > 0 ? std::vector<double>{dash} : std::vector<double>{});
}

void PdfCanvas::thin(const pattern::Polyline& points, bool closed, const char* colour, double width,
                     const std::vector<double>& dashes) {
  state_->path(points, closed);
  state_->stroke(colour, width, dashes);
}

void PdfCanvas::ring(pattern::Vec2 middle, double radius, const char* colour, double width,
                     const std::vector<double>& dashes) {
  cairo_new_path(state_->cairo);
  cairo_arc(state_->cairo, middle.x, middle.y, radius, 0, 2 * pi);
  cairo_close_path(state_->cairo);
  state_->stroke(colour, width, dashes);
}

void PdfCanvas::fill(const pattern::Polyline& outline, const char* colour) {
  state_->path(outline, true);
  state_->colour(colour);
  cairo_fill(state_->cairo);
}

void PdfCanvas::fill(double x, double y, double width, double height, const char* colour) {
  state_->colour(colour);
  cairo_rectangle(state_->cairo, x, y, width, height);
  cairo_fill(state_->cairo);
}

void PdfCanvas::text(const SheetText& text, const char* colour) {
  State& s = *state_;
  const std::string words = printable(text.text);
  s.pick_font(text.size, text.bold);
  s.colour(colour);
  cairo_save(s.cairo);
  cairo_translate(s.cairo, text.at.x, text.at.y);
  if (text.upright) cairo_rotate(s.cairo, -pi / 2);
  cairo_move_to(s.cairo, -s.advance(words) / 2, 0.36 * text.size);
  cairo_show_text(s.cairo, words.c_str());
  cairo_restore(s.cairo);
}

void PdfCanvas::text_from(pattern::Vec2 at, double size, bool bold, const std::string& words,
                          const char* colour) {
  State& s = *state_;
  s.pick_font(size, bold);
  s.colour(colour);
  cairo_move_to(s.cairo, at.x, at.y + 0.36 * size);
  cairo_show_text(s.cairo, printable(words).c_str());
}

void PdfCanvas::fitted_from(pattern::Vec2 at, double size, bool bold, const std::string& words, double width,
                            const char* colour) {
  const FittedWords fitted =
      fit_words(printable(words), size, width, [&](const std::string& shown, double shown_size) {
        state_->pick_font(shown_size, bold);
        return state_->advance(shown);
      });
  text_from(at, fitted.size, bold, fitted.words, colour);
}

void PdfCanvas::picture(const std::string& png, pattern::Vec2 corner, double width, double height) {
  const Image image = image_of(png);
  const double across = cairo_image_surface_get_width(image.get());
  const double down = cairo_image_surface_get_height(image.get());
  const double scale = std::min(width / across, height / down);
  place(corner.x + (width - scale * across) / 2, corner.y + (height - scale * down) / 2, scale);
  cairo_set_source_surface(state_->cairo, image.get(), 0, 0);
  cairo_paint(state_->cairo);
  restore();
}

std::string PdfCanvas::finish() {
  State& s = *state_;
  cairo_show_page(s.cairo);
  cairo_surface_finish(s.surface);
  // Errors come back only now.
  for (const cairo_status_t status : {cairo_status(s.cairo), cairo_surface_status(s.surface)}) {
    if (status != CAIRO_STATUS_SUCCESS && status != CAIRO_STATUS_SURFACE_FINISHED) {
      throw std::runtime_error(cairo_status_to_string(status));
    }
  }
  return std::move(s.bytes);
}

}  // namespace crownwright::drawings
