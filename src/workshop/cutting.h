#pragma once
// How a material is milled: part of its profile (workshop/material.h), each figure with its source.

#include "workshop/profiles.h"

namespace crownwright::workshop {

struct CuttingFigures {
  Sourced<double> chip_load;  ///< mm for each cutting edge and turn, of a 6 mm tool
  Sourced<double> spindle;    ///< turns a minute
  Sourced<double> step_down;  ///< in tool diameters
  Sourced<double> step_over;  ///< in tool diameters
  Sourced<double> plunge;     ///< plunge feed as a fraction of the feed
  Sourced<double> leave;      ///< mm left by roughing
};

}  // namespace crownwright::workshop
