#pragma once
// How much material a print takes, and whether the nozzle can lay its thinnest wall.

#include <string>

namespace crownwright::printing {

struct PrintSettings {
  double nozzle = 0.4;     ///< mm: width of a printed line
  int walls = 3;           ///< lines along every face
  double infill = 0.2;     ///< share of the inside that is filled, 0 to 1
  double filament = 1.75;  ///< mm, diameter
};

struct PrintAmount {
  double massive_mass = 0;     ///< g, of the body filled throughout
  double printed_volume = 0;   ///< mm3
  double printed_mass = 0;     ///< g
  double filament_length = 0;  ///< m
};

/// Skin of walls x nozzle under every face, the rest filled by the given share. The skin is area times
/// thickness, a little too much at outer corners and, in a wall thinner than two skins, the whole wall; the
/// slicer's own figure goes before it. Supports are not in it. Density in g/cm3. Precondition: volume, area,
/// nozzle, filament > 0, 0 <= infill <= 1 (else std::logic_error).
PrintAmount amount_of(double volume, double area, double density, const PrintSettings& settings);

struct WallLines {
  double lines = 0;    ///< wall / nozzle
  bool enough = true;  ///< at least two lines
  std::string note;    ///< one sentence without its full stop; empty when nothing is to say
};

/// Two lines are the least that holds (0.8 mm for a nozzle of 0.4, several printing guides); walls up to
/// eight lines come out best in whole lines, thicker ones have room for infill between them.
WallLines wall_lines(double smallest_wall, double nozzle);

}  // namespace crownwright::printing
