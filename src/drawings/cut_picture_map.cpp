#include "drawings/cut_picture_map.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/length.h"

// Classes, not a smooth scale: five greys are told apart in print, fifty are not. The darker, the more
// stands; what is cut too deep is hatched, since it is no more of the same.

namespace crownwright::drawings {
namespace {

constexpr unsigned char not_judged = 255;

std::string with_sign(double mm) {
  const std::string text = number_text(std::abs(mm), 3);
  return mm < 0 && text != "0" ? "\u2212" + text : text;
}

// Which of two deviations is worse to have in one pixel; NaN is none.
bool is_worse(float other, float now, double gouge) {
  if (std::isnan(other)) return false;
  if (std::isnan(now)) return true;
  const bool deep = other < -gouge, was_deep = now < -gouge;
  if (deep || was_deep) return other < now;
  return other > now;
}

void look_for_worst(const CutPicture& picture, CutMap& map) {
  const std::vector<float>& cells = *picture.deviation;
  const double wide = (picture.x1 - picture.x0) / picture.columns,
               high = (picture.y1 - picture.y0) / picture.rows;
  float low = 0, top = 0;
  std::size_t low_at = cells.size(), top_at = cells.size();
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (cells[i] < low) low = cells[i], low_at = i;
    if (cells[i] > top) top = cells[i], top_at = i;
  }
  const auto cell = [&](std::size_t i, double mm) {
    const auto columns = static_cast<std::size_t>(picture.columns);
    return WorstCell{picture.x0 + (static_cast<double>(i % columns) + 0.5) * wide,
                     picture.y0 + (static_cast<double>(i / columns) + 0.5) * high, mm};
  };
  if (low_at < cells.size()) map.deepest = cell(low_at, -static_cast<double>(low));
  if (top_at < cells.size()) map.highest = cell(top_at, static_cast<double>(top));
}

}  // namespace

unsigned char hatch_tone(int x, int y) { return (x + y) % 6 < 3 ? 0 : 255; }

std::vector<CutClass> cut_classes(const CutPicture& picture) {
  const double s = picture.scallop, most = s + picture.rest_more;
  const auto from_to = [](double from, double to) { return with_sign(from) + " to " + with_sign(to); };
  return {{-picture.gouge, 0, true, "cut too deep: more than " + number_text(picture.gouge, 3)},
          {0, 235, false, from_to(-picture.gouge, 0)},
          {s / 2, 200, false, from_to(0, s / 2)},
          {s, 160, false, from_to(s / 2, s)},
          {most, 110, false, from_to(s, most)},
          {std::numeric_limits<double>::infinity(), 25, false,
           "left standing: more than " + number_text(most, 3)}};
}

CutMap cut_map(const CutPicture& picture, int most_width, int most_height) {
  CutMap map;
  const double aspect = static_cast<double>(picture.rows) / picture.columns;
  map.width = std::clamp(static_cast<int>(std::min<double>(most_width, most_height / aspect)), 1, most_width);
  map.height = std::clamp(static_cast<int>(map.width * aspect + 0.5), 1, most_height);
  const std::vector<CutClass> classes = cut_classes(picture);
  const std::vector<float>& cells = *picture.deviation;
  map.tones.assign(static_cast<std::size_t>(map.width) * static_cast<std::size_t>(map.height), not_judged);
  const auto first_cell = [](int pixel, int cells_there, int pixels) {
    return static_cast<int>(static_cast<long long>(pixel) * cells_there / pixels);
  };
  for (int y = 0; y < map.height; ++y) {
    // Rows of cells run up, pixels down.
    const int up = map.height - 1 - y;
    const int row = first_cell(up, picture.rows, map.height);
    const int row_end = std::max(row + 1, first_cell(up + 1, picture.rows, map.height));
    for (int x = 0; x < map.width; ++x) {
      const int column = first_cell(x, picture.columns, map.width);
      const int column_end = std::max(column + 1, first_cell(x + 1, picture.columns, map.width));
      float worst = std::numeric_limits<float>::quiet_NaN();
      for (int r = row; r < row_end; ++r)
        for (int c = column; c < column_end; ++c) {
          const float other = cells[static_cast<std::size_t>(r) * static_cast<std::size_t>(picture.columns) +
                                    static_cast<std::size_t>(c)];
          if (is_worse(other, worst, picture.gouge)) worst = other;
        }
      if (std::isnan(worst)) continue;
      const auto found = std::find_if(classes.begin(), classes.end() - 1, [&](const CutClass& one) {
        return one.hatched ? worst < one.most : worst <= one.most;
      });
      map.tones[static_cast<std::size_t>(y) * static_cast<std::size_t>(map.width) +
                static_cast<std::size_t>(x)] = found->hatched ? hatch_tone(x, y) : found->tone;
    }
  }
  look_for_worst(picture, map);
  return map;
}

}  // namespace crownwright::drawings
