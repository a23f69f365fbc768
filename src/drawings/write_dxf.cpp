// DXF 2000 as text. The sections and tables are those the DXF reference of that release asks for: a file must
// name its line types, layers, text style and block records, and every object needs a handle and its owner's.

#include <array>
#include <charconv>
#include <cstdint>

#include "base/length.h"
#include "base/printable.h"
#include "drawings/sheet.h"
#include "drawings/write_pieces.h"

namespace crownwright::drawings {
namespace {

using pattern::Vec2;

struct Layer {
  const char* name;
  int colour;  // AutoCAD colour index: 7 black or white, 1 red, 4 cyan, 8 grey
  const char* line_type;
};

// Layer numbers of ASTM D6673.
constexpr std::array<Layer, 7> layers = {{{"1", 7, "CONTINUOUS"},
                                          {"4", 7, "CONTINUOUS"},
                                          {"7", 7, "CONTINUOUS"},
                                          {"8", 1, "DASHDOT"},
                                          {"11", 7, "CONTINUOUS"},
                                          {"14", 4, "DASHED"},
                                          {"15", 7, "CONTINUOUS"}}};

const char* layer_of(Stroke stroke) {
  switch (stroke) {
    case Stroke::cut:
      return "1";
    case Stroke::opening:
      return "11";
    case Stroke::sew:
      return "14";
    case Stroke::notch:
      return "4";
    case Stroke::grain:
      return "7";
    case Stroke::fold:
    case Stroke::mark:
      return "8";
  }
  return "8";
}

std::string hex(std::uint64_t value) {
  char digits[16];
  const auto [end, error] = std::to_chars(digits, digits + sizeof digits, value, 16);
  std::string text(digits, end);
  for (char& c : text) c = c >= 'a' ? static_cast<char>(c - 'a' + 'A') : c;
  return text;
}

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
    std::string digits = hex(point);
    digits.insert(0, digits.size() < 4 ? 4 - digits.size() : 0, '0');
    out += point > 0xFFFF ? "?" : "\\U+" + digits;
    i += length;
  }
  return out;
}

class DxfText {
 public:
  void pair(int code, const std::string& value) {
    std::string number = std::to_string(code);
    number.insert(0, number.size() < 3 ? 3 - number.size() : 0, ' ');
    text_ += number + "\n" + value + "\n";
  }
  void pair(int code, int value) { pair(code, std::to_string(value)); }
  void pair(int code, double value) {
    const std::string text = number_text(value, 6);
    pair(code, text.find('.') == std::string::npos ? text + ".0" : text);
  }
  void point(int code, Vec2 p) {
    pair(code, p.x);
    pair(code + 10, p.y);
    pair(code + 20, 0.0);
  }
  std::string handle() {
    const std::string text = hex(next_++);
    pair(5, text);
    return text;
  }
  void start_section(const std::string& name) {
    pair(0, "SECTION");
    pair(2, name);
  }
  void end_section() { pair(0, "ENDSEC"); }
  std::string take() { return std::move(text_); }

 private:
  std::string text_;
  std::uint64_t next_ = 0x30;  // fixed handles lie below
};

// Fixed handles, so that owners can be named before they are written.
constexpr const char* model_space = "1F";
constexpr const char* paper_space = "1B";
constexpr const char* root_dictionary = "C";
constexpr const char* group_dictionary = "D";
constexpr const char* hand_seed = "FFFFF";

void write_header(DxfText& out, const Sheet& sheet) {
  out.start_section("HEADER");
  const auto variable = [&](const char* name) { out.pair(9, name); };
  variable("$ACADVER"), out.pair(1, "AC1015");
  variable("$DWGCODEPAGE"), out.pair(3, "ANSI_1252");
  variable("$INSUNITS"), out.pair(70, 4);
  variable("$MEASUREMENT"), out.pair(70, 1);
  variable("$LUNITS"), out.pair(70, 2);
  variable("$EXTMIN"), out.point(10, {0, 0});
  variable("$EXTMAX"), out.point(10, {sheet.width, sheet.height});
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

void write_layers(DxfText& out) {
  start_table(out, "LAYER", "2", static_cast<int>(layers.size()) + 1);
  const auto layer = [&](const Layer& l) {
    start_record(out, "LAYER", "", "2", "AcDbLayerTableRecord", l.name);
    out.pair(70, 0);
    out.pair(62, l.colour);
    out.pair(6, l.line_type);
  };
  layer({"0", 7, "CONTINUOUS"});
  for (const Layer& l : layers) layer(l);
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

void write_tables(DxfText& out) {
  out.start_section("TABLES");
  write_empty_table(out, "VPORT", "8");
  write_line_types(out);
  write_layers(out);
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

void start_entity(DxfText& out, const std::string& kind, const std::string& layer,
                  const std::string& subclass) {
  out.pair(0, kind);
  out.handle();
  out.pair(330, model_space);
  out.pair(100, "AcDbEntity");
  out.pair(8, layer);
  out.pair(100, subclass);
}

void write_line(DxfText& out, const SheetLine& line, double height) {
  start_entity(out, "LWPOLYLINE", layer_of(line.stroke), "AcDbPolyline");
  out.pair(90, static_cast<int>(line.points.size()));
  out.pair(70, line.closed ? 1 : 0);
  out.pair(43, 0.0);
  for (const Vec2 p : line.points) {
    out.pair(10, p.x);
    out.pair(20, height - p.y);
  }
}

// Set about its middle: code 72 = 1 centred, 73 = 2 middle, both at the second point.
void write_text(DxfText& out, const SheetText& text, double height) {
  const Vec2 at{text.at.x, height - text.at.y};
  start_entity(out, "TEXT", "15", "AcDbText");
  out.point(10, at);
  out.pair(40, 0.72 * text.size);  // the height of capitals
  out.pair(1, dxf_text(text.text));
  if (text.upright) out.pair(50, 90.0);
  out.pair(72, 1);
  out.point(11, at);
  out.pair(100, "AcDbText");
  out.pair(73, 2);
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

std::string dxf_of(const std::vector<pattern::Piece>& pieces) {
  const Sheet sheet = lay_out(pieces);
  DxfText out;
  write_header(out, sheet);
  write_tables(out);
  out.start_section("BLOCKS");
  write_block(out, "*Model_Space", model_space);
  write_block(out, "*Paper_Space", paper_space);
  out.end_section();
  out.start_section("ENTITIES");
  for (const SheetPart& part : sheet.parts) {
    for (const SheetLine& line : part.lines) write_line(out, line, sheet.height);
    for (const SheetText& text : part.texts) write_text(out, text, sheet.height);
  }
  out.end_section();
  write_objects(out);
  out.pair(0, "EOF");
  return out.take();
}

}  // namespace crownwright::drawings
