#pragma once
// Way 3: the beret whose drafted panel lies nearest the drawn one, by least squares in the drawing
// (Levenberg-Marquardt, Eigen). Free: crown radius a, head radius b, rise R, one edge radius e, and the dome
// t held by a weak prior, since a panel hardly tells its dome (6 mm move the drawing 0.07 mm). The meridian's
// total length is held hard. All figures are those of the cloth's middle.

#include <array>
#include <optional>
#include <vector>

#include "base/result.h"
#include "meridian/beret.h"
#include "pattern/drawn_panel.h"
#include "pattern/law.h"

namespace crownwright::pattern {

struct FitQuestion {
  LengthAlong along = LengthAlong::shared;
  /// The dome as a share of the crown radius, or as a length: the prior's middle. One sigma: 3 mm.
  double dome_share = 0;
  std::optional<double> dome;
  std::optional<double> rise;         ///< a stated rise is held
  std::optional<double> head_radius;  ///< likewise
  std::optional<double> crown_radius;
  bool apart = false;  ///< e_l apart from e_u, held together by a prior of one sigma 10 mm
};

struct Sigma {
  double a = 0, b = 0, R = 0, t = 0, e_u = 0, e_l = 0;  ///< mm; 0 for what was stated
};

struct Residual {
  double y = 0;         ///< down the drawing from the tip
  double drawn = 0;     ///< half width
  double distance = 0;  ///< of the drafted seam from the drawn point, square to the seam, + outside
};

struct PanelFit {
  meridian::BeretValues values;
  Sigma sigma;
  std::vector<Residual> residuals;  ///< at every station (an outline's are thinned to some 100)
  double rms = 0, worst = 0;        ///< of the residuals, mm
  /// The same fit under all three laws, with this fit's dome, in the order of LengthAlong; nothing where a
  /// law finds none.
  struct ByLaw {
    LengthAlong along = LengthAlong::shared;
    double rise = 0, edge_radius = 0, rms = 0;
  };
  std::array<std::optional<ByLaw>, 3> by_law;
  double rise_spread = 0;  ///< greatest difference of the rises between the laws; a warning above 5 mm
};

/// Faults: `impossible` - no beret comes near (rms above `far_off` mm), saying where it is worst, and for
/// more cloth than a round form takes (read_cloth) how much and where: "14 mm too much cloth at 96 mm from
/// the tip".
Result<PanelFit> fit_panel(const DrawnPanel& drawn, const FitQuestion& question);

/// The beret nearest to the drawing, however far off. Precondition: drawn as fit_panel takes it
/// (drawn_places.h, unreadable).
meridian::BeretValues nearest_beret(const DrawnPanel& drawn, LengthAlong along);

/// A fit whose residuals are larger than this on the average is no fit, mm.
inline constexpr double far_off = 3.0;

}  // namespace crownwright::pattern
