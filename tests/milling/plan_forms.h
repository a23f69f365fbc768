#pragma once
// Forms and jobs that the tests of planning share.

#include "milling/outline.h"
#include "milling/plan.h"
#include "support/form_table.h"

namespace crownwright::milling::forms {

/// The block of the design's worked case: a 140, b 90.7, rise 75, dome 6, edges 20; solid, foot edge 0.5.
inline solid::Solid design_block(double collar = 30) {
  return solid::build_block(test::without_wall(test::plain_block(test::worked_case(), 4, collar))).value();
}

/// The pad of 250 x 30 mm.
inline solid::Solid wide_pad(double rise = 30) {
  return solid::build_pad(test::plain_pad(125, rise, 6, 15)).value();
}

inline Outline outline(const solid::Solid& solid) { return outline_of(solid).value(); }

/// A machine that everything fits on; 6 mm ball, sheets of 25 mm.
inline Job roomy_job() {
  Job job;
  job.travel = {1000, 1000, 300};
  job.finish.stick_out = job.rough.stick_out = 250;
  return job;
}

inline Job with_ball(Job job, double diameter) {
  job.finish.diameter = job.rough.diameter = diameter;
  return job;
}

inline Job with_setup(Job job, SetupWish wish) {
  job.setup = wish;
  return job;
}

inline Job with_drill(Job job, double diameter = 3, double flute = 40) {
  job.drill = Drill{diameter, flute, 250, 25};
  return job;
}

inline bool has_word(const std::vector<std::string>& sentences, const std::string& word) {
  for (const std::string& sentence : sentences)
    if (sentence.find(word) != std::string::npos) return true;
  return false;
}

}  // namespace crownwright::milling::forms
