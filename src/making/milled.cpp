#include "making/milled.h"

#include <algorithm>
#include <utility>

#include "making/mill_program.h"
#include "milling/drilling.h"
#include "milling/finish.h"
#include "milling/rough.h"

namespace crownwright::making {
namespace {

milling::Path path_of(Pass pass, const milling::Setup& setup, const milling::Job& job) {
  switch (pass) {
    case Pass::rough:
      return milling::rough_path(setup, job);
    case Pass::finish:
      return milling::finish_path(setup, job);
    case Pass::drill:
      break;
  }
  return milling::drill_path(setup, job);
}

// What the trial reads is the text, as the machine will.
Result<MilledSetup> made_setup(const order::Order& order, const milling::Setup& setup,
                               const milling::Job& job) {
  MilledSetup made{setup, {}, {}};
  std::vector<simulation::Cut> cuts;
  for (const Pass pass : {Pass::rough, Pass::finish, Pass::drill}) {
    const milling::Path path = path_of(pass, setup, job);
    if (path.empty()) continue;
    MilledProgram program = program_of(order, {setup, job, pass}, path);
    auto read = simulation::read_program(program.text, order.name + program.ending);
    if (!read) return Fault{ExitCode::internal, read.fault().where, read.fault().what, read.fault().allowed};
    program.read_back = *std::move(read);
    cuts.push_back({program.read_back, program.ending.substr(1), cutter_of(job, pass)});
    made.programs.push_back(std::move(program));
  }
  auto findings = simulation::simulate(bench_of(setup), cuts, limits_of(job, setup), order.mill->cell.mm());
  if (!findings) return findings.fault();
  made.findings = *std::move(findings);
  return made;
}

// Words of every fault that the trial found, with where.
Result<Done> within_limits(const MilledSetup& made, const milling::Job& job) {
  const auto broken = simulation::broken_limits(made.findings, limits_of(job, made.setup), true);
  if (broken.empty()) return Done{};
  return Fault{
      ExitCode::proof, "",
      "the programs of set-up " + setup_name(made.setup) + " failed their trial cut: " + broken.front(),
      broken.size() > 1 ? "and more: " + broken[1] : std::string()};
}

void sum_up(Milled& milled) {
  for (const MilledSetup& made : milled.setups) {
    milled.minutes += made.minutes();
    milled.gouge_max = std::max(milled.gouge_max, made.findings.gouge_max);
    milled.rest_max = std::max(milled.rest_max, made.findings.rest_max);
    milled.rest_999 = std::max(milled.rest_999, made.findings.rest_999);
    milled.rapids_in_stock += made.findings.rapids_in_stock;
    milled.path_mm += made.findings.cutting_mm + made.findings.air_mm;
    milled.air_mm += made.findings.air_mm;
  }
}

}  // namespace

double MilledSetup::minutes() const {
  double seconds = 0;
  for (const MilledProgram& program : programs) seconds += program.duration.seconds;
  return seconds / 60;
}

std::string setup_name(const milling::Setup& setup) { return setup.name.empty() ? "one" : setup.name; }

Result<std::optional<MillPlan>> plan_mill(const order::Order& order, const solid::Solid& solid,
                                          const workshop::ProfileFolder& profiles) {
  if (!order.mill) return std::optional<MillPlan>();
  const auto job = mill_job(order, profiles);
  if (!job) return job.fault();
  auto plan = milling::plan_milling(solid, *job);
  if (!plan) return plan.fault();
  return std::optional(MillPlan{*job, *std::move(plan)});
}

Result<std::optional<Milled>> mill_of(const order::Order& order, std::optional<MillPlan> plan) {
  if (!plan) return std::optional<Milled>();
  Milled milled;
  milled.job = plan->job;
  milled.plan = std::move(plan->plan);
  for (const milling::Setup& setup : milled.plan.setups) {
    auto made = made_setup(order, setup, milled.job);
    if (!made) return made.fault();
    if (const auto passed = within_limits(*made, milled.job); !passed) return passed.fault();
    milled.setups.push_back(*std::move(made));
  }
  milled.warnings = milled.plan.warnings;
  sum_up(milled);
  return std::optional(std::move(milled));
}

std::vector<std::string> mill_cautions() {
  return {
      "The machine's manual, the stock's data sheet and the local rules stand above what is said here.",
      "Wear eye protection; keep hands, hair and sleeves away from the turning cutter; never leave it alone.",
      "Dust of foam, board and MDF harms the lungs and can burn: extraction, a mask, no flame near.",
      "Screw or clamp the stock from below, clear of every path and hole.",
      "Run each program in the air first, with Z zeroed a stock's height up and the spindle off.",
      "Set Z zero on the spoilboard: the stock's top is gone after roughing. The cutter goes into the board.",
  };
}

}  // namespace crownwright::making
