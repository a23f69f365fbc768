#include "milling/feeds.h"

namespace crownwright::milling {
namespace {

constexpr double told_for = 6;  // mm, the tool of a profile's chip load
constexpr int lips = 2;         // of a twist drill

Feeds feeds_of(const workshop::CuttingFigures& figures, int edges, double diameter) {
  Feeds feeds;
  feeds.spindle = figures.spindle.value;
  feeds.cut = edges * figures.chip_load.value * (diameter / told_for) * feeds.spindle;
  feeds.plunge = feeds.cut * figures.plunge.value;
  return feeds;
}

}  // namespace

Feeds feeds_for(const workshop::CuttingFigures& figures, const Tool& tool) {
  return feeds_of(figures, tool.edges, tool.diameter);
}

Feeds feeds_for(const workshop::CuttingFigures& figures, const Drill& drill) {
  return feeds_of(figures, lips, drill.diameter);
}

}  // namespace crownwright::milling
