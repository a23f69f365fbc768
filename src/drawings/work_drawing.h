#pragma once
// A drawing for the workshop as a list of strokes, tones and words on pages, kept until it is written: one
// drawing gives a PDF or an SVG. Millimetres from the upper left corner, y down; all in greys.

#include <memory>
#include <string>
#include <vector>

#include "drawings/chart_canvas.h"
#include "pattern/plane.h"

namespace crownwright::drawings {

struct WorkStroke {
  double width = 0.25;
  double light = 0;  ///< 0 black, 1 white
  std::vector<double> dashes;
};

struct WorkText {
  double size = 3;
  bool bold = false;
  Anchor anchor = Anchor::start;
  bool upright = false;  ///< read from the right
  bool cleared = false;  ///< on a white patch, to be read on top of lines
  double light = 0;
};

class WorkDrawing {
 public:
  WorkDrawing(double width, double height);
  ~WorkDrawing();
  WorkDrawing(const WorkDrawing&) = delete;
  WorkDrawing& operator=(const WorkDrawing&) = delete;

  double width() const { return width_; }
  double height() const { return height_; }
  /// Of all pages: of a drawing that grows as it is drawn.
  void set_height(double height) { height_ = height; }
  void next_page();
  std::size_t pages() const { return pages_.size(); }
  /// What follows is drawn on that page, from 0.
  void turn_to(std::size_t page) { page_ = page; }

  /// What follows is one group of the SVG, until `end`. Groups are not nested.
  void group(const std::string& id);
  void end();
  /// What follows, until `unclip`, is moved by (x, y) and shown only within `width` by `height` from there.
  void clip(double x, double y, double width, double height);
  void unclip();

  void line(const pattern::Polyline& points, const WorkStroke& stroke, bool closed = false);
  void fill(const pattern::Polyline& outline, double light);
  void ring(pattern::Vec2 middle, double radius, const WorkStroke& stroke);
  void disc(pattern::Vec2 middle, double radius, double light);
  /// Parallel strokes within an outline, at that angle (degrees, y down).
  void hatch(const pattern::Polyline& outline, double apart, double degrees, const WorkStroke& stroke);
  /// `at`: middle height of the line of text. Control characters and broken UTF-8 are written as \xNN.
  void text(pattern::Vec2 at, const std::string& words, const WorkText& look = {});
  /// Made smaller until it fits, down to two thirds, then cut short.
  void fitted(pattern::Vec2 at, const std::string& words, WorkText look, double width);
  /// A PNG file as large as goes into the box, in its middle: on pages alone, an SVG leaves it out. When it
  /// is none, `pdf` throws std::runtime_error.
  void picture(const std::string& png, pattern::Vec2 corner, double width, double height);
  /// Lines no wider than `width`; a word that is longer is broken.
  std::vector<std::string> wrapped(const std::string& words, double size, bool bold, double width) const;
  double width_of(const std::string& words, double size, bool bold = false) const;

  std::string pdf(const std::string& title) const;
  /// Of the first page: SVG 1.1, width and height in mm, viewBox in mm, words as text.
  std::string svg(const std::string& title) const;

 private:
  struct Item;
  struct Page;
  Page& page();
  double width_, height_;
  std::vector<std::unique_ptr<Page>> pages_;
  std::size_t page_ = 0;
  std::unique_ptr<ChartCanvas> ruler_;  ///< measures words only
};

}  // namespace crownwright::drawings
