#include "making/mill_job.h"

#include <algorithm>

#include "base/length.h"
#include "milling/feeds.h"
#include "milling/reach.h"
#include "workshop/material.h"

namespace crownwright::making {
namespace {

constexpr double least_step = 0.5;   // mm down; tools that clear no more are refused
constexpr double written_to = 1e-4;  // mm: a program has four decimals

milling::Tool tool_of(const order::Mill& mill, const order::Cutter& cutter) {
  milling::Tool tool;
  tool.shape = cutter.shape == order::CutterShape::ball ? milling::ToolShape::ball : milling::ToolShape::flat;
  tool.diameter = cutter.diameter.mm();
  tool.flute = mill.flute.mm();
  tool.stick_out = mill.stick_out.mm();
  tool.holder = mill.holder.mm();
  tool.edges = mill.edges;
  return tool;
}

milling::SetupWish setup_wish(order::MillSetup setup) {
  switch (setup) {
    case order::MillSetup::automatic:
      return milling::SetupWish::automatic;
    case order::MillSetup::one:
      return milling::SetupWish::one;
    case order::MillSetup::tiers:
      return milling::SetupWish::tiers;
    case order::MillSetup::turn_over:
      break;
  }
  return milling::SetupWish::turn_over;
}

std::string millable_materials(const workshop::ProfileFolder& profiles) {
  const auto all = workshop::list_materials(profiles);
  std::string names;
  if (!all) return names;
  for (const workshop::MaterialProfile& material : *all)
    if (material.cutting) names.append(names.empty() ? "" : ", ").append(material.name);
  return names;
}

Result<workshop::CuttingFigures> cutting_figures(const order::Mill& mill,
                                                 const workshop::ProfileFolder& profiles) {
  const auto material = workshop::find_material(profiles, mill.material);
  if (!material) return material.fault().within("mill.material");
  if (material->cutting) return *material->cutting;
  return order_fault("mill.material",
                     std::string("\"").append(mill.material).append("\" has no figures for milling"),
                     std::string("those that have: ").append(millable_materials(profiles)));
}

// What the order says of turning and feeding stands before the material's.
workshop::CuttingFigures with_spindle(workshop::CuttingFigures figures, const order::Mill& mill) {
  if (mill.spindle) figures.spindle.value = *mill.spindle;
  return figures;
}

milling::Feeds with_feed(milling::Feeds feeds, const order::Mill& mill, double plunge) {
  if (mill.feed) feeds = {feeds.spindle, *mill.feed, *mill.feed * plunge};
  return feeds;
}

void set_steps(const order::Mill& mill, const workshop::CuttingFigures& figures, milling::Job& job) {
  job.leave = figures.leave.value;
  const double thin = std::min(job.finish.diameter, job.rough.diameter);
  job.step_down = 0;
  const double most =
      std::max(least_step, std::min(job.finish.flute, job.rough.flute) - milling::flute_needed(job));
  job.step_down = mill.step_down ? mill.step_down->mm() : std::min(figures.step_down.value * thin, most);
  job.step_over = mill.step_over ? mill.step_over->mm() : figures.step_over.value * job.rough.diameter;
}

simulation::Cutter cutter_from(const milling::Tool& tool) {
  simulation::Cutter cutter;
  cutter.kind = tool.shape == milling::ToolShape::ball ? simulation::Cutter::Kind::ball
                                                       : simulation::Cutter::Kind::flat;
  cutter.diameter = tool.diameter;
  cutter.flute = tool.flute;
  cutter.stick_out = tool.stick_out;
  cutter.holder = tool.holder;
  return cutter;
}

std::string words_of(const milling::Tool& tool) {
  return number_text(tool.diameter).append(tool.shape == milling::ToolShape::ball ? " mm ball" : " mm flat");
}

}  // namespace

const std::string& material_of(const order::Order& order) {
  return order.mill ? order.mill->material : order.print.material;
}

Result<milling::Job> mill_job(const order::Order& order, const workshop::ProfileFolder& profiles) {
  const order::Mill& mill = order.mill.value();
  const auto written = cutting_figures(mill, profiles);
  if (!written) return written.fault();
  const workshop::CuttingFigures figures = with_spindle(*written, mill);
  milling::Job job;
  job.finish = tool_of(mill, mill.tool);
  job.rough = tool_of(mill, mill.rough_tool.value_or(mill.tool));
  if (mill.drill)
    job.drill = milling::Drill{mill.drill->mm(), mill.drill_flute.value_or(mill.flute).mm(),
                               mill.stick_out.mm(), mill.holder.mm()};
  job.sheet = mill.stock_sheets.mm();
  if (mill.stock_size) job.stock_size = {mill.stock_size->width.mm(), mill.stock_size->depth.mm()};
  job.setup = setup_wish(mill.setup);
  job.scallop = mill.scallop.mm();
  set_steps(mill, figures, job);
  job.finish_feeds = with_feed(milling::feeds_for(figures, job.finish), mill, figures.plunge.value);
  job.rough_feeds = with_feed(milling::feeds_for(figures, job.rough), mill, figures.plunge.value);
  if (job.drill)
    job.drill_feeds = with_feed(milling::feeds_for(figures, *job.drill), mill, figures.plunge.value);
  job.accel = mill.accel;
  job.travel = {mill.travel.width.mm(), mill.travel.depth.mm(), mill.travel.height.mm()};
  job.spoilboard = mill.spoilboard.mm();
  job.material = mill.material;
  return job;
}

std::string pass_word(Pass pass) {
  switch (pass) {
    case Pass::rough:
      return "rough";
    case Pass::finish:
      return "finish";
    case Pass::drill:
      break;
  }
  return "drill";
}

std::string tool_words(const milling::Job& job, Pass pass) {
  if (pass == Pass::drill) return number_text(job.drill->diameter).append(" mm drill");
  return words_of(pass == Pass::rough ? job.rough : job.finish);
}

simulation::Bench bench_of(const milling::Setup& setup) {
  simulation::Bench bench;
  bench.stock = {setup.stock.x0, setup.stock.y0, setup.stock.x1, setup.stock.y1, setup.stock.z1};
  bench.target = setup.target;
  bench.trench = setup.trench;
  for (const milling::Hole& hole : setup.holes) bench.bores.push_back({hole.x, hole.y, hole.radius});
  return bench;
}

simulation::Cutter cutter_of(const milling::Job& job, Pass pass) {
  if (pass == Pass::rough) return cutter_from(job.rough);
  if (pass == Pass::finish) return cutter_from(job.finish);
  simulation::Cutter cutter;
  cutter.kind = simulation::Cutter::Kind::drill;
  cutter.diameter = job.drill->diameter;
  cutter.flute = job.drill->flute;
  cutter.stick_out = job.drill->stick_out;
  cutter.holder = job.drill->holder;
  return cutter;
}

simulation::Limits limits_of(const milling::Job& job, const milling::Setup& setup) {
  simulation::Limits limits;
  limits.scallop = job.scallop;
  limits.travel_x = job.travel.x;
  limits.travel_y = job.travel.y;
  limits.travel_z = job.travel.z;
  limits.lowest = setup.lowest - written_to;
  limits.lowest_drill = -milling::drill_through - written_to;
  return limits;
}

}  // namespace crownwright::making
