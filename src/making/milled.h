#pragma once
// A form on the router: the plan, the programs, and what the trial cut of the written programs found.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "making/mill_job.h"
#include "milling/duration.h"
#include "milling/plan.h"
#include "order/order.h"
#include "simulation/simulate.h"
#include "solid/solid.h"
#include "workshop/profiles.h"

namespace crownwright::making {

struct MilledProgram {
  Pass pass = Pass::rough;
  std::string ending;  ///< ".rough.ngc", ".tier-1.finish.ngc"
  std::string tool;    ///< "6 mm ball"
  std::string text;
  milling::Duration duration;
  simulation::Program read_back;
};

struct MilledSetup {
  milling::Setup setup;
  std::vector<MilledProgram> programs;
  simulation::Findings findings;
  double minutes() const;
};

struct Milled {
  milling::Job job;
  milling::Plan plan;
  std::vector<MilledSetup> setups;
  double minutes = 0;
  double gouge_max = 0, rest_max = 0, rest_999 = 0;
  int rapids_in_stock = 0;
  double path_mm = 0, air_mm = 0;
  std::vector<std::string> warnings;
};

/// The plan alone: quickly refused. Nothing without [mill].
struct MillPlan {
  milling::Job job;
  milling::Plan plan;
};
Result<std::optional<MillPlan>> plan_mill(const order::Order& order, const solid::Solid& solid,
                                          const workshop::ProfileFolder& profiles);

/// Paths, programs, trial. Fault (proof, exit 5): a program is out of limits, and none is given out.
Result<std::optional<Milled>> mill_of(const order::Order& order, std::optional<MillPlan> plan);

/// "one", or the set-up's name.
std::string setup_name(const milling::Setup& setup);

/// Eyes, dust, fire and so on: sentences for the report, the sheets and the programs' heads. What only some
/// plans ask for is among the plan's warnings.
std::vector<std::string> mill_cautions();

}  // namespace crownwright::making
