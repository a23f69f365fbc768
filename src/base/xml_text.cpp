#include "base/xml_text.h"

#include "base/printable.h"

namespace crownwright {
namespace {

constexpr std::string_view fffe = "\xEF\xBF\xBE", ffff = "\xEF\xBF\xBF";  // UTF-8, but no characters of XML

std::string without_non_characters(std::string text) {
  for (const std::string_view bad : {fffe, ffff}) {
    for (std::size_t at = text.find(bad); at != std::string::npos; at = text.find(bad, at))
      text.replace(at, bad.size(), "\xEF\xBF\xBD");
  }
  return text;
}

}  // namespace

std::string xml_text(std::string_view text) {
  std::string out;
  for (const char c : without_non_characters(printable(text, text.size() * 4))) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

}  // namespace crownwright
