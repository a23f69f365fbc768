#pragma once
// Forms and their meshes that the proof's tests start from.

#include <string>
#include <vector>

#include "mesh/mesher.h"
#include "support/form_table.h"

namespace crownwright::proof {

struct SoundMesh {
  std::string name;
  solid::Solid solid;
  double tolerance = 0;
  mesh::BuiltMesh built;
};

inline SoundMesh sound(std::string name, solid::Solid form, double tolerance) {
  mesh::BuiltMesh built = mesh::build_mesh(form, tolerance).value();
  return {std::move(name), std::move(form), tolerance, std::move(built)};
}

/// Small enough to be judged a thousand times, of every kind.
inline std::vector<SoundMesh> few_sound_meshes() {
  const auto block = [](const solid::BlockPlan& plan) { return solid::build_block(plan).value(); };
  const auto small = test::plain_block(test::small_case(), 3, 8);
  auto on_dish = test::plain_pad(40, 20, 3, 6);
  on_dish.dish = test::round_dish(300, 60);
  on_dish.gap = 2;
  auto chamfered = test::vents(14, 3, 0.6);
  chamfered.shape.style = solid::RimStyle::chamfer;
  std::vector<SoundMesh> all;
  all.push_back(sound("small, 12 mm", test::vented(block(small), test::vents(12)), 0.1));
  all.push_back(
      sound("small, panels, sharp", test::vented(block(small), test::panel_vents(11, 6, 2, 0)), 0.1));
  all.push_back(sound("small, pole only", test::vented(block(small), test::vents(300)), 0.05));
  all.push_back(
      sound("floor, panels", test::vented(block(test::with_floor(small, 3)), test::panel_vents(14, 6)), 0.2));
  all.push_back(sound("floor and socket", block(test::with_socket(test::with_floor(small, 3), 12)), 0.1));
  all.push_back(sound("groove, flange, chamfered vents",
                      test::vented(block(test::with_flange(test::with_groove(small, 3, 1), 5, 2)), chamfered),
                      0.2));
  all.push_back(sound("solid", block(test::without_wall(small)), 0.1));
  all.push_back(
      sound("pad on a dish", test::vented(solid::build_pad(on_dish).value(), test::vents(15)), 0.2));
  all.push_back(sound("worked", test::vented(test::worked_block(), test::vents(60)), 0.5));
  return all;
}

}  // namespace crownwright::proof
