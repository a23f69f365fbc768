#include "base/printable.h"

#include <cstdint>

namespace crownwright {
namespace {

// Length of the well-formed UTF-8 sequence that starts at text[i], or 0 (Unicode 15, table 3-7).
std::size_t sequence_length(std::string_view text, std::size_t i) {
  const auto byte = [&](std::size_t k) -> unsigned {
    return k < text.size() ? static_cast<unsigned char>(text[k]) : 0u;
  };
  const auto follows = [&](std::size_t k, unsigned low = 0x80, unsigned high = 0xBF) {
    return byte(k) >= low && byte(k) <= high;
  };
  const unsigned first = byte(i);
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return follows(i + 1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const unsigned low = first == 0xE0 ? 0xA0 : 0x80;
    const unsigned high = first == 0xED ? 0x9F : 0xBF;
    return follows(i + 1, low, high) && follows(i + 2) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const unsigned low = first == 0xF0 ? 0x90 : 0x80;
    const unsigned high = first == 0xF4 ? 0x8F : 0xBF;
    return follows(i + 1, low, high) && follows(i + 2) && follows(i + 3) ? 4 : 0;
  }
  return 0;
}

// C0, DEL and C1 controls; C1 is written C2 80..C2 9F.
bool is_control(std::string_view text, std::size_t i, std::size_t length) {
  const auto first = static_cast<unsigned char>(text[i]);
  if (length == 1) return first < 0x20 || first == 0x7F;
  return length == 2 && first == 0xC2 && static_cast<unsigned char>(text[i + 1]) < 0xA0;
}

void append_escaped(std::string& out, std::string_view bytes) {
  constexpr char digits[] = "0123456789abcdef";
  for (const char c : bytes) {
    const auto value = static_cast<unsigned char>(c);
    out += "\\x";
    out += digits[value >> 4];
    out += digits[value & 15];
  }
}

}  // namespace

std::string printable(std::string_view text, std::size_t limit) {
  std::string out;
  std::size_t room_for_dots = 0;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = sequence_length(text, i);
    const std::string_view piece = text.substr(i, length == 0 ? 1 : length);
    if (length == 0 || is_control(text, i, length)) {
      append_escaped(out, piece);
    } else {
      out += piece;
    }
    if (out.size() > limit) return out.substr(0, room_for_dots) + std::string("...").substr(0, limit);
    if (out.size() + 3 <= limit) room_for_dots = out.size();
    i += piece.size();
  }
  return out;
}

bool is_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = sequence_length(text, i);
    if (length == 0) return false;
    i += length;
  }
  return true;
}

}  // namespace crownwright
