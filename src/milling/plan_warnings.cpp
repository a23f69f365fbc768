#include "milling/plan_warnings.h"

#include <algorithm>

#include "base/length.h"
#include "meridian/refusal.h"
#include "milling/stock.h"
#include "milling/tiers.h"

namespace crownwright::milling {
namespace {

using meridian::mm_text;

bool has_hollow(const solid::Solid& solid) {
  const auto is_hollow = [](solid::Role role) {
    return role == solid::Role::socket || role == solid::Role::floor || role == solid::Role::inner;
  };
  return std::any_of(solid.shells.begin(), solid.shells.end(), [&](const solid::Shell& shell) {
    return std::any_of(shell.roles.begin(), shell.roles.end(), is_hollow);
  });
}

void warn_of_glue_lines(Plan& plan) {
  std::string places;
  for (const GlueLine& line : plan.stock.glue_lines) {
    if (!line.cutter_meets) continue;
    places += std::string(places.empty() ? "" : ", ") + mm_text(line.z);
  }
  if (places.empty()) return;
  plan.warnings.push_back(
      "The cutter meets glue lines " + places +
      " above the foot: use a glue that mills as easily as the board, spread it thin, let "
      "it cure through, and expect a ridge there to be sanded.");
}

void warn_of_loose_offcuts(Plan& plan) {
  double trench = 0;
  for (const Setup& setup : plan.setups) trench = std::max(trench, setup.trench);
  if (std::min(plan.stock.side_x, plan.stock.side_y) >= 2 * (trench + least_frame) - 1e-9) return;
  plan.warnings.push_back(
      "The stock leaves no whole frame round the form and its corners come loose when the last level is cut: "
      "screw down every corner, outside all tool paths.");
}

void warn_of_hand_work(Plan& plan, double scallop) {
  for (const Unreached& place : plan.unreached) {
    if (place.rest <= scallop) continue;
    plan.warnings.push_back("No tool reaches " + place.what + " at " + mm_text(place.z) +
                            " above the foot: " + number_text(place.rest, 3) +
                            " mm are left there for hand work.");
  }
}

void warn_of_thin_tiers(Plan& plan) {
  for (std::size_t i = 0; i < plan.slabs.size() && plan.slabs.size() > 1; ++i) {
    const double thick = plan.slabs[i].top - plan.slabs[i].bottom;
    if (thick >= thin_slab - 1e-6) continue;
    plan.warnings.push_back("Tier " + std::to_string(i + 1) + " is only " + mm_text(thick) +
                            " thick: hold it all over with tape or vacuum.");
  }
}

}  // namespace

void add_warnings(Plan& plan, const solid::Solid& solid, const Job& job) {
  if (has_hollow(solid)) {
    plan.warnings.push_back(
        "Walls, floors and sockets are not milled: the programs cut the outside alone and leave the form "
        "solid.");
  }
  warn_of_glue_lines(plan);
  warn_of_loose_offcuts(plan);
  warn_of_thin_tiers(plan);
  if (plan.vents.drilled > 0 && solid.vent.rim > 0)
    plan.warnings.push_back("The edges of the drilled vents are broken by hand.");
  warn_of_hand_work(plan, job.scallop);
}

std::string turn_over_warning() {
  return "Turn the stock over about the x axis against one and the same fence for both sides. In the second "
         "set-up the form comes off its frame: hold it by its foot, with tape or with screws from below that "
         "no tool reaches.";
}

}  // namespace crownwright::milling
