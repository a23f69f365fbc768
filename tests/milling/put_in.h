#pragma once
// Puts the figures that a refusal names into job and form, as a person would who reads it.

#include <gtest/gtest.h>

#include <regex>
#include <string>
#include <vector>

#include "milling/job.h"

namespace crownwright::milling::put_in {

/// A form told by the figures that a refusal may change.
struct FormFigures {
  bool pad = true;
  double width = 0;   ///< crown diameter
  double height = 0;  ///< of a pad: its rise; of a block: foot to tip
  double collar = 0;
};

struct Change {
  Job job;
  FormFigures form;
};

inline std::vector<std::string> split(const std::string& text, const std::string& at) {
  std::vector<std::string> parts;
  std::size_t from = 0;
  for (std::size_t to; (to = text.find(at, from)) != std::string::npos; from = to + at.size())
    parts.push_back(text.substr(from, to - from));
  parts.push_back(text.substr(from));
  return parts;
}

inline double figure(const std::string& text, const char* pattern) {
  std::smatch match;
  return std::regex_search(text, match, std::regex(pattern)) ? std::stod(match[1]) : -1;
}

/// Every figure of one way out.
inline Change follow(const std::string& way, Change change) {
  Job& job = change.job;
  const auto take = [&way](const char* pattern, auto set) {
    if (const double value = figure(way, pattern); value >= 0) set(value);
  };
  take("a stick_out of at least ([0-9.]+) mm", [&](double x) {
    job.finish.stick_out = std::max(job.finish.stick_out, x);
    job.rough.stick_out = std::max(job.rough.stick_out, x);
  });
  take("a flute of at least ([0-9.]+) mm", [&](double x) {
    job.finish.flute = std::max(job.finish.flute, x);
    job.rough.flute = std::max(job.rough.flute, x);
  });
  take("travel of at least ([0-9.]+) mm in x", [&](double x) { job.travel.x = x; });
  take("travel of at least ([0-9.]+) mm in y", [&](double x) { job.travel.y = x; });
  take("travel of at least ([0-9.]+) mm in z", [&](double x) { job.travel.z = x; });
  take("spoilboard of at least ([0-9.]+) mm", [&](double x) { job.spoilboard = x; });
  take("stock_size of at least ([0-9.]+)x", [&](double x) { job.stock_size = SheetSize{x, x}; });
  take("stock_sheets of at (?:most|least) ([0-9.]+) mm", [&](double x) { job.sheet = x; });
  take("a tool of at most ([0-9.]+) mm", [&](double x) {
    job.finish.diameter = std::min(job.finish.diameter, x);
    job.rough.diameter = std::min(job.rough.diameter, x);
  });
  take("a pad of at most ([0-9.]+) mm rise", [&](double x) { change.form.height = x; });
  take("a form at most ([0-9.]+) mm wide", [&](double x) { change.form.width = x; });
  take("a form at most ([0-9.]+) mm high", [&](double x) { change.form.height = x; });
  take("a collar of at least ([0-9.]+) mm", [&](double x) { change.form.collar = x; });
  if (way.find("setup = \"tiers\"") != std::string::npos) job.setup = SetupWish::tiers;
  if (way.find("setup = \"one\"") != std::string::npos) job.setup = SetupWish::one;
  return change;
}

}  // namespace crownwright::milling::put_in
