// A refusal names the nearest that can be made. Random orders that were refused are changed as the refusal
// says, and then they are made, or refused for some other reason; never for the same one again.
#include <gtest/gtest.h>

#include <functional>
#include <iostream>
#include <regex>

#include "making/form.h"
#include "making/orders.h"
#include "support/light.h"
#include "support/random_order.h"
#include "support/seed.h"

namespace crownwright::making {
namespace {

using test::OrderMaker;
using test::WrittenOrder;

void set(WrittenOrder& o, const std::string& key, double value) { o[key] = OrderMaker::mm(value); }

void set_edges(WrittenOrder& o, double value) {
  set(o, "shape.edge_radius", value);
  o.erase("shape.under_edge_radius");
}

struct Family {
  const char* name;
  std::regex says;  ///< of the refusal's line; its first group is the number to take
  std::function<void(WrittenOrder&, double)> follow;
  int least;  ///< how many of it must turn up and be made
};

const std::vector<Family>& families() {
  const auto key = [](const char* path) { return [path](WrittenOrder& o, double x) { set(o, path, x); }; };
  static const std::vector<Family> all = {
      {"least edge radius", std::regex("the least edge radius is ([0-9.]+) mm"), set_edges, 3},
      {"least crown diameter", std::regex("the least crown diameter for this head girth ([0-9.]+) mm"),
       key("measure.crown_diameter"), 0},
      {"largest head girth", std::regex("the largest head girth for this crown is ([0-9.]+) mm"),
       [](WrittenOrder& o, double x) { set(o, "measure.head_girth", x), o.erase("measure.hat_size"); }, 3},
      {"least rise", std::regex("the rise must be at least ([0-9.]+) mm"), key("measure.rise"), 3},
      {"largest edge radius at this rise", std::regex("at this rise, an edge radius of at most ([0-9.]+) mm"),
       set_edges, 3},
      {"largest under edge radius at this rise",
       std::regex("at this rise, an under edge radius of at most ([0-9.]+) mm"),
       key("shape.under_edge_radius"), 1},
      {"largest edge radius", std::regex("the edge radius may be 0 to ([0-9.]+) mm"), set_edges, 1},
      {"largest dome", std::regex("the dome may be 0 to ([0-9.]+) mm"), key("shape.dome"), 0},
      {"more rise for a pad", std::regex("a rise at least ([0-9.]+) mm greater"),
       [](WrittenOrder& o, double x) {
         set(o, "measure.rise", std::stod(o.at("measure.rise").substr(1)) + x);
       },
       3},
      {"least spacing", std::regex("a spacing of at least ([0-9.]+) mm"), key("vents.spacing"), 3},
      {"least collar", std::regex("a collar of at least ([0-9.]+) mm"), key("form.collar"), 3},
      {"greatest groove depth", std::regex("groove_depth at most ([0-9.]+) mm"), key("form.groove_depth"), 1},
      {"least groove width", std::regex("groove_width at least ([0-9.]+) mm"), key("form.groove_width"), 1},
      {"least socket depth", std::regex("socket_depth from ([0-9.]+) mm"), key("form.socket_depth"), 1},
      {"greatest socket depth", std::regex("socket_depth from [0-9.]+ mm to ([0-9.]+) mm"),
       key("form.socket_depth"), 1},
      {"widest socket", std::regex("a socket of at most ([0-9.]+) mm"), key("form.socket"), 0},
      {"thickest floor", std::regex("a floor of at most ([0-9.]+) mm"), key("form.floor"), 0},
      {"thickest wall", std::regex("the thickest that leaves some is ([0-9.]+) mm"), key("form.wall"), 0},
  };
  return all;
}

/// The sentence without its numbers: what the refusal is about.
std::string cause(const Fault& fault) { return std::regex_replace(fault.what, std::regex("-?[0-9.]+"), "#"); }

struct Count {
  int seen = 0, made = 0;
};

Result<Form> try_made(const WrittenOrder& written) {
  const auto order = order::read_order_text(test::toml_of(written), "nearest.toml");
  if (!order) return order.fault();
  return make_form(*order, test::own_profiles());
}

void follow(const Family& family, double number, WrittenOrder changed, const Fault& first, Count& count) {
  ++count.seen;
  const WrittenOrder before = changed;
  family.follow(changed, number);
  const auto again = try_made(changed);
  count.made += again ? 1 : 0;
  if (again) return;
  EXPECT_TRUE(again.fault().exit == ExitCode::impossible || again.fault().exit == ExitCode::order)
      << again.fault().line();
  EXPECT_NE(cause(again.fault()), cause(first))
      << family.name << ": " << first.line() << "\nthen " << again.fault().line() << "\n"
      << test::toml_of(before);
}

TEST(Nearest, WhatARefusalNamesIsNotRefusedAgain) {
  SCOPED_TRACE(test::seed_note());
  const int wanted = test::light() ? 60 : 400;  // 60 are enough to walk every path
  std::map<std::string, Count> counts;
  int refused = 0;
  for (std::uint64_t index = 1'000'000; refused < wanted && index < 1'010'000; ++index) {
    WrittenOrder written = OrderMaker(test::seed(), index).make();
    if (written.contains("dish.file")) continue;
    written["mesh.chord_tolerance"] = "\"0.5 mm\"";
    // Plans alone are quick; only those refused are of interest here.
    const auto order = order::read_order_text(test::toml_of(written), "nearest.toml");
    if (!order || order->measure.before_steam) continue;
    const auto solid = plan_solid(*order, test::own_profiles());
    if (solid || solid.fault().exit != ExitCode::impossible) continue;
    ++refused;
    const std::string line = solid.fault().line();
    for (const Family& family : families()) {
      std::smatch match;
      if (std::regex_search(line, match, family.says))
        follow(family, std::stod(match[1]), written, solid.fault(), counts[family.name]);
    }
  }
  EXPECT_EQ(refused, wanted);
  for (const Family& family : families()) {
    const Count& count = counts[family.name];
    std::cout << family.name << ": " << count.seen << " followed, " << count.made << " made\n";
    if (wanted == 400) {
      EXPECT_GE(count.made, family.least) << family.name;
    }
  }
}

}  // namespace
}  // namespace crownwright::making
