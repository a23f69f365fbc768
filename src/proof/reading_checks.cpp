#include "proof/reading_checks.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"

namespace crownwright::proof {
namespace {

Check within_tolerance(const std::string& name, double measured, double ordered, double tolerance) {
  return {name, std::abs(measured - ordered) <= tolerance,
          number_text(measured, 4) + " mm of " + number_text(ordered, 4) + " mm, tolerance " +
              number_text(tolerance, 4)};
}

// The widest circle of the crown and its top, from the walk itself.
double crown_radius(const solid::Solid& solid) {
  double widest = 0;
  for (const solid::Shell& s : solid.shells) {
    for (std::size_t i = 0; i < s.walk.size(); ++i) {
      if (s.roles[i] == solid::Role::crown) widest = std::max({widest, s.walk[i].from().r, s.walk[i].to().r});
    }
  }
  return widest;
}

double top_of(const solid::Solid& solid) {
  double top = -1e300;
  for (const solid::Shell& s : solid.shells) {
    for (const meridian::Segment& segment : s.walk) top = std::max({top, segment.from().z, segment.to().z});
  }
  return top;
}

}  // namespace

void add_reading_checks(const Readings& readings, const solid::Solid& solid, double tolerance,
                        Verdict& verdict) {
  verdict.checks.push_back(
      within_tolerance("crown diameter", readings.crown_diameter, 2 * crown_radius(solid), 2 * tolerance));
  verdict.checks.push_back(
      within_tolerance("rise", readings.rise, top_of(solid) - solid.head_line.z, tolerance));
  if (solid.has_head_line) {
    const double found = readings.head_girth.value_or(0);
    verdict.checks.push_back(
        within_tolerance("girth at the head line", found, 2 * pi * solid.head_line.r, 2 * pi * tolerance));
  }
  if (readings.wall_min) {
    const bool whole = *readings.wall_min >= solid.wall - tolerance;
    verdict.checks.push_back({"wall nowhere thinner than ordered", whole,
                              number_text(*readings.wall_min, 4) + " mm, ordered " +
                                  number_text(solid.wall, 4) + " less the chord tolerance"});
  }
  verdict.checks.push_back(
      {"chord tolerance kept", readings.chord_error_max <= tolerance,
       number_text(readings.chord_error_max, 5) + " mm of " + number_text(tolerance, 5)});
}

}  // namespace crownwright::proof
