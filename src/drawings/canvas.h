#pragma once
// A PDF being drawn, in millimetres from the top left of the page. The one door to Cairo for pieces.

#include <memory>
#include <string>
#include <vector>

#include "drawings/sheet.h"

namespace crownwright::drawings {

class PdfCanvas {
 public:
  /// The first page's size; pages follow with next_page(). The bytes depend on what is drawn alone: the
  /// file's date is fixed.
  PdfCanvas(double width, double height, const std::string& title);
  ~PdfCanvas();
  PdfCanvas(const PdfCanvas&) = delete;
  PdfCanvas& operator=(const PdfCanvas&) = delete;

  void next_page();
  /// Everything until `restore` is moved by (x, y) and shown only within `width` by `height` from there.
  void clip(double x, double y, double width, double height);
  /// Likewise moved and made larger or smaller, without hiding anything.
  void place(double x, double y, double scale);
  void restore();

  void line(const SheetLine& line);
  /// A thin line of a colour (#rrggbb), mm wide; dashed when `dash` > 0.
  void thin(const pattern::Polyline& points, bool closed, const char* colour, double width, double dash = 0);
  /// Likewise with strokes and gaps in turn; solid when there are none.
  void thin(const pattern::Polyline& points, bool closed, const char* colour, double width,
            const std::vector<double>& dashes);
  void ring(pattern::Vec2 middle, double radius, const char* colour, double width,
            const std::vector<double>& dashes = {});
  void fill(double x, double y, double width, double height, const char* colour);
  void fill(const pattern::Polyline& outline, const char* colour);
  void text(const SheetText& text, const char* colour = ink);
  /// A PNG file as large as goes into the box, in its middle. Throws std::runtime_error when it is none.
  void picture(const std::string& png, pattern::Vec2 corner, double width, double height);
  /// Starting at `at` (its middle height), not centred.
  void text_from(pattern::Vec2 at, double size, bool bold, const std::string& words,
                 const char* colour = ink);

  /// The same, made to fit a width (fit_words.h).
  void fitted_from(pattern::Vec2 at, double size, bool bold, const std::string& words, double width,
                   const char* colour = ink);

  /// Ends the file. Throws std::runtime_error when Cairo failed (out of memory).
  std::string finish();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace crownwright::drawings
