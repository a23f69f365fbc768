#pragma once
// DXF written for tests: groups as "code value" with "|" between them.

#include <string>
#include <string_view>

namespace crownwright::test {

inline std::string groups(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('|'), text.size());
    const std::string_view one = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    const std::size_t blank = one.find(' ');
    out += "  " + std::string(one.substr(0, blank)) + "\r\n" + std::string(one.substr(blank + 1)) + "\r\n";
  }
  return out;
}

/// A whole file of the entities; units < 0: none said.
inline std::string dxf(std::string_view entities, int units = 4, std::string_view tables = "") {
  std::string text = "0 SECTION|2 HEADER|9 $ACADVER|1 AC1015|";
  if (units >= 0) text += "9 $INSUNITS|70 " + std::to_string(units) + "|";
  text += "0 ENDSEC|";
  if (!tables.empty()) text += "0 SECTION|2 TABLES|" + std::string(tables) + "|0 ENDSEC|";
  text += "0 SECTION|2 ENTITIES|";
  return groups(text + std::string(entities) + (entities.empty() ? "" : "|") + "0 ENDSEC|0 EOF");
}

/// SVG of 200 by 300 mm, a user unit a millimetre.
inline std::string svg(std::string_view body) {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"200mm\" height=\"300mm\" viewBox=\"0 0 200 "
         "300\">\n" +
         std::string(body) + "\n</svg>\n";
}

}  // namespace crownwright::test
