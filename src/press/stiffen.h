#pragma once
// Whether the crown is stiff enough, and what would make it so: a thicker wall, more dome, or posts.

#include <optional>
#include <vector>

#include "press/posts.h"
#include "press/stiffness.h"

namespace crownwright::press {

/// Chosen: less than a cloth's own thickness; up to 2 mm is worth a note.
inline constexpr double good_deflection = 1;  // mm
inline constexpr double most_deflection = 2;  // mm

enum class StiffnessGrade { good, note, weak };

struct PostPlan {
  int on_ring = 0;
  double ring_radius = 0;  ///< mm from the axis; 0 without a ring
  bool in_middle = false;
  double free_radius = 0;  ///< of the largest free circle between them
  double deflection = 0;   ///< of the crown that stands on them

  std::vector<Spot> spots() const { return ring_of_posts(on_ring, ring_radius, in_middle); }
};

struct StiffnessQuestion {
  PressLoad load;
  Elastic elastic;
  double crown_radius = 0;  ///< a
  double edge_radius = 0;   ///< upper edge arc e_u, for the dome radius of other domes
  double dome = 0;          ///< sagitta t of the tip arc; 0: flat
  double wall = 0;
  std::vector<Spot> posts;  ///< that stand already
  bool axis_taken = false;  ///< by a vent, a socket or a joint: no post may stand in the middle
};

struct StiffnessAnswer {
  double deflection = 0;
  StiffnessGrade grade = StiffnessGrade::good;
  double plate_radius = 0;  ///< crown radius, or the largest free circle between the posts
  // Where not good: what would give 1 mm, all else unchanged. Each alone.
  std::optional<double> least_wall;  ///< mm; nothing beyond 40 mm
  std::optional<double>
      least_dome;  ///< mm; nothing beyond a quarter of the crown radius, where a shallow dome ends
  std::optional<PostPlan> posts;  ///< fewest of at most 13; nothing when they do not suffice
};

/// Preconditions as in crown_deflection; 0 <= dome, edge_radius <= crown_radius.
StiffnessAnswer judge_stiffness(const StiffnessQuestion& question);

/// Where so many posts leave the smallest free circle under a crown: evenly on a ring, or one in the middle
/// and the others on a ring. Precondition: count >= 1, crown_radius > 0 (else std::logic_error).
std::vector<Spot> best_spots(int count, double crown_radius);

/// The same on one ring alone: for a form that is cut through its axis.
std::vector<Spot> best_ring_spots(int count, double crown_radius);

/// Radius of the tip arc of a dome; nothing for a flat tip.
std::optional<double> dome_radius_of(double crown_radius, double edge_radius, double dome);

}  // namespace crownwright::press
