// Everything is worked out for the piece that lies north or east and turned over for the others.
#include "parts/puzzle_rooms.h"

#include <algorithm>
#include <cmath>

#include "meridian/root.h"

namespace crownwright::parts {
namespace {

constexpr double least_room_width = 4;    // mm
constexpr double least_room_area = 40;    // mm2 open at the foot
constexpr double floor_ledge = 1;         // mm round the hole in a floor
constexpr double widest_floor_hole = 10;  // mm, radius
constexpr double thickest_rib_wall = 3;   // mm beside a groove or pin

struct Sizes {
  double ui = 0, uo = 0, ki = 0, ko = 0;  // inner and outer faces of the joints
  double wall = 0, rib_wall = 0;
  double foot = 0, half_joint = 0;  // foot: the neck's radius, where pins stand
  double groove_half = 0, groove_depth = 0;
  double hole() const { return widest_pin + half_joint; }
  double half_rib() const { return std::max(groove_half, hole()) + rib_wall; }
};

Sizes sizes_of(const Cell& cell, const PuzzlePlan& plan, const CutForm& form, double wall) {
  Sizes s;
  s.half_joint = plan.c / 2;
  s.ui = plan.u - s.half_joint, s.uo = plan.u + s.half_joint;
  s.ki = plan.k - s.half_joint, s.ko = plan.k + s.half_joint;
  s.wall = wall, s.rib_wall = std::clamp(wall, pin_wall, thickest_rib_wall);
  s.foot = form.neck();
  for (const auto& edge : cell.dovetails)
    for (const Dovetail& tail : edge)
      if (tail.depth < 0) s.groove_half = tail.half_far, s.groove_depth = -tail.depth;
  return s;
}

/// A pin on a line between the groove's bottom and the foot's edge.
std::optional<Pin> pin_between(double low, double high, double half_joint) {
  const double radius = std::min(widest_pin, (high - low) / 2 - half_joint - pin_wall);
  if (radius < least_pin) return std::nullopt;
  return Pin{(low + high) / 2, 0, radius};
}

/// In the widest circle that fits between a corner's two joints and the foot's edge.
std::optional<Pin> corner_pin(const Sizes& s) {
  const auto beyond = [&](double t) { return std::hypot(s.uo + t, s.ko + t) + t - s.foot; };
  if (beyond(0) >= 0) return std::nullopt;
  const double room = meridian::rising_root(beyond, 0, s.foot);
  const double radius = std::min(widest_pin, room - s.half_joint - pin_wall);
  if (radius < least_pin) return std::nullopt;
  return Pin{s.uo + room, s.ko + room, radius};
}

void mirror(Room& room, bool x, bool y) {
  const auto flip = [](std::optional<double>& low, std::optional<double>& high) {
    std::swap(low, high);
    if (low) low = -*low;
    if (high) high = -*high;
  };
  if (x) flip(room.x0, room.x1);
  if (y) flip(room.y0, room.y1);
}

/// The room and its twin beyond the rib.
std::vector<Room> twins(const Room& room, bool in_x) {
  Room twin = room;
  mirror(twin, in_x, !in_x);
  return {room, twin};
}

Furnishing key(const Sizes& s) {
  const double x = s.ui - s.wall;
  return {twins({-x, x, screw_hole + thickest_rib_wall, s.ki - s.wall}, false), {}};
}

Furnishing end(const Sizes& s) {
  Furnishing f{twins({s.half_rib(), s.ui - s.wall, s.ko + s.wall, {}}, true), {}};
  if (const auto pin = pin_between(s.ko + s.groove_depth, s.foot, s.half_joint))
    f.pin = {0, pin->x, pin->radius};
  return f;
}

Furnishing side(const Sizes& s, bool middle) {
  const std::optional<double> end = middle ? std::optional(s.ki - s.wall) : std::nullopt;
  return {twins({s.uo + s.wall, {}, s.half_rib(), end}, false),
          pin_between(s.uo + s.groove_depth, s.foot, s.half_joint)};
}

Furnishing half_side(const Sizes& s) {
  const double at = (s.half_joint + s.ki) / 2;  // of the groove: the middle of its stretch of the key's face
  Furnishing f;
  f.rooms = {{s.uo + s.wall, {}, s.half_joint + s.wall, at - s.half_rib()},
             {s.uo + s.wall, {}, at + s.half_rib(), {}}};
  const double edge = at + s.hole() < s.foot ? std::sqrt(s.foot * s.foot - std::pow(at + s.hole(), 2)) : 0;
  f.pin = pin_between(s.uo + s.groove_depth, edge, s.half_joint);
  if (f.pin) f.pin->y = at;
  return f;
}

Furnishing corner(const Sizes& s) {
  Furnishing f;
  f.pin = corner_pin(s);
  const double rib = f.pin ? f.pin->y + f.pin->radius + s.half_joint + s.rib_wall : s.ko + s.wall;
  f.rooms = {{s.uo + s.wall, {}, std::max(rib, s.ko + s.wall), {}}};
  return f;
}

Furnishing furnish_north_east(const std::string& name, int pieces, const Sizes& s) {
  if (name == "key") return key(s);
  if (name.starts_with("end")) return end(s);
  if (name.starts_with("corner")) return corner(s);
  return pieces == 7 ? half_side(s) : side(s, pieces == 9);
}

/// Open down to the foot, behind a cord groove too.
bool is_useful(const Room& room, double neck) {
  if (room.x0 && room.x1 && *room.x1 - *room.x0 < least_room_width) return false;
  if (room.y0 && room.y1 && *room.y1 - *room.y0 < least_room_width) return false;
  return area(section_within(outline(room, 4 * neck), neck)) >= least_room_area;
}

}  // namespace

PlanPolygon outline(const Room& room, double far) {
  const double x0 = room.x0.value_or(-far), x1 = room.x1.value_or(far);
  const double y0 = room.y0.value_or(-far), y1 = room.y1.value_or(far);
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

double floor_hole(const Room& room) {
  return std::min(
      {(*room.x1 - *room.x0) / 2 - floor_ledge, (*room.y1 - *room.y0) / 2 - floor_ledge, widest_floor_hole});
}

Furnishing furnish(const Cell& cell, const PuzzlePlan& plan, const CutForm& form, double wall) {
  Furnishing f = furnish_north_east(cell.name, plan.pieces, sizes_of(cell, plan, form, wall));
  const std::string where = cell.name.substr(cell.name.find('-') + 1);
  const bool west_ = cell.name != "key" && where.find('w') != std::string::npos;
  const bool south_ = cell.name != "key" && where.find('s') != std::string::npos;
  if (wall <= 0 || form.inner.empty()) f.rooms.clear();
  std::erase_if(f.rooms, [&](const Room& room) { return !is_useful(room, form.inner_neck()); });
  for (Room& room : f.rooms) mirror(room, west_, south_);
  if (f.pin && west_) f.pin->x = -f.pin->x;
  if (f.pin && south_) f.pin->y = -f.pin->y;
  return f;
}

}  // namespace crownwright::parts
