#include "page/base64.h"

#include <array>
#include <cstdint>

namespace crownwright::page {
namespace {

constexpr char digits64[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

constexpr std::array<std::int8_t, 256> values_of_digits() {
  std::array<std::int8_t, 256> values{};
  for (auto& value : values) value = -1;
  for (int i = 0; i < 64; ++i) values[static_cast<unsigned char>(digits64[i])] = static_cast<std::int8_t>(i);
  return values;
}
constexpr auto values64 = values_of_digits();

}  // namespace

std::string base64(std::span<const std::byte> bytes) {
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t left = bytes.size() - i;
    const auto at = [&](std::size_t k) {
      return k < left ? std::to_integer<std::uint32_t>(bytes[i + k]) : std::uint32_t{0};
    };
    const std::uint32_t three = at(0) << 16 | at(1) << 8 | at(2);
    text += digits64[three >> 18 & 63];
    text += digits64[three >> 12 & 63];
    text += left > 1 ? digits64[three >> 6 & 63] : '=';
    text += left > 2 ? digits64[three & 63] : '=';
  }
  return text;
}

std::optional<std::string> from_base64(std::string_view text) {
  if (text.size() % 4 != 0) return std::nullopt;
  std::size_t padding = 0;
  while (padding < 2 && !text.empty() && text.back() == '=') {
    text.remove_suffix(1);
    ++padding;
  }
  std::string bytes;
  bytes.reserve(text.size() / 4 * 3 + 2);
  std::uint32_t held = 0;
  int bits = 0;
  for (const char c : text) {
    const int value = values64[static_cast<unsigned char>(c)];
    if (value < 0) return std::nullopt;
    held = held << 6 | static_cast<std::uint32_t>(value);
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes += static_cast<char>(held >> bits & 255);
    held &= (1u << bits) - 1;
  }
  if (held != 0) return std::nullopt;
  return bytes;
}

}  // namespace crownwright::page
