#pragma once
// Whether a material bears the heat of the job, and what would serve in its place. It judges by what is
// published about a kind of material; the maker's data sheet of the one in hand goes before it.

#include <optional>
#include <string>
#include <vector>

#include "press/heat_job.h"
#include "press/limit.h"

namespace crownwright::press {

enum class Verdict { fit, risk, no };
/// "fit", "risk", "no".
std::string to_text(Verdict verdict);

/// Between job and limit, so that "fit" may be said. Common practice, no source: grades differ, and a print
/// with sparse infill sags before a moulded bar does.
inline constexpr double safe_margin = 10;  // K

struct HeatVerdict {
  Verdict verdict = Verdict::risk;
  JobHeat job;
  std::optional<HeatLimit> limit;  ///< the one that decided; nothing when none is known
  std::string reason;              ///< one sentence without its full stop
  /// Sentences: an iron left standing that would spoil what moving work does not; then the material's own
  /// about fume, crush and burn.
  std::vector<std::string> cautions;
};

/// Fit when the limit lies 10 K or more above the job, risk from 0 up to 10 K, no below the job. A limit that
/// is not published neither passes nor refuses: risk, unless a published one refuses already. No limit known:
/// risk.
HeatVerdict judge_heat(const workshop::MaterialProfile& material, const HeatJob& job);

/// Names of those among `materials` that are fit for the job, in their order: rigid ones (plastics, boards,
/// wood) for a rigid material, soft ones (foams, rubber) for a soft one; all where its kind is not known. The
/// material itself is left out.
std::vector<std::string> instead_of(const workshop::MaterialProfile& material,
                                    const std::vector<workshop::MaterialProfile>& materials,
                                    const HeatJob& job);

}  // namespace crownwright::press
