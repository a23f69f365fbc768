#include "files/maker_mark.h"

#include <algorithm>
#include <array>

#include "files/read_file.h"

namespace crownwright::files {
namespace {

constexpr std::string_view maker = "crownwright ";

// A package begins with its content types, stored, and a glTF with its asset: the mark is the first thing in
// either (threemf_bytes.cpp, glb_bytes.cpp).
struct Wrapping {
  std::string_view start, before, after;
};
constexpr std::array<Wrapping, 2> wrappings{{{"PK\3\4", "<!--", "-->"}, {"glTF", "\"generator\":\"", "\""}}};

std::string_view unwrapped(std::string_view text) {
  for (const Wrapping& wrapping : wrappings) {
    if (!text.starts_with(wrapping.start)) continue;
    const std::size_t at = text.find(wrapping.before);
    if (at == std::string_view::npos) return {};
    text.remove_prefix(at + wrapping.before.size());
    const std::size_t end = text.find(wrapping.after);
    return end == std::string_view::npos ? std::string_view{} : text.substr(0, end);
  }
  return text;
}

// The text up to the line's end or the zeros that fill an STL header.
std::string_view first_line(std::string_view text) {
  return text.substr(0, text.find_first_of(std::string_view("\0\r\n", 3)));
}

std::string_view past_ply_format(std::string_view start) {
  constexpr std::string_view opening = "ply\nformat ";
  if (!start.starts_with(opening)) return start;
  const std::size_t end = start.find('\n', opening.size());
  return end == std::string_view::npos ? std::string_view{} : start.substr(end + 1);
}

std::string_view past_prefix(std::string_view text) {
  for (const std::string_view prefix : {"solid ", "# ", "comment "}) {
    if (text.starts_with(prefix)) return text.substr(prefix.size());
  }
  return text;
}

}  // namespace

bool is_mark(std::string_view mark) {
  if (mark.empty() || mark.size() > longest_mark || mark.front() == ' ' || mark.back() == ' ') return false;
  return std::all_of(mark.begin(), mark.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

std::optional<std::string> mark_in(std::string_view start_of_file) {
  std::string_view text =
      past_prefix(past_ply_format(unwrapped(start_of_file))).substr(0, maker.size() + longest_mark);
  if (!text.starts_with(maker)) return std::nullopt;
  text = first_line(text.substr(maker.size()));
  if (!is_mark(text)) return std::nullopt;
  return std::string(text);
}

std::optional<std::string> mark_of(const std::string& path) {
  const Result<Bytes> start = read_start(path, 256);
  if (!start) return std::nullopt;
  return mark_in(start->text());
}

}  // namespace crownwright::files
