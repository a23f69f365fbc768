#include "drawings/fit_words.h"

#include <algorithm>

namespace crownwright::drawings {
namespace {

constexpr char ellipsis[] = "\u2026";

void drop_last_letter(std::string& words) {
  while (!words.empty() && (static_cast<unsigned char>(words.back()) & 0xC0) == 0x80) words.pop_back();
  if (!words.empty()) words.pop_back();
}

}  // namespace

FittedWords fit_words(const std::string& words, double size, double width,
                      const std::function<double(const std::string&, double)>& width_of) {
  FittedWords fitted{words, size};
  const double wanted = width_of(words, size);
  if (wanted > width) fitted.size *= std::max(2.0 / 3, width / wanted);
  if (width_of(words, fitted.size) <= width * (1 + 1e-9)) return fitted;
  std::string kept = words;
  do {
    drop_last_letter(kept);
    fitted.words = kept + ellipsis;
  } while (!kept.empty() && width_of(fitted.words, fitted.size) > width * (1 + 1e-9));
  return fitted;
}

}  // namespace crownwright::drawings
