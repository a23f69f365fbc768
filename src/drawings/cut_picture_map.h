#pragma once
// The map of what was cut: deviations in classes of light and dark.

#include <optional>
#include <string>
#include <vector>

#include "drawings/chart_canvas.h"
#include "drawings/milling_sheet.h"

namespace crownwright::drawings {

struct WorstCell {
  double x = 0, y = 0, mm = 0;  ///< piece coordinates of the cell's middle; mm > 0
};

struct CutMap {
  int width = 0, height = 0;         ///< pixels
  std::vector<unsigned char> tones;  ///< from the upper left; y of the piece runs up
  std::optional<WorstCell> deepest;  ///< cut into the form
  std::optional<WorstCell> highest;  ///< left standing
};

/// Each pixel shows the worst of its cells: too deep before too high before the rest.
CutMap cut_map(const CutPicture& picture, int most_width, int most_height);

/// One class of the scale: what lies up to `most` (mm), its tone, and words with figures.
struct CutClass {
  double most = 0;
  unsigned char tone = 0;
  bool hatched = false;
  std::string says;
};
std::vector<CutClass> cut_classes(const CutPicture& picture);

/// The tone of a hatched pixel.
unsigned char hatch_tone(int x, int y);

}  // namespace crownwright::drawings
