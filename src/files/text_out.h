#pragma once
// Numbers and words into a sink, the same in every locale.

#include <charconv>
#include <cstdint>
#include <string_view>

#include "files/byte_sink.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

class TextOut {
 public:
  explicit TextOut(ByteSink& sink) : sink_(sink) {}

  TextOut& operator<<(std::string_view text) { return sink_.append(text), *this; }
  /// Shortest form that reads back as the same float32.
  TextOut& operator<<(float value) { return number(value); }
  /// The same for a double.
  TextOut& operator<<(double value) { return number(value); }
  TextOut& operator<<(std::uint64_t value) { return number(value); }
  /// "x y z"
  TextOut& operator<<(const mesh::Vertex& v) { return *this << v.x << " " << v.y << " " << v.z; }

 private:
  template <class Number>
  TextOut& number(Number value) {
    constexpr std::size_t longest = 32;  // "-1.7976931348623157e+308" is 24 characters, 2^64 has 20 digits
    const std::span<std::byte> room = sink_.room(longest);
    char* const begin = reinterpret_cast<char*>(room.data());
    const std::to_chars_result end = std::to_chars(begin, begin + longest, value);
    sink_.used(static_cast<std::size_t>(end.ptr - begin));
    return *this;
  }
  ByteSink& sink_;
};

}  // namespace crownwright::files
