// Cairo keeps paths in 256ths of its unit, so letters are drawn with an em of 2048 units, which is the em of
// the font itself, and made smaller afterwards.

#include "drawings/glyph_source.h"

#include <cairo.h>

#include <algorithm>
#include <stdexcept>

#include "drawings/pen.h"
#include "drawings/strokes.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Vec2;

constexpr double drawn_em = 2048;
constexpr std::size_t most_glyph_points = 20'000;

Vec2 point_of(const cairo_path_data_t& data) { return {data.point.x, data.point.y}; }

void follow(const cairo_path_t& path, Pen& pen) {
  for (int i = 0; i < path.num_data; i += path.data[i].header.length) {
    const cairo_path_data_t* data = &path.data[i];
    switch (data->header.type) {
      case CAIRO_PATH_MOVE_TO:
        pen.move_to(point_of(data[1]));
        break;
      case CAIRO_PATH_LINE_TO:
        pen.line_to(point_of(data[1]));
        break;
      case CAIRO_PATH_CURVE_TO:
        pen.cubic_to(point_of(data[1]), point_of(data[2]), point_of(data[3]));
        break;
      case CAIRO_PATH_CLOSE_PATH:
        pen.close();
        break;
    }
  }
}

}  // namespace

struct GlyphSource::State {
  cairo_surface_t* surface = nullptr;
  cairo_t* cairo = nullptr;
  cairo_scaled_font_t* face = nullptr;  // owned by cairo
  double scale = 1, flatness = 0.02;

  std::optional<cairo_glyph_t> find(const std::string& character) const {
    cairo_glyph_t* glyphs = nullptr;
    int count = 0;
    const cairo_status_t status =
        cairo_scaled_font_text_to_glyphs(face, 0, 0, character.data(), static_cast<int>(character.size()),
                                         &glyphs, &count, nullptr, nullptr, nullptr);
    std::optional<cairo_glyph_t> found;
    if (status == CAIRO_STATUS_SUCCESS && count == 1 && glyphs[0].index != 0) found = glyphs[0];
    cairo_glyph_free(glyphs);
    return found;
  }

  double advance_of(const cairo_glyph_t& glyph) const {
    cairo_text_extents_t extents;
    cairo_scaled_font_glyph_extents(face, &glyph, 1, &extents);
    return extents.x_advance;
  }

  std::vector<Outline> loops_of(const cairo_glyph_t& glyph) const {
    cairo_new_path(cairo);
    cairo_glyph_path(cairo, &glyph, 1);
    cairo_path_t* path = cairo_copy_path(cairo);
    Pen pen(flatness, most_glyph_points);
    pen.set_frame({scale, 0, 0, -scale, 0, 0});
    follow(*path, pen);
    cairo_path_destroy(path);
    if (pen.trouble() != Trouble::none) throw std::runtime_error("a letter of the font cannot be drawn");
    return pen.take().closed;
  }
};

GlyphSource::GlyphSource(double cap_height, double flatness) : state_(std::make_unique<State>()) {
  State& s = *state_;
  s.surface = cairo_recording_surface_create(CAIRO_CONTENT_ALPHA, nullptr);
  s.cairo = cairo_create(s.surface);
  cairo_select_font_face(s.cairo, font, CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(s.cairo, drawn_em);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_set_font_options(s.cairo, options);
  cairo_font_options_destroy(options);
  s.face = cairo_get_scaled_font(s.cairo);
  cairo_text_extents_t capital;
  cairo_text_extents(s.cairo, "H", &capital);
  if (cairo_status(s.cairo) != CAIRO_STATUS_SUCCESS || !(capital.height > 0))
    throw std::runtime_error("the font " + std::string(font) + " cannot be used");
  s.scale = cap_height / capital.height;
  s.flatness = flatness;
}

GlyphSource::~GlyphSource() {
  cairo_destroy(state_->cairo);
  cairo_surface_destroy(state_->surface);
}

std::optional<Glyph> GlyphSource::glyph(const std::string& character) const {
  const auto found = state_->find(character);
  if (!found) return std::nullopt;
  const double advance = state_->advance_of(*found) * state_->scale;
  if (!(advance > 0)) return std::nullopt;
  return Glyph{state_->loops_of(*found), advance};
}

}  // namespace crownwright::drawings
