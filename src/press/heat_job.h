#pragma once
// How hot the form gets while a beret is pressed on it.

#include <string>

namespace crownwright::press {

enum class HeatKind {
  steam,  ///< open steam, from below or from a hand steamer
  dry,    ///< a dry iron on the cloth
  cold,   ///< dried on the form without heat
};

/// Steam condensing at the pressure of the air: 100.0 C at 1.01325 bar (IAPWS-IF97).
inline constexpr double steam_celsius = 100;
/// A warm room in the sun. Chosen.
inline constexpr double cold_celsius = 30;
inline constexpr double room_celsius = 20;
/// Cloth when none is named, mm.
inline constexpr double usual_cloth = 2;

struct HeatJob {
  HeatKind kind = HeatKind::steam;
  double iron = 150;           ///< sole plate, C: 110, 150 or 200 (one, two, three dots, ISO 3758); for dry
  double cloth = usual_cloth;  ///< thickness lying relaxed, mm, >= 0; for dry
  double press_cloth = 0;      ///< the same for a cloth laid between; for dry
};

struct JobHeat {
  double celsius = 0;   ///< of the form's face, in moving work
  double standing = 0;  ///< with the iron left standing; the same as celsius for steam and cold
};

/// Steam 100 C. Cold 30 C. Dry, through cloth pressed to s = 0.6 of its relaxed thickness (0.05 W/(m K)), on
/// a form whose share of the temperature fall is 0.12/0.124 when the iron stands on it bare:
///   rest = 0.12 / (0.124 + s / 0.05), s in m
///   standing = 20 + rest (iron - 20)
///   job = 20 + 0.67 rest (iron - 20), 0.75 in place of 0.67 where s is under 1.5 mm.
/// Precondition: thicknesses >= 0 (else std::logic_error).
JobHeat heat_of(const HeatJob& job);

/// "open steam, 100 C", "a dry iron at 150 C through 1.2 mm of pressed cloth": to stand in a sentence.
std::string in_words(const HeatJob& job);

}  // namespace crownwright::press
