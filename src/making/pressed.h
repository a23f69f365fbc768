#pragma once
// What steam, iron and press do to the form of an order.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "order/order.h"
#include "press/heat.h"
#include "press/steam.h"
#include "press/stiffen.h"
#include "workshop/profiles.h"

namespace crownwright::making {

struct Pressed {
  bool asked = false;    ///< the order has a [press]; else it is judged for open steam, and refuses nothing
  std::string material;  ///< its name in an order
  std::string label;     ///< what people call it (workshop::label_of)
  press::HeatJob job;
  press::HeatVerdict heat;
  /// Materials that would serve, unless this one is fit: what is made the same way first. Of what is milled
  /// only what can be milled.
  std::vector<std::string> instead;
  std::vector<std::string> instead_labels;  ///< of the same
  press::SteamAnswer steam;                 ///< empty until judge_vents has been called
  /// Of hollow blocks whose material's modulus is known: at the job's heat where the material keeps its shape
  /// there, else cold.
  std::optional<press::StiffnessAnswer> stiffness;
  std::optional<double> stiffness_celsius;
  std::vector<std::string> warnings;
};

/// Heat alone. `cloth` is its thickness, mm; 0: none is named. Faults: order (unknown material), impossible:
/// the order says how it is pressed and its material does not stand that, with what would serve; not when it
/// accepts the risk in words.
Result<Pressed> pressed_of(const order::Order& order, double cloth, const workshop::ProfileFolder& profiles);

struct CrownQuestion {
  double crown_radius = 0, dome = 0, edge_radius = 0;
  std::vector<press::Spot> posts{};  ///< under the crown
  bool axis_taken = false;           ///< making/form_posts.h: axis_is_taken
};

/// How far the crown of a hollow block gives way under the press; adds to the warnings. Faults as pressed_of.
Result<Done> judge_crown(const order::Order& order, const CrownQuestion& question,
                         const workshop::ProfileFolder& profiles, Pressed& pressed);

/// Whether steam gets away through vents of this open area (mm2) and the foot; adds to the warnings.
void judge_vents(const order::Order& order, double open_area, Pressed& pressed);

}  // namespace crownwright::making
