#include "making/profile_files.h"

#include "drawings/profile_drawing.h"
#include "making/marked.h"
#include "parts/stack.h"

namespace crownwright::making {
namespace {

drawings::ProfilePlan profile_plan(const order::Order& order, const solid::Solid& solid) {
  drawings::ProfilePlan plan;
  plan.face = parts::outer_face(solid);
  if (solid.has_head_line) plan.head_line = solid.head_line.z;
  plan.title = order.name;
  plan.wall = order.form.wall ? std::string("wall ").append(to_text(*order.form.wall)) : "solid";
  return plan;
}

}  // namespace

std::vector<ExtraFile> profile_files(const order::Order& order, const solid::Solid& solid) {
  const drawings::ProfilePlan plan = profile_plan(order, solid);
  return {{".profile.svg", svg_with_mark(drawings::profile_svg(plan), order)},
          {".profile.dxf", dxf_with_mark(drawings::profile_dxf(plan), order)}};
}

}  // namespace crownwright::making
