#pragma once
// Does the sewn crown fit the form? Strains of the cloth when it lies on the form: positive, the cloth must
// stretch; negative, it must be eased in. All surfaces are those of the cloth's middle.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "pattern/draft.h"
#include "pattern/parallels.h"

namespace crownwright::fit {

/// What the cloth takes, fractions (profiles/cloth).
struct ClothLimits {
  double stretch = 0;      ///< it can be drawn out this much without harm
  double ease = 0;         ///< it takes up this much under steam and iron
  double heat_shrink = 0;  ///< what steam takes from it everywhere
  double thickness = 0;
};

struct Tape {
  double width = 0;      ///< mm, sewn over every seam
  double thickness = 0;  ///< mm
};

struct FitQuestion {
  pattern::Parallels form;   ///< where the cloth's middle lies when it lies on the form
  pattern::Parallels cloth;  ///< the cloth's own girth / 2 pi (from the pattern)
  /// The panel the cloth was cut to, for seam and centre lengths; nothing for disc and ring patterns.
  std::optional<pattern::PanelNet> net;
  ClothLimits limits;
  std::optional<Tape> tape;
};

struct FitStation {
  double s = 0;  ///< along the form's meridian from the tip, mm
  double r_form = 0, r_cloth = 0;
  double hoop = 0;              ///< r_form / r_cloth - 1
  double hoop_mean = 0;         ///< averaged over the panel's half width: what is compared with the limits
  double seam = 0, centre = 0;  ///< length strains, form / cloth - 1 of the piece around s
  double seam_mean = 0, centre_mean = 0;
};

enum class Verdict { as_sewn, after_steam, no };
/// "as sewn", "after steam", "no".
std::string in_words(Verdict verdict);

enum class Strain { hoop, seam, centre };

/// Where it is worst: the mean strain furthest beyond (or nearest to) what the cloth takes.
struct Worst {
  Strain strain = Strain::hoop;
  double at = 0;     ///< mm from the tip
  double value = 0;  ///< the mean strain there
  double limit = 0;  ///< the limit it is compared with: + stretch, or - (ease)
};

struct FitReport {
  std::vector<FitStation> stations;
  Verdict verdict = Verdict::no;
  double hoop_max = 0, hoop_min = 0;          ///< of hoop_mean
  double seam_length = 0, centre_length = 0;  ///< total length strains, tip to head line
  Worst worst;
  /// Distances from the tip where a local peak stands above what the mean passes: "work here with the iron".
  std::vector<double> work_here;
  double length_stretch = 0;  ///< the uniform part: form's meridian / cloth's - 1
};

/// as_sewn: every mean strain within [-small, +small] of what cloth takes without steam: small ease of 1 %
/// and the stretch; after_steam: within [-(ease + heat_shrink), stretch]; else no. A taped seam may not
/// stretch: its seam strains must be <= 0.2 % (tape gives nothing; chosen), and its thickness moves the seams
/// outward: the cloth's girth loses what the tape's thickness takes, n panels x pi/n-free share (see
/// fit.cpp).
FitReport judge(const FitQuestion& question);

}  // namespace crownwright::fit
