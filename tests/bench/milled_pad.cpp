#include "bench/milled_pad.h"

#include <algorithm>
#include <stdexcept>

#include "meridian/cut.h"
#include "milling/finish.h"
#include "milling/ngc.h"
#include "milling/rough.h"
#include "simulation/height_map.h"
#include "support/form_table.h"

namespace crownwright::bench {
namespace {

constexpr double stock_side = 300;

milling::Job pad_job() {
  milling::Job job;
  job.step_down = 6;
  job.step_over = 2.4;
  job.finish_feeds = job.rough_feeds = job.drill_feeds = {18000, 2400, 600};
  return job;
}

milling::Setup pad_setup() {
  milling::Setup setup;
  setup.target = test::pad_top(125, 30, 6, 20);
  const meridian::Point end = setup.target.back().to();
  setup.target.push_back(meridian::Segment::line(end, {end.r, 0}));
  setup.stock = {-stock_side / 2, -stock_side / 2, 0, stock_side / 2, stock_side / 2, 32};
  setup.trench = 125 + 6.5 + 1;
  setup.lowest = -3;
  setup.safe = setup.stock.z1 + milling::safe_height;
  return setup;
}

simulation::Stock pad_stock() {
  return {-stock_side / 2, -stock_side / 2, stock_side / 2, stock_side / 2, 32};
}

simulation::Cut read_cut(const std::string& text, const std::string& name) {
  auto program = simulation::read_program(text, name);
  if (!program) throw std::runtime_error(program.fault().line());
  return {*std::move(program), name, {}};
}

}  // namespace

PadPrograms make_pad_programs() {
  const milling::Job job = pad_job();
  const milling::Setup setup = pad_setup();
  const milling::ProgramHead head;
  return {ngc_text(head, rough_path(setup, job), milling::Dialect::rs274),
          ngc_text(head, finish_path(setup, job), milling::Dialect::rs274)};
}

simulation::Findings cut_pad(const PadPrograms& programs, double cell) {
  simulation::Bench bench;
  bench.stock = pad_stock();
  bench.target = pad_setup().target;
  bench.trench = pad_setup().trench;
  const std::vector<simulation::Cut> cuts{read_cut(programs.rough, "rough.ngc"),
                                          read_cut(programs.finish, "finish.ngc")};
  auto findings = simulate(bench, cuts, {}, cell);
  if (!findings) throw std::runtime_error(findings.fault().line());
  return *std::move(findings);
}

double sweep_pad_memory(double cell, int times) {
  simulation::HeightMap map(pad_stock(), cell);
  double low = pad_stock().z1, sum = 0;
  for (int i = 0; i < times; ++i) {
    low -= 0.25;
    for (double& height : map.heights) height = std::min(height, low);
    sum += map.heights[static_cast<std::size_t>(i)];
  }
  return sum;
}

}  // namespace crownwright::bench
