#include "milling/reach.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "meridian/refusal.h"

namespace crownwright::milling {
namespace {

using meridian::least_text;
using meridian::mm_text;
using meridian::most_text;

constexpr double reach_slack = 1e-9;  // mm of grace for figures given as texts

bool short_of(double have, double need) { return have < need - reach_slack; }

struct Reach {
  double depth = 0;   // from the stock's top to the lowest tip
  double lowest = 0;  // of all tips, the drill's too
  double span_xy = 0, span_z = 0;
  double widest = 0;
};

Reach reach_of(const std::vector<Piece>& pieces, const Job& job) {
  Reach reach;
  for (const Piece& piece : pieces) {
    const Setup& setup = piece.setup;
    const double low = setup.holes.empty() ? setup.lowest : std::min(setup.lowest, -drill_through);
    const double rough = setup.trench - job.rough.radius();
    const double finish = piece.widest + job.finish.radius();
    reach.depth = std::max(reach.depth, setup.stock.z1 - setup.lowest);
    reach.lowest = std::min(reach.lowest, low);
    reach.span_xy = std::max({reach.span_xy, 2 * rough, 2 * finish});
    reach.span_z = std::max(reach.span_z, setup.safe - low);
    reach.widest = std::max(reach.widest, piece.widest);
  }
  return reach;
}

double stick_out_needed(const Tool& tool, double depth, double flute) {
  const bool holder_counts = tool.holder > tool.diameter;
  return std::max(std::max(tool.flute, flute), holder_counts ? depth + holder_clearance : 0.0);
}

void check_tools(std::vector<Lack>& lacks, const Reach& reach, const Job& job) {
  const double terrace = job.step_down + job.leave;
  const double flute = std::min(job.finish.flute, job.rough.flute);
  if (short_of(flute, terrace)) {
    lacks.push_back({"cutting edges " + mm_text(flute) + " high do not clear steps of " + mm_text(terrace),
                     "a flute of at least " + least_text(terrace)});
  }
  const double most_flute = short_of(flute, terrace) ? terrace : 0;
  const double stick_out = std::min(job.finish.stick_out, job.rough.stick_out);
  const double need = std::max(stick_out_needed(job.finish, reach.depth, most_flute),
                               stick_out_needed(job.rough, reach.depth, most_flute));
  if (!short_of(stick_out, need)) return;
  const std::string why = short_of(stick_out, reach.depth + holder_clearance)
                              ? "the tip goes " + mm_text(reach.depth) + " below the top of the stock"
                              : "cutting edges must end below the holder";
  lacks.push_back({why + ", and the tool sticks out " + mm_text(stick_out),
                   "a stick_out of at least " + least_text(need)});
}

void check_travel_of(std::vector<Lack>& lacks, const char axis, double span, double travel) {
  if (!short_of(travel, span)) return;
  const std::string name(1, axis);
  lacks.push_back(
      {"the moves span " + mm_text(span) + " in " + name + ", the machine's travel is " + mm_text(travel),
       "a travel of at least " + least_text(span) + " in " + name});
}

void check_spoilboard(std::vector<Lack>& lacks, const Reach& reach, const Job& job) {
  const double need = -reach.lowest + spoilboard_rest;
  if (reach.lowest >= 0 || !short_of(job.spoilboard, need)) return;
  lacks.push_back({"the tip goes " + mm_text(-reach.lowest) + " into the spoilboard of " +
                       mm_text(job.spoilboard) + ", of which " + mm_text(spoilboard_rest) + " must stay",
                   "a spoilboard of at least " + least_text(need)});
}

void check_stock(std::vector<Lack>& lacks, const Reach& reach, const Job& job) {
  if (!job.stock_size) return;
  const double need = 2 * reach.widest;
  const double x = job.stock_size->x, y = job.stock_size->y;
  if (!short_of(std::min(x, y), need)) return;
  const std::string least = least_text(need);
  const std::string bare = least.substr(0, least.find(' '));
  lacks.push_back({"the stock of " + number_text(x, 1) + "x" + number_text(y, 1) +
                       " mm does not hold the form, which is " + mm_text(need) + " wide",
                   "a stock_size of at least " + bare + "x" + bare + " mm"});
}

}  // namespace

std::vector<Lack> lacks_of(const std::vector<Piece>& pieces, const Job& job) {
  const Reach reach = reach_of(pieces, job);
  std::vector<Lack> lacks;
  check_tools(lacks, reach, job);
  check_travel_of(lacks, 'x', reach.span_xy, job.travel.x);
  check_travel_of(lacks, 'y', reach.span_xy, job.travel.y);
  check_travel_of(lacks, 'z', reach.span_z, job.travel.z);
  check_spoilboard(lacks, reach, job);
  check_stock(lacks, reach, job);
  return lacks;
}

std::vector<Lack> holding_lacks(const Outline& outline) {
  const double foot = 2 * outline.foot_radius;
  if (!short_of(foot, outline.height)) return {};
  return {{"the form stands " + mm_text(outline.height) + " high on a foot only " + mm_text(foot) + " wide",
           "a form at most " + most_text(foot) + " high"}};
}

}  // namespace crownwright::milling
