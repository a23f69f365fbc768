#include "bench/work.h"

#include <stdexcept>

#include "base/length.h"
#include "order/reader.h"
#include "support/forms.h"

namespace crownwright::bench {

const std::vector<Work>& all_works() {
  static const std::vector<Work> works = {
      {"S", 0.1, 52}, {"M", 0.02, 31}, {"L", 0.005, 18}, {"preview", 0.3, 52}};
  return works;
}

const Work& work_named(std::string_view name) {
  for (const Work& work : all_works()) {
    if (work.name == name) return work;
  }
  throw std::logic_error("no work of this name: " + std::string(name));
}

order::Order order_of(const Work& work) {
  std::string text =
      "[measure]\nhead_girth = \"565.5 mm\"\ncrown_diameter = \"280 mm\"\nrise = \"74 mm\"\ntaken_at = "
      "\"form\"\n"
      "[shape]\ndome = \"6 mm\"\nedge_radius = \"24 mm\"\n"
      "[form]\nwall = \"4 mm\"\ncollar = \"30 mm\"\nfoot_edge_size = \"0 mm\"\n"
      "[vents]\ndiameter = \"3 mm\"\nrim = \"0 mm\"\nspacing = \"";
  text.append(number_text(work.vent_spacing, 4)).append(" mm\"\n[mesh]\nchord_tolerance = \"");
  text.append(number_text(work.tolerance, 4)).append(" mm\"\n");
  return must(order::read_order_text(text, "bench.toml"));
}

solid::Solid three_arc_solid(const Work& work) {
  solid::BlockPlan plan;
  plan.crown = test::three_arc_crown();
  plan.wall = 4;
  plan.collar = 30;
  plan.foot_edge_size = 0;
  solid::Solid solid = must(solid::build_block(plan));
  must(solid::lay_vents(solid, test::vents(work.vent_spacing, 3, 0)));
  return solid;
}

}  // namespace crownwright::bench
