#pragma once
// Under sanitizers, or with CW_LIGHT set in the environment, tests try fewer cases.

#include <cstdlib>

namespace crownwright::test {

inline bool light() {
#ifdef __SANITIZE_ADDRESS__
  return true;
#else
  return std::getenv("CW_LIGHT") != nullptr;
#endif
}

}  // namespace crownwright::test
