// The sections and tables are those the DXF reference of release 2000 asks for: a file must name its line
// types, layers, text style and block records, and every object needs a handle and its owner's.

#include "drawings/dxf_writer.h"

#include <charconv>
#include <cmath>

#include "base/length.h"
#include "base/printable.h"

namespace crownwright::drawings {
namespace {

using pattern::Vec2;

std::string dxf_hex(std::uint64_t value) {
  char digits[16];
  const auto [end, error] = std::to_chars(digits, digits + sizeof digits, value, 16);
  std::string text(digits, end);
  for (char& c : text) c = c >= 'a' ? static_cast<char>(c - 'a' + 'A') : c;
  return text;
}

// Fixed handles, so that owners can be named before they are written.
constexpr const char* model_space = "1F";
constexpr const char* paper_space = "1B";
constexpr const char* root_dictionary = "C";
constexpr const char* group_dictionary = "D";
constexpr const char* hand_seed = "FFFFF";

void write_header(DxfText& out, Vec2 low, Vec2 high) {
  out.start_section("HEADER");
  const auto variable = [&](const char* name) { out.pair(9, name); };
  variable("$ACADVER"), out.pair(1, "AC1015");
  variable("$DWGCODEPAGE"), out.pair(3, "ANSI_1252");
  variable("$INSUNITS"), out.pair(70, 4);
  variable("$MEASUREMENT"), out.pair(70, 1);
  variable("$LUNITS"), out.pair(70, 2);
  variable("$EXTMIN"), out.point(10, low);
  variable("$EXTMAX"), out.point(10, high);
  variable("$HANDSEED"), out.pair(5, hand_seed);
  out.end_section();
}

void start_table(DxfText& out, const std::string& name, const std::string& handle, int entries) {
  out.pair(0, "TABLE");
  out.pair(2, name);
  out.pair(5, handle);
  out.pair(330, "0");
  out.pair(100, "AcDbSymbolTable");
  out.pair(70, entries);
}

void start_record(DxfText& out, const std::string& kind, const std::string& handle, const std::string& owner,
                  const std::string& subclass, const std::string& name) {
  out.pair(0, kind);
  if (handle.empty()) {
    out.handle();
  } else {
    out.pair(kind == "DIMSTYLE" ? 105 : 5, handle);
  }
  out.pair(330, owner);
  out.pair(100, "AcDbSymbolTableRecord");
  out.pair(100, subclass);
  out.pair(2, name);
}

void line_type(DxfText& out, const std::string& name, const std::string& shown,
               const std::vector<double>& dashes) {
  start_record(out, "LTYPE", "", "5", "AcDbLinetypeTableRecord", name);
  out.pair(70, 0);
  out.pair(3, shown);
  out.pair(72, 65);
  out.pair(73, static_cast<int>(dashes.size()));
  double sum = 0;
  for (const double d : dashes) sum += std::abs(d);
  out.pair(40, sum);
  for (const double d : dashes) {
    out.pair(49, d);
    out.pair(74, 0);
  }
}

void write_line_types(DxfText& out) {
  start_table(out, "LTYPE", "5", 5);
  line_type(out, "ByBlock", "", {});
  line_type(out, "ByLayer", "", {});
  line_type(out, "CONTINUOUS", "Solid", {});
  line_type(out, "DASHED", "__ __ __", {4, -2});
  line_type(out, "DASHDOT", "__ . __", {8, -2, 1, -2});
  out.pair(0, "ENDTAB");
}

void write_layers(DxfText& out, const std::vector<DxfLayer>& layers) {
  start_table(out, "LAYER", "2", static_cast<int>(layers.size()) + 1);
  const auto layer = [&](const DxfLayer& l) {
    start_record(out, "LAYER", "", "2", "AcDbLayerTableRecord", l.name);
    out.pair(70, 0);
    out.pair(62, l.colour);
    out.pair(6, l.line_type);
  };
  layer({"0", 7, "CONTINUOUS"});
  for (const DxfLayer& l : layers) layer(l);
  out.pair(0, "ENDTAB");
}

void write_style(DxfText& out) {
  start_table(out, "STYLE", "3", 1);
  start_record(out, "STYLE", "", "3", "AcDbTextStyleTableRecord", "Standard");
  out.pair(70, 0);
  out.pair(40, 0.0);
  out.pair(41, 1.0);
  out.pair(50, 0.0);
  out.pair(71, 0);
  out.pair(42, 2.5);
  out.pair(3, "txt");
  out.pair(4, "");
  out.pair(0, "ENDTAB");
}

void write_empty_table(DxfText& out, const std::string& name, const std::string& handle) {
  start_table(out, name, handle, 0);
  if (name == "DIMSTYLE") out.pair(100, "AcDbDimStyleTable");
  out.pair(0, "ENDTAB");
}

void write_tables(DxfText& out, const std::vector<DxfLayer>& layers) {
  out.start_section("TABLES");
  write_empty_table(out, "VPORT", "8");
  write_line_types(out);
  write_layers(out, layers);
  write_style(out);
  write_empty_table(out, "VIEW", "6");
  write_empty_table(out, "UCS", "7");
  start_table(out, "APPID", "9", 1);
  start_record(out, "APPID", "", "9", "AcDbRegAppTableRecord", "ACAD");
  out.pair(70, 0);
  out.pair(0, "ENDTAB");
  write_empty_table(out, "DIMSTYLE", "A");
  start_table(out, "BLOCK_RECORD", "1", 2);
  start_record(out, "BLOCK_RECORD", model_space, "1", "AcDbBlockTableRecord", "*Model_Space");
  start_record(out, "BLOCK_RECORD", paper_space, "1", "AcDbBlockTableRecord", "*Paper_Space");
  out.pair(0, "ENDTAB");
  out.end_section();
}

void write_block(DxfText& out, const std::string& name, const std::string& owner) {
  out.pair(0, "BLOCK");
  out.handle();
  out.pair(330, owner);
  out.pair(100, "AcDbEntity");
  out.pair(8, "0");
  out.pair(100, "AcDbBlockBegin");
  out.pair(2, name);
  out.pair(70, 0);
  out.point(10, {0, 0});
  out.pair(3, name);
  out.pair(1, "");
  out.pair(0, "ENDBLK");
  out.handle();
  out.pair(330, owner);
  out.pair(100, "AcDbEntity");
  out.pair(8, "0");
  out.pair(100, "AcDbBlockEnd");
}

void write_objects(DxfText& out) {
  out.start_section("OBJECTS");
  const auto dictionary = [&](const char* handle, const char* owner) {
    out.pair(0, "DICTIONARY");
    out.pair(5, handle);
    out.pair(330, owner);
    out.pair(100, "AcDbDictionary");
    out.pair(281, 1);
  };
  dictionary(root_dictionary, "0");
  out.pair(3, "ACAD_GROUP");
  out.pair(350, group_dictionary);
  dictionary(group_dictionary, root_dictionary);
  out.end_section();
}

}  // namespace

// UTF-8 to what a DXF 2000 file may hold: ASCII, everything else as \U+XXXX (beyond the basic plane: "?").
std::string dxf_text(const std::string& text) {
  std::string out;
  const std::string safe = printable(text);
  for (std::size_t i = 0; i < safe.size();) {
    const auto lead = static_cast<unsigned char>(safe[i]);
    if (lead < 0x80) {
      out += safe[i++];
      continue;
    }
    const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    std::uint32_t point = lead & (length == 2 ? 0x1Fu : length == 3 ? 0x0Fu : 0x07u);
    for (std::size_t k = 1; k < length; ++k)
      point = point << 6 | (static_cast<unsigned char>(safe[i + k]) & 0x3Fu);
    std::string digits = dxf_hex(point);
    digits.insert(0, digits.size() < 4 ? 4 - digits.size() : 0, '0');
    out += point > 0xFFFF ? "?" : "\\U+" + digits;
    i += length;
  }
  return out;
}

void DxfText::pair(int code, const std::string& value) {
  std::string number = std::to_string(code);
  number.insert(0, number.size() < 3 ? 3 - number.size() : 0, ' ');
  text_.append(number).append("\n").append(value).append("\n");
}

void DxfText::pair(int code, int value) { pair(code, std::to_string(value)); }

void DxfText::pair(int code, double value, int decimals) {
  const std::string text = number_text(value, decimals);
  pair(code, text.find('.') == std::string::npos ? text + ".0" : text);
}

void DxfText::point(int code, Vec2 p, int decimals) {
  pair(code, p.x, decimals);
  pair(code + 10, p.y, decimals);
  pair(code + 20, 0.0);
}

std::string DxfText::handle() {
  const std::string text = dxf_hex(next_++);
  pair(5, text);
  return text;
}

void DxfText::start_section(const std::string& name) {
  pair(0, "SECTION");
  pair(2, name);
}

void DxfText::end_section() { pair(0, "ENDSEC"); }

void DxfText::start_entity(const std::string& kind, const std::string& layer, const std::string& subclass) {
  pair(0, kind);
  handle();
  pair(330, model_space);
  pair(100, "AcDbEntity");
  pair(8, layer);
  pair(100, subclass);
}

std::string dxf_document(const std::vector<DxfLayer>& layers, Vec2 low, Vec2 high,
                         const std::function<void(DxfText&)>& entities) {
  DxfText out;
  write_header(out, low, high);
  write_tables(out, layers);
  out.start_section("BLOCKS");
  write_block(out, "*Model_Space", model_space);
  write_block(out, "*Paper_Space", paper_space);
  out.end_section();
  out.start_section("ENTITIES");
  entities(out);
  out.end_section();
  write_objects(out);
  out.pair(0, "EOF");
  return out.take();
}

}  // namespace crownwright::drawings
