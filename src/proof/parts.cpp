#include "proof/parts.h"

#include <algorithm>
#include <map>

namespace crownwright::proof {
namespace {

using mesh::Cycle;
using mesh::Run;

// A region's own triangles are what its lips leave of it.
void add_region(const mesh::Region& region, PartId id, std::vector<PartRun>& lips,
                std::vector<PartRun>& out) {
  std::uint32_t at = region.triangles.first;
  const std::uint32_t end = at + region.triangles.count;
  for (const PartRun& lip : lips) {
    if (lip.triangles.first > at) out.push_back({{at, lip.triangles.first - at}, id, region.ring});
    out.push_back(lip);
    at = lip.triangles.first + lip.triangles.count;
  }
  if (end > at) out.push_back({{at, end - at}, id, region.ring});
}

// A row is the lower border of one region and the upper border of another.
void add_row_borders(const mesh::Structure& s, std::vector<Border>& borders) {
  std::map<std::uint32_t, PartId> below_row;
  for (std::size_t i = 0; i < s.regions.size(); ++i)
    below_row[s.regions[i].above.first] = static_cast<PartId>(i);
  for (std::size_t i = 0; i < s.regions.size(); ++i) {
    const Cycle row = s.regions[i].below;
    if (row.count == 1) continue;
    const auto next = below_row.find(row.first);
    if (next != below_row.end()) borders.push_back({row, static_cast<PartId>(i), next->second});
  }
}

bool lies_within(Run part, Run whole) {
  return part.first >= whole.first && part.first - whole.first <= whole.count &&
         part.count <= whole.count - (part.first - whole.first);
}

bool follow_each_other(const std::vector<PartRun>& runs, std::size_t triangles) {
  std::size_t at = 0;
  for (const PartRun& run : runs) {
    if (run.triangles.first != at) return false;
    at += run.triangles.count;
  }
  return at == triangles;
}

bool apart(const std::vector<Border>& borders, std::size_t vertices) {
  std::size_t at = 0;
  for (const Border& border : borders) {
    if (border.cycle.first < at || border.cycle.count < 3) return false;
    at = std::size_t{border.cycle.first} + border.cycle.count;
  }
  return at <= vertices;
}

}  // namespace

bool claims_in_range(const mesh::BuiltMesh& built, const solid::Solid& solid) {
  const std::size_t vertices = built.mesh.vertices.size(), triangles = built.mesh.triangles.size();
  const auto run_fits = [&](Run r) { return r.first <= triangles && r.count <= triangles - r.first; };
  const auto cycle_fits = [&](Cycle c) {
    return c.count >= 1 && c.first < vertices && c.count <= vertices - c.first;
  };
  const auto region_fits = [&](const mesh::Region& r) {
    return run_fits(r.triangles) && r.triangles.count > 0 && cycle_fits(r.above) && cycle_fits(r.below) &&
           r.shell < solid.shells.size() && r.ring < static_cast<int>(solid.rings.size()) && r.ring >= -1 &&
           r.span.from >= 0 && r.span.from < r.span.to && r.span.to <= solid.shells[r.shell].length() &&
           std::all_of(r.cells.begin(), r.cells.end(), run_fits);
  };
  const auto vent_fits = [&](const mesh::VentMesh& v) {
    const std::size_t regions = built.structure.regions.size();
    const Run runs[] = {v.outer_patch, v.inner_patch, v.outer_lip, v.rim, v.wall, v.inner_lip};
    const Cycle cycles[] = {v.outer_collar, v.outer_loop, v.rim_foot, v.inner_loop, v.inner_collar};
    return v.ring < solid.rings.size() && v.outer_region < regions && v.inner_region < regions &&
           std::all_of(std::begin(runs), std::end(runs), run_fits) &&
           std::all_of(std::begin(cycles), std::end(cycles), cycle_fits) &&
           v.rim_vertices.first <= vertices && v.rim_vertices.count <= vertices - v.rim_vertices.first;
  };
  const mesh::Structure& s = built.structure;
  return std::all_of(s.regions.begin(), s.regions.end(), region_fits) &&
         std::all_of(s.vents.begin(), s.vents.end(), vent_fits);
}

Parts list_parts(const mesh::BuiltMesh& built) {
  const mesh::Structure& s = built.structure;
  Parts parts;
  for (const mesh::Region& region : s.regions) parts.rows.emplace_back(region.above, region.below);
  parts.count = static_cast<PartId>(s.regions.size() + 4 * s.vents.size());
  std::vector<std::vector<PartRun>> lips(s.regions.size());
  for (std::size_t k = 0; k < s.vents.size(); ++k) {
    const mesh::VentMesh& vent = s.vents[k];
    if (vent.outer_region >= s.regions.size() || vent.inner_region >= s.regions.size()) return parts;
    const int ring = static_cast<int>(vent.ring);
    if (!lies_within(vent.outer_lip, s.regions[vent.outer_region].triangles) ||
        !lies_within(vent.inner_lip, s.regions[vent.inner_region].triangles)) {
      return parts;
    }
    lips[vent.outer_region].push_back({vent.outer_lip, Parts::outer_lip(s, k), ring});
    lips[vent.inner_region].push_back({vent.inner_lip, Parts::inner_lip(s, k), ring});
    const PartId rim = vent.rim.count > 0 ? Parts::rim(s, k) : Parts::wall(s, k);
    parts.borders.push_back({vent.outer_collar, Parts::outer_lip(s, k), vent.outer_region});
    parts.borders.push_back({vent.outer_loop, rim, Parts::outer_lip(s, k)});
    if (vent.rim.count > 0) parts.borders.push_back({vent.rim_foot, Parts::wall(s, k), Parts::rim(s, k)});
    parts.borders.push_back({vent.inner_loop, Parts::inner_lip(s, k), Parts::wall(s, k)});
    parts.borders.push_back({vent.inner_collar, vent.inner_region, Parts::inner_lip(s, k)});
  }
  for (std::size_t i = 0; i < s.regions.size(); ++i) {
    std::sort(lips[i].begin(), lips[i].end(),
              [](const PartRun& a, const PartRun& b) { return a.triangles.first < b.triangles.first; });
    add_region(s.regions[i], static_cast<PartId>(i), lips[i], parts.runs);
  }
  for (std::size_t k = 0; k < s.vents.size(); ++k) {
    if (s.vents[k].rim.count > 0)
      parts.runs.push_back({s.vents[k].rim, Parts::rim(s, k), static_cast<int>(s.vents[k].ring)});
    parts.runs.push_back({s.vents[k].wall, Parts::wall(s, k), static_cast<int>(s.vents[k].ring)});
  }
  add_row_borders(s, parts.borders);
  const auto by_first = [](const auto& a, const auto& b) { return a.triangles.first < b.triangles.first; };
  std::sort(parts.runs.begin(), parts.runs.end(), by_first);
  std::sort(parts.borders.begin(), parts.borders.end(),
            [](const Border& a, const Border& b) { return a.cycle.first < b.cycle.first; });
  parts.complete = follow_each_other(parts.runs, built.mesh.triangles.size()) &&
                   apart(parts.borders, built.mesh.vertices.size());
  return parts;
}

}  // namespace crownwright::proof
