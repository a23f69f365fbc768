#pragma once
// Whether the steam gets away: through the vents into the form and out at its open foot.

#include <optional>
#include <string>
#include <vector>

namespace crownwright::press {

/// Of saturated steam at 100 C, m3/kg (steam table: 1.6720 at 1.014 bar, IAPWS-IF97).
inline constexpr double steam_specific_volume = 1.672;
/// Of a sharp-edged hole, the share of its area that the jet fills (handbook value for thin orifices).
inline constexpr double orifice_coefficient = 0.62;
/// The weight of cloth of 0.5 kg/m2: steam of more pressure would lift it off the form.
inline constexpr double most_pressure = 5;  // Pa

struct SteamQuestion {
  double flow = 30;       ///< g/min, > 0
  double open_area = 0;   ///< of all vents together, mm2, >= 0
  bool foot_open = true;  ///< false: a floor, or a solid form
};

struct SteamAnswer {
  std::optional<double> speed;     ///< m/s, mean over the open area; nothing without vents
  std::optional<double> pressure;  ///< Pa, drop across the vents; nothing without vents
  bool enough = false;
  std::vector<std::string> warnings;
};

/// speed = flow v / area; drop = (speed / Cd)^2 / (2 v). Enough when the drop is at most 5 Pa and the foot is
/// open. Warns where it is not, with the open area that would do.
/// Precondition: flow > 0, area >= 0 (else std::logic_error).
SteamAnswer judge_steam(const SteamQuestion& question);

/// mm2 of vents that just let this flow pass at most_pressure.
double least_open_area(double flow);

}  // namespace crownwright::press
