#include "simulation/ngc_modes.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "base/length.h"

namespace crownwright::simulation {
namespace {

struct Code {
  int tenths;  // of the number: 611 is G61.1
  int group;   // Table 4
};

constexpr Code taken_g[] = {{0, 1},    {10, 1},   {20, 1},   {30, 1},  {800, 1}, {170, 2},
                            {900, 3},  {940, 5},  {200, 6},  {210, 6}, {400, 7}, {490, 8},
                            {540, 12}, {610, 13}, {611, 13}, {640, 13}};
// M7 and M8 may stand together (Table 4), so they count as two groups; M9 stands against both.
constexpr Code taken_m[] = {{0, 4},  {10, 4}, {20, 4}, {300, 4}, {60, 6}, {30, 7},
                            {40, 7}, {50, 7}, {70, 8}, {80, 80}, {90, 8}};

const std::string g_list = "taken are G0-G3 G17 G20 G21 G40 G49 G54 G61 G61.1 G64 G80 G90 G94";

Fault not_taken(const Word& word) {
  const std::string name = std::string(1, word.letter) + number_text(word.value, 4);
  return order_fault({}, name + " is not taken",
                     word.letter == 'G' ? g_list : std::string("taken are M0-M9 and M30"));
}

/// 3.3.2.1: close enough to an integer is within 0.0001.
std::optional<int> tenths_of(double value) {
  const double tenths = std::round(10 * value);
  if (std::abs(10 * value - tenths) > 1e-4 || tenths < 0 || tenths > 999) return std::nullopt;
  return static_cast<int>(tenths);
}

template <std::size_t N>
const Code* find_code(const Code (&table)[N], const Word& word) {
  const auto tenths = tenths_of(word.value);
  const auto found = std::find_if(std::begin(table), std::end(table),
                                  [&](const Code& code) { return tenths && code.tenths == *tenths; });
  return found == std::end(table) ? nullptr : found;
}

void note_g(int tenths, Codes& codes) {
  if (tenths <= 30) codes.motion = static_cast<Motion>(tenths / 10);
  if (tenths == 800) codes.cancels_motion = true;
  if (tenths == 200) codes.unit = 25.4;
  if (tenths == 210) codes.unit = 1;
}

}  // namespace

Result<Codes> codes_of(const Line& line) {
  static_assert(static_cast<int>(Motion::counterclockwise) == 3, "motions are in the order of G0 to G3");
  Codes codes;
  std::set<std::pair<char, int>> groups;
  int m_words = 0;
  for (const Word& word : line.words) {
    if (word.letter != 'G' && word.letter != 'M') continue;
    const Code* code = word.letter == 'G' ? find_code(taken_g, word) : find_code(taken_m, word);
    if (code == nullptr) return not_taken(word);
    if (!groups.insert({word.letter, code->group}).second)
      return order_fault(
          {}, std::string("two ") + std::string(1, word.letter) + " words of one group stand on the line",
          "one of a modal group a line");
    if (word.letter == 'G') note_g(code->tenths, codes);
    if (word.letter == 'M' && ++m_words > 4)
      return order_fault({}, "more than four M words stand on the line", "four");
    if (word.letter == 'M' && (code->tenths == 20 || code->tenths == 300)) codes.ends = true;
  }
  return codes;
}

}  // namespace crownwright::simulation
