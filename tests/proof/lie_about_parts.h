#pragma once
// Nonsense in what a mesh says of its own parts.

#include "proof/plant_fault.h"

namespace crownwright::proof {

class Liar {
 public:
  explicit Liar(std::mt19937_64& random) : random_(random) {}

  void lie(const SoundMesh& sound, mesh::BuiltMesh& built) {
    const std::size_t lies = 1 + test::pick(random_, 3);
    for (std::size_t k = 0; k < lies; ++k) lie_once(sound, built);
  }

 private:
  std::uint32_t near_or_wild(std::uint32_t value) {
    switch (test::pick(random_, 6)) {
      case 0:
        return value + 1;
      case 1:
        return value - 1;
      case 2:
        return value + static_cast<std::uint32_t>(test::pick(random_, 40));
      case 3:
        return value / 2;
      case 4:
        return static_cast<std::uint32_t>(random_());
      default:
        return static_cast<std::uint32_t>(test::pick(random_, 2000));
    }
  }
  void spoil(mesh::Cycle& c) {
    test::pick(random_, 2) ? c.first = near_or_wild(c.first) : c.count = near_or_wild(c.count);
  }
  void spoil(mesh::Run& r) {
    test::pick(random_, 2) ? r.first = near_or_wild(r.first) : r.count = near_or_wild(r.count);
  }

  void lie_once(const SoundMesh& sound, mesh::BuiltMesh& built) {
    auto& regions = built.structure.regions;
    if (!built.structure.vents.empty() && test::pick(random_, 2))
      return lie_about_vent(sound, built.structure);
    if (regions.size() < 2) return;
    mesh::Region& one = regions[test::pick(random_, regions.size())];
    mesh::Region& two = regions[test::pick(random_, regions.size())];
    switch (test::pick(random_, 13)) {
      case 0:
        return std::swap(one, two);
      case 1:
        return std::swap(one.triangles, two.triangles);
      case 2:
        return std::swap(one.above, two.below);
      case 3:
        return spoil(one.above);
      case 4:
        return spoil(one.below);
      case 5:
        return spoil(one.triangles);
      case 6:
        return std::swap(one.span, two.span);
      case 7:
        one.shell = near_or_wild(one.shell);
        return;
      case 8:
        one.ring = static_cast<int>(near_or_wild(static_cast<std::uint32_t>(one.ring)));
        return;
      case 9:
        return one.cells.clear();
      case 10:
        return regions.clear();
      case 11:
        return merge(regions);
      default:
        return swallow_all(built);
    }
  }

  /// Two neighbours told as one: the row between them is hidden.
  void merge(std::vector<mesh::Region>& regions) {
    const std::size_t k = test::pick(random_, regions.size() - 1);
    if (regions[k].triangles.first + regions[k].triangles.count != regions[k + 1].triangles.first) return;
    regions[k].triangles.count += regions[k + 1].triangles.count;
    regions[k].below = regions[k + 1].below;
    regions[k].span.to = regions[k + 1].span.to;
    regions.erase(regions.begin() + static_cast<long>(k) + 1);
  }

  void swallow_all(mesh::BuiltMesh& built) {
    mesh::Region all = built.structure.regions.front();
    all.triangles = {0, static_cast<std::uint32_t>(built.mesh.triangles.size())};
    all.below = built.structure.regions.back().below;
    all.span.to = built.structure.regions.back().span.to;
    built.structure.regions.assign(1, all);
    built.structure.vents.clear();
  }

  void lie_about_vent(const SoundMesh& sound, mesh::Structure& s) {
    mesh::VentMesh& one = s.vents[test::pick(random_, s.vents.size())];
    mesh::VentMesh& two = s.vents[test::pick(random_, s.vents.size())];
    mesh::Cycle* const cycles[] = {&one.outer_collar, &one.outer_loop, &one.rim_foot, &one.inner_loop,
                                   &one.inner_collar};
    mesh::Run* const runs[] = {&one.outer_patch, &one.inner_patch, &one.outer_lip,   &one.rim,
                               &one.wall,        &one.inner_lip,   &one.rim_vertices};
    switch (test::pick(random_, 9)) {
      case 0:
        return std::swap(one, two);
      case 1:
        return std::swap(one.wall, two.wall);
      case 2:
        return spoil(*cycles[test::pick(random_, std::size(cycles))]);
      case 3:
        return spoil(*runs[test::pick(random_, std::size(runs))]);
      case 4:
        one.angle += test::uniform(random_, -1, 1);
        return;
      case 5:
        one.ring = static_cast<std::uint32_t>(test::pick(random_, sound.solid.rings.size() + 1));
        return;
      case 6:
        return std::swap(one.outer_region, one.inner_region);
      case 7:
        return s.vents.clear();
      default:
        return std::swap(*cycles[test::pick(random_, std::size(cycles))],
                         *cycles[test::pick(random_, std::size(cycles))]);
    }
  }

  std::mt19937_64& random_;
};

}  // namespace crownwright::proof
