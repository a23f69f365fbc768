#include "making/trial.h"

#include <algorithm>

#include "making/form.h"
#include "making/mill_program.h"
#include "making/milled.h"

namespace crownwright::making {
namespace {

bool has_in_name(const std::string& name, Pass pass) {
  return name.find(std::string(".").append(pass_word(pass)).append(".")) != std::string::npos;
}

Pass pass_for(const std::string& name, const simulation::Program& program) {
  if (const auto told = pass_of(program.comments)) return *told;
  for (const Pass pass : {Pass::rough, Pass::drill})
    if (has_in_name(name, pass)) return pass;
  return Pass::finish;
}

std::string setup_names(const milling::Plan& plan) {
  std::string names;
  for (const milling::Setup& setup : plan.setups)
    names.append(names.empty() ? "" : ", ").append(setup_name(setup));
  return names;
}

// The set-up asked for, or told by the programs, or the only one.
Result<std::string> chosen_setup(const std::string& asked, const std::vector<simulation::Program>& programs,
                                 const milling::Plan& plan) {
  if (!asked.empty()) return asked;
  std::string told;
  for (const simulation::Program& program : programs) {
    const std::string name = setup_of(program.comments);
    if (!told.empty() && !name.empty() && name != told)
      return order_fault("--setup",
                         "the programs belong to two set-ups, \"" + told + "\" and \"" + name + "\"",
                         "one set-up at a time");
    if (!name.empty()) told = name;
  }
  if (!told.empty()) return told;
  if (plan.setups.size() == 1) return setup_name(plan.setups.front());
  return order_fault("--setup", "the order has several set-ups and the programs do not say theirs",
                     "--setup with one of " + setup_names(plan));
}

Result<const milling::Setup*> setup_called(const std::string& name, const milling::Plan& plan) {
  for (const milling::Setup& setup : plan.setups)
    if (setup_name(setup) == name) return &setup;
  return order_fault("--setup", "the order has no set-up \"" + name + "\"", "it has " + setup_names(plan));
}

Result<std::vector<simulation::Program>> read_all(const std::vector<TrialFile>& files) {
  std::vector<simulation::Program> programs;
  for (const TrialFile& file : files) {
    auto program = simulation::read_program(file.text, file.name);
    if (!program) return program.fault();
    programs.push_back(*std::move(program));
  }
  return programs;
}

Result<MillPlan> planned_for(const order::Order& order, const workshop::ProfileFolder& profiles) {
  if (!order.mill)
    return order_fault("mill", "the order asks for no milling", "an order with a [mill] table");
  const auto solid = plan_solid(order, profiles);
  if (!solid) return solid.fault();
  auto plan = plan_mill(order, *solid, profiles);
  if (!plan) return plan.fault();
  return std::move(**plan);
}

// Every program with the tool that it is cut with.
Result<std::vector<simulation::Cut>> cuts_of(const std::vector<TrialFile>& files,
                                             std::vector<simulation::Program> programs,
                                             const milling::Job& job, Trial& trial) {
  std::vector<simulation::Cut> cuts;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const Pass pass = pass_for(files[i].name, programs[i]);
    if (pass == Pass::drill && !job.drill)
      return order_fault("mill.drill", files[i].name + " drills, and the order has no drill",
                         "drill = \"3 mm\" under [mill]");
    trial.files.push_back(files[i].name);
    trial.tools.push_back(tool_words(job, pass));
    trial.finished = trial.finished || pass == Pass::finish;
    cuts.push_back({std::move(programs[i]), files[i].name, cutter_of(job, pass)});
  }
  return cuts;
}

}  // namespace

Result<Trial> try_programs(const order::Order& order, const std::vector<TrialFile>& files,
                           const std::string& setup, const workshop::ProfileFolder& profiles) {
  auto programs = read_all(files);
  if (!programs) return programs.fault();
  const auto plan = planned_for(order, profiles);
  if (!plan) return plan.fault();
  const auto name = chosen_setup(setup, *programs, plan->plan);
  if (!name) return name.fault();
  const auto found = setup_called(*name, plan->plan);
  if (!found) return found.fault();
  Trial trial;
  trial.setup = *name;
  const auto cuts = cuts_of(files, *std::move(programs), plan->job, trial);
  if (!cuts) return cuts.fault();
  const simulation::Limits limits = limits_of(plan->job, **found);
  auto findings = simulation::simulate(bench_of(**found), *cuts, limits, order.mill->cell.mm());
  if (!findings) return findings.fault();
  trial.findings = *std::move(findings);
  trial.broken = simulation::broken_limits(trial.findings, limits, trial.finished);
  return trial;
}

}  // namespace crownwright::making
