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

struct Extents {
  double depth = 0;   // from the stock's top to the lowest tip
  double lowest = 0;  // of all tips, the drill's too
  double span_xy = 0, span_z = 0;
  double widest = 0;
};

Extents extents_of(const std::vector<Piece>& pieces, const Job& job) {
  Extents extents;
  for (const Piece& piece : pieces) {
    const Setup& setup = piece.setup;
    const double low = setup.holes.empty() ? setup.lowest : std::min(setup.lowest, -drill_through);
    const double rough =
        setup.trench - job.rough.radius();  // the trench is wide enough that no ring is wider
    extents.depth = std::max(extents.depth, setup.stock.z1 - setup.lowest);
    extents.lowest = std::min(extents.lowest, low);
    extents.span_xy = std::max(extents.span_xy, 2 * rough);
    extents.span_z = std::max(extents.span_z, setup.safe - low);
    extents.widest = std::max(extents.widest, piece.widest);
  }
  return extents;
}

double stick_out_needed(const Tool& tool, double depth, double flute) {
  const bool holder_counts = tool.holder > tool.diameter;
  return std::max(std::max(tool.flute, flute), holder_counts ? depth + holder_clearance : 0.0);
}

// Nothing where both tools reach.
std::optional<double> stick_out_short_of(const Extents& extents, double flute, const Job& job) {
  std::optional<double> need;
  for (const Tool& tool : {job.finish, job.rough}) {
    const double least = stick_out_needed(tool, extents.depth, flute);
    if (short_of(tool.stick_out, least)) need = std::max(need.value_or(0), least);
  }
  return need;
}

void check_tools(std::vector<Lack>& lacks, const Extents& extents, const Job& job) {
  const double terrace = flute_needed(job);
  const double flute = std::min(job.finish.flute, job.rough.flute);
  const bool flute_short = short_of(flute, terrace);
  if (flute_short) {
    lacks.push_back({"cutting edges " + mm_text(flute) + " high do not clear " + mm_text(terrace),
                     "a flute of at least " + least_text(terrace), std::nullopt});
  }
  const auto need = stick_out_short_of(extents, flute_short ? terrace : 0, job);
  if (!need) return;
  const double stick_out = std::min(job.finish.stick_out, job.rough.stick_out);
  const std::string why = short_of(stick_out, extents.depth + holder_clearance)
                              ? "the tip goes " + mm_text(extents.depth) + " below the top of the stock"
                              : std::string("the cutting edges must end below the holder");
  lacks.push_back({why + ", and the tool sticks out " + mm_text(stick_out),
                   "a stick_out of at least " + least_text(*need), std::nullopt});
}

void check_travel(std::vector<Lack>& lacks, char axis, double span, double travel,
                  std::optional<double> form_width) {
  if (!short_of(travel, span)) return;
  const std::string name(1, axis);
  lacks.push_back(
      {"the moves span " + mm_text(span) + " in " + name + ", the machine's travel is " + mm_text(travel),
       "a travel of at least " + least_text(span) + " in " + name, form_width});
}

void check_spoilboard(std::vector<Lack>& lacks, const Extents& extents, const Job& job) {
  const double need = -extents.lowest + spoilboard_rest;
  if (extents.lowest >= 0 || !short_of(job.spoilboard, need)) return;
  lacks.push_back({"the tip goes " + mm_text(-extents.lowest) + " into the spoilboard of " +
                       mm_text(job.spoilboard) + ", of which " + mm_text(spoilboard_rest) + " must stay",
                   "a spoilboard of at least " + least_text(need), std::nullopt});
}

void check_stock(std::vector<Lack>& lacks, const Extents& extents, const Job& job) {
  if (!job.stock_size) return;
  const double need = 2 * extents.widest;
  const double x = job.stock_size->x, y = job.stock_size->y;
  if (!short_of(std::min(x, y), need)) return;
  const std::string least = least_text(need);
  const std::string bare = least.substr(0, least.find(' '));
  lacks.push_back({"the stock of " + number_text(x, 1) + "x" + number_text(y, 1) +
                       " mm does not hold the form, which is " + mm_text(need) + " wide",
                   "a stock_size of at least " + bare + "x" + bare + " mm", std::min(x, y)});
}

}  // namespace

double flute_needed(const Job& job) {
  const double ball =
      std::max(job.finish.radius(), job.rough.shape == ToolShape::ball ? job.rough.radius() : 0);
  return job.step_down + job.leave + ball;
}

std::vector<Lack> lacks_of(const std::vector<Piece>& pieces, const Job& job) {
  const Extents extents = extents_of(pieces, job);
  std::vector<Lack> lacks;
  check_tools(lacks, extents, job);
  const double beside = extents.span_xy - 2 * extents.widest;
  check_travel(lacks, 'x', extents.span_xy, job.travel.x, job.travel.x - beside);
  check_travel(lacks, 'y', extents.span_xy, job.travel.y, job.travel.y - beside);
  check_travel(lacks, 'z', extents.span_z, job.travel.z, std::nullopt);
  check_spoilboard(lacks, extents, job);
  check_stock(lacks, extents, job);
  return lacks;
}

bool holds_on_its_foot(const Outline& outline) { return !short_of(2 * outline.foot_radius, outline.height); }

}  // namespace crownwright::milling
