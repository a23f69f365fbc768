#include "proof/proven.h"

#include <algorithm>

namespace crownwright::proof {

bool Verdict::passed() const {
  return !checks.empty() &&
         std::all_of(checks.begin(), checks.end(), [](const Check& c) { return c.passed; });
}

}  // namespace crownwright::proof
