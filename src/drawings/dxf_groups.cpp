#include "drawings/dxf_groups.h"

#include <charconv>
#include <cmath>

#include "drawings/faults.h"

namespace crownwright::drawings {
namespace {

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

class LineScanner {
 public:
  explicit LineScanner(std::string_view bytes) : rest_(bytes) {}
  bool at_end() const { return rest_.empty(); }
  int line() const { return line_; }
  std::string_view next() {
    const std::size_t end = std::min(rest_.find('\n'), rest_.size());
    const std::string_view text = rest_.substr(0, end);
    rest_.remove_prefix(std::min(end + 1, rest_.size()));
    ++line_;
    return trimmed(text);
  }

 private:
  std::string_view rest_;
  int line_ = 0;
};

std::string at_line(const std::string& name, int line) { return name + ":" + std::to_string(line); }

Fault cut_short(const std::string& name, int line) {
  return order_fault(at_line(name, line), "the DXF file is cut short: it does not end with EOF",
                     "a whole DXF file");
}

Fault no_code(const std::string& name, int line, std::string_view text, bool first) {
  if (first) return order_fault(name, "this is no DXF drawing", "an SVG or DXF drawing");
  return order_fault(at_line(name, line), quoted(text) + " is no DXF group code",
                     "a number from 0 to 1071 before every value");
}

Result<std::vector<DxfGroup>> groups_of(std::string_view bytes, const std::string& name) {
  std::vector<DxfGroup> groups;
  LineScanner lines(bytes);
  while (!lines.at_end()) {
    const std::string_view text = lines.next();
    const auto code = dxf_integer(text);
    if (!code || *code < -5 || *code > 1071) return no_code(name, lines.line(), text, groups.empty());
    if (lines.at_end()) return cut_short(name, lines.line());
    const std::string_view value = lines.next();
    if (*code != 999) groups.push_back({*code, value, lines.line()});
    if (*code == 0 && value == "EOF") return groups;
  }
  return groups.empty() ? no_code(name, 1, "", true) : cut_short(name, lines.line());
}

class SectionReader {
 public:
  SectionReader(std::vector<DxfGroup> groups, const std::string& name) : name_(name) {
    file_.groups = std::move(groups);
  }

  Result<DxfFile> read() {
    if (!is(0, "SECTION")) return order_fault(name_, "this is no DXF drawing", "an SVG or DXF drawing");
    while (!is(0, "EOF")) {
      if (!is(0, "SECTION")) {
        ++at_;
        continue;
      }
      ++at_;
      if (is(2, "HEADER")) header();
      if (is(2, "TABLES")) tables();
      if (is(2, "ENTITIES")) {
        if (const auto read = entities(); !read) return read.fault();
      }
    }
    return std::move(file_);
  }

 private:
  // The last group is EOF, so there is always one to look at.
  const DxfGroup& here() const { return file_.groups[at_]; }
  bool is(int code, std::string_view value) const { return here().code == code && here().value == value; }
  bool section_ends() const { return is(0, "ENDSEC") || is(0, "EOF"); }

  void header() {
    for (; !section_ends(); ++at_) {
      if (!is(9, "$INSUNITS")) continue;
      ++at_;
      if (section_ends()) return;
      if (here().code == 70) file_.units = dxf_integer(here().value);
    }
  }

  // Only what hides a layer: colour below 0 (off) or flag 1 (frozen).
  void tables() {
    while (!section_ends()) {
      if (!is(0, "LAYER")) {
        ++at_;
        continue;
      }
      std::string_view layer;
      bool hidden = false;
      for (++at_; here().code != 0; ++at_) {
        if (here().code == 2) layer = here().value;
        const int value = dxf_integer(here().value).value_or(0);
        if (here().code == 62 && value < 0) hidden = true;
        if (here().code == 70 && (value & 1) != 0) hidden = true;
      }
      if (hidden) file_.hidden_layers.push_back(layer);
    }
  }

  Result<Done> entities() {
    for (++at_; !section_ends();) {
      if (here().code != 0) {
        ++at_;
        continue;
      }
      if (is(0, "VERTEX") || is(0, "SEQEND")) {
        return order_fault(at_line(name_, here().line),
                           "a " + std::string(here().value) + " stands outside its polyline",
                           "POLYLINE, VERTEX ..., SEQEND");
      }
      if (const auto read = entity(); !read) return read;
    }
    return Done{};
  }

  // Attributes of inserts and vertices of polylines belong to what came before them, up to SEQEND.
  Result<Done> entity() {
    DxfEntity one{here().value, "0", at_, 0, false};
    bool of_itself = true;
    for (++at_;; ++at_) {
      if (here().code == 0) {
        const bool part = is(0, "VERTEX") || is(0, "ATTRIB");
        if (is(0, "SEQEND")) {
          end_sequence();
          break;
        }
        if (!part || (one.kind != "POLYLINE" && one.kind != "INSERT")) break;
        of_itself = false;
      }
      if (of_itself && here().code == 8) one.layer = here().value;
      if (of_itself && here().code == 67) one.on_paper = here().value == "1";
    }
    one.to = at_;
    if (one.kind == "POLYLINE" && !sequence_ended_) {
      return order_fault(at_line(name_, here().line), "a polyline does not end",
                         "SEQEND after its last VERTEX");
    }
    sequence_ended_ = false;
    file_.entities.push_back(one);
    return Done{};
  }

  void end_sequence() {
    for (++at_; here().code != 0;) ++at_;
    sequence_ended_ = true;
  }

  std::string name_;
  DxfFile file_;
  std::size_t at_ = 0;
  bool sequence_ended_ = false;
};

}  // namespace

std::optional<double> dxf_number(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<int> dxf_integer(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

Result<DxfFile> dxf_file(std::string_view bytes, const std::string& name) {
  if (bytes.substr(0, 18) == "AutoCAD Binary DXF") {
    return order_fault(name, "this is a binary DXF file", "DXF saved as text (ASCII), R12 or 2000");
  }
  auto groups = groups_of(bytes, name);
  if (!groups) return groups.fault();
  return SectionReader(std::move(*groups), name).read();
}

}  // namespace crownwright::drawings
