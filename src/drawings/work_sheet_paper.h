#pragma once
// The pages of a work sheet, which hold a photograph-like picture beside strokes and words, as a PDF.
// Millimetres from the page's upper left corner, y down; all in greys. Same calls, same bytes. Cairo is
// behind it.

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "drawings/work_drawing.h"

namespace crownwright::drawings {

/// Draws as WorkDrawing does, call by call.
class SheetPaper {
 public:
  SheetPaper(double width, double height);
  ~SheetPaper();
  SheetPaper(const SheetPaper&) = delete;
  SheetPaper& operator=(const SheetPaper&) = delete;

  double width() const { return width_; }
  double height() const { return height_; }
  void next_page();
  std::size_t pages() const { return pages_.size(); }
  /// What follows is drawn on that page, from 0.
  void turn_to(std::size_t page) { page_ = page; }

  void line(const pattern::Polyline& points, const WorkStroke& stroke, bool closed = false);
  void fill(const pattern::Polyline& outline, double light);
  void text(pattern::Vec2 at, const std::string& words, const WorkText& look = {});
  void fitted(pattern::Vec2 at, const std::string& words, WorkText look, double width);
  std::vector<std::string> wrapped(const std::string& words, double size, bool bold, double width) const {
    return ruler_.wrapped(words, size, bold, width);
  }
  double width_of(const std::string& words, double size, bool bold = false) const {
    return ruler_.width_of(words, size, bold);
  }
  /// A PNG file as large as goes into the box, in its middle. Throws std::runtime_error when it is none.
  void picture(const std::string& png, pattern::Vec2 corner, double width, double height);
  /// Groups matter to SVG alone.
  void group(const std::string&) {}
  void end() {}

  std::string pdf(const std::string& title) const;

 private:
  struct Pen;
  using Stroke = std::function<void(Pen&)>;
  void keep(Stroke stroke) { pages_[page_].push_back(std::move(stroke)); }
  double width_, height_;
  std::vector<std::vector<Stroke>> pages_;
  std::size_t page_ = 0;
  WorkDrawing ruler_;  ///< measures words only
};

}  // namespace crownwright::drawings
