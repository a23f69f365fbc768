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

/// Chosen: hands alone smooth away a hundredth of any cloth.
inline constexpr double small_ease = 0.01;
/// Chosen: less than a tape measure tells, so no cloth is too stiff for it.
inline constexpr double nothing_to_feel = 0.0005;
/// Chosen: woven seam tape gives nothing to the hand; this much is its crimp.
inline constexpr double taped_seam_stretch = 0.002;
/// Chosen: peaks nearer to one another than this are one place under the iron, mm.
inline constexpr double one_iron_place = 10;

/// What the cloth takes, fractions (profiles/cloth).
struct ClothLimits {
  double stretch = 0;      ///< it can be drawn out this much without harm
  double ease = 0;         ///< it takes up this much under steam and iron
  double heat_shrink = 0;  ///< what steam takes from it everywhere
  double thickness = 0;
};

/// Sewn over every seam, between cloth and form. It counts for panels, not for disc and ring patterns.
struct Tape {
  double width = 0;      ///< mm
  double thickness = 0;  ///< mm, as it lies: a tape folded over counts twice
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
  double s = 0;                    ///< along the form's meridian from the tip, mm
  double r_form = 0, r_cloth = 0;  ///< girth / 2 pi; the form's with what a seam tape adds
  double hoop = 0;                 ///< r_form / r_cloth - 1
  /// Averaged over the panel's half width up and down: what is compared with the limits. Disc and ring: the
  /// same as hoop, since one parallel is one circle of cloth.
  double hoop_mean = 0;
  double seam = 0, centre = 0;  ///< length strains, form / cloth - 1 of the piece around s
  double seam_mean = 0, centre_mean = 0;
};

enum class Verdict { as_sewn, after_steam, no };
/// "as sewn", "after steam", "no".
std::string in_words(Verdict verdict);
/// "fits as sewn", "fits after steam", "will not fit".
std::string verdict_words(Verdict verdict);

enum class Strain { hoop, seam, centre };

/// Where it is worst: the mean strain that uses the largest share of what the cloth takes (above 1: beyond).
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

/// Hoop, seam and centre means count alike. as_sewn: all within [-small_ease, stretch]; after_steam: all
/// within
/// [-(ease + heat_shrink), stretch]; else no. A taped seam may not stretch: seam means above
/// taped_seam_stretch are beyond it, and its thickness stands the cloth off the form at the seams, so the
/// girth of the form grows by what the cloth needs to go over the tapes (fit/tape.h).
/// Disc and ring patterns have no seams down the crown: seam and centre are then the even length stretch.
FitReport judge(const FitQuestion& question);

}  // namespace crownwright::fit
