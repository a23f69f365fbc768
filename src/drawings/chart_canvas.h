#pragma once
// A sheet to draw charts on, in millimetres from its upper left corner, y down; SVG or PNG as bytes. Same
// calls, same bytes. Cairo is behind it.

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace crownwright::drawings {

struct ChartPoint {
  double x = 0, y = 0;
};

struct Ink {
  double red = 0, green = 0, blue = 0;
};
constexpr Ink grey(double light) { return {light, light, light}; }

struct ChartStroke {
  double width = 0.3;        ///< mm
  std::vector<double> dash;  ///< mm on, off, ...; empty: solid
  Ink ink;
};

enum class Anchor { start, middle, end };

struct Lettering {
  double size = 2.6;  ///< mm, of the font
  bool bold = false;
  Anchor anchor = Anchor::start;
  Ink ink;
  bool halo = false;  ///< on a white rim, to be read on top of lines
};

class ChartCanvas {
 public:
  enum class Kind { svg, png };
  /// A white sheet. `pixels`: width of the PNG; SVG is in millimetres and does not use it.
  ChartCanvas(Kind kind, double width, double height, int pixels = 1600);
  ~ChartCanvas();
  ChartCanvas(const ChartCanvas&) = delete;
  ChartCanvas& operator=(const ChartCanvas&) = delete;

  void line(const std::vector<ChartPoint>& points, const ChartStroke& stroke);
  void fill(const std::vector<ChartPoint>& outline, Ink ink);
  void ring(ChartPoint middle, double radius, const ChartStroke& stroke);
  /// Cells of grey, 0 black to 255 white, row by row from the upper left, with hard edges.
  /// Precondition: tones.size() = columns * rows, both > 0.
  void cells(ChartPoint corner, double width, double height, int columns, int rows,
             const std::vector<unsigned char>& tones);
  /// Nothing is drawn outside this rectangle until `unclip`. Not to be nested.
  void clip(ChartPoint corner, double width, double height);
  void unclip();
  /// Control characters and broken UTF-8 are written as \xNN.
  void text(ChartPoint at, const std::string& words, const Lettering& lettering);
  double text_width(const std::string& words, const Lettering& lettering) const;

  /// The sheet as bytes; nothing may be drawn after it. Throws std::runtime_error when Cairo could not finish
  /// (no memory left).
  std::string finish();

 private:
  struct Sheet;
  std::unique_ptr<Sheet> sheet_;
};

}  // namespace crownwright::drawings
