#pragma once
// A path as a program in RS274/NGC (Kramer, Proctor, Messina, NISTIR 6556, 2000).

#include <string>
#include <vector>

#include "milling/job.h"
#include "milling/path.h"

namespace crownwright::milling {

enum class Dialect { rs274, plain };

struct ProgramHead {
  std::vector<std::string> notes;  ///< one comment line each, wrapped to 70 characters, ASCII, brackets
                                   ///< inside become "-"
  double spindle = 18000;
};

/// Millimetres with four decimals, G21 G17 G90 G94. Starts with units, then G0 to the safe height alone, x
/// and y, M3 S, then the cut; ends with G0 to the safe height, M5, M2. Arcs by their centre (I J); start and
/// end radius as written agree within 0.002 mm; an arc whose chord is under 0.01 mm is written as a line. A
/// path without moves makes no program (precondition: it has some, as milling/path.h says; std::logic_error
/// otherwise). Arcs of more than half a turn are written as two halves. plain: only G0-G3 G17 G21 G90 G94 M3
/// M5 M2 F S X Y Z I J, lines of at most 70 characters, every motion line begins with its G, flat arcs with X
/// Y I J of at most half a turn, helices as chords (0.005 mm).
std::string ngc_text(const ProgramHead& head, const Path& path, Dialect dialect);

}  // namespace crownwright::milling
