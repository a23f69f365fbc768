#include "milling/tiers.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "meridian/refusal.h"
#include "milling/outline_cut.h"

namespace crownwright::milling {
namespace {

using meridian::least_text;
using meridian::mm_text;

constexpr double one_plane = 1e-6;  // mm: planes nearer than this are one

struct GluePlane {
  double z = 0;
  bool fixed = false;  // foot, tip, head line, widest place
};
using GluePlanes = std::vector<GluePlane>;

// A plane already there moves the last bit, unless it must be too.
void must_be(GluePlanes& planes, double z) {
  for (GluePlane& plane : planes) {
    if (std::abs(plane.z - z) > one_plane) continue;
    if (!plane.fixed) plane = {z, true};
    return;
  }
  const auto lower = [z](const GluePlane& plane) { return plane.z < z; };
  planes.insert(std::find_if(planes.begin(), planes.end(), lower), {z, true});
}

GluePlanes sheet_multiples(const Outline& outline, double sheet) {
  GluePlanes planes = {{outline.height, true}};
  for (int k = 1; outline.height - k * sheet > one_plane; ++k)
    planes.push_back({outline.height - k * sheet, false});
  planes.push_back({0, true});
  return planes;
}

// The plane that stands for the widest place: of those there the one that leaves least, if that is little
// enough.
double equator_plane(const Outline& outline, const GluePlanes& planes, double scallop) {
  double best = outline.equator, least = INFINITY;
  for (const GluePlane& plane : planes) {
    if (plane.z < *outline.head_line - one_plane) continue;
    const double left = outline.widest - radius_at(outline.outer, plane.z);
    const bool nearer = std::abs(plane.z - outline.equator) < std::abs(best - outline.equator);
    if (left > scallop || left > least || (left == least && !nearer)) continue;
    least = left;
    best = plane.z;
  }
  return best;
}

void share_thin_slabs(GluePlanes& planes, double sheet) {
  const double thin = std::min(thin_slab, sheet / 2);
  for (std::size_t i = 1; i + 1 < planes.size();) {
    const double above = planes[i - 1].z - planes[i].z, below = planes[i].z - planes[i + 1].z;
    if (planes[i].fixed || std::min(above, below) >= thin) {
      ++i;
    } else if (above + below < 2 * thin && above + below <= sheet) {
      planes.erase(planes.begin() + static_cast<std::ptrdiff_t>(i));
    } else {
      planes[i].z = (planes[i - 1].z + planes[i + 1].z) / 2;
      ++i;
    }
  }
}

std::string slab_remedy(const Outline& outline, const Slab& slab, double equator) {
  const std::string more = least_text(least_slab - (slab.top - slab.bottom));
  if (outline.head_line && std::abs(slab.top - *outline.head_line) < one_plane && slab.bottom == 0)
    return "a collar of at least " + least_text(least_slab) + ", or none";
  if (slab.top == outline.height && std::abs(slab.bottom - equator) < one_plane)
    return "an edge radius or a dome greater by " + more + ", or neither";
  if (outline.head_line && std::abs(slab.bottom - *outline.head_line) < one_plane)
    return "a rise at least " + more + " greater";
  return "sheets of another thickness, or a rise at least " + more + " greater";
}

Result<std::vector<Slab>> slabs_between(const Outline& outline, const GluePlanes& planes, double equator) {
  std::vector<Slab> slabs;
  for (std::size_t i = 0; i + 1 < planes.size(); ++i) {
    Slab slab{planes[i + 1].z, planes[i].z, false};
    const double middle = (slab.bottom + slab.top) / 2;
    slab.flipped = outline.head_line && middle < equator && middle > *outline.head_line;
    if (slab.top - slab.bottom < least_slab - one_plane) {
      return impossible_fault("a slab between " + number_text(slab.bottom) + " and " + number_text(slab.top) +
                                  " mm above the foot is too thin to be cut and glued",
                              slab_remedy(outline, slab, equator));
    }
    slabs.push_back(slab);
  }
  return slabs;
}

}  // namespace

Result<std::vector<Slab>> tier_slabs(const Outline& outline, const Job& job) {
  if (job.sheet < least_sheet) {
    return impossible_fault("sheets of " + number_text(job.sheet) + " mm are too thin for tiers",
                            "stock_sheets of at least " + least_text(least_sheet));
  }
  GluePlanes planes = sheet_multiples(outline, job.sheet);
  double equator = outline.equator;
  if (outline.head_line) {
    if (*outline.head_line > one_plane) must_be(planes, *outline.head_line);
    equator = equator_plane(outline, planes, job.scallop);
    must_be(planes, equator);
  }
  share_thin_slabs(planes, job.sheet);
  return slabs_between(outline, planes, equator);
}

}  // namespace crownwright::milling
