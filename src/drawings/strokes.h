#pragma once
// How each kind of line is drawn, the same on screen and paper. Lines differ in weight and dashes, so that a
// grey print tells them apart; colour only helps.

#include <array>

namespace crownwright::drawings {

/// opening: cut like the outline, but inside the piece.
enum class Stroke { cut, opening, sew, notch, grain, fold, mark };

struct StrokeLook {
  double width;                // mm
  const char* colour;          // #rrggbb
  std::array<double, 4> dash;  // mm: on, off, on, off; all 0: solid
};

inline StrokeLook look_of(Stroke stroke) {
  switch (stroke) {
    case Stroke::cut:
    case Stroke::opening:
      return {0.7, "#1d1d1f", {}};
    case Stroke::sew:
      return {0.35, "#2f6060", {4, 2, 4, 2}};
    case Stroke::notch:
      return {0.7, "#1d1d1f", {}};
    case Stroke::grain:
      return {0.3, "#1d1d1f", {}};
    case Stroke::fold:
      return {0.3, "#7a4a1e", {8, 2, 1, 2}};
    case Stroke::mark:
      return {0.3, "#7a4a1e", {1.5, 1.5, 1.5, 1.5}};
  }
  return {0.3, "#1d1d1f", {}};
}

inline constexpr const char* ink = "#1d1d1f";
inline constexpr const char* pale = "#8c8c90";
inline constexpr const char* font = "DejaVu Sans";

}  // namespace crownwright::drawings
