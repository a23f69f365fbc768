#include "files/stl_ascii.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/printable.h"
#include "files/vertex_joiner.h"

namespace crownwright::files {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f' || c == '\v'; }

char lowered(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) { return lowered(x) == y; });
}

// Words of a text with the line each stands on.
class Words {
 public:
  explicit Words(std::string_view text) : at_(text.data()), end_(text.data() + text.size()) {}

  std::string_view next() {
    for (; at_ != end_ && is_blank(*at_); ++at_) line_ += *at_ == '\n';
    const char* const begin = at_;
    at_ = std::find_if(at_, end_, is_blank);
    return {begin, at_};
  }
  void skip_line() { at_ = std::find(at_, end_, '\n'); }
  std::size_t line() const { return line_; }

 private:
  const char *at_, *end_;
  std::size_t line_ = 1;
};

// True for a number out of a double's range at its upper end: its exponent is not negative, or it has none
// and is all digits before the point.
bool is_huge(std::string_view word) {
  double wide = 0;
  if (std::from_chars(word.data(), word.data() + word.size(), wide).ec == std::errc{}) return false;
  const std::size_t e = word.find_first_of("eE");
  if (e != std::string_view::npos) return word.substr(e + 1, 1) != "-";
  return word.substr(0, word.find('.')).size() > 300;
}

// std::from_chars for float calls a number too small for float32 out of range as well; that one is 0 here.
std::errc read_float(std::string_view word, float& value) {
  if (word.size() > 1 && word[0] == '+' && word[1] != '-') word.remove_prefix(1);
  const char* const end = word.data() + word.size();
  const std::from_chars_result narrow = std::from_chars(word.data(), end, value);
  if (narrow.ptr != end || narrow.ec == std::errc::invalid_argument) return std::errc::invalid_argument;
  if (narrow.ec == std::errc{}) return {};
  double wide = 0;
  std::from_chars(word.data(), end, wide);  // left at 0 when even a double cannot hold it
  value = 0;
  return std::abs(wide) < 1 && !is_huge(word) ? std::errc{} : std::errc::result_out_of_range;
}

class AsciiParser {
 public:
  AsciiParser(std::string_view text, const std::string& name, const ReadLimits& limits)
      : words_(text), name_(name), limits_(limits), joiner_(text.size() / 60) {}

  Result<mesh::TriangleMesh> parse() {
    std::string_view word = words_.next();
    do {
      if (!same_word(word, "solid")) return wrong("solid", word).fault();
      if (const Result<Done> solid = parse_solid(); !solid) return solid.fault();
      word = words_.next();
    } while (!word.empty());
    if (mesh_.triangles.empty()) return file_fault(name_, "is an STL file without a single facet");
    mesh_.vertices = joiner_.take_vertices();
    return std::move(mesh_);
  }

 private:
  Result<Done> parse_solid() {
    words_.skip_line();
    for (;;) {
      const std::string_view word = words_.next();
      if (same_word(word, "endsolid")) return words_.skip_line(), Done{};
      if (!same_word(word, "facet")) return wrong("facet or endsolid", word);
      if (const Result<Done> facet = parse_facet(); !facet) return facet;
    }
  }

  Result<Done> parse_facet() {
    if (mesh_.triangles.size() == limits_.facets)
      return file_fault(place(), "has too many facets",
                        "at most " + std::to_string(limits_.facets) + " are read");
    mesh::Triangle triangle{};
    if (const Result<Done> r = expect({"normal"}); !r) return r;
    for (int i = 0; i < 3; ++i) words_.next();  // the normal, not used
    if (const Result<Done> r = expect({"outer", "loop"}); !r) return r;
    for (std::uint32_t& corner : triangle) {
      if (const Result<Done> r = parse_vertex(corner); !r) return r;
    }
    if (const Result<Done> r = expect({"endloop", "endfacet"}); !r) return r;
    mesh_.triangles.push_back(triangle);
    return Done{};
  }

  Result<Done> parse_vertex(std::uint32_t& corner) {
    if (const Result<Done> r = expect({"vertex"}); !r) return r;
    std::array<float, 3> xyz{};
    for (float& value : xyz) {
      const std::string_view word = words_.next();
      const std::errc error = read_float(word, value);
      if (error == std::errc::invalid_argument) return wrong("a number", word);
      if (error != std::errc{} || !std::isfinite(value))
        return file_fault(place(), "a coordinate of facet " + std::to_string(mesh_.triangles.size() + 1) +
                                       " is not a finite number: " + shown(word));
    }
    corner = joiner_.index_of({xyz[0], xyz[1], xyz[2]});
    return Done{};
  }

  Result<Done> expect(std::initializer_list<std::string_view> expected) {
    for (const std::string_view e : expected) {
      const std::string_view word = words_.next();
      if (!same_word(word, e)) return wrong(e, word);
    }
    return Done{};
  }

  Result<Done> wrong(std::string_view expected, std::string_view found) const {
    if (found.empty())
      return file_fault(place(), "the file ends where " + std::string(expected) + " should follow");
    return file_fault(place(), "expected " + std::string(expected) + ", found " + shown(found));
  }
  std::string place() const { return name_ + ":" + std::to_string(words_.line()); }
  static std::string shown(std::string_view word) {
    std::string text(1, '"');
    text += printable(word.substr(0, 60), 40);
    text += '"';
    return text;
  }

  Words words_;
  const std::string& name_;
  const ReadLimits& limits_;
  VertexJoiner joiner_;
  mesh::TriangleMesh mesh_;
};

}  // namespace

Result<mesh::TriangleMesh> parse_stl_ascii(std::string_view text, const std::string& name,
                                           const ReadLimits& limits) {
  return AsciiParser(text, name, limits).parse();
}

}  // namespace crownwright::files
