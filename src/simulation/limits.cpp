#include <cmath>

#include "base/length.h"
#include "simulation/simulate.h"

namespace crownwright::simulation {
namespace {

constexpr double contact_limit = 0.005;  // mm: holder, and cutting above the flute
constexpr double last_decimal = 1e-4;    // mm: of a program's numbers

std::string limit_mm(double mm) { return number_text(mm, 3) + " mm"; }

std::string place_of(const Spot& spot) {
  return std::string("at r = ") + limit_mm(spot.r) + ", z = " + limit_mm(spot.z);
}

class LimitList {
 public:
  explicit LimitList(const Findings& findings) : findings_(findings) {}
  /// One sentence when `broken`, with the first line of the program where it is known.
  void add(bool broken, Trouble kind, const std::string& what, const std::string& allowed) {
    if (!broken) return;
    const std::string& place = findings_.first[static_cast<std::size_t>(kind)].place;
    std::string text = what;
    if (!place.empty()) text += ", first at " + place;
    sentences_.push_back(text + "; " + allowed);
  }
  std::vector<std::string> sentences() { return std::move(sentences_); }

 private:
  const Findings& findings_;
  std::vector<std::string> sentences_;
};

void add_form(const Findings& f, const Limits& limits, bool finished, LimitList& list) {
  list.add(f.gouge_max > limits.gouge, Trouble::gouge,
           std::string("the tool cuts ") + limit_mm(f.gouge_max) + " into the form " + place_of(f.gouge_at),
           std::string("at most ") + limit_mm(limits.gouge));
  const double rest = limits.scallop + limits.rest_more;
  list.add(finished && f.rest_max > rest, Trouble::rest,
           limit_mm(f.rest_max) + " too much is left standing " + place_of(f.rest_at),
           std::string("at most ") + limit_mm(rest) + ", the scallop and " + limit_mm(limits.rest_more));
  list.add(finished && f.cells_judged == 0, Trouble::rest, "nothing of the form lies in the stock",
           "the form within the stock");
}

void add_tool(const Findings& f, const Limits& limits, LimitList& list) {
  list.add(f.rapids_in_stock > 0, Trouble::rapid,
           std::to_string(f.rapids_in_stock) + (f.rapids_in_stock == 1 ? " rapid cuts" : " rapids cut") +
               " into the stock",
           std::string("rapids go through air, touching at most ") + limit_mm(limits.rapid_cut));
  list.add(f.deepest_plunge > limits.plunge, Trouble::plunge,
           std::string("the tool goes ") + limit_mm(f.deepest_plunge) + " straight down into solid stock",
           std::string("at most ") + limit_mm(limits.plunge) + "; go down along a ramp");
  list.add(f.holder_contact > contact_limit, Trouble::holder,
           std::string("the holder goes ") + limit_mm(f.holder_contact) + " into what stands",
           "let the tool stick out further");
  list.add(f.above_flute > contact_limit, Trouble::flute,
           std::string("the tool cuts ") + limit_mm(f.above_flute) + " above its cutting edges",
           "a longer flute, or smaller steps down");
  list.add(f.bore_strays > limits.gouge, Trouble::stray,
           std::string("the drill cuts ") + limit_mm(f.bore_strays) + " outside the holes",
           std::string("at most ") + limit_mm(limits.gouge));
}

void add_moves(const Findings& f, const Limits& limits, LimitList& list) {
  list.add(f.blind_moves, Trouble::blind, "the tool moves before its place is known",
           "first Z to a safe height, then X and Y");
  const double travel[3] = {limits.travel_x, limits.travel_y, limits.travel_z};
  const Trouble kinds[3] = {Trouble::travel_x, Trouble::travel_y, Trouble::travel_z};
  for (int axis = 0; axis < 3; ++axis) {
    const double span = f.high[axis] - f.low[axis];
    list.add(span > travel[axis] + last_decimal, kinds[axis],
             std::string("the moves span ") + limit_mm(span) + " along " + "xyz"[axis],
             std::string("the machine travels ") + limit_mm(travel[axis]));
  }
  list.add(f.lowest_tip < limits.lowest - last_decimal, Trouble::depth,
           std::string("the tip goes down to z = ") + limit_mm(f.lowest_tip),
           std::string("no lower than ") + limit_mm(limits.lowest) + ", for the spoilboard");
  list.add(f.lowest_drill < limits.lowest_drill - last_decimal, Trouble::depth,
           std::string("the drill goes down to z = ") + limit_mm(f.lowest_drill),
           std::string("no lower than ") + limit_mm(limits.lowest_drill) + ", for the spoilboard");
}

}  // namespace

std::vector<std::string> broken_limits(const Findings& findings, const Limits& limits, bool finished) {
  LimitList list(findings);
  add_form(findings, limits, finished, list);
  add_tool(findings, limits, list);
  add_moves(findings, limits, list);
  return list.sentences();
}

}  // namespace crownwright::simulation
