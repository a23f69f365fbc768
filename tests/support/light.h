#pragma once
// Under the address sanitizer, or with CW_LIGHT set in the environment, tests try fewer cases. The tests' own
// code is compiled without sanitizers, so it asks the running program whether it has one.

#include <cstdlib>

extern "C" void __asan_init() __attribute__((weak));

namespace crownwright::test {

inline bool has_address_sanitizer() { return __asan_init != nullptr; }

inline bool light() { return has_address_sanitizer() || std::getenv("CW_LIGHT") != nullptr; }

}  // namespace crownwright::test
