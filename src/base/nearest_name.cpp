#include "base/nearest_name.h"

#include <algorithm>

#include "base/ascii.h"

namespace crownwright {
namespace {

constexpr std::size_t kLongestName = 100;

/// "Head girth", "head-girth" and "head_girth" are the same slip-free name to a person.
std::string folded(std::string_view name) {
  std::string text;
  for (char c : name) {
    if (c == '-' || c == '_' || c == ' ') continue;
    text += lower_case(c);
  }
  return text;
}

std::size_t allowed_distance(std::string_view a, std::string_view b) {
  const std::size_t longer = std::max(a.size(), b.size());
  return longer < 2 ? 0 : std::max<std::size_t>(1, longer / 3);
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  // Three rows of the alignment table are enough: the swap looks two rows back.
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
  }
  return row[b.size()];
}

std::optional<std::string> nearest_name(std::string_view word, const std::vector<std::string>& known) {
  if (word.empty() || word.size() > kLongestName) return std::nullopt;
  const std::string slip = folded(word);
  std::optional<std::string> nearest;
  std::size_t least = 0;
  for (const std::string& name : known) {
    if (name.size() > kLongestName) continue;
    const std::string candidate = folded(name);
    const std::size_t distance = edit_distance(slip, candidate);
    if (distance > allowed_distance(slip, candidate)) continue;
    if (!nearest || distance < least) {
      nearest = name;
      least = distance;
    }
  }
  return nearest;
}

}  // namespace crownwright
