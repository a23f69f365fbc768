#include "printing/amount.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/length.h"
#include "base/numbers.h"

namespace crownwright::printing {
namespace {

constexpr double kLeastLines = 2, kMostWholeLines = 8;
constexpr double kWhole = 0.05;  // of a line: mesh tolerances do not count as gaps

void expect_sound(double volume, double area, const PrintSettings& s) {
  const bool sound = volume > 0 && area > 0 && s.nozzle > 0 && s.filament > 0 && s.walls >= 0 &&
                     s.infill >= 0 && s.infill <= 1;
  if (!sound) throw std::logic_error("a print that cannot be");
}

}  // namespace

PrintAmount amount_of(double volume, double area, double density, const PrintSettings& settings) {
  expect_sound(volume, area, settings);
  const double skin = std::min(volume, area * settings.walls * settings.nozzle);
  const double grams = density / 1000;  // g/cm3 -> g/mm3
  PrintAmount amount;
  amount.massive_mass = volume * grams;
  amount.printed_volume = skin + settings.infill * (volume - skin);
  amount.printed_mass = amount.printed_volume * grams;
  const double strand = pi / 4 * settings.filament * settings.filament;
  amount.filament_length = amount.printed_volume / strand / 1000;
  return amount;
}

WallLines wall_lines(double smallest_wall, double nozzle) {
  if (!(nozzle > 0)) throw std::logic_error("a nozzle without opening");
  WallLines out;
  out.lines = smallest_wall / nozzle;
  out.enough = out.lines >= kLeastLines - kWhole;
  if (!out.enough) {
    out.note = "a wall of " + number_text(smallest_wall, 2) + " mm is less than two lines of a " +
               number_text(nozzle, 2) + " mm nozzle: make it at least " +
               number_text(kLeastLines * nozzle, 2) + " mm";
  } else if (out.lines < kMostWholeLines && std::abs(out.lines - std::round(out.lines)) > kWhole) {
    out.note = "a wall of " + number_text(smallest_wall, 2) +
               " mm is no whole number of lines: " + number_text(std::ceil(out.lines) * nozzle, 2) +
               " mm would print without gaps";
  }
  return out;
}

}  // namespace crownwright::printing
