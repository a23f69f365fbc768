#pragma once
// Orders for the router, and their programs with a fault put in.

#include <gtest/gtest.h>

#include <functional>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "making/form.h"
#include "making/orders.h"
#include "making/trial.h"

namespace crownwright::test {

/// A small pad, quick to cut: crown 120, 20 thick, from two sheets of 15 mm.
inline const std::string milled_pad =
    "name = \"Trial pad\"\n[measure]\ncrown_diameter = \"120 mm\"\nrise = \"20 mm\"\ntaken_at = \"form\"\n"
    "[shape]\ndome = \"4 mm\"\nedge_radius = \"10 mm\"\n[form]\nkind = \"pad\"\n"
    "[mill]\nmaterial = \"xps\"\nstock_sheets = \"15 mm\"\nscallop = \"0.05 mm\"\n";

/// The block of crown 280, head radius 90.7, rise 75, dome 6, edge 20, in tiers of 25 mm.
inline const std::string milled_block =
    "name = \"Trial block\"\n[measure]\ncrown_diameter = \"280 mm\"\nhead_girth = \"569.884908 mm\"\n"
    "rise = \"75 mm\"\ntaken_at = \"form\"\n[shape]\ndome = \"6 mm\"\nedge_radius = \"20 mm\"\n"
    "[form]\ncollar = \"15 mm\"\n"
    "[mill]\nmaterial = \"pu-board-200\"\nstock_sheets = \"25 mm\"\ndrill = \"6 mm\"\ndrill_flute = \"40 "
    "mm\"\n";

inline Result<std::optional<making::Milled>> milled(const std::string& text) {
  const order::Order order = read_order(text);
  auto solid = making::plan_solid(order, own_profiles());
  if (!solid) return solid.fault();
  auto plan = making::plan_mill(order, *solid, own_profiles());
  if (!plan) return plan.fault();
  return making::mill_of(order, *std::move(plan));
}

/// Made once for all tests that only look at it.
inline const making::Milled& milled_once(const std::string& text) {
  static std::map<std::string, making::Milled> all;
  const auto known = all.find(text);
  if (known != all.end()) return known->second;
  auto made = milled(text);
  if (!made) throw std::runtime_error(made.fault().line());
  return all.emplace(text, **std::move(made)).first->second;
}

inline std::vector<std::string> lines_in(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

inline std::string text_of(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

}  // namespace crownwright::test
