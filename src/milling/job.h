#pragma once
// What the person has and asks for, in mm, mm/min and turns a minute: the order's [mill] with its material's
// figures.

#include <optional>
#include <string>

#include "milling/tool.h"

namespace crownwright::milling {

enum class SetupWish { automatic, one, tiers, turn_over };

struct Travel {
  double x = 300, y = 300, z = 80;
};
struct SheetSize {
  double x = 0, y = 0;
};

struct Feeds {
  double spindle = 18000;  ///< turns a minute
  double cut = 0;          ///< mm/min
  double plunge = 0;       ///< mm/min, straight down and down ramps
};

struct Job {
  Tool finish, rough;
  std::optional<Drill> drill;
  Feeds finish_feeds, rough_feeds, drill_feeds;

  double sheet = 25;  ///< measured thickness of one sheet of the stock
  std::optional<SheetSize> stock_size;
  SetupWish setup = SetupWish::automatic;
  double scallop = 0.05;   ///< greatest cusp left standing, square to the surface
  double step_down = 6;    ///< of the roughing tool, and of the finishing tool down a wall
  double step_over = 2.4;  ///< of the roughing tool
  double leave = 0.5;      ///< stock that roughing leaves, square to the surface
  double accel = 200;      ///< mm/s2
  Travel travel;
  double spoilboard = 18;  ///< thickness of the board under the stock, which may be cut into
  std::string material;    ///< its profile's name, for texts
};

constexpr double safe_height = 5;       ///< mm above the stock, for travelling
constexpr double holder_clearance = 1;  ///< mm between the holder and what stands beside the tool
constexpr double spoilboard_rest = 3;   ///< mm of the spoilboard that no tool may touch
constexpr double drill_through = 1;     ///< mm that a drill goes below the piece

}  // namespace crownwright::milling
