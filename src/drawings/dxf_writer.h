#pragma once
// DXF 2000 (AC1015) as text: everything round the entities. Millimetres, y up.

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "pattern/plane.h"

namespace crownwright::drawings {

struct DxfLayer {
  const char* name;
  int colour;             ///< AutoCAD colour index: 7 black or white, 1 red, 4 cyan, 8 grey
  const char* line_type;  ///< "CONTINUOUS", "DASHED" or "DASHDOT"
};

/// A document being written, group by group.
class DxfText {
 public:
  void pair(int code, const std::string& value);
  void pair(int code, int value);
  void pair(int code, double value, int decimals = 6);
  /// x, y and z = 0 at code, code + 10 and code + 20.
  void point(int code, pattern::Vec2 p, int decimals = 6);
  /// The next free handle, written as group 5.
  std::string handle();
  void start_section(const std::string& name);
  void end_section();
  /// An entity of the model, up to the mark of its own groups: "LINE", "AcDbLine".
  void start_entity(const std::string& kind, const std::string& layer, const std::string& subclass);
  std::string take() { return std::move(text_); }

 private:
  std::string text_;
  std::uint64_t next_ = 0x30;  // fixed handles lie below
};

/// UTF-8 to what a DXF 2000 file may hold: ASCII, everything else as \U+XXXX (beyond the basic plane: "?").
std::string dxf_text(const std::string& text);

/// A whole document; `entities` writes what is drawn, which lies between `low` and `high`. Layer "0" is there
/// without being named.
std::string dxf_document(const std::vector<DxfLayer>& layers, pattern::Vec2 low, pattern::Vec2 high,
                         const std::function<void(DxfText&)>& entities);

}  // namespace crownwright::drawings
