#pragma once
// When a form does not fit its pattern: the nearest that would, found by solving again, not guessed.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "fit/fit.h"
#include "meridian/beret.h"

namespace crownwright::fit {

/// One change that makes it pass, crown diameter and head girth held.
struct Change {
  std::string what;         ///< "edge radius", "dome", "panels", "length along"
  double from = 0, to = 0;  ///< mm, or counts; for "length along" the law's number
  std::string says;         ///< "an edge radius of 12.5 mm at most"
  Verdict verdict = Verdict::as_sewn;
  bool new_pattern = false;  ///< the change needs the panel drafted anew
};

struct NearestQuestion {
  meridian::BeretValues
      values;      ///< the figures that are to change, on whatever surface `judge` takes them for
  int panels = 0;  ///< 0 for disc and ring
  pattern::LengthAlong along = pattern::LengthAlong::shared;
  bool drafted = false;  ///< the pattern is drafted from the form (changes draft it anew), not given
  /// Judges the form of these values against the pattern (given), or against its own draft.
  std::function<std::optional<FitReport>(const meridian::BeretValues&, int panels, pattern::LengthAlong)>
      judge;
};

/// Tried in this order, each alone: the largest edge radius below the present one (and the least above it)
/// that passes, to 0.1 mm on the passing side; the dome nearest the present one; for drafted patterns the
/// next panel counts up to 24 and the other length laws. Nothing when none passes. At most some 200
/// judgements.
std::vector<Change> nearest_changes(const NearestQuestion& question);

}  // namespace crownwright::fit
