#include "measurements/hat_size.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "base/ascii.h"
#include "base/printable.h"
#include "base/tokens.h"

namespace crownwright::measurements {
namespace {

constexpr std::size_t kLongestText = 100;  // bytes
constexpr char kHint[] = "write it as in \"US 7 1/8\", \"UK 7\", \"EU 57\", \"FR 5\" or \"57 cm\"";

/// girth in cm = factor * number + shift; sizes are multiples of 1/steps.
struct System {
  HatSystem system;
  std::string_view name;
  int factor, shift, steps, whole_steps;  // whole_steps: those of whole centimetres
  int smallest_cm;
};

constexpr std::array kSystems = {
    System{HatSystem::us, "US", 8, 0, 16, 8, kSmallestGirthCm},
    System{HatSystem::uk, "UK", 8, 1, 16, 8, kSmallestGirthCm},
    System{HatSystem::eu, "EU", 1, 0, 10, 1, kSmallestGirthCm},
    System{HatSystem::fr, "FR", 2, 47, 4, 2, kSmallestFrenchGirthCm},
};

constexpr std::array<std::string_view, 8> kLetters = {"XXS", "XS", "S", "M", "L", "XL", "XXL", "XXXL"};
constexpr int kLettersFromCm = 51;  // two centimetres each

const System& system_of(HatSystem system) { return kSystems[static_cast<std::size_t>(system)]; }

const System* system_named(std::string_view word) {
  for (const System& system : kSystems) {
    if (lower_case(system.name) == lower_case(word)) return &system;
  }
  return nullptr;
}

bool is_letter_size(std::string_view word) {
  const std::string lower = lower_case(word);
  const std::size_t x = std::min(lower.find_first_not_of('x'), lower.size());
  const std::string rest = lower.substr(x);
  return rest == "s" || rest == "l" || (x == 0 && rest == "m");
}

HatSize size_at(const System& system, int girth_cm) {
  const int part = std::gcd(girth_cm - system.shift, system.factor);
  return {system.system, {(girth_cm - system.shift) / part, system.factor / part}};
}

Fault refuse(std::string_view text, const std::string& what, std::string allowed = kHint) {
  return order_fault({}, quoted(text) + " " + what, std::move(allowed));
}

std::string range_text(const System& system) {
  return std::string(system.name) + " sizes go from " +
         to_text(size_at(system, system.smallest_cm)).substr(system.name.size() + 1) + " (" +
         std::to_string(system.smallest_cm) + " cm) to " +
         to_text(size_at(system, kLargestGirthCm)).substr(system.name.size() + 1) + " (" +
         std::to_string(kLargestGirthCm) + " cm)";
}

/// Nearest multiple of 1/whole_steps; precondition: within the range.
HatSize nearest_step(const System& system, const ExactNumber& n) {
  const std::int64_t doubled = 2 * n.numerator * system.whole_steps + n.denominator;
  const std::int64_t steps = doubled / (2 * n.denominator);
  const std::int64_t part = std::gcd(steps, std::int64_t{system.whole_steps});
  return {system.system, {steps / part, system.whole_steps / part}};
}

Result<HatSize> checked(const System& system, const ExactNumber& number, std::string_view text) {
  // Compared as factor * number + shift, in exact integers: numbers are at most 1e9 and so are denominators.
  const std::int64_t girth = system.factor * number.numerator + system.shift * number.denominator;
  if (girth < system.smallest_cm * number.denominator || girth > kLargestGirthCm * number.denominator) {
    return refuse(text, "is outside the hat sizes", range_text(system));
  }
  if (system.steps % number.denominator != 0) {
    return refuse(text, "lies between two sizes",
                  "the nearest is " + to_text(nearest_step(system, number)) +
                      "; a girth off the sizes is ordered as head girth");
  }
  return HatSize{system.system, number};
}

Fault no_system_fault(std::string_view text, const ExactNumber& number) {
  std::string possible;
  for (const System& system : kSystems) {
    if (const auto size = checked(system, number, text)) {
      possible += (possible.empty() ? "write " : " or ") + quoted(to_text(*size));
    }
  }
  return refuse(text, "has no system", possible.empty() ? kHint : possible);
}

Result<HatSize> read_size(const System* system, const std::vector<Token>& tokens, std::string_view text) {
  const auto read = read_number(tokens, text);
  if (!read) return read.fault();
  std::size_t next = read->next;
  if (next < tokens.size() && tokens[next].mark == Mark::blank) ++next;
  const bool in_cm = next + 1 == tokens.size() && tokens[next].text == "cm";
  if (next == tokens.size() && system == nullptr) return no_system_fault(text, read->number);
  if (next != tokens.size() && !in_cm) {
    if (system == nullptr && next + 1 == tokens.size() && system_named(tokens[next].text)) {
      return refuse(text, "has its system behind its number");
    }
    return refuse(text, "is no hat size");
  }
  if (in_cm && system != nullptr && system->system != HatSystem::eu) {
    return refuse(text, "has a unit, which only EU sizes take");
  }
  return checked(in_cm ? system_of(HatSystem::eu) : *system, read->number, text);
}

std::string fraction_text(const ExactNumber& n) {
  const std::int64_t whole = n.numerator / n.denominator;
  const std::int64_t rest = n.numerator % n.denominator;
  if (rest == 0) return std::to_string(whole);
  const std::string part = std::to_string(rest) + "/" + std::to_string(n.denominator);
  return whole == 0 ? part : std::to_string(whole) + " " + part;
}

}  // namespace

Result<HatSize> parse_hat_size(std::string_view text) {
  if (text.size() > kLongestText) {
    return order_fault({}, "a text of " + std::to_string(text.size()) + " bytes is no hat size", kHint);
  }
  if (!is_utf8(text)) return refuse(text, "is not UTF-8 text");
  std::vector<Token> tokens = read_tokens(text);
  if (tokens.empty()) return order_fault({}, "the hat size is empty", kHint);
  const System* system = nullptr;
  if (tokens[0].mark == Mark::word) {
    system = system_named(tokens[0].text);
    if (system == nullptr && tokens.size() == 1 && is_letter_size(tokens[0].text)) {
      return refuse(text, "is a letter size, and letters differ from maker to maker");
    }
    if (system == nullptr)
      return refuse(text, "does not name a hat size system", "systems are US, UK, EU and FR");
    tokens.erase(tokens.begin());
    if (!tokens.empty() && tokens[0].mark == Mark::blank) tokens.erase(tokens.begin());
    if (tokens.empty()) return refuse(text, "has no number");
  }
  return read_size(system, tokens, text);
}

Length girth_of(const HatSize& size) {
  const System& system = system_of(size.system);
  const std::int64_t cm = system.factor * size.number.numerator + system.shift * size.number.denominator;
  return {10 * cm, size.number.denominator};
}

std::string to_text(const HatSize& size) {
  const std::string name(system_of(size.system).name);
  if (size.system != HatSystem::eu) return name + " " + fraction_text(size.number);
  const double number =
      static_cast<double>(size.number.numerator) / static_cast<double>(size.number.denominator);
  return name + " " + number_text(number, 1);
}

Result<HatSizes> sizes_for_girth(const Length& girth) {
  const double mm = girth.mm();
  if (mm < 10 * kSmallestGirthCm || mm > 10 * kLargestGirthCm) {
    return order_fault({}, "a head girth of " + crownwright::to_text(girth) + " has no hat size",
                       "hat sizes go from 310 mm to 700 mm");
  }
  // Floor of the girth in cm plus a half.
  const int cm = static_cast<int>((girth.numerator() / girth.denominator() + 5) / 10);
  HatSizes row{cm,
               size_at(system_of(HatSystem::us), cm),
               size_at(system_of(HatSystem::uk), cm),
               size_at(system_of(HatSystem::eu), cm),
               std::nullopt,
               {}};
  if (cm >= kSmallestFrenchGirthCm) row.fr = size_at(system_of(HatSystem::fr), cm);
  const int letter = cm < kLettersFromCm ? -1 : (cm - kLettersFromCm) / 2;
  if (letter >= 0 && letter < static_cast<int>(kLetters.size()))
    row.letter = kLetters[static_cast<std::size_t>(letter)];
  return row;
}

}  // namespace crownwright::measurements
