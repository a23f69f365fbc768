#include "files/xml_part.h"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <optional>
#include <pugixml.hpp>
#include <vector>

#include "base/ascii.h"
#include "base/length.h"
#include "base/printable.h"

// pugixml makes the tree and knows no namespaces; what they mean is looked up here. Its tree costs up to 170
// bytes an element and 40 an attribute, so both are counted in the text before it is made.

namespace crownwright::files {
namespace {

constexpr std::string_view xml_namespace = "http://www.w3.org/XML/1998/namespace";
constexpr std::string_view instance_namespace = "http://www.w3.org/2001/XMLSchema-instance";

// Attributes of an element, and namespaces declared at one place: chosen, so that looking them up stays
// quick.
constexpr std::size_t most_at_once = 100;

// ---- letters

void append_utf8(std::string& out, std::uint32_t code) {
  const auto add = [&out](std::uint32_t byte) { out += static_cast<char>(byte); };
  if (code < 0x80) return add(code);
  if (code < 0x800) return add(0xC0 | code >> 6), add(0x80 | (code & 63));
  if (code < 0x10000) return add(0xE0 | code >> 12), add(0x80 | (code >> 6 & 63)), add(0x80 | (code & 63));
  add(0xF0 | code >> 18), add(0x80 | (code >> 12 & 63)), add(0x80 | (code >> 6 & 63)),
      add(0x80 | (code & 63));
}

// None when a surrogate stands alone or half a letter is left over.
std::optional<std::string> from_utf16(std::string_view bytes, bool big_end_first) {
  std::string out;
  out.reserve(bytes.size() / 2);
  const auto unit = [&](std::size_t at) {
    const auto a = static_cast<unsigned char>(bytes[at]), b = static_cast<unsigned char>(bytes[at + 1]);
    return static_cast<std::uint32_t>(big_end_first ? a << 8 | b : b << 8 | a);
  };
  if (bytes.size() % 2 != 0) return std::nullopt;
  for (std::size_t at = 0; at < bytes.size(); at += 2) {
    std::uint32_t code = unit(at);
    if (code >= 0xDC00 && code < 0xE000) return std::nullopt;
    if (code >= 0xD800 && code < 0xDC00) {
      if (at + 3 >= bytes.size()) return std::nullopt;
      const std::uint32_t low = unit(at += 2);
      if (low < 0xDC00 || low >= 0xE000) return std::nullopt;
      code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
    }
    append_utf8(out, code);
  }
  return out;
}

struct Decoded {
  std::string text;
  std::string encoding;  // that a declaration may name
};

std::optional<Decoded> decoded(std::string bytes) {
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) {
    std::optional<std::string> text = from_utf16(std::string_view(bytes).substr(2), bytes[0] == '\xFE');
    if (!text) return std::nullopt;
    return Decoded{std::move(*text), "utf-16"};
  }
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.erase(0, 3);
  if (!is_utf8(bytes)) return std::nullopt;
  return Decoded{std::move(bytes), "utf-8"};
}

// XML 1.0, production 2: of the controls only tab and the line ends are characters.
bool has_forbidden_character(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    return static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n' && c != '\r';
  });
}

// XML 1.0, productions 66 to 68: what may follow an ampersand, without a document type. pugixml lets anything
// pass.
bool is_reference(std::string_view text) {
  const std::string_view name = text.substr(0, std::min<std::size_t>(text.find(';'), 12));
  if (name.size() == 12 || name.size() == text.size()) return false;
  for (const std::string_view known : {"lt", "gt", "amp", "quot", "apos"}) {
    if (name == known) return true;
  }
  if (!name.starts_with('#')) return false;
  const bool is_hex = name.starts_with("#x");
  const std::string_view digits = name.substr(is_hex ? 2 : 1);
  std::uint32_t code = 0;
  const auto [end, error] =
      std::from_chars(digits.data(), digits.data() + digits.size(), code, is_hex ? 16 : 10);
  if (error != std::errc{} || end != digits.data() + digits.size()) return false;
  const bool is_white = code == 9 || code == 10 || code == 13;
  const bool is_surrogate = code >= 0xD800 && code < 0xE000;
  return is_white || (code >= 0x20 && !is_surrogate && code < 0x110000 && code != 0xFFFE && code != 0xFFFF);
}

// Where an ampersand stands that begins no reference, outside of comments and the like.
std::optional<std::size_t> bad_ampersand(std::string_view text) {
  constexpr std::pair<std::string_view, std::string_view> skipped[] = {
      {"<!--", "-->"}, {"<![CDATA[", "]]>"}, {"<?", "?>"}};
  std::size_t at = 0;
  while ((at = text.find_first_of("<&", at)) != std::string_view::npos) {
    if (text[at] == '&' && !is_reference(text.substr(at + 1, 16))) return at;
    std::size_t next = at + 1;
    for (const auto& [begin, end] : skipped) {
      if (text.substr(at, begin.size()) == begin)
        next = std::min(text.find(end, at + begin.size()), text.size());
    }
    at = next;
  }
  return std::nullopt;
}

bool declares_namespace(std::string_view attribute) {
  return attribute == "xmlns" || attribute.starts_with("xmlns:");
}

std::string_view declared_prefix(std::string_view attribute) {
  return attribute == "xmlns" ? std::string_view() : attribute.substr(6);
}

}  // namespace

std::string_view prefix_of(std::string_view name) {
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? std::string_view() : name.substr(0, colon);
}

std::string_view local_name_of(std::string_view name) {
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

struct XmlPart::Content {
  std::string where, text;
  pugi::xml_document document;
  pugi::xml_node root;
  bool declares_below_root = false;

  Fault fault(const std::string& what, const std::string& allowed = {}) const {
    return file_fault(where, what, allowed);
  }
  std::string place(std::ptrdiff_t offset) const {
    const auto end = std::clamp<std::ptrdiff_t>(offset, 0, std::ssize(text));
    return where + ":" + std::to_string(1 + std::count(text.begin(), text.begin() + end, '\n'));
  }
  Fault fault_at(const pugi::xml_node& node, const std::string& what, const std::string& allowed = {}) const {
    return file_fault(place(node.offset_debug()), what, allowed);
  }

  Result<Done> count(const XmlLimits& limits) const {
    const auto elements = static_cast<std::size_t>(std::count(text.begin(), text.end(), '<'));
    const auto attributes = static_cast<std::size_t>(std::count(text.begin(), text.end(), '='));
    if (elements > limits.elements)
      return fault("has too many elements",
                   std::string("at most ") + count_text(limits.elements) + " are read");
    if (attributes > limits.attributes)
      return fault("has too many attributes",
                   std::string("at most ") + count_text(limits.attributes) + " are read");
    return Done{};
  }

  Result<Done> parse() {
    constexpr unsigned flags =
        pugi::parse_default | pugi::parse_declaration | pugi::parse_doctype | pugi::parse_fragment;
    const pugi::xml_parse_result parsed =
        document.load_buffer(text.data(), text.size(), flags, pugi::encoding_utf8);
    if (const std::optional<std::size_t> at = bad_ampersand(text); parsed && at)
      return file_fault(place(static_cast<std::ptrdiff_t>(*at)),
                        "is not well-formed XML: an & begins no reference", "&amp; stands for it");
    if (parsed) return Done{};
    return file_fault(place(parsed.offset),
                      std::string("is not well-formed XML: ") + lower_case(parsed.description()));
  }

  Result<Done> look_at_top(const std::string& encoding) {
    for (const pugi::xml_node& node : document.children()) {
      if (node.type() == pugi::node_doctype)
        return fault_at(node, "has a document type definition (DTD)", "3MF allows none");
      if (node.type() == pugi::node_declaration) {
        const std::string named = node.attribute("encoding").value();
        if (!named.empty() && lower_case(named) != encoding)
          return fault_at(node, "says it is encoded in " + named, "UTF-8");
      }
      if (node.type() == pugi::node_pcdata || node.type() == pugi::node_cdata)
        return fault_at(node, "has text outside its outermost element");
      if (node.type() != pugi::node_element) continue;
      if (root)
        return fault_at(
            node, std::string("has more than one outermost element, the second is <") + node.name() + ">",
            "exactly one");
      root = node;
    }
    if (!root) return fault("holds no element");
    return Done{};
  }

  // All elements, in the order of the text and without recursion.
  Result<Done> look_at_elements(int deepest) {
    int depth = 1;
    for (pugi::xml_node node = root; node;) {
      if (node.type() == pugi::node_element) {
        if (depth > deepest)
          return fault_at(node, "has elements nested too deeply",
                          std::string("at most ") + std::to_string(deepest));
        while (!declared.empty() && declared.back().depth >= depth) declared.pop_back();
        if (const Result<Done> good = look_at(node, depth); !good) return good;
      }
      if (node.first_child()) {
        node = node.first_child();
        ++depth;
        continue;
      }
      while (node != root && !node.next_sibling()) {
        node = node.parent();
        --depth;
      }
      node = node == root ? pugi::xml_node() : node.next_sibling();
    }
    return Done{};
  }

  Result<Done> look_at(const pugi::xml_node& element, int depth) {
    std::size_t count = 0;
    for (const pugi::xml_attribute& attribute : element.attributes()) {
      const std::string_view name = attribute.name();
      if (declares_namespace(name)) {
        declared.push_back({declared_prefix(name), attribute.value(), depth});
        declares_below_root = declares_below_root || element != root;
      }
      if (++count > most_at_once || declared.size() > most_at_once)
        return fault_at(element, std::string("<") + element.name() + "> has too many attributes",
                        std::string("at most ") + std::to_string(most_at_once));
    }
    for (const pugi::xml_attribute& attribute : element.attributes()) {
      if (const Result<Done> good = look_at_attribute(element, attribute.name()); !good) return good;
    }
    const std::string_view prefix = prefix_of(element.name());
    if (!prefix.empty() && live(prefix).empty())
      return fault_at(
          element, std::string("<") + element.name() + "> uses a prefix for which no namespace is declared");
    return Done{};
  }

  Result<Done> look_at_attribute(const pugi::xml_node& element, std::string_view name) const {
    if (name.find(':') == std::string_view::npos || declares_namespace(name)) return Done{};
    const std::string said = std::string("attribute ") + std::string(name) + " of <" + element.name() + ">";
    const std::string_view space = live(prefix_of(name));
    if (space == xml_namespace) {
      if (name == "xml:lang" && element == root) return Done{};
      return fault_at(element, said + " may not be used",
                      "of the xml namespace 3MF knows xml:lang alone, on the outermost element");
    }
    if (space == instance_namespace)
      return fault_at(element, said + " is drawn from the xsi namespace", "3MF allows none of it");
    if (space.empty()) return fault_at(element, said + " uses a prefix for which no namespace is declared");
    return Done{};
  }

  // What a prefix stands for where look_at_elements has come to.
  std::string_view live(std::string_view prefix) const {
    if (prefix == "xml") return xml_namespace;
    for (std::size_t k = declared.size(); k-- > 0;) {
      if (declared[k].prefix == prefix) return declared[k].uri;
    }
    return {};
  }

  std::string_view namespace_of(const pugi::xml_node& element, std::string_view prefix) const {
    for (pugi::xml_node node = element; node.type() == pugi::node_element; node = node.parent()) {
      for (const pugi::xml_attribute& attribute : node.attributes()) {
        const std::string_view name = attribute.name();
        if (declares_namespace(name) && declared_prefix(name) == prefix) return attribute.value();
      }
    }
    return {};
  }

  struct Declared {
    std::string_view prefix, uri;
    int depth;
  };
  std::vector<Declared> declared;
};

XmlPart::XmlPart(std::unique_ptr<Content> content) : content_(std::move(content)) {}
XmlPart::~XmlPart() = default;
XmlPart::XmlPart(XmlPart&&) noexcept = default;
XmlPart& XmlPart::operator=(XmlPart&&) noexcept = default;

Result<XmlPart> XmlPart::read(std::string bytes, const std::string& where, const XmlLimits& limits) {
  auto content = std::make_unique<Content>();
  content->where = where;
  if (bytes.size() > limits.bytes)
    return content->fault("is too long",
                          std::string("at most ") + count_text(limits.bytes / 1'000'000) + " MB are read");
  std::optional<Decoded> text = decoded(std::move(bytes));
  if (!text) return content->fault("is not encoded in UTF-8", "3MF allows no other encoding");
  content->text = std::move(text->text);
  if (has_forbidden_character(content->text))
    return content->fault("holds a control character, which XML forbids");
  if (const Result<Done> few = content->count(limits); !few) return few.fault();
  if (const Result<Done> parsed = content->parse(); !parsed) return parsed.fault();
  if (const Result<Done> good = content->look_at_top(text->encoding); !good) return good.fault();
  if (const Result<Done> good = content->look_at_elements(limits.depth); !good) return good.fault();
  return XmlPart(std::move(content));
}

pugi::xml_node XmlPart::root() const { return content_->root; }
std::string XmlPart::place_of(const pugi::xml_node& node) const {
  return content_->place(node.offset_debug());
}

std::string_view XmlPart::namespace_of(const pugi::xml_node& element, std::string_view prefix) const {
  return content_->namespace_of(content_->declares_below_root ? element : content_->root, prefix);
}

bool XmlPart::belongs_to(const pugi::xml_node& element, std::string_view wanted) const {
  return namespace_of(element, prefix_of(element.name())) == wanted;
}

}  // namespace crownwright::files
