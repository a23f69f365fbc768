#include "drawings/letter_of.h"

namespace crownwright::drawings {

std::string letter_of(std::size_t which) {
  std::string letters;
  for (std::size_t left = which + 1; left > 0; left = (left - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + (left - 1) % 26));
  return letters;
}

}  // namespace crownwright::drawings
