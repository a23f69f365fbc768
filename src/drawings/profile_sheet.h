#pragma once
// What stands round a profile: axis, stations, dimension lines and words, for every kind of file alike.
// Millimetres, x outwards from the axis, y up from the foot.

#include <vector>

#include "drawings/profile_drawing.h"
#include "pattern/plane.h"

namespace crownwright::drawings {

enum class ProfileStroke { axis, station, dimension };
struct ProfileLine {
  pattern::Vec2 from, to;
  ProfileStroke stroke;
};

enum class WordsFrom { start, middle, end };
struct ProfileWords {
  pattern::Vec2 at;  ///< middle height of the line
  double size = 3;
  WordsFrom from = WordsFrom::start;
  bool upright = false, bold = false;
  std::string text;
};

struct ProfileSheet {
  std::vector<ProfileLine> lines;
  std::vector<ProfileWords> words;
  pattern::Vec2 low, high;  ///< everything lies between
};

ProfileSheet profile_sheet(const ProfilePlan& plan);

}  // namespace crownwright::drawings
