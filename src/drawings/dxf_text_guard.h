#pragma once
// One entity written anew for dxflib: only the groups that matter, counts that agree with what follows,
// numbers that are numbers.

#include "drawings/dxf_groups.h"

namespace crownwright::drawings {

struct SafeEntity {
  std::string text;  ///< group codes and values, a line each
  bool mirrored =
      false;  ///< drawn seen from below (extrusion 0, 0, -1): x of plane figures runs the other way
  bool closed = false;
};

/// True for what is drawn as lines: LINE, ARC, CIRCLE, ELLIPSE, LWPOLYLINE, POLYLINE, SPLINE.
bool is_line_work(std::string_view kind);
/// True for writing, dimensions and the like, which are passed over.
bool is_passed_over(std::string_view kind);

/// Precondition: is_line_work(entity.kind). Faults: a figure is missing or no finite number, not flat, a
/// mesh.
Result<SafeEntity> safe_entity(const DxfFile& file, const DxfEntity& entity, const std::string& name);

}  // namespace crownwright::drawings
