// Any bytes as a length and as a hat size: an answer or a fault, and what is printed is read back as the
// same.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "base/length.h"
#include "base/printable.h"
#include "measurements/hat_size.h"

namespace {

void expect(bool holds) {
  if (!holds) std::abort();
}

void expect_printable(const crownwright::Fault& fault) {
  expect(!fault.what.empty() && fault.where.empty() && fault.exit == crownwright::ExitCode::order);
  const std::string line = fault.line();
  expect(crownwright::is_utf8(line) && line.find('\n') == std::string::npos);
}

void try_length(std::string_view text) {
  const auto length = crownwright::parse_length(text);
  if (!length) return expect_printable(length.fault());
  const std::string printed = to_text(*length);
  const auto back = crownwright::parse_length(printed);
  expect(back.ok() && to_text(*back) == printed);
  const bool six_decimals_are_exact = 1'000'000 % length->denominator() == 0;
  if (six_decimals_are_exact) expect(*back == *length);
}

void try_hat_size(std::string_view text) {
  const auto size = crownwright::measurements::parse_hat_size(text);
  if (!size) return expect_printable(size.fault());
  const auto back = crownwright::measurements::parse_hat_size(to_text(*size));
  expect(back.ok() && *back == *size);
  expect(crownwright::measurements::sizes_for_girth(girth_of(*size)).ok());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try_length(text);
  try_hat_size(text);
  return 0;
}
