#pragma once
// What is to be said of a form while it is being planned, in plain words, each with what would change it.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "making/preview.h"

namespace crownwright::page {

enum class Tone { good, mind, bad };
/// "good", "mind", "bad".
std::string tone_word(Tone tone);

/// A change of the order that can be tried with one touch: keys and what is typed for them.
struct Try {
  std::string words;
  std::vector<std::pair<std::string, std::string>> order;
};

struct Verdict {
  std::string about;  ///< "heat", "steam", "press", "print", "release", "mill", "stack"
  Tone tone = Tone::good;
  std::string words;  ///< a sentence
  std::vector<Try> tries{};
};

/// Those that apply, in the order above; lengths in inches first where the person writes in inches.
std::vector<Verdict> verdicts_of(const making::Preview& preview, bool inches);

struct FitWords {
  std::optional<Tone> tone;  ///< nothing: not known
  std::string words;
  std::vector<Try> tries;
};

/// How the crown's cloth lies on the form. Precondition: the preview has a fit.
FitWords fit_words(const making::Preview& preview, bool inches);

/// "21 mm": as a key takes it.
std::string typed_mm(double mm);

}  // namespace crownwright::page
