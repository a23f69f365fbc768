// Any bytes at all, as SVG and as DXF, must give an outline a panel can be looked for in, or a fault.

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/printable.h"
#include "drawings/read_drawing.h"
#include "pattern/allowance.h"
#include "pattern/drawn_panel.h"

namespace {

using namespace crownwright;

void expect(bool holds) {
  if (!holds) std::abort();
}

void expect_order_fault(const Fault& fault) {
  expect(fault.exit == ExitCode::order && !fault.what.empty());
  expect(is_utf8(fault.line()));
}

void look_for_panel(const pattern::Outline& outline) {
  if (outline.size() > 400) return;  // quick inputs find more
  if (const auto off = pattern::take_allowance_off(outline, 3); !off) expect_order_fault(off.fault());
  const auto panel = pattern::panel_from_outline(8, outline);
  if (!panel) return expect_order_fault(panel.fault());
  double last = -1;
  for (const pattern::Station& s : panel->stations) {
    expect(s.y > last && s.half_width >= 0 && std::isfinite(s.half_width));
    last = s.y;
  }
}

void read(std::string_view bytes, const char* name, const char* layer) {
  drawings::DrawingRules rules;
  rules.layer = layer;
  rules.curve_tolerance = 0.1;
  rules.unit_mm = 1;
  const auto outline = drawings::read_outline(bytes, name, rules);
  if (!outline) return expect_order_fault(outline.fault());
  expect(outline->size() >= 3);
  for (const pattern::Vec2 p : *outline) expect(std::isfinite(p.x) && std::isfinite(p.y));
  look_for_panel(*outline);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  read(bytes, "fuzz.svg", "");
  read(bytes, "fuzz.dxf", "");
  read(bytes, "fuzz", "14");
  return 0;
}
