#include "milling/dowels.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "base/length.h"
#include "milling/outline_cut.h"

namespace crownwright::milling {
namespace {

struct DowelCircle {
  double diameter = 0, radius = 0;
};

double radians(double degrees) { return degrees * std::numbers::pi / 180; }

bool clear_of_bores(const DowelCircle& circle, const std::vector<UprightBores>& bores) {
  for (const UprightBores& bore : bores) {
    for (const double vent : bore.angles) {
      for (const double degrees : dowel_angles) {
        const double dx = circle.radius * std::cos(radians(degrees)) - bore.r * std::cos(vent);
        const double dy = circle.radius * std::sin(radians(degrees)) - bore.r * std::sin(vent);
        if (std::hypot(dx, dy) < circle.diameter / 2 + bore.radius + dowel_clear) return false;
      }
    }
  }
  return true;
}

// The widest circle of these dowels, in half millimetres.
std::optional<DowelCircle> circle_for(double diameter, double room, const std::vector<UprightBores>& bores) {
  DowelCircle circle{diameter, std::floor(2 * (room - (dowel_cover + 0.5) * diameter) + 1e-6) / 2};
  for (; circle.radius >= 2 * diameter; circle.radius -= 0.5)
    if (clear_of_bores(circle, bores)) return circle;
  return std::nullopt;
}

std::optional<DowelCircle> find_circle(double room, const std::vector<UprightBores>& bores, const Job& job) {
  if (job.drill)
    if (const auto circle = circle_for(job.drill->diameter, room, bores)) return circle;
  for (const double diameter : {6, 5, 4, 3, 2})
    if (const auto circle = circle_for(diameter, room, bores)) return circle;
  return std::nullopt;
}

double depth_in_tip(const Outline& outline, const Slab& tip, const DowelCircle& circle) {
  const meridian::Chain crown = seen_from_above(between(outline.outer, tip.top, tip.bottom)).target;
  const double edge = std::min(circle.radius + circle.diameter / 2, crown.back().to().r);
  const double above = height_at(crown, edge) - tip.bottom;
  return std::clamp(above - tip_dowel_rest, 0.0, tip_dowel_depth);
}

Hole dowel_hole(const DowelCircle& circle, double degrees, double bottom) {
  return {circle.radius * std::cos(radians(degrees)), circle.radius * std::sin(radians(degrees)),
          circle.diameter / 2, bottom};
}

bool drill_makes(const DowelCircle& circle, const std::vector<Piece>& pieces, const Job& job) {
  if (!job.drill || job.drill->diameter != circle.diameter) return false;
  return std::all_of(pieces.begin() + 1, pieces.end(), [&](const Piece& piece) {
    return drill_reaches(piece, dowel_hole(circle, 0, -drill_through), job);
  });
}

std::string hand_drilled(const DowelCircle& circle, const std::vector<Slab>& slabs, const Job& job) {
  const std::string text = std::string("The holes for the ") + number_text(circle.diameter) +
                           " mm dowels are drilled by hand, with the printed template";
  if (!job.drill || job.drill->diameter != circle.diameter) return text + ".";
  double most = 0;
  for (std::size_t i = 1; i < slabs.size(); ++i) most = std::max(most, slabs[i].top - slabs[i].bottom);
  return text + ": to go through " + number_text(most) +
         " mm and clear the tier, the drill needs a flute of " + number_text(most + drill_through) +
         " mm and must stick out beyond the stock.";
}

void drill_pieces(const DowelCircle& circle, std::vector<Piece>& pieces) {
  for (std::size_t i = 1; i < pieces.size(); ++i) {
    for (const double degrees : dowel_angles) {
      Hole hole = dowel_hole(circle, degrees, -drill_through);
      if (pieces[i].setup.flipped) hole.y = -hole.y;
      pieces[i].setup.holes.push_back(hole);
    }
  }
}

}  // namespace

void add_dowels(const Outline& outline, const std::vector<UprightBores>& bores, const Job& job,
                const std::vector<Slab>& slabs, std::vector<Piece>& pieces, StockPlan& stock,
                std::vector<std::string>& warnings) {
  const Slab& tip = slabs.front();
  const auto circle = find_circle(least_radius(outline.outer, tip.bottom, 0), bores, job);
  if (!circle) {
    warnings.push_back("The form has no room for dowels: line the tiers up by their edges.");
    return;
  }
  const double room = depth_in_tip(outline, tip, *circle);
  const bool takes_them = room >= circle->diameter / 2;
  stock.dowel_depth = takes_them ? room : 0;
  stock.dowel = circle->diameter;
  stock.dowel_length = tip.bottom + stock.dowel_depth;
  for (const double degrees : dowel_angles) stock.dowels.push_back(dowel_hole(*circle, degrees, 0));
  if (drill_makes(*circle, pieces, job)) {
    drill_pieces(*circle, pieces);
  } else {
    warnings.push_back(hand_drilled(*circle, slabs, job));
  }
  if (!takes_them) {
    warnings.push_back(
        "The tier at the tip is too thin above the dowels to take them: line it up by its edge.");
  }
}

}  // namespace crownwright::milling
