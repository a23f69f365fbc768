#pragma once
// What is made: a vented block in three finenesses and a preview of it.

#include <string>
#include <string_view>
#include <vector>

#include "mesh/structure.h"
#include "order/order.h"
#include "solid/solid.h"
#include "workshop/profiles.h"

namespace crownwright::bench {

struct Work {
  std::string name;
  double tolerance = 0;     ///< chord tolerance, mm
  double vent_spacing = 0;  ///< mm; chosen for about 50, 150 and 430 vents (preview: 48)
};

/// S, M, L and preview.
const std::vector<Work>& all_works();
/// Throws std::logic_error for a name that is not there.
const Work& work_named(std::string_view name);

/// Crown diameter 280, head girth 565.5, dome 6, edge radius 24, wall 4, collar 30; vents of 3 mm with sharp
/// rims.
order::Order order_of(const Work& work);

/// The same block on the three-arc meridian of tests/support/forms.h, which is no beret and so has no order.
solid::Solid three_arc_solid(const Work& work);

/// Of a step that must succeed here; throws with the fault's line.
template <class T>
T must(Result<T> result) {
  if (!result) throw std::runtime_error(result.fault().line());
  return std::move(result).value();
}

}  // namespace crownwright::bench
