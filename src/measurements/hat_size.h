#pragma once
// Hat sizes as they stand on labels, to head girths and back.
//
// The law is that of the published table (Wikipedia, "Hat", section "Hat size", whole centimetres 51 to 66),
// which every size of it obeys exactly, with c the girth in centimetres:
//   EU (metric)  c                 US  c/8          UK  (c - 1)/8          FR (French number)  (c - 47)/2
// A US size is by origin the diameter in inches, girth = size x pi inches. That is irrational and no label
// means it: one eighth more is 0.9975 cm more head, which the trade takes for 1 cm. Rounding girth/(pi
// inches) to the nearest eighth gives the table's size for every whole centimetre of it; the two laws differ
// by 0.26 % (1.5 mm at 57 cm), far less than the half centimetre between two sizes. So US 7 1/8 means 57 cm
// here, not 56.85. Sizes of children and of heads beyond the table follow the same law.
//
// Girth is measured level about 13 mm above the ears (same source).

#include <optional>
#include <string>
#include <string_view>

#include "base/exact_number.h"
#include "base/length.h"
#include "base/result.h"

namespace crownwright::measurements {

enum class HatSystem { us, uk, eu, fr };

struct HatSize {
  HatSystem system = HatSystem::eu;
  ExactNumber number;
  friend bool operator==(const HatSize&, const HatSize&) = default;
};

/// Girths that have a hat size. Chosen: from just under a newborn's (WHO: 3 of 100 girls are below 31.65 cm)
/// to four sizes past the table's last, 66 cm. French numbers start at 0, which is 47 cm.
inline constexpr int kSmallestGirthCm = 31;
inline constexpr int kLargestGirthCm = 70;
inline constexpr int kSmallestFrenchGirthCm = 47;

/// Reads "US 7 1/8", "UK 7", "EU 57", "FR 5 1/2" (systems in either case; numbers as in parse_length, also
/// Unicode fractions and decimals), "EU 57 cm" and "57 cm". Sizes go in half centimetres of girth (sixteenths
/// for US and UK, quarters for FR); EU in millimetres. Anything else is an order fault with an empty `where`:
/// no system (7 is 56 cm in the US and 57 cm in the UK), letters (they differ from maker to maker), sizes
/// between the steps or outside the range.
Result<HatSize> parse_hat_size(std::string_view text);

/// Exact by the law above.
Length girth_of(const HatSize& size);

/// "US 7 1/8", "EU 57", "EU 57.5"; parse_hat_size reads it back as the same size.
std::string to_text(const HatSize& size);

/// One row of the table: the sizes that belong to one whole centimetre of girth.
struct HatSizes {
  int girth_cm = 0;
  HatSize us, uk, eu;
  std::optional<HatSize> fr;  ///< nothing below 47 cm
  std::string letter;         ///< by the table, for display only (makers differ); empty outside 51 to 66 cm
};

/// The row whose girth is nearest, so that all systems name the same hat; halfway between two rows the
/// larger, as a hat can be padded but not let out. An order fault outside 31 to 70 cm.
Result<HatSizes> sizes_for_girth(const Length& girth);

}  // namespace crownwright::measurements
